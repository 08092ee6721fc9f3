package intake_test

import (
	"encoding/json"
	"fmt"
	"os"
	"reflect"
	"slices"
	"testing"

	"ratchetmark/internal/record"
)

// shapes holds every file of testdata/shapes that repeats a case file there in
// another shape, with the closed list of what is found in it.
var shapes = map[string]map[string][]string{
	"yard.case.json": {
		"comma.csv": nil, "semicolon-decimal-comma.csv": nil, "tab.txt": nil, "pipe.txt": nil, "quoted.csv": nil, "quoted-decimal-comma.csv": nil,
		"crlf.csv": nil, "cr.csv": nil, "bom.csv": nil, "sep-line.csv": nil,
		"utf16le-bom.csv":           {"encoding-detected 1:1"},
		"utf16be-bom.csv":           {"encoding-detected 1:1"},
		"utf16le-bare.csv":          {"encoding-detected 1:1"},
		"windows-1252.csv":          {"encoding-detected 2:1"},
		"units-in-cells.csv":        nil,
		"minutes.csv":               nil,
		"clock-hours.csv":           nil,
		"share-of-hours.csv":        nil,
		"percent-of-rated.csv":      nil,
		"wide.csv":                  nil,
		"wide-hours-in-heading.csv": nil,
		"units-row.csv":             nil,
		"total-row.csv":             {"row-sums-up 7:1"},
		"inclusive-edges.csv":       {"edges-closed 3:20"},
		"date-and-time.csv":         {"zone-assumed 3:20"},
		"dots.csv":                  {"zone-assumed 3:20"},
		"zone.csv":                  nil,
		"preamble.csv":              {"line-not-used 1:1"},
		"screen-lines.txt":          nil,
		"two-tables.csv":            nil,
		"max-load-beside-rated.csv": nil,
		"remark-below.csv":          {"line-not-used 7:1"},
		"lines-below.txt":           nil,
		"peak-below-bands.csv":      {"row-sums-up 15:1"},
		"seconds.csv":               nil,
		"head-table-above.csv":      nil,
		"name-and-serial.csv":       {"name-second 3:14"},
		"totals-in-wide.csv":        {"row-sums-up 4:1", "row-sums-up 5:1"},
		"wide-percent.csv":          nil,
		"german.csv":                nil, "french.csv": nil, "spanish.csv": nil, "italian.csv": nil,
		"objects.json": nil, "rows.json": nil, "parts.json": nil, "band-map.json": nil,
		"page.html": nil, "several.zip": nil,
		"one-sheet.xlsx":      {"zone-assumed 2:5"},
		"several-sheets.xlsx": {"zone-assumed 2:1"},
	},
	"context.case.json": {"context.csv": nil, "context.zip": nil},
	"fleet.case.json":   {"fleet-wide.csv": nil, "fleet-long.csv": nil, "fleet-one-after-the-other.csv": nil},
}

// differs holds what a file says of the machine beyond the case it repeats.
var differs = map[string]func(*record.Case){
	"day-first.csv":   inService,
	"month-first.csv": inService,
}

func inService(c *record.Case) {
	d, _ := record.ParseDate("2021-12-25")
	c.Machine.InService = &d
}

func TestShapes(t *testing.T) {
	shapes["yard.case.json"]["day-first.csv"] = []string{"zone-assumed 3:20"}
	shapes["yard.case.json"]["month-first.csv"] = []string{"zone-assumed 3:20"}
	listed := 0
	for canonical, files := range shapes {
		want := casesOf(t, canonical)
		for name, found := range files {
			listed++
			same(t, name, want, found)
		}
	}
	files, err := os.ReadDir(testdata + "shapes")
	if err != nil || len(files) != listed+len(shapes) {
		t.Errorf("got %d files, %v, and %d expectations, want one for each", len(files)-len(shapes), err, listed)
	}
}

func casesOf(t *testing.T, name string) []record.Case {
	t.Helper()
	batch, err := read(t, "shapes/"+name)
	if err != nil {
		t.Fatal(err)
	}
	var out []record.Case
	for _, r := range batch.Records {
		out = append(out, r.Case)
	}
	return out
}

// same reads a file and compares it with cases.
func same(t *testing.T, name string, want []record.Case, found []string) {
	t.Helper()
	batch, err := read(t, "shapes/"+name)
	if err != nil {
		t.Errorf("%s: got %v, want it read", name, err)
		return
	}
	if len(batch.Records) != len(want) {
		t.Errorf("%s: got %d machines, want %d", name, len(batch.Records), len(want))
		return
	}
	var got []string
	for i, r := range batch.Records {
		expected := want[i]
		if change := differs[name]; change != nil {
			change(&expected)
		}
		if a, b := written(r.Case), written(expected); a != b || !reflect.DeepEqual(len(r.Case.Readings), len(expected.Readings)) {
			t.Errorf("%s: got\n%s\nwant\n%s", name, a, b)
		}
		for _, f := range r.Findings {
			got = append(got, fmt.Sprintf("%s %d:%d", f.Code, f.Line, f.Column))
		}
	}
	if !slices.Equal(got, found) {
		t.Errorf("%s: got %q, want %q", name, got, found)
	}
	if len(batch.Questions) > 0 {
		t.Errorf("%s: got %+v asked, want nothing", name, batch.Questions)
	}
}

func written(c record.Case) string {
	data, err := json.Marshal(c)
	if err != nil {
		return err.Error()
	}
	return string(data)
}
