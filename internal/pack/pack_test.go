package pack

import (
	"bytes"
	"compress/gzip"
	"encoding/json"
	"io"
	"maps"
	"net/http/httptest"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/andybalholm/brotli"

	"ratchetmark/internal/asset"
	"ratchetmark/internal/host"
)

// folder writes files into a new folder.
func folder(t *testing.T, files tree) string {
	t.Helper()
	name := t.TempDir()
	if err := write(name, files); err != nil {
		t.Fatal(err)
	}
	return name
}

// built reads a site that was written.
func built(t *testing.T, name string) tree {
	t.Helper()
	site := tree{}
	if err := readFolder(site, name, ""); err != nil {
		t.Fatal(err)
	}
	return site
}

func TestBuild(t *testing.T) {
	long := strings.Repeat("p { margin: 0 }\n", 100)
	options := Options{
		Public: folder(t, tree{
			"index.html": []byte(`<html data-worker="asset:work.js"><link href="asset:app.css"><script src='asset:boot.js'></script>`),
			"boot.js":    []byte(`fetch("asset:empty.wasm")`),
			"work.js":    []byte(`importScripts("asset:wasm_exec.js")`),
			"app.css":    []byte(long + `p { background: url(asset:icon.svg) }`),
			"icon.svg":   []byte(`<svg/>`),
			"plain.txt":  []byte(`"asset:boot.js" is only text here`),
			"photo.png":  bytes.Repeat([]byte("png"), 1000),
			".hidden":    []byte("not for the site"),
		}),
		Programs: []Program{{Name: "empty.wasm", Package: ".", Dir: folder(t, tree{
			"go.mod":  []byte("module empty\n\ngo 1.24\n"),
			"main.go": []byte("package main\n\nfunc main() {}\n"),
		})}},
		Example: folder(t, tree{"b.csv": []byte("b"), "a/a.csv": []byte("a"), "README.md": []byte("about")}),
		Out:     folder(t, tree{"stale.js": []byte("old"), "old/stale.js": []byte("old")}),
		Cache:   t.TempDir(),
	}
	if err := os.WriteFile(filepath.Join(options.Out, ".keep"), nil, 0o644); err != nil {
		t.Fatal(err)
	}
	if err := Build(options); err != nil {
		t.Fatal(err)
	}
	site := built(t, options.Out)
	checkNames(t, site)
	checkForms(t, site)
	checkServed(t, options.Out)
	if _, err := os.Stat(filepath.Join(options.Out, ".keep")); err != nil {
		t.Error("the placeholder is gone")
	}
	if err := Build(options); err != nil {
		t.Fatal(err)
	}
	if again := built(t, options.Out); !maps.EqualFunc(site, again, bytes.Equal) {
		t.Error("a second build gives other files")
	}
}

// checkNames expects that files referred to are named by content, and only those, and that no reference is left.
func checkNames(t *testing.T, site tree) {
	t.Helper()
	var names []string
	for name := range site {
		if ext := filepath.Ext(name); ext == ".br" || ext == ".gz" {
			name = strings.TrimSuffix(name, ext)
		}
		if asset.Is(name) {
			parts := strings.Split(name, ".")
			name = parts[0] + ".HASH." + parts[2]
		}
		names = append(names, name)
	}
	slices.Sort(names)
	got := strings.Join(slices.Compact(names), " ")
	const want = "app.HASH.css boot.HASH.js empty.HASH.wasm example/a/a.csv example/b.csv example/index.json icon.HASH.svg " +
		"index.html photo.png plain.txt wasm_exec.HASH.js work.HASH.js"
	if got != want {
		t.Errorf("files\n%s\nwant\n%s", got, want)
	}
	for name, content := range site {
		if refers(name) && bytes.Contains(content, []byte("asset:")) {
			t.Errorf("%s still has a reference: %s", name, content)
		}
		if asset.Is(name) && name != asset.Name(strings.Replace(name, name[strings.Index(name, "."):strings.LastIndex(name, ".")], "", 1), content) {
			t.Errorf("%s is not named by its content", name)
		}
	}
}

