package intake_test

import (
	"fmt"
	"reflect"
	"slices"
	"strings"
	"testing"

	"ratchetmark/internal/dossier"
	"ratchetmark/internal/intake"
	"ratchetmark/internal/record"
)

// The delimited files repeat readings of the demo machines: comma, semicolon
// with decimal commas and a byte order mark, tab. They hold the same numbers.
func TestDelimitedRepeatsTheDemo(t *testing.T) {
	for _, v := range []struct {
		path     string
		record   int
		demo     string
		readings []int // of the case file, from 0
	}{
		{"delimited/one-reading.csv", 0, "clean", []int{6}},
		{"delimited/two-readings-semicolon.csv", 0, "lashed", []int{2, 3}},
		{"delimited/two-machines-tab.txt", 0, "worked", []int{3, 4}},
		{"delimited/two-machines-tab.txt", 1, "drifted", []int{2, 3}},
	} {
		batch, err := read(t, v.path)
		if err != nil {
			t.Fatal(err)
		}
		got := batch.Records[v.record]
		demo, err := read(t, "demo/"+v.demo+".case.json")
		if err != nil {
			t.Fatal(err)
		}
		want := demo.Records[0].Case
		if len(got.Findings) > 0 || len(got.Case.Readings) != len(v.readings) {
			t.Errorf("%s: got %+v, want %d readings without a finding", v.path, got, len(v.readings))
			continue
		}
		for i, j := range v.readings {
			if !reflect.DeepEqual(got.Case.Readings[i], want.Readings[j]) {
				t.Errorf("%s, reading %d: got %+v, want %+v", v.path, i+1, got.Case.Readings[i], want.Readings[j])
			}
		}
		m := want.Machine
		m.Mass, m.InService = nil, nil // the delimited form has no columns for these
		if !reflect.DeepEqual(got.Case.Machine, m) {
			t.Errorf("%s: got %+v, want %+v", v.path, got.Case.Machine, m)
		}

		// And the case file cut to the same parts has the same dossier.
		cut := record.Case{Format: record.Format, Machine: m}
		for _, j := range v.readings {
			cut.Readings = append(cut.Readings, want.Readings[j])
		}
		a := figures(t, dossier.Assess(&got.Case, nil, nil, nil))
		if b := figures(t, dossier.Assess(&cut, nil, nil, nil)); a != b {
			t.Errorf("%s: got\n%s\nwant\n%s", v.path, a, b)
		}
	}
}

// The template reads without a finding, and its columns are those documented.
func TestTemplate(t *testing.T) {
	batch, err := read(t, "delimited/template.csv")
	if err != nil || len(batch.Records) != 1 || len(batch.Records[0].Findings) > 0 {
		t.Fatalf("got %+v, %v, want one record without a finding", batch.Records, err)
	}
	if c := batch.Records[0].Case; len(c.Readings) != 1 || len(c.Readings[0].Bands) != 5 || !c.Readings[0].Bands[4].Open() {
		t.Errorf("got %+v, want one reading of five bands, the last one open", c.Readings)
	}
}

// table reads delimited text below the usual heading.
func table(t *testing.T, rows ...string) []intake.Record {
	t.Helper()
	batch, err := intake.ReadBytes("x", []byte(heading+strings.Join(rows, "\n")))
	if err != nil {
		t.Fatal(err)
	}
	return batch.Records
}

func found(r intake.Record) []string {
	var out []string
	for _, f := range r.Findings {
		out = append(out, fmt.Sprintf("%s %d:%d", f.Code, f.Line, f.Column))
	}
	return out
}

