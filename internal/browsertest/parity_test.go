package browsertest

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// The app and the command give the same results, to the last byte, on every record of the project; what the command refuses,
// the app refuses with the same words.
func TestParity(t *testing.T) {
	p := Open(t, Tablet)
	assessed, refused := 0, 0
	for _, folder := range []string{"demo", "delimited", "bad", "shapes", "open", "carry", "structure", "told", "lash"} {
		files, err := os.ReadDir(filepath.Join(testdata, folder))
		if err != nil {
			t.Fatal(err)
		}
		for _, f := range files {
			name := filepath.Join(testdata, folder, f.Name())
			want := assess(t, name)
			p.Go("/")
			p.WaitReady()
			openFile(p, name)
			if want.out == "" {
				refused++
				sameRefusal(t, p, f.Name(), want)
				continue
			}
			assessed++
			sameResults(t, p, f.Name(), want)
		}
	}
	if assessed < 30 || refused < 8 {
		t.Errorf("got %d files assessed and %d refused, want at least 30 and 8", assessed, refused)
	}
}

// sameResults saves the result of each machine and compares it with a line of the command.
func sameResults(t *testing.T, p *Page, name string, want native) {
	t.Helper()
	lines := want.lines()
	if got := p.Count(".machines button"); got != len(lines) {
		t.Errorf("%s: got %d machines, want %d", name, got, len(lines))
		return
	}
	for i, line := range lines {
		if len(lines) > 1 {
			press(p, fmt.Sprintf("#machine-%d", i+1))
			p.WaitFor(fmt.Sprintf("#machine-%d[aria-pressed=true]", i+1))
		}
		_, got := p.Download(func() { press(p, "#save-result") })
		if got := string(got); got != line {
			t.Errorf("%s, machine %d: got %s\nwant %s", name, i+1, around(got, line), around(line, got))
		}
	}
	if p.Count("#crash") > 0 {
		t.Errorf("%s: got a fault %s", name, p.Text("#crash"))
	}
}

// sameRefusal looks for the command's words in the notice: "PLACE: FOUND; expected EXPECTED" and the hint.
func sameRefusal(t *testing.T, p *Page, name string, want native) {
	t.Helper()
	if want.code != 2 {
		t.Errorf("%s: got exit code %d and no result, want 2", name, want.code)
	}
	first, hint, _ := strings.Cut(strings.TrimSpace(want.err), "\n")
	found, expected, ok := strings.Cut(strings.TrimPrefix(first, "ratchetmark assess: "), "; expected ")
	if !ok {
		t.Fatalf("%s: got %q, want words about what was expected", name, want.err)
	}
	notice := p.Text("#notices")
	for _, words := range []string{
		name + " could not be read", "Found at " + found + ".", "Expected: " + expected + ".",
		"What to do: " + strings.TrimPrefix(strings.TrimSpace(hint), "hint: ") + ".",
	} {
		if !strings.Contains(notice, words) {
			t.Errorf("%s: got %q, want %q in it", name, notice, words)
		}
	}
	if p.Count("#sheet") > 0 || p.Count("#start") == 0 {
		t.Errorf("%s: got a sheet, want the start page", name)
	}
}

// around returns the part of a text where it begins to differ from another.
func around(text, other string) string {
	i := 0
	for i < min(len(text), len(other)) && text[i] == other[i] {
		i++
	}
	return fmt.Sprintf("%q", text[max(0, i-80):min(len(text), i+120)])
}
