package intake_test

import (
	"bytes"
	"encoding/json"
	"errors"
	"os"
	"reflect"
	"slices"
	"testing"

	"ratchetmark/internal/batch"
	"ratchetmark/internal/intake"
	"ratchetmark/internal/wording"
)

// open holds every file of testdata/open: what is asked, as "kind column:
// values: first meaning / second meaning"; or which columns are pointed out.
// hours is what the first band holds then.
var open = map[string]struct {
	asked  []string
	answer func(*intake.Guide)
	hours  float64
}{
	"decimal.csv":               {[]string{"decimal hours: 1,234 2,345: 1234 / 1.234"}, comma, 1.234},
	"decimal-in-one-column.csv": {[]string{"decimal powered_h: 1,234: 1234 / 1.234"}, comma, 12},
	"decimal-both-marks.csv":    {[]string{"decimal hours: 1,234: 1234 / 1.234"}, point, 1234},
	"dates.csv":                 {[]string{"dates reading_at: 03/02/2026: 3 February 2026 / 2 March 2026"}, dayFirst, 1},
	"custody-dates.csv":         {[]string{"dates custody from: 03/02/2026: 3 February 2026 / 2 March 2026", "dates custody to: 04/02/2026: 4 February 2026 / 2 April 2026"}, dayFirst, 0},
	"headings.csv":              {nil, columns("machine", "from_kg", "to_kg", "hours"), 12},
	"no-heading.csv":            {nil, bare, 12},
	"two-loads.csv":             {[]string{"load max load (kg):: what the machine may carry / the highest load it has recorded"}, rated, 12},
	"band-columns.csv":          {nil, edges, 12},
	"hours-over.csv":            {[]string{"counts hours: over 0 kg: 12 h over 230 kg: 3 h: 0-230 kg: 12 h / 0-230 kg: 9 h"}, cumulative, 9},
	"upper-edges.csv":           {[]string{"counts hours: 0-230 kg: 12 h 0-460 kg: 15 h: 230-460 kg: 15 h / 230-460 kg: 3 h"}, cumulative, 12},
}

func comma(g *intake.Guide)      { g.Decimal, g.Columns = "comma", nil }
func point(g *intake.Guide)      { g.Decimal, g.Columns = "point", nil }
func cumulative(g *intake.Guide) { g.Counts = "cumulative" }
func dayFirst(g *intake.Guide)   { g.Dates, g.Columns = "day-first", nil }

func columns(fields ...wording.Field) func(*intake.Guide) {
	return func(g *intake.Guide) {
		g.Columns = nil
		for _, f := range fields {
			g.Columns = append(g.Columns, intake.Column{Field: f})
		}
	}
}

func rated(g *intake.Guide) { g.Columns[1].Field = "rated_load_kg" }

func bare(g *intake.Guide) {
	columns("machine", "from_kg", "to_kg", "hours")(g)
	g.Data = true
}

func edges(g *intake.Guide) {
	columns("machine", "band_hours", "band_hours")(g)
	zero, ninety := 0.0, 90.0
	g.Columns[1].From, g.Columns[1].To, g.Columns[2].From = &zero, &ninety, &ninety
}

// readOpen reads a file of testdata/open with guides.
func readOpen(t *testing.T, name string, guides ...intake.Guide) (intake.Batch, error) {
	t.Helper()
	data, err := os.ReadFile(testdata + "open/" + name)
	if err != nil {
		t.Fatal(err)
	}
	return intake.Read(name, bytes.NewReader(data), intake.GuidesOf(guides...), nil)
}

func asked(b intake.Batch) (out []string) {
	for _, q := range b.Questions {
		text := string(q.Kind) + " " + q.Column + ":"
		for _, v := range q.Values {
			text += " " + v
		}
		out = append(out, text+": "+q.Choices[0].Means+" / "+q.Choices[1].Means)
	}
	return out
}

// What a file leaves open is asked with its own values and not guessed; once it
// is pointed out, the file reads, and says that a guide was used.
func TestOpen(t *testing.T) {
	for name, v := range open {
		b, err := readOpen(t, name)
		if got := asked(b); !slices.Equal(got, v.asked) {
			t.Errorf("%s: got %q asked, want %q", name, got, v.asked)
		}
		var refusal *intake.Refusal
		if v.asked == nil && !errors.As(err, &refusal) || v.asked != nil && err != nil {
			t.Errorf("%s: got %v", name, err)
		}
		sheet := 0
		if len(b.Questions) > 0 {
			sheet = b.Questions[0].Sheet
			for _, r := range b.Records {
				if len(r.Case.Readings) > 0 && len(r.Case.Readings[0].Bands) > 1 && name != "decimal-in-one-column.csv" && name != "two-loads.csv" {
					t.Errorf("%s: got bands %v, want none guessed", name, r.Case.Readings[0].Bands)
				}
			}
		}
		g := b.Sheets[sheet].Guide
		v.answer(&g)
		b, err = readOpen(t, name, travelled(t, g))
		if err != nil || len(b.Questions) > 0 || len(b.Guides) != 1 {
			t.Errorf("%s, pointed out: got %v, %q and %d guides used, want it read", name, err, asked(b), len(b.Guides))
			continue
		}
		r := b.Records[0]
		if v.hours > 0 && (len(r.Case.Readings[0].Bands) != 2 || float64(r.Case.Readings[0].Bands[0].Hours) != v.hours) {
			t.Errorf("%s, pointed out: got %v, want %v h in the first of two bands", name, r.Case.Readings[0].Bands, v.hours)
		}
		if r.Findings[0].Code != "guide-used" {
			t.Errorf("%s, pointed out: got %q, want it said first that a guide was used", name, found(r))
		}
	}
	files, err := os.ReadDir(testdata + "open")
	if err != nil || len(files) != len(open) {
		t.Errorf("got %d files, %v and %d expectations, want as many", len(files), err, len(open))
	}
}