// Blank cells mean "as above", rows of one time are one reading even when
// others stand between, and every odd cell is found with its place.
func TestRows(t *testing.T) {
	for _, v := range []struct {
		name string
		rows []string
		want string   // machines, readings, bands
		find []string // of the first record
	}{
		{"as above", []string{"A,boom,230,2,,2026-03-02,1,,99,,0,90,1", ",,,,,,,,,,90,,2"}, "A: 2", nil},
		{"two readings", []string{"A,boom,230,2,,2026-03-02,1,,99,,0,,1", ",,,,,2026-03-03,2,,99,,0,,2"}, "A: 1 1", nil},
		{"two machines", []string{"A,boom,230,2,,2026-03-02,1,,99,,0,,1", "B,boom,230,2,,2026-03-02,1,,99,,0,,1"}, "A: 1; B: 1", nil},
		{"machines taking turns", []string{"A,,230,,,2026-03-02,,,,,0,90,1", "B,,230,,,2026-03-02,,,,,0,90,1", "A,,,,,2026-03-02,,,,,90,,1", ",,,,,,,,,,95,99,1"}, "A: 3; B: 1", nil},
		{"the same time in other words", []string{"A,,230,,,2026-03-02T08:00:00Z,,,,,0,90,1", "A,,,,,2026-03-02T09:00:00+01:00,,,,,90,,1"}, "A: 2", nil},
		{"no time at all", []string{"A,,230,,,,,,,,0,90,1", ",,,,,,,,,,90,,1"}, "A: 2", nil},
		{"a peak alone", []string{"A,,230,,,2026-03-02,,,99,,,,"}, "A: 0", nil},
		{"blank lines and comments", []string{"", "A,,230,,,2026-03-02,,,,,0,90,1", "   ", "# a note", "A,,,,,2026-03-02,,,,,90,,1", ""}, "A: 2", nil},
		{"quoted cells", []string{`"A, the tall ""one""",,230,,,2026-03-02,,,,,0,90,"1"`}, `A, the tall "one": 1`, nil},
		{"a rated load that differs", []string{"A,,230,,,2026-03-02,,,,,0,90,1", "A,,240,,,2026-03-02,,,,,90,,1"}, "A: 2", []string{"value-differs 3:4"}},
		{"half a person", []string{"A,,230,2.5,,2026-03-02,,,,,0,90,1"}, "A: 1", []string{"value-unreadable 2:8"}},
		{"a row without a time that can be read", []string{"A,,230,,,2026-03-02,,,,,0,90,1", "A,,,,,yesterday,,,,,90,,1"}, "A: 1", []string{"row-undated 3:7"}},
		{"a peak time that cannot be read", []string{"A,,230,,,2026-03-02,,,99,noon,0,90,1"}, "A: 1", []string{"value-unreadable 2:26"}},
		{"an ambiguous edge", []string{"A,,230,,,2026-03-02,,,99,,0,1.234,1"}, "A: 0", []string{"number-ambiguous 2:29"}},
		{"no lower edge", []string{"A,,230,,,2026-03-02,,,99,,,90,1"}, "A: 1", nil},
		{"no edge", []string{"A,,230,,,2026-03-02,,,99,,,,1"}, "A: 0", []string{"bands-incomplete 2:27"}},
		{"no hours", []string{"A,,230,,,2026-03-02,,,99,,0,90,"}, "A: 0", []string{"bands-incomplete 2:27"}},
		{"one bad band spoils its reading alone", []string{"A,,230,,,2026-03-02,,,,,0,90,1", ",,,,,2026-03-03,,,,,0,90,x", ",,,,,2026-03-04,,,,,0,90,1"}, "A: 1 0 1", []string{"value-unreadable 3:26", "bands-incomplete 3:21"}},
		{"a cell too few", []string{"A,,230,,,2026-03-02,,,,,0,90,1", "A,,,,,2026-03-02,,,,,90,1"}, "A: 1", []string{"row-ragged 3:1"}},
		{"a bare quote", []string{"A,,230,,,2026-03-02,,,,,0,90,1", `A,,,,,2026-03-02,,,,,9"0,,1`, "A,,,,,2026-03-02,,,,,90,,1"}, "A: 2", []string{"row-broken 3:23"}},
		{"no machine in the first row", []string{",,230,,,2026-03-02,,,,,0,90,1", "A,,230,,,2026-03-02,,,,,0,90,1"}, "A: 1", []string{"machine-unnamed 2:1"}},
		{"hidden characters", []string{"A\u202eB,,230,,,2026-03-02,,,,,0,90,1"}, "A[U+202E]B: 1", []string{"hidden-characters 2:1"}},
		{"infinity", []string{"A,,Inf,,,2026-03-02,,,,,0,90,1"}, "A: 1", []string{"value-unreadable 2:4"}},
	} {
		records := table(t, v.rows...)
		var machines []string
		for _, r := range records {
			text := r.Case.Machine.ID + ":"
			for _, reading := range r.Case.Readings {
				text += fmt.Sprint(" ", len(reading.Bands))
			}
			machines = append(machines, text)
		}
		if got := strings.Join(machines, "; "); got != v.want {
			t.Errorf("%s: got %q, want %q", v.name, got, v.want)
		}
		if got := found(records[0]); !slices.Equal(got, v.find) {
			t.Errorf("%s: got %q, want %q", v.name, got, v.find)
		}
	}
}

// A row that is left out takes hours with it: that withholds a conclusion.
func TestLostRowsBlock(t *testing.T) {
	for name, row := range map[string]string{"undated": "A,,,,,yesterday,,,,,90,,1", "ragged": "A,,,,,2026-03-02,,,,,90,1", "broken": `A,,,,,2026-03-02,,,,,9"0,,1`, "unreadable": "A,,,,,2026-03-02,,,,,90,,x"} {
		records := table(t, "A,,230,,,2026-03-02,,,,,0,90,1", row)
		if !record.Blocks(records[0].Findings) {
			t.Errorf("%s: got %+v, want a blocking finding", name, records[0].Findings)
		}
	}
}

