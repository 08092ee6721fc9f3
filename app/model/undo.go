package model

import (
	"slices"

	"ratchetmark/internal/record"
)

// mostSteps is how many steps can be undone. A step holds the whole form, some
// 10 KB for ten readings of twelve bands.
const mostSteps = 300

// step is something that was done to the form.
type step struct {
	what        string // words after "Undo: "
	field       string // id of the field that was typed into; empty for all else
	back, forth string // ids of what gets the focus when it is undone and redone
	part        Part   // where it was done, and in which line
	line        int
	edges       bool    // to the edges of a band
	entries     Entries // before it, while it is done; after it, while it is undone
}

// history is what was done to a form and what was undone again, latest last.
type history struct {
	done, undone []step
	open         string // the field that a further letter joins the last step of
}

// past returns the form's history.
func (f *Form) past() *history {
	if f.history == nil {
		f.history = &history{}
	}
	return f.history
}

// edit changes the form so that the change can be undone. A run of changes in
// one field is one step; what changes nothing is none.
func (m *Model) edit(s step, change func()) {
	h := m.Form.past()
	joins := s.field != "" && h.open == s.field && len(h.done) > 0
	if !joins {
		s.entries = m.Form.Entries.clone()
		h.done = append(h.done, s)
		if len(h.done) > mostSteps {
			h.done = slices.Delete(h.done, 0, len(h.done)-mostSteps)
		}
	}
	change()
	last := len(h.done) - 1
	if same(h.done[last].entries, m.Form.Entries) {
		h.done, h.open = h.done[:last], ""
	} else {
		h.undone, h.open = nil, s.field
	}
	m.Changed()
}

// Undo takes the last step back.
func (m *Model) Undo() {
	h := m.Form.past()
	m.turn(&h.done, &h.undone, func(s step) string { return s.back })
}

// Redo does again what was undone last.
func (m *Model) Redo() {
	h := m.Form.past()
	m.turn(&h.undone, &h.done, func(s step) string { return s.forth })
}

// turn exchanges the form with that of the latest step of one list, which goes
// to the other.
func (m *Model) turn(from, to *[]step, focus func(step) string) {
	n := len(*from)
	if n == 0 {
		return
	}
	s := (*from)[n-1]
	*from = (*from)[:n-1]
	s.entries, m.Form.Entries = m.Form.Entries, s.entries
	*to = append(*to, s)
	m.Form.history.open = ""
	m.Form.reveal(s.part, s.line, s.edges)
	m.Changed()
	m.host.Show(focus(s))
}

// Undoes says what [Model.Undo] takes back; empty when there is nothing.
func (f *Form) Undoes() string { return latest(f.past().done) }

// Redoes says what [Model.Redo] does again; empty when there is nothing.
func (f *Form) Redoes() string { return latest(f.past().undone) }

func latest(steps []step) string {
	if len(steps) == 0 {
		return ""
	}
	return steps[len(steps)-1].what
}

// clone copies the entries so that neither copy sees changes of the other.
func (e Entries) clone() Entries {
	e.Readings = slices.Clone(e.Readings)
	for i := range e.Readings {
		e.Readings[i].Bands = slices.Clone(e.Readings[i].Bands)
	}
	e.Custody, e.Events, e.Daily = slices.Clone(e.Custody), slices.Clone(e.Events), slices.Clone(e.Daily)
	e.Checks, e.TieDowns = slices.Clone(e.Checks), slices.Clone(e.TieDowns)
	return e
}

// same reports whether the same stands in two forms, whatever is folded.
func same(a, b Entries) bool {
	if a.Plate != b.Plate || len(a.Readings) != len(b.Readings) {
		return false
	}
	for i := range a.Readings {
		if x, y := &a.Readings[i], &b.Readings[i]; x.Counters != y.Counters || !slices.Equal(x.Bands, y.Bands) {
			return false
		}
	}
	return slices.Equal(a.Custody, b.Custody) && slices.Equal(a.Events, b.Events) && slices.Equal(a.Daily, b.Daily) &&
		slices.Equal(a.Checks, b.Checks) && slices.Equal(a.TieDowns, b.TieDowns)
}

// finished is the history of a form that became a machine on the sheet, with
// the text of a form filled from that machine then.
type finished struct {
	history *history
	text    string
}

// finish returns what is to be kept of a form that became a case.
func (f *Form) finish(c record.Case) finished {
	again := FormOf(c)
	return finished{f.history, again.text()}
}

// goOn takes up the history of a finished form, unless the machine was changed
// in another way since: undoing would take that away too.
func (f *Form) goOn(p finished) {
	if p.history != nil && f.text() == p.text {
		f.history = p.history
		f.history.open = ""
	}
}
