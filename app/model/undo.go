package model

import (
	"slices"

	"ratchetmark/internal/record"
)

// mostSteps is how many steps can be undone. A step of the form holds all of it,
// some 10 KB for ten readings of twelve bands; one of the sheet holds what is set
// there, some 300 bytes, and shares the parts that it did not change.
const mostSteps = 300

// step is something that was done to the form or on the sheet.
type step struct {
	what        string // words after "Undo: "
	field       string // id of the field that was typed into; empty for all else
	back, forth string // ids of what gets the focus when it is undone and redone
	part        Part   // where in the form it was done, and in which line
	line        int
	edges       bool   // to the edges of a band
	fold        string // what of the sheet it is folded away in
	state       any    // before it, while it is done; after it, while it is undone
}

// undoable is what has a history: the form, or what is set on the sheet.
type undoable interface {
	stands() any            // what stands now; what comes after does not change it
	restore(state any)      // puts back what stood
	isStill(state any) bool // reports whether it is what stands now
}

// history is what was done to something and what was undone again, latest last.
type history struct {
	done, undone []step
	open         string // the field that a further letter joins the last step of
}

// edit changes something so that the change can be undone. A run of changes in
// one field is one step, of which change is told what stood before; what changes
// nothing is none. It returns what stood before the step, and whether it changed.
func (h *history) edit(u undoable, s step, change func(before any)) (before any, changed bool) {
	if s.field == "" || h.open != s.field || len(h.done) == 0 {
		s.state = u.stands()
		h.done = append(h.done, s)
		if len(h.done) > mostSteps {
			h.done = slices.Delete(h.done, 0, len(h.done)-mostSteps)
		}
	}
	last := len(h.done) - 1
	before = h.done[last].state
	change(before)
	if u.isStill(before) {
		h.done, h.open = slices.Delete(h.done, last, last+1), ""
		return before, false
	}
	h.undone, h.open = nil, s.field
	return before, true
}

// turn exchanges what stands with the state of the latest step of one list, which
// goes to the other; ok is false where there is none.
func (h *history) turn(u undoable, from, to *[]step) (s step, ok bool) {
	last := len(*from) - 1
	if last < 0 {
		return s, false
	}
	s = (*from)[last]
	*from = slices.Delete(*from, last, last+1)
	was := s.state
	s.state = u.stands()
	u.restore(was)
	*to = append(*to, s)
	h.open = ""
	return s, true
}

func latest(steps []step) string {
	if len(steps) == 0 {
		return ""
	}
	return steps[len(steps)-1].what
}

// past returns the form's history.
func (f *Form) past() *history {
	if f.history == nil {
		f.history = &history{}
	}
	return f.history
}

// edit changes the form so that the change can be undone.
func (m *Model) edit(s step, change func()) {
	m.Form.past().edit(&m.Form, s, func(any) { change() })
	m.Changed()
}

// here returns the history of what is shown: of the form while it is, else of the
// machine on the sheet. Both are nil without either.
func (m *Model) here() (*history, undoable) {
	if m.Page == Typing {
		return m.Form.past(), &m.Form
	}
	if o := m.Case(); o != nil {
		return o.past(), o
	}
	return nil, nil
}

// Undo takes the last step back: of the form while it is shown, else of the sheet.
func (m *Model) Undo() {
	if h, u := m.here(); h != nil {
		if s, ok := h.turn(u, &h.done, &h.undone); ok {
			m.turned(s, s.back, "Undone: ")
		}
	}
}

// Redo does again what was undone last.
func (m *Model) Redo() {
	if h, u := m.here(); h != nil {
		if s, ok := h.turn(u, &h.undone, &h.done); ok {
			m.turned(s, s.forth, "Done again: ")
		}
	}
}

// turned lays open what a step has changed, keeps it and leads there.
func (m *Model) turned(s step, focus, said string) {
	if m.Page == Typing {
		m.Form.reveal(s.part, s.line, s.edges)
		m.Changed()
	} else {
		m.reveal(s.fold)
		m.settled(m.Case())
	}
	m.spoken = said + s.what + "."
	m.host.Show(focus)
}

// Undoes says what [Model.Undo] takes back; empty when there is nothing.
func (m *Model) Undoes() string {
	if m.Page == Typing {
		return m.Form.Undoes()
	}
	if o := m.Case(); o != nil {
		return latest(o.past().done)
	}
	return ""
}

// Redoes says what [Model.Redo] does again; empty when there is nothing.
func (m *Model) Redoes() string {
	if m.Page == Typing {
		return m.Form.Redoes()
	}
	if o := m.Case(); o != nil {
		return latest(o.past().undone)
	}
	return ""
}

// Undoes says what can be taken back of the form; empty when there is nothing.
func (f *Form) Undoes() string { return latest(f.past().done) }

// Redoes says what can be done again of the form; empty when there is nothing.
func (f *Form) Redoes() string { return latest(f.past().undone) }

func (f *Form) stands() any { return f.Entries.clone() }

func (f *Form) restore(state any) { f.Entries = state.(Entries) }

func (f *Form) isStill(state any) bool { return same(state.(Entries), f.Entries) }

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
