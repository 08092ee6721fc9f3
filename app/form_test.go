package app

import (
	"strings"
	"testing"
	"time"

	"ratchetmark/app/model"
)

// again shows the form of a machine that is read again.
func again(t *testing.T) *model.Model {
	t.Helper()
	m := model.New(shelf{"demo"})
	m.Open([]model.File{{Name: "lashed.case.json"}})
	m.ReadAgain(time.Date(2026, 3, 2, 8, 10, 0, 0, time.UTC))
	return m
}

// The form holds what a tablet, a keyboard and a screen reader need.
func TestFormMarkup(t *testing.T) {
	m := again(t)
	m.Type(model.FieldOf(model.OfReading, "powered_h", 6, 0), "3")
	m.Type(model.FieldOf(model.OfReading, "peak_kg", 6, 0), "high")
	m.Finish()
	html := page(t, m)
	for _, want := range []string{
		`enterkeyhint="next"`, `inputmode="numeric"`, `inputmode="decimal"`, `tabindex="-1"`,
		`aria-label="Peak: 5 kg less"`, `aria-label="Powered hours: 0.1 more"`, `aria-label="0 to 55 kg, hours: 0.1 more"`,
		`aria-describedby="r7-powered-hint"`, `aria-describedby="r7-peak-hint r7-peak-problem"`,
		"counters never run backwards", "last time 396.7", `role="status"`, `aria-expanded="false"`,
		"Undo: reading 7, peak", "Who had it", "Alarms and power", "Daily use", "Show earlier lines (15 more)",
		"Boom lift", "Scissor lift", "Mast lift", "Another kind",
	} {
		if !strings.Contains(html, want) {
			t.Errorf("got no %s in the form", want)
		}
	}
	if strings.Contains(html, `id="r1-powered"`) || !strings.Contains(html, "Reading 1: 2024-08-12 07:30 UTC, 245.4 powered hours") {
		t.Error("got the first reading laid open, want it as one line")
	}
}

// No two elements of the form have the same id, folded or laid open.
func TestIDsAreUnique(t *testing.T) {
	m := again(t)
	for i := range m.Form.Readings {
		if !m.Form.Open(i) {
			m.Fold(i)
		}
		m.ShowEdges(i)
	}
	for _, part := range model.Lists {
		m.AddLine(part)
		for m.Form.ShownFrom(part) > 0 {
			m.ShowEarlier(part)
		}
	}
	seen := map[string]bool{}
	for _, piece := range strings.Split(page(t, m), ` id="`)[1:] {
		id, _, _ := strings.Cut(piece, `"`)
		if seen[id] {
			t.Errorf("got the id %s twice", id)
		}
		seen[id] = true
	}
	if len(seen) < 300 {
		t.Errorf("got %d ids, want those of all fields", len(seen))
	}
}