// travelled writes a guide, reads it and compares: a guide travels as JSON.
func travelled(t *testing.T, g intake.Guide) intake.Guide {
	t.Helper()
	g.Format = batch.GuideFormat
	data, err := json.Marshal(g)
	if err != nil {
		t.Fatal(err)
	}
	back, err := intake.ReadGuide(data)
	if err != nil || !reflect.DeepEqual(back, g) {
		t.Fatalf("got %+v, %v, want %+v: %s", back, err, g, data)
	}
	return back
}

func TestSignature(t *testing.T) {
	a := intake.Signature([]string{"Machine", "Hours", ""})
	if b := intake.Signature([]string{" machine ", "HOURS"}); a != b || len(a) != 16 {
		t.Errorf("got %s and %s, want the same 16 digits", a, b)
	}
	if b := intake.Signature([]string{"machine", "hours", "peak"}); a == b {
		t.Errorf("got %s for another heading", b)
	}
}

func TestWrongGuides(t *testing.T) {
	for text, want := range map[string]string{
		`{`:                                "the guide cannot be read",
		`{"format":"something"}`:           `the guide's format is "something"; expected "ratchetmark guide 1"`,
		`{"format":"ratchetmark guide 1"}`: "the guide names no heading",
		`{"format":"ratchetmark guide 1","heading":["a"],"decimal":"dot"}`:           `the guide's decimal is "dot"; expected point or comma`,
		`{"format":"ratchetmark guide 1","heading":["a"],"dates":"both"}`:            `the guide's dates are "both"; expected day-first or month-first`,
		`{"format":"ratchetmark guide 1","heading":["a"],"zone":"CET"}`:              `the guide's zone is "CET"; expected one such as +01:00`,
		`{"format":"ratchetmark guide 1","heading":["a"],"counts":"some"}`:           `the guide's counts are "some"; expected each or cumulative`,
		`{"format":"ratchetmark guide 1","heading":["a"],"columns":[{"unit":"st"}]}`: "the guide cannot be read",
	} {
		if _, err := intake.ReadGuide([]byte(text)); err == nil || len(err.Error()) < len(want) || err.Error()[:len(want)] != want {
			t.Errorf("%s: got %v, want %s", text, err, want)
		}
	}
}

// A guide that names a zone puts times that name none into it.
func TestGuideZone(t *testing.T) {
	text := "machine;rated_load_kg;reading_at;peak_kg\nT-09;230;2026-03-02 08:10;200\n"
	g := intake.Guide{Format: batch.GuideFormat, Heading: []string{"machine", "rated_load_kg", "reading_at", "peak_kg"}, Zone: "+01:00"}
	b, err := intake.Read("x", bytes.NewReader([]byte(text)), intake.GuidesOf(g), nil)
	if err != nil {
		t.Fatal(err)
	}
	if got := b.Records[0].Case.Readings[0].At.Format("15:04Z07:00"); got != "07:10Z" {
		t.Errorf("got %s, want 07:10Z", got)
	}
}

// A guide made of how a table is read gives the same reading again, edges in
// percent of the rated load included.
func TestGuideOfReading(t *testing.T) {
	for _, heading := range []string{"0-50 %;over 50 %", "0-100 kg;over 100 kg", "0-100;over 100", "0-200 lb;over 200 lb", "under 90 kg;90 kg and more"} {
		text := []byte("machine;rated_load_kg;" + heading + "\nT-09;230;12;3\n")
		first, err := intake.ReadBytes("x", text)
		if err != nil {
			t.Fatal(err)
		}
		again, err := intake.Read("x", bytes.NewReader(text), intake.GuidesOf(first.Sheets[0].Guide), nil)
		if err != nil {
			t.Fatal(err)
		}
		if a, b := written(first.Records[0].Case), written(again.Records[0].Case); a != b {
			t.Errorf("%s: got\n%s\nwant\n%s", heading, b, a)
		}
	}
}
