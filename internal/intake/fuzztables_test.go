package intake_test

import (
	"math"
	"slices"
	"strings"
	"testing"

	"ratchetmark/internal/intake"
	"ratchetmark/internal/record"
)

// A heading with what it can only mean, and the unit of cells without one.
type fuzzHeading struct{ text, field, unit string }

var fuzzHeadings = []fuzzHeading{
	{"Machine", "id", ""}, {"Seriennummer", "id", ""}, {"Serial No.", "id", ""},
	{"Rated load [kg]", "rated", "kg"}, {"Nennlast (kg)", "rated", "kg"}, {"Rated capacity [lb]", "rated", "lb"}, {"Charge nominale (t)", "rated", "t"},
	{"Peak load [kg]", "peak", "kg"}, {"Spitzenlast", "peak", "kg"}, {"Peak [lb]", "peak", "lb"},
	{"Operating hours", "powered", "h"}, {"Betriebsstunden [h]", "powered", "h"}, {"Powered time [min]", "powered", "min"}, {"powered_h", "powered", "h"},
	{"Drive hours", "moving", "h"}, {"Fahrzeit [min]", "moving", "min"},
	{"Load band [kg]", "band", "kg"}, {"Lastband", "band", "kg"},
	{"Hours in band", "hours", "h"}, {"Stunden im Band", "hours", "h"}, {"Time in band [min]", "hours", "min"},
	{"0-90 kg", "wide", "h"}, {"90-180 kg", "wide", "h"}, {"180 bis 240 kg", "wide", "h"}, {"> 240 kg", "wide", "h"},
	{"Remarks", "", ""}, {"Colour", "", ""},
}

// A text with its number: under a point, under a comma; not a number where it
// cannot be read so. Its own unit goes before that of the heading.
type fuzzCell struct {
	text         string
	point, comma float64
	unit         string
}

var no = math.NaN()

var fuzzCells = []fuzzCell{
	{"0", 0, 0, ""}, {"7", 7, 7, ""}, {"240", 240, 240, ""}, {"1234", 1234, 1234, ""}, {"412.5", 412.5, no, ""}, {"412,5", no, 412.5, ""},
	{"1.234", 1.234, 1234, ""}, {"1,234", 1234, 1.234, ""}, {"99.250", 99.25, 99250, ""}, {"1.234,5", no, 1234.5, ""}, {"1,234.5", 1234.5, no, ""},
	{"1'234.5", 1234.5, no, ""}, {"1 234,5", no, 1234.5, ""}, {"0.125", 0.125, no, ""}, {"0,125", no, 0.125, ""}, {"1.234.567", no, 1234567, ""},
	{"12 kg", 12, 12, "kg"}, {"12,5 kg", no, 12.5, "kg"}, {"100 lb", 100, 100, "lb"}, {"0.3 t", 0.3, no, "t"}, {"1.234 kg", 1.234, 1234, "kg"},
	{"30 min", 30, 30, "min"}, {"12.5 h", 12.5, no, "h"}, {"90 s", 90, 90, "s"}, {"5 %", 5, 5, "%"}, {"-3", -3, -3, ""}, {"+8", 8, 8, ""}, {"1e3", 1000, 1000, ""},
	{"", no, no, ""}, {"-", no, no, ""}, {"n/a", no, no, ""}, {"about 12", no, no, ""}, {"12x", no, no, ""}, {"2026-03-02", no, no, ""}, {"EX-1", no, no, ""}, {"1.2.3", no, no, ""}, {"Total", no, no, ""},
}

var fuzzBands = []string{"0-90", "90-180", "180-240", "over 240", "0-90 kg", "bis 90 kg", "", "overload"}

var fuzzFactors = map[string]float64{"kg": 1, "lb": 0.45359237, "t": 1000, "h": 1, "min": 1.0 / 60, "s": 1.0 / 3600}

// values returns what a cell can mean under a heading; nothing where its unit
// does not fit.
func (c fuzzCell) values(h fuzzHeading) (out []float64) {
	unit := c.unit
	if unit == "" {
		unit = h.unit
	}
	if strings.Contains("kg lb t", unit) != strings.Contains("kg lb t", h.unit) || fuzzFactors[unit] == 0 {
		return nil
	}
	for _, x := range []float64{c.point, c.comma} {
		if !math.IsNaN(x) && !slices.Contains(out, x*fuzzFactors[unit]) {
			out = append(out, x*fuzzFactors[unit])
		}
	}
	return out
}

// bothWays reports whether the text alone does not say which number it is.
func (c fuzzCell) bothWays() bool {
	return !math.IsNaN(c.point) && !math.IsNaN(c.comma) && c.point != c.comma
}

// proves tells the mark that the text of a number proves: '.', ',' or 0.
func (c fuzzCell) proves() byte {
	switch {
	case math.IsNaN(c.point) && !math.IsNaN(c.comma):
		return ','
	case math.IsNaN(c.comma) && !math.IsNaN(c.point):
		return '.'
	}
	return 0
}

// fuzzTable is a table of chosen headings and cells.
type fuzzTable struct {
	headings []fuzzHeading
	rows     [][]fuzzCell
}

// fuzzTableOf takes a table from random bytes: width, headings, cells.
func fuzzTableOf(data []byte) (t fuzzTable) {
	next := func() int {
		if len(data) == 0 {
			return 0
		}
		b := data[0]
		data = data[1:]
		return int(b)
	}
	seen := map[string]bool{}
	for range 2 + next()%7 {
		h := fuzzHeadings[next()%len(fuzzHeadings)]
		key := h.field
		if key == "wide" || key == "" {
			key = h.text
		}
		if !seen[key] {
			seen[key] = true
			t.headings = append(t.headings, h)
		}
	}
	for range 1 + next()%4 {
		var row []fuzzCell
		for _, h := range t.headings {
			if h.field == "band" {
				row = append(row, fuzzCell{fuzzBands[next()%len(fuzzBands)], no, no, ""})
				continue
			}
			c := fuzzCells[next()%len(fuzzCells)]
			row = append(row, c)
		}
		t.rows = append(t.rows, row)
	}
	return t
}