// Columns may stand in any order; one that is not known, or stands twice, is
// found; one that is missing and needed refuses the file.
func TestHeading(t *testing.T) {
	for _, v := range []struct {
		name, head, row string
		find            []string
	}{
		{"any order", "hours,to_kg,from_kg,reading_at,machine", "1,90,0,2026-03-02,A", nil},
		{"any case and spaces", " Machine ,READING_AT,from_kg,To_kg, hours", "A,2026-03-02,0,90,1", nil},
		{"a mark at the end", "machine,reading_at,from_kg,to_kg,hours,", "A,2026-03-02,0,90,1,", nil},
		{"semicolons", "machine;reading_at;from_kg;to_kg;hours", "A;2026-03-02;0;90;1", nil},
		{"strokes", "machine|reading_at|from_kg|to_kg|hours", "A|2026-03-02|0|90|1", nil},
		{"comments above", "# one, two, three, four, five, six, seven\n#\nmachine;reading_at;from_kg;to_kg;hours", "A;2026-03-02;0;90;1", nil},
		{"Windows line ends", "machine,reading_at,from_kg,to_kg,hours\r", "A,2026-03-02,0,90,1\r", nil},
		{"an unknown column", "machine,reading_at,shoe_size,from_kg,to_kg,hours", "A,2026-03-02,5,0,90,1", []string{"column-unknown 1:20"}},
		{"a column twice", "machine,reading_at,from_kg,to_kg,hours,from_kg", "A,2026-03-02,0,90,1,2", []string{"column-twice 1:40"}},
	} {
		batch, err := intake.ReadBytes("x", []byte(v.head+"\n"+v.row+"\n"))
		if err != nil {
			t.Errorf("%s: got %v, want it read", v.name, err)
			continue
		}
		c := batch.Records[0].Case
		if len(c.Readings) != 1 || len(c.Readings[0].Bands) != 1 || c.Machine.ID != "A" || c.Readings[0].Bands[0].Hours != 1 || *c.Readings[0].Bands[0].To != 90 {
			t.Errorf("%s: got %+v, want machine A with 1 h from 0 to 90 kg", v.name, c)
		}
		if got := found(batch.Records[0]); !slices.Equal(got, v.find) {
			t.Errorf("%s: got %q, want %q", v.name, got, v.find)
		}
	}
	for head, want := range map[string]string{
		"machine,reading_at,from_kg,to_kg":         "x:1: the heading row has no column with the hours;",
		"# note\n\nmachine":                        `x: no row is a heading that is known; the first is "machine";`,
		"NF-07,boom,230":                           `x: no row is a heading that is known; the first is "NF-07,boom,230";`,
		`"machine`:                                 "x:1:1: the row is not well-formed",
		"\x1b[31mmachine,reading_at,from_kg,to_kg": "x:1: the heading row has no column with the hours;",
		heading:              "x: there is a heading row but no row of a reading;",
		heading + ",,230":    "x:2:1: the row has 3 cells;",
		heading + "# a note": "x: there is a heading row but no row of a reading;",
		"machine,reading_at,from_kg,to_kg,hours,x": "x: there is a heading row but no row of a reading;",
	} {
		_, err := intake.ReadBytes("x", []byte(head))
		if err == nil || !strings.HasPrefix(err.Error(), want) {
			t.Errorf("%q: got %v, want %s", head, err, want)
		}
	}
}

func TestTooManyRows(t *testing.T) {
	rows := []string{"A,,230,,,2026-03-02,,,,,0,1,1"}
	for i := range 250 {
		rows = append(rows, fmt.Sprintf(",,,,,,,,,,%d,%d,1", i+1, i+2))
	}
	r := table(t, rows...)[0]
	if got := found(r); !slices.Equal(got, []string{"bands-incomplete 202:11"}) || r.Case.Readings[0].Bands != nil {
		t.Errorf("bands: got %q and %d bands, want it noted once, and no bands", got, len(r.Case.Readings[0].Bands))
	}
	rows = nil
	for i := range 5002 {
		rows = append(rows, fmt.Sprintf("A,,230,,,2026-03-02T%02d:%02d:%02dZ,,,,,0,,1", i/3600, i/60%60, i%60))
	}
	r = table(t, rows...)[0]
	if got := found(r); len(r.Case.Readings) != 5000 || !slices.Equal(got, []string{"too-many 5002:10"}) {
		t.Errorf("readings: got %d and %q, want 5000, and once that rows were left out", len(r.Case.Readings), got)
	}
}

// A value is only passed over as repeated where a row of the same machine and
// the same reading has it already.
func TestRepeatedValueOfAnother(t *testing.T) {
	text := heading + "A,boom,230,2,,2026-03-02,1,,99,,0,90,1\n" +
		"B,,,,,2026-03-02,1,,,,0,90,1\nB,boom,230,2,,2026-03-02,1,,99,,90,180,1\n" +
		"B,boom,230,2,,2026-03-09,2,,,,0,90,1\nB,boom,230,2,,2026-03-09,2,,99,,90,180,1\n"
	batch, err := intake.ReadBytes("x", []byte(text))
	if err != nil || len(batch.Records) != 2 {
		t.Fatalf("got %v and %d records, want two", err, len(batch.Records))
	}
	b := batch.Records[1].Case
	if b.Machine.Kind != record.Boom || b.Machine.RatedLoad == nil || b.Machine.Persons == nil {
		t.Errorf("got %+v, want a boom with its plate", b.Machine)
	}
	for i, r := range b.Readings {
		if r.Peak == nil {
			t.Errorf("got no peak of reading %d, want 99 kg", i+1)
		}
	}
}
