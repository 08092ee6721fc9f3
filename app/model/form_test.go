package model

import (
	"slices"
	"strings"
	"testing"
	"time"

	"ratchetmark/internal/record"
	"ratchetmark/internal/wording"
)

func TestStepped(t *testing.T) {
	for _, c := range []struct {
		text  string
		by    float64
		times int
		comma bool
		want  string
	}{
		{"", 0.1, 1, false, "0.1"}, {"", 0.1, 1, true, "0,1"}, {"", 0.1, -1, false, "0.0"}, {"", 5, -1, false, "0"}, {"", 1, 1, true, "1"},
		{"225.4", 0.1, 1, true, "225.5"}, {"225,4", 0.1, 1, false, "225,5"}, {"225", 0.1, 1, true, "225,1"}, {"225.9", 0.1, 1, false, "226.0"},
		{"12.25", 0.1, 1, false, "12.35"}, {"0,05", 0.1, -1, false, "0,00"}, {"3", 5, -1, false, "0"}, {" 240 ", 10, 1, false, "250"},
		{"", 0.1, 10, false, "1.0"}, {"20,5", 0.1, 10, false, "21,5"}, {"2", 1, -10, false, "0"},
		{"0.999", 0.1, 1, false, "1.0990"}, {"-3", 1, 1, false, "0"}, {"1e3", 5, 1, false, "1005"}, {"1e300", 5, 1, false, "1000000000"},
	} {
		got, err := stepped(c.text, c.by, c.times, c.comma, 0, mostStepped)
		if err != nil || got != c.want {
			t.Errorf("%q by %d times %v: got %q, %v, want %q", c.text, c.times, c.by, got, err, c.want)
		}
	}
	for _, text := range []string{"1,234", "abc", "12,5,3", "-"} {
		if got, err := stepped(text, 1, 1, false, 0, mostStepped); err == nil {
			t.Errorf("%q: got %q, want it left alone", text, got)
		}
	}
}

// FuzzStepped: what a stepper makes can be read, is not below zero, is one step
// away and keeps the mark.
func FuzzStepped(f *testing.F) {
	for _, text := range []string{"", "0", "225,4", "0.95", "99999.999", "1e3", "0.999", "7,00", "1,000.0", "1.234.567", "1.000,5"} {
		f.Add(text, 1, true)
		f.Add(text, -1, false)
	}
	f.Fuzz(func(t *testing.T, text string, times int, comma bool) {
		times %= 50
		by := float64(times) * 0.1
		got, err := stepped(text, 0.1, times, comma, 0, mostStepped)
		if err != nil {
			return
		}
		x, err := wording.Number(got, wording.Unknown)
		if err != nil || x < 0 {
			t.Fatalf("%q by %v: got %q, want a number that can be read (%v)", text, by, got, err)
		}
		before := 0.0
		if strings.TrimSpace(text) != "" {
			before, _ = wording.Number(text, wording.Unknown)
		}
		if want := min(max(before+by, 0), mostStepped); want < 1e6 && (x-want > 0.051 || want-x > 0.051) {
			t.Errorf("%q by %v: got %q, want about %v", text, by, got, want)
		}
		mark, _ := decimals(text)
		if mark == ',' && strings.Contains(got, ".") || mark == '.' && strings.Contains(got, ",") {
			t.Errorf("%q by %v: got %q, want the same mark", text, by, got)
		}
	})
}

// A stepper begins where the last reading stood, leaves what it cannot read, and
// the field says why.
func TestSteps(t *testing.T) {
	m := New(newDevice())
	typed(m) // powered 20,5; bands up to 90, 230 and open
	m.AddReading()
	powered, second := FieldOf(OfReading, "powered_h", 1, 0), FieldOf(OfBand, "hours", 1, 1)
	m.Step(powered, 1)
	m.Step(powered, 10)
	m.Step(second, -1)
	r := &m.Form.Readings[1]
	if r.Powered != "21,6" || r.Bands[1].Hours != "8.3" {
		t.Errorf("got %q and %q, want 21,6 and 8.3", r.Powered, r.Bands[1].Hours)
	}
	peak := FieldOf(OfReading, "peak_kg", 1, 0)
	m.Type(peak, "about 90")
	m.Step(peak, 1)
	if r.Peak != "about 90" || !strings.Contains(m.Form.Problem(peak.Path()), "is not a number") {
		t.Errorf("got %q, problem %q, want the text kept and the reason said", r.Peak, m.Form.Problem(peak.Path()))
	}
	m.Type(peak, "90")
	if got := m.Form.Problem(peak.Path()); got != "" {
		t.Errorf("got problem %q, want it gone as it is mended", got)
	}
	m.Step(FieldOf(OfReading, "peak_kg", 7, 0), 1) // a line that is not there: nothing happens
}

