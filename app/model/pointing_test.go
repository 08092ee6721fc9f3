package model

import (
	"strings"
	"testing"

	"ratchetmark/internal/batch"
	"ratchetmark/internal/record"
	"ratchetmark/internal/wording"
)

func text(name, data string) File {
	return File{Name: name, Size: int64(len(data)), Data: []byte(data)}
}

// Headings that no one knows, and values that can be read two ways.
const (
	riddles = "alpha;beta;gamma;delta\nT-9;0;90;12\nT-9;90;;3\n"
	twoWays = "machine;from_kg;to_kg;hours\nT-9;0;90;1,234\nT-9;90;;2,345\n"
)

func pointing(t *testing.T, f File) (*Model, *device) {
	t.Helper()
	d := newDevice()
	m := New(d)
	m.Open([]File{f})
	if m.Page != Pointed || m.Pointing == nil {
		t.Fatalf("got page %d and notices %v, want the page to point things out", m.Page, m.Notices)
	}
	return m, d
}

// pointAll says what the columns of riddles are.
func pointAll(m *Model) {
	for i, f := range []string{"machine", "from_kg", "to_kg", "hours"} {
		m.PointColumn(i, func(c *batch.Column) { c.Field = FieldChoices[fieldIndex(f)].Field })
	}
}

func fieldIndex(name string) int {
	for i, c := range FieldChoices {
		if string(c.Field) == name {
			return i
		}
	}
	return 0
}

func TestColumnsArePointedOut(t *testing.T) {
	m, d := pointing(t, text("riddles.csv", riddles))
	if m.Pointing.NowErr == nil {
		t.Error("got it read before anything was pointed out")
	}
	m.TakePointed()
	if m.Page != Pointed {
		t.Fatal("got a file taken that cannot be read")
	}
	pointAll(m)
	if err := m.Pointing.NowErr; err != nil {
		t.Fatalf("got %v, want it read", err)
	}
	if got := m.Pointing.Now.Records[0].Case.Readings[0].Bands; len(got) != 2 || got[1].Hours != 3 {
		t.Errorf("got %v in the preview, want two bands", got)
	}
	m.TakePointed()
	if m.Page != Sheet || m.Case().Dossier.Machine.ID != "T-9" {
		t.Fatalf("got page %d, want the sheet of T-9", m.Page)
	}
	if !strings.Contains(m.Case().Dossier.Answers.Handover, "guide") {
		t.Errorf("got %q, want it to name the guide", m.Case().Dossier.Answers.Handover)
	}

	// Another file with the same headings is read at once, in a later session too.
	again := New(d.page())
	again.Open([]File{text("more.csv", strings.ReplaceAll(riddles, "T-9", "T-8"))})
	if again.Page != Sheet || again.Case().Dossier.Machine.ID != "T-8" {
		t.Errorf("got page %d, want the sheet: the guide is kept on the device", again.Page)
	}
}

func TestQuestionsAreAsked(t *testing.T) {
	m, _ := pointing(t, text("two.csv", twoWays))
	q := m.Pointing.Batch.Questions
	if len(q) != 1 || q[0].Kind != batch.AskDecimal || len(q[0].Values) != 2 || q[0].Choices[1].Means != "1.234" {
		t.Fatalf("got %+v, want one question about the decimals with both values", q)
	}
	m.Answer(q[0], "comma")
	if m.Pointing.Answered(q[0]) != "comma" || m.Pointing.NowErr != nil || len(m.Pointing.Now.Questions) != 0 {
		t.Fatalf("got %+v, want it answered", m.Pointing.Now.Questions)
	}
	m.TakePointed()
	if got := m.Case().Group.Case.Readings[0].Bands[0].Hours; got != 1.234 {
		t.Errorf("got %v h, want 1.234", got)
	}
}

// Left open, what can be read is on the sheet, and the rest is missing.
func TestLeavingItOpen(t *testing.T) {
	m, _ := pointing(t, text("two.csv", twoWays))
	m.LeavePointed()
	if m.Page != Sheet || m.Case().Group.Case.Readings[0].Bands != nil || !record.Blocks(m.Case().Dossier.Findings) {
		t.Errorf("got page %d, want the sheet with a blocking finding", m.Page)
	}
	m, _ = pointing(t, text("riddles.csv", riddles))
	m.LeavePointed()
	if m.Page != Start || len(m.Notices) != 1 {
		t.Errorf("got page %d and %d notices, want the start page and why", m.Page, len(m.Notices))
	}
}