func (t fuzzTable) text(divider string) string {
	var lines []string
	var cells []string
	for _, h := range t.headings {
		cells = append(cells, h.text)
	}
	lines = append(lines, strings.Join(cells, divider))
	for _, row := range t.rows {
		cells = cells[:0]
		for _, c := range row {
			cells = append(cells, c.text)
		}
		lines = append(lines, strings.Join(cells, divider))
	}
	return strings.Join(lines, "\n") + "\n"
}

func (t fuzzTable) has(field string) bool {
	return slices.ContainsFunc(t.headings, func(h fuzzHeading) bool { return h.field == field })
}

// numeric reports whether the cells of a column are numbers of the record.
func (h fuzzHeading) numeric() bool { return h.unit != "" && h.field != "band" }

// mark tells which mark the numbers of the table prove: none where they prove
// both.
func (t fuzzTable) mark() byte {
	var found byte
	for _, row := range t.rows {
		for i, c := range row {
			switch m := c.proves(); {
			case m == 0 || !t.headings[i].numeric():
			case found != 0 && found != m:
				return 0
			default:
				found = m
			}
		}
	}
	return found
}

// allowed returns the values that may come of the columns of a field, or of
// several divided by spaces: those
// that a text means alone, and of a text that can be read two ways the one
// under the mark the numbers of the table prove.
func (t fuzzTable) allowed(field string) (out []float64) {
	mark := t.mark()
	for _, row := range t.rows {
		for i, c := range row {
			h := t.headings[i]
			if strings.Contains(field, "hours") && fuzzFactors[c.unit] > 0 && strings.Contains("h min s", c.unit) {
				h = fuzzHeading{field: "hours", unit: "h"} // says itself that it is a time
			}
			if h.field == "" || !slices.Contains(strings.Fields(field), h.field) {
				continue
			}
			for _, x := range c.values(h) {
				under := map[byte]float64{'.': c.point, ',': c.comma}[mark]
				if !c.bothWays() || mark != 0 && slices.Contains((fuzzCell{point: under, comma: under, unit: c.unit}).values(h), x) {
					out = append(out, x)
				}
			}
		}
	}
	return out
}

// A value of a table is the one that its text says, in the unit of its cell or
// heading, or it is missing; of a text that can be read two ways it is the one
// that the other numbers of the table prove, or it is missing.
func FuzzTables(f *testing.F) {
	for i := range 40 {
		seed := make([]byte, 40)
		for j := range seed {
			seed[j] = byte(i*37 + j*j*11 + j*i)
		}
		f.Add(seed, i%2 == 0)
	}
	f.Fuzz(func(t *testing.T, data []byte, tabs bool) {
		table := fuzzTableOf(data)
		divider := ";"
		if tabs {
			divider = "\t"
		}
		text := table.text(divider)
		batch, err := intake.ReadBytes("x", []byte(text))
		if err != nil {
			return
		}
		for _, r := range batch.Records {
			table.check(t, text, r.Case)
		}
	})
}

func (table fuzzTable) check(t *testing.T, text string, c record.Case) {
	one := func(field string, x float64) {
		allowed := table.allowed(field)
		if field == "peak" && c.Machine.RatedLoad != nil { // but for the rounding between units
			allowed = append(allowed, float64(*c.Machine.RatedLoad))
		}
		if !slices.ContainsFunc(allowed, func(y float64) bool { return math.Abs(x-y) <= 1e-9*math.Max(1, math.Abs(y)) }) {
			t.Fatalf("got %v for %s, want one of %v, from\n%s%s", x, field, allowed, text, mustJSON(c))
		}
	}
	if c.Machine.RatedLoad != nil {
		one("rated", float64(*c.Machine.RatedLoad))
	}
	for _, r := range c.Readings {
		for field, p := range map[string]*record.Hour{"powered": r.Powered, "moving": r.Moving} {
			if p != nil {
				one(field, float64(*p))
			}
		}
		if r.Peak != nil && !table.shares() {
			one("peak", float64(*r.Peak))
		}
		for _, b := range r.Bands {
			table.band(t, text, b, c.Machine.RatedLoad, one)
		}
	}
	for _, d := range c.Daily {
		if d.Powered != nil || d.Moving != nil {
			t.Fatalf("got a day %+v, want none from a table without a day\n%s", d, text)
		}
	}
}

// band checks a band: its edges are those of a label of the table, or the rated
// load, its hours those of a cell.
func (table fuzzTable) band(t *testing.T, text string, b record.Band, rated *record.Kilogram, one func(string, float64)) {
	edges := []record.Kilogram{0, 90, 180, 240}
	if rated != nil {
		edges = append(edges, *rated)
	}
	if !slices.Contains(edges, b.From) || b.To != nil && !slices.Contains(edges, *b.To) {
		t.Fatalf("got the band %+v, want edges of a label\n%s", b, text)
	}
	if !table.shares() { // a share of the powered hours is a product
		one("hours wide", float64(b.Hours))
	}
}

// shares reports whether a cell is in percent.
func (table fuzzTable) shares() bool {
	return slices.ContainsFunc(table.rows, func(row []fuzzCell) bool {
		return slices.ContainsFunc(row, func(c fuzzCell) bool { return c.unit == "%" })
	})
}