func TestHints(t *testing.T) {
	m := New(newDevice())
	typed(m)
	m.Form.Readings[0].At = "2026-03-02T08:10"
	m.AddReading()
	for _, c := range []struct {
		x         Field
		text      string
		want      string
		pointsOut bool
	}{
		{FieldOf(OfReading, "powered_h", 1, 0), "", "last time 20,5", false},
		{FieldOf(OfReading, "powered_h", 1, 0), "20.5", "last time 20,5", false},
		{FieldOf(OfReading, "powered_h", 1, 0), "20.4", "less than last time (20,5): counters never run backwards", true},
		{FieldOf(OfReading, "powered_h", 1, 0), "2x", "last time 20,5", false},
		{FieldOf(OfReading, "moving_h", 1, 0), "3", "", false},
		{FieldOf(OfReading, "peak_kg", 1, 0), "240", "less than last time (241): a peak falls only when it is cleared", true},
		{FieldOf(OfBand, "hours", 1, 1), "8,3", "less than last time (8.4): counters never run backwards", true},
		{FieldOf(OfBand, "to_kg", 1, 1), "230,0", "", false},
		{FieldOf(OfBand, "hours", 1, 1), "9", "last time 8.4", false},
	} {
		m.Type(c.x, c.text)
		if got, doubt := m.Form.Hint(c.x, m.Form.Earlier(1)); got != c.want || doubt != c.pointsOut {
			t.Errorf("%q in %s: got %q, %v, want %q", c.text, c.x.Path(), got, doubt, c.want)
		}
	}
	m.Type(FieldOf(OfReading, "powered_h", 1, 0), "20.4")
	m.Type(FieldOf(OfBand, "hours", 1, 0), "1")
	m.Type(FieldOf(OfBand, "hours", 1, 2), "1")
	m.Finish()
	if m.Page != Sheet {
		t.Errorf("got problems %v, want a fall to stand in nobody's way", m.Form.Problems)
	}
}

// The reading before is told by the times, and where there are none by the order.
func TestEarlier(t *testing.T) {
	for _, c := range []struct {
		times []string
		of    int
		want  int
	}{
		{[]string{"", ""}, 1, 0}, {[]string{""}, 0, -1}, {[]string{"2026-03-02", ""}, 1, 0},
		{[]string{"2026-03-02", "2026-03-01"}, 1, -1}, {[]string{"2026-03-02", "2026-03-01"}, 0, 1},
		{[]string{"2026-03-01", "2026-03-03", "2026-03-02"}, 2, 0}, {[]string{"", "2026-03-03"}, 1, 0},
		{[]string{"2026-03-01", "2026-03-01"}, 1, -1}, {[]string{"soon", "2026-03-01"}, 1, 0},
	} {
		f := EmptyForm()
		f.Readings = nil
		for _, at := range c.times {
			f.Readings = append(f.Readings, FormReading{Counters: Counters{At: at}})
		}
		got := -1
		if r := f.Earlier(c.of); r != nil {
			got = slices.IndexFunc(f.Readings, func(x FormReading) bool { return x.At == r.At })
		}
		if got != c.want {
			t.Errorf("%q: got reading %d before reading %d, want %d", c.times, got, c.of, c.want)
		}
	}
}

func TestBandWords(t *testing.T) {
	for _, c := range []struct {
		band FormBand
		want string
	}{
		{FormBand{"90", " 230", "1"}, "90 to 230 kg"}, {FormBand{From: "320"}, "Over 320 kg"}, {FormBand{To: "230"}, "Edges not typed yet"},
	} {
		if got := c.band.Words(); got != c.want {
			t.Errorf("%+v: got %q, want %q", c.band, got, c.want)
		}
	}
}

func TestDoubts(t *testing.T) {
	m := New(newDevice())
	typed(m) // the highest band with hours begins at 230, the peak is 241
	for _, c := range []struct{ peak, want string }{
		{"241", ""}, {"230", ""}, {"", ""}, {"x", ""},
		{"229", "The peak, 229 kg, lies below 230 kg, where the highest band with hours begins."},
	} {
		m.Form.Readings[0].Peak = c.peak
		if got := m.Form.Doubts(0); got != c.want {
			t.Errorf("peak %q: got %q, want %q", c.peak, got, c.want)
		}
	}
	m.Form.Readings[0].Bands[2].Hours = "0"
	if got := m.Form.Doubts(0); got != "" {
		t.Errorf("got %q, want nothing: the band above the peak is empty", got)
	}
	m.AddReading()
	m.Type(FieldOf(OfReading, "powered_h", 1, 0), "3")
	m.Type(FieldOf(OfBand, "hours", 1, 0), "1")
	if got, want := m.Form.Doubts(1), "Powered hours: less than last time. Band 1, hours: less than last time."; got != want {
		t.Errorf("got %q, want %q", got, want)
	}
}

