package dossier_test

import (
	"bytes"
	"encoding/json"
	"flag"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"ratchetmark/internal/batch"
	"ratchetmark/internal/digest"
	"ratchetmark/internal/dossier"
)

const testdata = "../../testdata/"

var update = flag.Bool("update", false, "write the golden files anew")

// goldenFiles are read from testdata; each has a text and a JSON golden.
var goldenFiles = []string{
	"demo/clean.case.json", "demo/lashed.case.json", "demo/worked.case.json", "demo/drifted.case.json", "demo/mixed.case.json",
	"delimited/template.csv", "delimited/one-reading.csv", "delimited/two-readings-semicolon.csv", "delimited/two-machines-tab.txt",
	"bad/bands-changed.case.json", "bad/peak-below-occupied-band.case.json", "bad/no-rated-load.case.json", "bad/no-reading.case.json",
	"bad/plate-inconsistent.case.json", "bad/ragged.csv", "bad/rated-ten-tonnes.case.json",
	"carry/several-rated-loads.case.json", "carry/pounds.case.json",
	"structure/crack.case.json", "structure/bent.case.json",
	"told/checked.case.json", "told/tied.case.json", "told/apart.case.json",
	"lash/held-en.case.json", "lash/held-cfr.case.json",
}

// dossiers reads a file of testdata and assesses what it holds.
func dossiers(t testing.TB, path string) []dossier.Dossier {
	t.Helper()
	data, err := os.ReadFile(testdata + path)
	if err != nil {
		t.Fatal(err)
	}
	got, err := digest.ReadBytes(path, data)
	if err != nil {
		t.Fatal(err)
	}
	return dossier.From([]batch.Batch{got})
}

func TestGoldens(t *testing.T) {
	for _, path := range goldenFiles {
		var text, object bytes.Buffer
		for i, d := range dossiers(t, path) {
			if i > 0 {
				text.WriteString("\n")
			}
			if err := dossier.WriteText(&text, &d); err != nil {
				t.Fatal(err)
			}
			var line bytes.Buffer
			if err := dossier.WriteJSON(&line, &d); err != nil {
				t.Fatal(err)
			}
			if err := json.Indent(&object, line.Bytes(), "", " "); err != nil {
				t.Fatal(err)
			}
		}
		name := strings.ReplaceAll(strings.TrimSuffix(path, filepath.Ext(path)), "/", "-")
		name = strings.TrimSuffix(name, ".case")
		golden(t, name+".txt", text.Bytes())
		golden(t, name+".json", object.Bytes())
	}
}

func golden(t *testing.T, name string, got []byte) {
	t.Helper()
	path := testdata + "golden/" + name
	if *update {
		if err := os.WriteFile(path, got, 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(path)
	if err != nil {
		t.Fatalf("%v; run the test with -update and look at what it wrote", err)
	}
	if !bytes.Equal(got, want) {
		t.Errorf("%s: %s", name, firstDifference(string(got), string(want)))
	}
}

// firstDifference names the first line in which two texts differ.
func firstDifference(got, want string) string {
	a, b := strings.Split(got, "\n"), strings.Split(want, "\n")
	for i := range min(len(a), len(b)) {
		if a[i] != b[i] {
			return "got\n\t" + a[i] + "\nwant\n\t" + b[i]
		}
	}
	return "got other lines at the end"
}

// Every golden file belongs to a test: chart's pictures, or a file above.
func TestNoGoldenIsLeftOver(t *testing.T) {
	files, err := os.ReadDir(testdata + "golden")
	if err != nil {
		t.Fatal(err)
	}
	known := map[string]bool{}
	for _, path := range goldenFiles {
		name := strings.TrimSuffix(strings.ReplaceAll(strings.TrimSuffix(path, filepath.Ext(path)), "/", "-"), ".case")
		known[name+".txt"], known[name+".json"] = true, true
	}
	for _, f := range files {
		if !known[f.Name()] && filepath.Ext(f.Name()) != ".svg" {
			t.Errorf("%s: got a golden file of no test", f.Name())
		}
	}
}
