package model

import (
	"slices"
	"strings"
	"testing"

	"ratchetmark/internal/cause"
	"ratchetmark/internal/record"
)

// addFilled types the cells of a new line of a list.
func addFilled(m *Model, part Part, cells map[string]string) {
	m.AddLine(part)
	line := m.Form.Lines(part, 0) - 1
	for name, text := range cells {
		m.Type(FieldOf(part, name, line, 0), text)
	}
}

// A zero check, a known mass and a tie-down that are typed are read, weighed,
// kept, undone and done again, and a case read from a file fills the form alike.
func TestToldIsTyped(t *testing.T) {
	m, d := opened(t, lashed())
	before := len(reasons(m))
	m.Correct()
	addFilled(m, OfCheck, map[string]string{"kind": "zero", "shown_kg": "-2,5", "at": "2025-06-12T07:00", "by": "fitter A"})
	addFilled(m, OfCheck, map[string]string{"kind": "known_mass", "mass_kg": "150", "shown_kg": "151", "at": "2025-06-12T07:10", "note": "n"})
	addFilled(m, OfTieDown, map[string]string{"over_platform": "no", "how": "photo", "at": "2025-06-11T07:00", "note": "m"})
	addFilled(m, OfTieDown, nil) // a line that was not used
	undone := m.Form.Undoes()
	m.Undo()
	m.Undo()
	m.Redo()
	m.Redo()
	if m.Form.Undoes() != undone || m.Form.Lines(OfTieDown, 0) != 2 {
		t.Errorf("got %d tie-downs and %q to undo, want them as they were", m.Form.Lines(OfTieDown, 0), m.Form.Undoes())
	}
	again := reopened(t, d) // while it is typed
	if again.Correct(); again.Form.text() != m.Form.text() {
		t.Errorf("got %s, want %s", again.Form.text(), m.Form.text())
	}
	m.Finish()
	if m.Page != Sheet {
		t.Fatalf("got problems %v, want the sheet", m.Form.Problems)
	}
	c := m.Case().Group.Case
	if len(c.Checks) != 2 || len(c.TieDowns) != 1 || *c.Checks[0].Shown != -2.5 || c.Checks[0].Mass != nil || c.Checks[0].By != "fitter A" ||
		*c.Checks[1].Mass != 150 || c.Checks[1].Note != "n" || *c.TieDowns[0].Over || c.TieDowns[0].How != record.Pictured || c.TieDowns[0].Note != "m" {
		t.Fatalf("got %+v and %+v, want what was typed", c.Checks, c.TieDowns)
	}
	got := reasons(m)
	for _, id := range []string{"zero-check", "known-mass", "tie-down"} {
		if !slices.Contains(got, id) {
			t.Errorf("got reasons %q, want %s among them", got, id)
		}
	}
	if len(got) != before+3 || len(m.Case().Dossier.Noted) != 3 {
		t.Errorf("got %d reasons and %q, want three more and three sentences", len(got), m.Case().Dossier.Noted)
	}
	if again := reopened(t, d); result(t, &again.Case().Dossier) != result(t, &m.Case().Dossier) {
		t.Error("got another result of what was kept, want the same")
	}
	m.Correct()
	if f := FormOf(c); f.text() != m.Form.text() {
		t.Errorf("got %s, want %s", m.Form.text(), f.text())
	}
	m.RemoveLine(OfCheck, 0)
	m.Finish()
	if got := m.Case().Group.Case.Checks; len(got) != 1 || got[0].Kind != record.MassCheck {
		t.Errorf("got %+v, want the first removed", got)
	}
}

// reasons lists the evidence of the first piece.
func reasons(m *Model) (out []string) {
	for _, r := range m.Case().Dossier.Exceedances[0].Reasons {
		out = append(out, r.ID)
	}
	return out
}