// Several files wait for each other.
func TestOneAfterTheOther(t *testing.T) {
	d := newDevice()
	m := New(d)
	m.Open([]File{text("a.csv", riddles), lashed(), text("b.csv", twoWays)})
	if m.Page != Pointed || m.Pointing.File.Name != "a.csv" || len(m.Opened) != 1 {
		t.Fatalf("got page %d with %d machines, want a.csv pointed out and one machine read", m.Page, len(m.Opened))
	}
	m.LeavePointed()
	if m.Page != Pointed || m.Pointing.File.Name != "b.csv" {
		t.Fatalf("got page %d, want b.csv next", m.Page)
	}
	m.LeavePointed()
	if m.Page != Sheet || len(m.Opened) != 2 {
		t.Errorf("got page %d with %d machines, want the sheet with two", m.Page, len(m.Opened))
	}
}

// A guide that is saved and opened elsewhere does there what it did here.
func TestGuidesTravel(t *testing.T) {
	m, d := pointing(t, text("riddles.csv", riddles))
	pointAll(m)
	m.SaveGuide()
	saved := d.saved["riddles-csv.guide.json"]
	other := New(newDevice())
	other.Open([]File{text("riddles-csv.guide.json", saved)})
	if len(other.Notices) != 1 || !strings.Contains(other.Notices[0].Title, "guide") {
		t.Fatalf("got notices %v, want one that the guide is kept", other.Notices)
	}
	other.Open([]File{text("riddles.csv", riddles)})
	if other.Page != Sheet || len(other.Case().Group.Case.Readings[0].Bands) != 2 {
		t.Errorf("got page %d, want the sheet", other.Page)
	}
}

// The row of the headings can be moved, and a table may have none.
func TestHeadingRow(t *testing.T) {
	m, _ := pointing(t, text("bare.csv", "T-9;0;90;12\nT-9;90;;3\n"))
	m.PointHeading(0, true)
	pointAll(m)
	if err := m.Pointing.NowErr; err != nil {
		t.Fatalf("got %v, want it read", err)
	}
	if got := m.Pointing.Now.Records[0].Case.Readings[0].Bands; len(got) != 2 || got[0].Hours != 12 {
		t.Errorf("got %v, want both rows taken", got)
	}
}

// A zone that is pointed out moves the times that name none.
func TestZoneIsPointedOut(t *testing.T) {
	m, _ := pointing(t, text("two.csv", "machine;reading_at;from_kg;to_kg;hours\nT-9;2026-03-02 08:10;0;90;1,234\nT-9;2026-03-02 08:10;90;;2,345\n"))
	m.PointZone("+02:00")
	m.Answer(m.Pointing.Batch.Questions[0], "comma")
	if got := m.Pointing.Guide().Zone; got != "+02:00" || m.Pointing.NowErr != nil {
		t.Fatalf("got the zone %q, %v, want +02:00", got, m.Pointing.NowErr)
	}
	m.TakePointed()
	if got := m.Case().Group.Case.Readings[0].At.Format("15:04Z07:00"); got != "06:10Z" {
		t.Errorf("got %s, want 06:10Z", got)
	}
}

// Hours under one edge each are asked about, and read as is answered.
func TestCountsAreAsked(t *testing.T) {
	m, _ := pointing(t, text("over.csv", "machine;rated_load_kg;Hours over 0 kg;Hours over 230 kg\nT-9;230;12;3\n"))
	q := m.Pointing.Batch.Questions
	if len(q) != 1 || q[0].Kind != batch.AskCounts || q[0].Choices[1].Means != "0-230 kg: 9 h" {
		t.Fatalf("got %+v, want one question about the hours", q)
	}
	m.Answer(q[0], "cumulative")
	if m.Pointing.Answered(q[0]) != "cumulative" || len(m.Pointing.Now.Questions) != 0 {
		t.Fatalf("got %+v, want it answered", m.Pointing.Now.Questions)
	}
	m.TakePointed()
	if got := m.Case().Group.Case.Readings[0].Bands; len(got) != 2 || got[0].Hours != 9 || got[1].Hours != 3 {
		t.Errorf("got %v, want 9 and 3 h", got)
	}
}

// A band column without a unit, in a file that names pounds, is pointed out.
func TestUnitIsPointedOut(t *testing.T) {
	m, _ := pointing(t, text("lb.csv", "machine;rated_load_lb;band;hours in band\nT-9;500;0-500;12\nT-9;500;over 500;3\n"))
	m.PointColumn(2, func(c *batch.Column) { c.Unit = wording.Pound })
	m.TakePointed()
	if got := m.Case().Group.Case.Readings[0].Bands; len(got) != 2 || got[1].From != 500*0.45359237 {
		t.Errorf("got %v, want two bands in pounds", got)
	}
}
