package intake_test

import (
	"bytes"
	"cmp"
	"encoding/csv"
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"ratchetmark/internal/intake"
	"ratchetmark/internal/record"
)

// casesOf returns every case of testdata/demo and testdata/shapes.
func everyCase(t testing.TB) map[string][]record.Case {
	t.Helper()
	out := map[string][]record.Case{}
	for _, folder := range []string{"demo/", "retold/"} {
		files, err := filepath.Glob(testdata + folder + "*.case.json")
		if err != nil || len(files) < 5 {
			t.Fatalf("%s: got %d cases, %v, want at least 5", folder, len(files), err)
		}
		for _, file := range files {
			data, err := os.ReadFile(file)
			if err != nil {
				t.Fatal(err)
			}
			batch, err := intake.ReadBytes(filepath.Base(file), data)
			if err != nil {
				t.Fatal(err)
			}
			for _, r := range batch.Records {
				out[filepath.Base(file)] = append(out[filepath.Base(file)], r.Case)
			}
		}
	}
	return out
}

// packings are ways to write several cases into one file.
var packings = map[string]func(t testing.TB, cases []record.Case) []byte{
	"one a line": func(t testing.TB, cases []record.Case) []byte {
		var b bytes.Buffer
		for _, c := range cases {
			b.Write(append(mustJSON(c), '\n'))
		}
		return b.Bytes()
	},
	"a list": func(t testing.TB, cases []record.Case) []byte { return mustJSON(cases) },
	"an indented list": func(t testing.TB, cases []record.Case) []byte {
		text, err := json.MarshalIndent(cases, "", "\t")
		if err != nil {
			t.Fatal(err)
		}
		return text
	},
	"an archive": func(t testing.TB, cases []record.Case) []byte {
		var files []section
		for i, c := range cases {
			files = append(files, section{string(rune('a'+i)) + ".case.json", string(mustJSON(c))})
		}
		return packOf(files)
	},
}

// Cases that are saved together are read as they were, in their order.
func TestSeveralCasesRoundTrip(t *testing.T) {
	for file, cases := range everyCase(t) {
		for name, pack := range packings {
			batch, err := intake.ReadBytes("several", pack(t, cases))
			if err != nil {
				t.Errorf("%s as %s: got %v, want it read", file, name, err)
				continue
			}
			compareAll(t, file+" as "+name, batch, cases)
		}
	}
	var every []record.Case
	for _, cases := range everyCase(t) {
		every = append(every, cases...)
	}
	for name, pack := range packings {
		batch, err := intake.ReadBytes("several", pack(t, every))
		if err != nil {
			t.Errorf("all as %s: got %v, want it read", name, err)
			continue
		}
		compareAll(t, "all as "+name, batch, every)
	}
}

func compareAll(t *testing.T, name string, batch intake.Batch, want []record.Case) {
	t.Helper()
	for _, w := range unlike(t, batch, want, 0) {
		t.Errorf("%s: %s", name, w)
	}
}

// undated reports whether a reading below the first has no time: in a table, a
// blank cell repeats the one above.
func undated(c record.Case) bool {
	return slices.ContainsFunc(c.Readings, func(r record.Reading) bool { return r.At.IsZero() })
}

// tablesOf writes a case as four tables under the headings of the case file.
func tablesOf(c record.Case) [][][]string {
	text := func(v any) string {
		s := strings.Trim(string(mustJSON(v)), `"`)
		if s == "null" {
			return ""
		}
		return s
	}
	m := c.Machine
	plate := []string{m.ID, string(m.Kind), text(m.RatedLoad), text(m.Persons), text(m.LoadSensing), text(m.Mass), text(m.InService)}
	bands := [][]string{strings.Split("machine,kind,rated_load_kg,persons,load_sensing_kg,mass_kg,in_service,reading_at,powered_h,moving_h,peak_kg,peak_at,from_kg,to_kg,hours", ",")}
	for _, r := range c.Readings {
		row := append(append([]string(nil), plate...), text(r.At), text(r.Powered), text(r.Moving), text(r.Peak), text(r.PeakAt))
		for _, b := range r.Bands {
			bands = append(bands, append(append([]string(nil), row...), text(b.From), text(b.To), text(b.Hours)))
		}
		if len(r.Bands) == 0 {
			bands = append(bands, append(row, "", "", ""))
		}
	}
	custody := [][]string{{"machine", "from", "to", "holder", "who", "note"}}
	for _, u := range c.Custody {
		custody = append(custody, []string{m.ID, text(u.From), text(u.To), string(u.Holder), u.Who, u.Note})
	}
	events := [][]string{{"machine", "event_at", "event_kind", "event_load_kg", "note"}}
	for _, e := range c.Events {
		events = append(events, []string{m.ID, text(e.At), string(e.Kind), text(e.Load), e.Note})
	}
	daily := [][]string{{"machine", "daily_date", "powered_h", "moving_h"}}
	for _, d := range c.Daily {
		daily = append(daily, []string{m.ID, text(d.Date), text(d.Powered), text(d.Moving)})
	}
	out := [][][]string{bands}
	for _, rows := range [][][]string{custody, events, daily} {
		if len(rows) > 1 {
			out = append(out, rows)
		}
	}
	return out
}