func TestProblemsOfTold(t *testing.T) {
	for _, c := range []struct {
		name string
		part Part
		line FormLine
		at   record.Path // of the only problem; empty for none
	}{
		{"nothing on the platform", OfCheck, FormLine{"zero", "2026-03-02T08:10", "0"}, ""},
		{"a zero check that names 0 kg", OfCheck, FormLine{"zero", "2026-03-02T08:10", "0", "0"}, ""},
		{"not said what was on it", OfCheck, FormLine{"", "2026-03-02T08:10", "0"}, "checks/1/kind"},
		{"no time", OfCheck, FormLine{"zero", "", "0"}, "checks/1/at"},
		{"nothing shown", OfCheck, FormLine{"zero", "2026-03-02T08:10", " "}, "checks/1/shown_kg"},
		{"shown two ways", OfCheck, FormLine{"zero", "2026-03-02T08:10", "1,234"}, "checks/1/shown_kg"},
		{"no mass", OfCheck, FormLine{"known_mass", "2026-03-02T08:10", "148"}, "checks/1/mass_kg"},
		{"nothing on it and a mass", OfCheck, FormLine{"zero", "2026-03-02T08:10", "148", "150"}, "checks/1/mass_kg"},
		{"a check that is not known", OfCheck, FormLine{"span", "2026-03-02T08:10", "148", "150"}, ""},
		{"a tie-down", OfTieDown, FormLine{"yes", "told", "2026-03-02T08:10"}, ""},
		{"neither yes nor no", OfTieDown, FormLine{"", "told", "2026-03-02T08:10"}, "tie_downs/1/over_platform"},
		{"not said how it is known", OfTieDown, FormLine{"no", "", "2026-03-02T08:10"}, "tie_downs/1/how"},
		{"on no day", OfTieDown, FormLine{"no", "seen", ""}, "tie_downs/1/at"},
		{"a blank line", OfTieDown, FormLine{}, ""},
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

// What is asked for leads to a line for it: a new one, or the blank one that
// stands there already; what is no list leads to the form.
func TestEnterWhatIsAskedFor(t *testing.T) {
	m, d := opened(t, lashed())
	for range 2 {
		m.Enter(OfCheck)
		if m.Page != Typing || m.Form.Lines(OfCheck, 0) != 1 || !m.Form.ListOpen(OfCheck) || d.shown[len(d.shown)-1] != "k1-kind" {
			t.Fatalf("got page %d, %d lines, shown %q, want one open line", m.Page, m.Form.Lines(OfCheck, 0), d.shown)
		}
		m.GoSheet()
	}
	m.Enter(Part(cause.WantsTieDowns))
	if d.shown[len(d.shown)-1] != "t1-over" || m.Form.Lines(OfCheck, 0) != 1 {
		t.Errorf("got %q shown, want the first field of the tie-down", d.shown)
	}
	m.GoSheet()
	m.Enter(Part(cause.WantsReadings))
	if m.Page != Typing || d.shown[len(d.shown)-1] != "typing" {
		t.Errorf("got %q shown, want the form", d.shown)
	}
	for _, w := range []cause.Wants{cause.WantsChecks, cause.WantsTieDowns, cause.WantsCustody, cause.WantsEvents, cause.WantsDaily} {
		if !slices.Contains(Lists, Part(w)) {
			t.Errorf("got no list %s, want one to enter it in", w)
		}
	}
}

// A draft that was kept before there were such lists opens as it was.
func TestDraftWithoutTold(t *testing.T) {
	d := newDevice()
	m := New(d)
	typed(m)
	addFilled(m, OfCustody, map[string]string{"holder": "hire", "from": "2026-03-01T06:00", "to": "2026-03-04T18:30"})
	for key, k := range d.cases {
		if !strings.Contains(k.body, `"2026-03-04T18:30","","",""]`) {
			t.Fatalf("got %s, want custody with six cells", k.body)
		}
		k.body = strings.Replace(k.body, `"2026-03-04T18:30","","",""]`, `"2026-03-04T18:30","",""]`, 1)
		d.cases[key] = k
	}
	again := reopened(t, d)
	if again.Page != Typing || again.Form.text() != m.Form.text() {
		t.Errorf("got %s, want %s", again.Form.text(), m.Form.text())
	}
}
