package model

import (
	"bytes"
	"strings"
	"testing"

	"ratchetmark/internal/dossier"
	"ratchetmark/internal/record"
)

// typed fills the form with a small reading.
func typed(m *Model) {
	m.TypeNew()
	f := &m.Form
	f.ID, f.Rated, f.Persons = "T-1", "230", "2"
	r := &f.Readings[0]
	r.Powered, r.Peak = "20,5", "241"
	r.Bands = []FormBand{{"0", "90", "12"}, {"90", "230", "8.4"}, {"230", "", "0,1"}}
	m.Changed()
}

func TestTypingLeadsToTheSheet(t *testing.T) {
	d := newDevice()
	m := New(d)
	typed(m)
	if sum, ok := m.Sum(0); !ok || sum < 20.49 || sum > 20.51 {
		t.Errorf("got a sum of %v, want 20.5", sum)
	}
	m.Finish()
	if m.Page != Sheet {
		t.Fatalf("got problems %v, want the sheet", m.Form.Problems)
	}
	c := m.Case().Dossier.Capacity
	if c.HoursOver[0].Low != 0.1 || c.HoursOver[0].High != 0.1 {
		t.Errorf("got %+v over the rated load, want 0.1 h", c.HoursOver[0])
	}
	if _, ok := m.Draft(); ok || len(d.cases) != 1 {
		t.Errorf("got %d entries, want the machine in the place of its draft", len(d.cases))
	}
}

func TestProblemsStandInTheWay(t *testing.T) {
	for _, c := range []struct {
		name string
		path record.Path
		edit func(f *Form)
	}{
		{"no rated load", "machine/rated_load_kg", func(f *Form) { f.Rated = "" }},
		{"an ambiguous number", "readings/1/powered_h", func(f *Form) { f.Readings[0].Powered = "1,234" }},
		{"text for a number", "readings/1/peak_kg", func(f *Form) { f.Readings[0].Peak = "high" }},
		{"a band without hours", "readings/1/bands/2/hours", func(f *Form) { f.Readings[0].Bands[1].Hours = "" }},
		{"a band without a lower edge", "readings/1/bands/2/from_kg", func(f *Form) { f.Readings[0].Bands[1].From = "" }},
		{"half a person", "machine/persons", func(f *Form) { f.Persons = "1.5" }},
		{"neither bands nor a peak", "readings/1/peak_kg", func(f *Form) { f.Readings[0] = FormReading{} }},
		{"a bad date", "machine/in_service", func(f *Form) { f.InService = "2026-02-30" }},
	} {
		t.Run(c.name, func(t *testing.T) {
			m := New(newDevice())
			typed(m)
			c.edit(&m.Form)
			m.Finish()
			if m.Page != Typing || len(m.Form.Problems) != 1 || m.Form.Problem(c.path) == "" {
				t.Errorf("got page %d, problems %v, want one at %s", m.Page, m.Form.Problems, c.path)
			}
		})
	}
}

func TestBandsFollowEachOther(t *testing.T) {
	m := New(newDevice())
	typed(m)
	bands := func() []FormBand { return m.Form.Readings[0].Bands }
	m.SetEdge(0, 0, "100")
	if bands()[1].From != "100" {
		t.Errorf("got %q, want the band above to begin at 100", bands()[1].From)
	}
	m.SplitBand(0, 1)
	if len(bands()) != 4 || bands()[1].Hours != "8.4" || bands()[2] != (FormBand{To: "230"}) {
		t.Errorf("got %v, want the second band split, its hours below", bands())
	}
	m.SetEdge(0, 1, "160")
	if bands()[2].From != "160" {
		t.Errorf("got %q, want the upper part to begin at 160", bands()[2].From)
	}
	m.RemoveBand(0, 2)
	if len(bands()) != 3 || bands()[2].From != "160" {
		t.Errorf("got %v, want the band above to begin where the removed one did", bands())
	}
	m.AddBand(0)
	if n := len(bands()); n != 4 {
		t.Errorf("got %d bands, want 4", n)
	}
	m.AddReading()
	second := m.Form.Readings[1].Bands
	if len(second) != 4 || second[0] != (FormBand{From: "0", To: "100"}) {
		t.Errorf("got %v, want the same edges without hours", second)
	}
	m.RemoveReading(1)
	m.RemoveReading(0)
	if len(m.Form.Readings) != 1 {
		t.Error("the last reading was removed")
	}
}

// What was typed is there again after the app was left without warning.
func TestTheDraftIsKept(t *testing.T) {
	d := newDevice()
	typed(New(d))
	again := New(d.page())
	again.TypeNew()
	if again.Form.ID != "T-1" || again.Form.Readings[0].Bands[1].Hours != "8.4" {
		t.Errorf("got %+v, want what was typed", again.Form)
	}
	again.TypeAfresh()
	if !again.Form.Blank() {
		t.Error("beginning afresh kept the old draft")
	}
}

// A case that is shown in the form and finished unchanged gives the same
// figures; what the form does not show stays with the case.
func TestCorrectingNothingChangesNothing(t *testing.T) {
	m, _ := opened(t, lashed())
	before, custody, handover := result(t, &m.Case().Dossier), len(m.Case().Group.Case.Custody), m.Case().Dossier.Answers.Handover
	m.Correct()
	m.Finish()
	if m.Page != Sheet || len(m.Case().Group.Case.Custody) != custody {
		t.Fatalf("got problems %v, custody %d of %d", m.Form.Problems, len(m.Case().Group.Case.Custody), custody)
	}
	if !m.Case().Changed {
		t.Error("the change by hand is not noted")
	}
	d := m.Case().Dossier
	if !strings.Contains(d.Answers.Handover, "changes made by hand") {
		t.Errorf("got %q, want it to say that the file alone does not give this", d.Answers.Handover)
	}
	d.Findings = d.Findings[:len(d.Findings)-1] // the note that it was changed by hand
	d.Answers.Handover = handover
	if after := result(t, &d); after != before {
		t.Errorf("got %s, want %s", after, before)
	}
}

func result(t *testing.T, d *dossier.Dossier) string {
	t.Helper()
	var b bytes.Buffer
	if err := dossier.WriteJSON(&b, d); err != nil {
		t.Fatal(err)
	}
	return b.String()
}