// A machine is read again: the form has a further reading, dated now, and the
// cursor is where typing goes on. A second press uses the blank one again.
func TestReadAgain(t *testing.T) {
	m, d := opened(t, lashed())
	n := len(m.Case().Group.Case.Readings)
	now := time.Date(2026, 11, 25, 14, 2, 31, 0, time.FixedZone("", 3600))
	m.ReadAgain(now)
	r := m.Form.Readings[len(m.Form.Readings)-1]
	if len(m.Form.Readings) != n+1 || r.At != "2026-11-25T13:02" || !r.Folded || len(r.Bands) != 7 || r.Bands[0].Hours != "" || r.Bands[0].To != "55" {
		t.Errorf("got %d readings, the last %+v", len(m.Form.Readings), r)
	}
	if got := d.shown[len(d.shown)-1]; got != "r7-powered" {
		t.Errorf("got the focus on %q, want r7-powered", got)
	}
	m.GoSheet()
	m.ReadAgain(now.Add(time.Hour))
	if got := m.Form.Readings[len(m.Form.Readings)-1].At; len(m.Form.Readings) != n+1 || got != "2026-11-25T14:02" {
		t.Errorf("got %d readings, the last at %s, want the blank one used again", len(m.Form.Readings), got)
	}
	New(newDevice()).ReadAgain(now) // nothing on the sheet: nothing happens
}

// What is typed of custody, alarms and daily use comes into the case, and a case
// with them that is shown and finished unchanged is the same case.
func TestLists(t *testing.T) {
	m := New(newDevice())
	typed(m)
	for _, c := range []struct {
		part  Part
		cells map[string]string
	}{
		{OfCustody, map[string]string{"holder": "hire", "from": "2026-03-01T06:00", "to": "2026-03-04T18:30", "who": "invented hirer", "note": "a note"}},
		{OfCustody, map[string]string{"holder": "transit", "to": "2026-03-05T09:00:30"}},
		{OfEvent, map[string]string{"kind": "overload_alarm", "at": "2026-03-02T08:10", "load_kg": "262,5"}},
		{OfDay, map[string]string{"date": "2026-03-02", "powered_h": "7,5", "moving_h": "2"}},
	} {
		m.AddLine(c.part)
		for name, text := range c.cells {
			m.Type(FieldOf(c.part, name, m.Form.Lines(c.part, 0)-1, 0), text)
		}
	}
	m.AddLine(OfEvent) // a line that was not used
	m.Finish()
	if m.Page != Sheet {
		t.Fatalf("got problems %v", m.Form.Problems)
	}
	c := m.Case().Group.Case
	if len(c.Custody) != 2 || len(c.Events) != 1 || len(c.Daily) != 1 {
		t.Fatalf("got %+v, want two lines of custody, one event, one day", c)
	}
	if u := c.Custody[1]; u.Holder != record.Transit || !u.From.Equal(c.Custody[0].To) || u.To.Second() != 30 || c.Custody[0].Note != "a note" {
		t.Errorf("got %+v, want a trip from the end of the hire on", u)
	}
	if e, d := c.Events[0], c.Daily[0]; *e.Load != 262.5 || *d.Powered != 7.5 || d.Date.String() != "2026-03-02" {
		t.Errorf("got %+v and %+v", e, d)
	}
	m.Correct()
	again := m.Form.Case()
	if f, g := FormOf(c), FormOf(again); f.text() != g.text() || len(m.Form.Problems) > 0 {
		t.Errorf("got %s, want %s", g.text(), f.text())
	}
}