// A case that is written as tables, whatever divides their cells and whether
// the tables stand in one file or in several, is read as it was.
func TestCaseAsTables(t *testing.T) {
	n := 0
	for file, cases := range everyCase(t) {
		for _, c := range cases {
			if c.Machine.ID == "" || undated(c) {
				continue
			}
			n++
			want := c
			want.Note, want.Assumptions, want.Checks, want.TieDowns = "", nil, nil, nil // tables have no place for these
			for _, mark := range []rune{',', ';', '\t', '|'} {
				var whole bytes.Buffer
				var files []section
				for i, rows := range tablesOf(c) {
					one := delimitedOf(t, rows, mark)
					whole.WriteString(one + "\n")
					files = append(files, section{string(rune('a'+i)) + ".csv", one})
				}
				for name, data := range map[string][]byte{"one file": whole.Bytes(), "an archive": packOf(files)} {
					batch, err := intake.ReadBytes("x", data)
					if err != nil {
						t.Errorf("%s, %s with %q: got %v, want it read", file, name, mark, err)
						continue
					}
					compareAll(t, file+", "+name+" with "+string(mark), batch, []record.Case{want})
					if found := said(batch); len(found) > 0 {
						t.Errorf("%s, %s with %q: got the findings %q, want none", file, name, mark, found)
					}
				}
			}
		}
	}
	if n < 8 {
		t.Errorf("got %d cases, want at least 8", n)
	}
}

func delimitedOf(t testing.TB, rows [][]string, mark rune) string {
	t.Helper()
	var b bytes.Buffer
	w := csv.NewWriter(&b)
	w.Comma = mark
	if err := w.WriteAll(rows); err != nil {
		t.Fatal(err)
	}
	return b.String()
}

// Columns mean the same wherever they stand, and however a heading is
// capitalised.
func TestColumnsInAnyOrder(t *testing.T) {
	n := 0
	for _, v := range sameRecord {
		rows := plainTable(t, v.vector)
		if rows == nil || slices.Contains(rows[0], "Unit") { // which belongs to the column before it
			continue
		}
		n++
		var wrong []string
		for turn := 1; turn < len(rows[0]); turn += 3 {
			data := []byte(delimitedOf(t, turned(rows, turn, turn%2 == 1), ';'))
			batch, err := intake.ReadBytes("x", data)
			if err != nil {
				wrong = append(wrong, fmt.Sprintf("by %d: got %v, want it read", turn, err))
				continue
			}
			for i := range batch.Records {
				for _, r := range batch.Records[i].Case.Readings { // a column for each band: in the order of the columns
					slices.SortFunc(r.Bands, func(a, b record.Band) int { return cmp.Compare(a.From, b.From) })
				}
			}
			for _, w := range unlike(t, batch, wantCases(t, v.vector), v.within) {
				wrong = append(wrong, fmt.Sprintf("by %d: %s", turn, w))
			}
		}
		settle(t, "turned "+v.vector, wrong)
	}
	if n < 20 {
		t.Errorf("got %d tables, want at least 20", n)
	}
}

// turned moves the first columns of a table to its end; the headings in
// capitals if asked.
func turned(rows [][]string, by int, capitals bool) (out [][]string) {
	for i, row := range rows {
		r := append(append([]string(nil), row[by:]...), row[:by]...)
		for j := range r {
			if i == 0 && capitals {
				r[j] = strings.ToUpper(r[j])
			}
		}
		out = append(out, r)
	}
	return out
}

// plainTable returns the rows of a vector that is one table whose rows name
// their machine, below at most one line of comment; nil for another.
func plainTable(t testing.TB, vector string) [][]string {
	t.Helper()
	if strings.Contains(vector, "!") || filepath.Ext(vector) != ".csv" && filepath.Ext(vector) != ".txt" {
		return nil
	}
	_, data := shapeBytes(t, vector)
	text := string(data)
	if !strings.HasPrefix(text, "# ") {
		return nil
	}
	_, text, _ = strings.Cut(text, "\n")
	for _, mark := range []rune{';', '\t', '|', ','} {
		r := csv.NewReader(strings.NewReader(text))
		r.Comma = mark
		rows, err := r.ReadAll()
		if err == nil && len(rows) > 1 && len(rows[0]) > 7 && !strings.Contains(text, "\n\n") && !strings.Contains(text, "#") && strings.Count(text, rows[0][0]) == 1 && !strings.HasPrefix(rows[1][0], "-") && rows[1][0] != "" {
			return rows
		}
	}
	return nil
}