// checkForms decodes the compressed forms with the decoders of RFC 7932 (brotli) and RFC 1952 (gzip).
func checkForms(t *testing.T, site tree) {
	t.Helper()
	coded := 0
	for name, content := range site {
		base, isBrotli := strings.CutSuffix(name, ".br")
		if !isBrotli {
			continue
		}
		coded++
		plain, err := io.ReadAll(brotli.NewReader(bytes.NewReader(content)))
		if err != nil {
			t.Errorf("%s: %v", name, err)
		}
		unpacked := gunzip(t, site[base+".gz"])
		if !bytes.Equal(plain, unpacked) {
			t.Errorf("%s: the forms differ", base)
		}
		if stored, ok := site[base]; ok && !bytes.Equal(plain, stored) {
			t.Errorf("%s: the forms are not the file", base)
		}
		if _, ok := site[base]; ok == (len(plain) >= codedOnly) {
			t.Errorf("%s: %d bytes, stored plain: %v", base, len(plain), ok)
		}
	}
	if coded < 3 {
		t.Errorf("%d files are compressed, want the style sheet, the program and its script", coded)
	}
}

func gunzip(t *testing.T, content []byte) []byte {
	t.Helper()
	r, err := gzip.NewReader(bytes.NewReader(content))
	if err != nil {
		t.Fatal(err)
	}
	plain, err := io.ReadAll(r)
	if err != nil {
		t.Fatal(err)
	}
	return plain
}

// checkServed expects the host to take every compressed form for one.
func checkServed(t *testing.T, out string) {
	t.Helper()
	h := host.New(os.DirFS(out))
	for name := range built(t, out) {
		base, isBrotli := strings.CutSuffix(name, ".br")
		if !isBrotli {
			continue
		}
		r, w := httptest.NewRequest("GET", "/"+base, nil), httptest.NewRecorder()
		r.Header.Set("Accept-Encoding", "br")
		h.ServeHTTP(w, r)
		if w.Code != 200 || w.Header().Get("Content-Encoding") != "br" {
			t.Errorf("%s: status %d, coding %q", base, w.Code, w.Header().Get("Content-Encoding"))
		}
	}
}

func TestBadReferences(t *testing.T) {
	for want, site := range map[string]tree{
		"index.html: asset:gone.js: no such file": {"index.html": []byte(`"asset:gone.js"`)},
		"refers to itself":                        {"a.js": []byte(`"asset:b.js"`), "b.js": []byte(`"asset:a.js"`)},
	} {
		_, err := resolve(site)
		if err == nil || !strings.Contains(err.Error(), want) || !strings.Contains(err.Error(), "\nhint: ") {
			t.Errorf("got %v, want %s", err, want)
		}
	}
}

func TestCompileError(t *testing.T) {
	dir := folder(t, tree{"go.mod": []byte("module broken\n"), "main.go": []byte("package main\n\nfunc main() { gone() }\n")})
	_, err := compile(Program{Name: "x.wasm", Package: ".", Dir: dir})
	if err == nil || !strings.Contains(err.Error(), "gone") {
		t.Errorf("got %v, want the compiler's words", err)
	}
}

func TestRendererScript(t *testing.T) {
	module := folder(t, tree{"domrender/script.go": []byte("package domrender\n\nconst jsHelperScript = \"a(\\\"b\\\")\"\n")})
	if got, err := rendererScript(module); err != nil || string(got) != "a(\"b\")\n" {
		t.Errorf("got %q, %v", got, err)
	}
	if _, err := rendererScript(t.TempDir()); err == nil {
		t.Error("no error without a script")
	}
}

func TestExampleIndex(t *testing.T) {
	site := tree{}
	// The digest of "abc" is the worked example of FIPS 180-4.
	if err := addExample(site, folder(t, tree{"abc.csv": []byte("abc")})); err != nil {
		t.Fatal(err)
	}
	var got exampleIndex
	if err := json.Unmarshal(site["example/index.json"], &got); err != nil {
		t.Fatal(err)
	}
	want := exampleFile{"abc.csv", 3, "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad"}
	if len(got.Files) != 1 || got.Files[0] != want {
		t.Errorf("got %v, want %v", got.Files, want)
	}
}
