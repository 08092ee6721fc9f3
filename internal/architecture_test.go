package internal_test

import (
	"go/build"
	"slices"
	"strings"
	"testing"
)

const module = "ratchetmark/"

// arrows lists for each domain package the packages of ours it may import:
// record <- everything, each conclusion apart, dossier on top. A package that
// is not listed as allowed fails the test, so that an arrow is added knowingly.
var arrows = map[string][]string{
	"record":    nil,
	"batch":     {"record", "wording"},
	"chart":     nil,
	"monotone":  nil,
	"assume":    {"record"},
	"wording":   {"record"},
	"table":     {"record"},
	"intake":    {"batch", "record", "table", "wording"},
	"capacity":  {"record", "assume", "monotone"},
	"bodymass":  {"record", "assume", "monotone"},
	"endurance": {"record", "assume"},
	"spectrum":  {"record", "endurance"},
	"vibration": nil,
	"fatigue":   {"record", "assume", "endurance", "vibration"},
	"lashing":   {"record", "assume"},
	"trips":     {"record"},
	"card":      nil,
	"cause":     {"record", "assume", "bodymass", "lashing"},
	"simulate":  {"record", "bodymass"}, // not cause: it is what cause is scored against
	"score":     nil,
	"calibrate": {"record", "assume", "cause", "score", "simulate"},
	"dossier":   {"record", "assume", "batch", "bodymass", "capacity", "fatigue", "endurance", "cause", "lashing", "trips"},
}

// never are packages that no domain package may reach, not through another of
// ours either: it computes, and knows nothing of a browser, a network or files.
var never = []string{"syscall/js", "net/http", "net", "os", "os/exec", "io/ioutil", "crypto/tls", "unsafe", "C", "github.com/vugu/", "github.com/syumai/"}

// outside are the modules that a domain package may use besides the standard library.
var outside = []string{"gonum.org/v1/gonum/", "golang.org/x/text/", "golang.org/x/net/html"}

// importsOf returns what a package of ours imports, tests aside, natively and
// in the browser.
func importsOf(t *testing.T, name string) []string {
	t.Helper()
	var all []string
	for _, platform := range [][2]string{{"linux", "amd64"}, {"windows", "amd64"}, {"js", "wasm"}} {
		context := build.Default
		context.GOOS, context.GOARCH, context.CgoEnabled = platform[0], platform[1], false
		p, err := context.ImportDir(name, 0)
		if err != nil {
			t.Fatalf("%s: %v", name, err)
		}
		all = append(all, p.Imports...)
	}
	slices.Sort(all)
	return slices.Compact(all)
}

func own(path string) (name string, ok bool) {
	return strings.CutPrefix(path, module+"internal/")
}

func TestArrows(t *testing.T) {
	for name, allowed := range arrows {
		for _, path := range importsOf(t, name) {
			if other, ok := own(path); ok && !slices.Contains(allowed, other) {
				t.Errorf("%s: got an import of %s, want none but %v", name, other, allowed)
			} else if !ok && strings.HasPrefix(path, module) {
				t.Errorf("%s: got an import of %s, want none outside internal", name, path)
			}
			standard := !strings.Contains(strings.Split(path, "/")[0], ".") && !strings.HasPrefix(path, module)
			if !standard && !strings.HasPrefix(path, module) && !slices.ContainsFunc(outside, func(p string) bool { return strings.HasPrefix(path, p) }) {
				t.Errorf("%s: got an import of %s, want no module but %v", name, path, outside)
			}
		}
	}
}

func TestDomainKnowsNoPlatform(t *testing.T) {
	for name := range arrows {
		seen := map[string]bool{}
		var walk func(name string, via []string)
		walk = func(at string, via []string) {
			if seen[at] {
				return
			}
			seen[at] = true
			for _, path := range importsOf(t, at) {
				for _, bad := range never {
					if path == bad || strings.HasSuffix(bad, "/") && strings.HasPrefix(path, bad) {
						t.Errorf("%s: got an import of %s via %v, want none", name, path, append(via, at))
					}
				}
				if other, ok := own(path); ok {
					walk(other, append(via, at))
				}
			}
		}
		walk(name, nil)
	}
}

// No domain package imports another in a circle: each allowed arrow points to a
// package from which there is no way back.
func TestArrowsHaveNoCircle(t *testing.T) {
	var reach func(from, to string) bool
	reach = func(from, to string) bool {
		return slices.ContainsFunc(arrows[from], func(next string) bool { return next == to || reach(next, to) })
	}
	for name := range arrows {
		if reach(name, name) {
			t.Errorf("%s: got a way back to itself, want none", name)
		}
	}
}