func TestProblemsOfLists(t *testing.T) {
	for _, c := range []struct {
		name string
		part Part
		line FormLine
		at   record.Path // of the only problem; empty for none
	}{
		{"no holder", OfCustody, FormLine{"", "2026-03-01T06:00"}, "custody/1/holder"},
		{"a time that is none", OfCustody, FormLine{"hire", "yesterday"}, "custody/1/from"},
		{"without times", OfCustody, FormLine{"hire"}, ""},
		{"an unknown holder", OfCustody, FormLine{"garage", "2026-03-01", "2026-03-02"}, ""},
		{"no kind of event", OfEvent, FormLine{"", "2026-03-01T06:00"}, "events/1/kind"},
		{"no time of event", OfEvent, FormLine{"tilt_alarm"}, "events/1/at"},
		{"a load that is none", OfEvent, FormLine{"tilt_alarm", "2026-03-01T06:00", "1,234"}, "events/1/load_kg"},
		{"no day", OfDay, FormLine{"", "3"}, "daily/1/date"},
		{"a day that is none", OfDay, FormLine{"2026-02-30", "3"}, "daily/1/date"},
		{"a blank line", OfDay, FormLine{}, ""},
	} {
		m := New(newDevice())
		typed(m)
		m.AddLine(c.part)
		(*m.Form.list(c.part))[0] = c.line
		m.FoldList(c.part)
		m.Finish()
		switch {
		case c.at == "" && m.Page != Sheet:
			t.Errorf("%s: got problems %v, want none", c.name, m.Form.Problems)
		case c.at != "" && (len(m.Form.Problems) != 1 || m.Form.Problem(c.at) == "" || !m.Form.ListOpen(c.part)):
			t.Errorf("%s: got problems %v, open %v, want one at %s, laid open", c.name, m.Form.Problems, m.Form.ListOpen(c.part), c.at)
		}
	}
}

func TestCustodyDoubts(t *testing.T) {
	m := New(newDevice())
	m.TypeNew()
	m.Form.Custody = []FormLine{
		{"hire", "2026-03-01T06:00", "2026-03-04T18:00"}, {"transit", "2026-03-04T17:00", "2026-03-05T06:00"},
		{"depot", "2026-03-06T06:00", "2026-03-06T06:00"}, {"hire", "2026-03-07T06:00"}, {"depot", "2026-03-08", "2026-03-09"}, {},
	}
	for i, want := range []string{"overlaps line 2", "overlaps line 1", "does not come after", "without both times", "", ""} {
		got, doubt := m.Form.Hint(FieldOf(OfCustody, "to", i, 0), nil)
		if !strings.Contains(got, want) || doubt != (want != "") || want == "" && got != "" {
			t.Errorf("line %d: got %q, want %q", i+1, got, want)
		}
	}
}

// Only the last readings and lines are shown at first; one with a problem is
// laid open and stays open while it is mended.
func TestFolds(t *testing.T) {
	m, _ := opened(t, lashed())
	m.Correct()
	f := &m.Form
	for i := range f.Readings {
		if want := i >= len(f.Readings)-2; f.Open(i) != want {
			t.Errorf("reading %d: got open %v, want %v", i+1, f.Open(i), want)
		}
	}
	if got, want := f.FoldLine(0), "2024-08-12 07:30 UTC, 245.4 powered hours, 245.4 h in bands, peak 204 kg"; got != want {
		t.Errorf("got %q, want %q", got, want)
	}
	if got := f.ShownFrom(OfCustody); got != len(f.Custody)-pageOfLines {
		t.Errorf("got custody shown from line %d of %d", got, len(f.Custody))
	}
	f.Readings[1].Peak = "high"
	f.Custody[0][1] = "some day"
	m.Finish()
	if !f.Open(1) || f.ShownFrom(OfCustody) > 0 {
		t.Error("got the problems folded away, want them laid open")
	}
	m.Type(FieldOf(OfReading, "peak_kg", 1, 0), "217")
	if !f.Open(1) {
		t.Error("got the reading folded as it was mended, want it to stay open")
	}
	m.Fold(1)
	if f.Open(1) {
		t.Error("got it open, want it folded")
	}
}

// What is in a choice and is not known stays, whatever it is.
func TestChoicesKeepWhatTheyHold(t *testing.T) {
	f := EmptyForm()
	f.Custody = []FormLine{{"garage"}, {"hire"}, {""}}
	for i, want := range []struct {
		n     int
		first Choice
	}{{5, Choice{"garage", "garage (not known here)"}}, {4, Choice{"hire", "On hire"}}, {5, Choice{"", "Choose"}}} {
		got := FieldOf(OfCustody, "holder", i, 0).Input(&Model{Form: f}).Choices
		if len(got) != want.n || got[0] != want.first {
			t.Errorf("got %v, want %d, the first %v", got, want.n, want.first)
		}
	}
	if got := FieldOf(OfMachine, "kind", 0, 0).Input(&Model{Form: f}).Choices; len(got) != 4 {
		t.Errorf("got %v, want boom, scissor, mast and other", got)
	}
}
