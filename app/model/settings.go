package model

import (
	"maps"
	"reflect"
	"strings"

	"ratchetmark/internal/record"
)

// settings is all that a person sets on the sheet about a machine, and what they
// typed to set it. Nothing that it points to is ever changed in place.
type settings struct {
	conditions  record.Conditions
	mass        *record.Kilogram
	plan        *record.Plan
	crew        *record.Crew
	thresholds  []record.Kilogram
	structure   *record.Structure
	transport   *record.Transport
	assumptions map[string]record.Assumed
	typed       map[string]TypedText

	changed, asked bool // as in [Opened]
}

// TypedText is a text as it was typed into a field of the sheet.
type TypedText struct {
	Text   string
	Why    string `json:",omitempty"` // it cannot be used; empty where it can
	Stands string `json:",omitempty"` // what it was read as, as the field shows it
}

func (o *Opened) stands() any {
	c := &o.Group.Case
	return settings{c.Machine.Conditions, c.Machine.Mass, c.Plan, c.Crew, c.Thresholds, c.Structure, c.Transport, c.Assumptions, o.typed, o.Changed, o.Asked}
}

func (o *Opened) restore(state any) {
	s, c := state.(settings), &o.Group.Case
	c.Machine.Conditions, c.Machine.Mass, c.Plan, c.Crew, c.Thresholds = s.conditions, s.mass, s.plan, s.crew, s.thresholds
	c.Structure, c.Transport, c.Assumptions = s.structure, s.transport, s.assumptions
	o.typed, o.Changed, o.Asked = s.typed, s.changed, s.asked
}

// isStill leaves out the marks that something was changed, and how what can be
// read was written: what was put back by hand is as it was.
func (o *Opened) isStill(state any) bool {
	was, now := state.(settings), o.stands().(settings)
	now.changed, now.asked = was.changed, was.asked
	was.typed, now.typed = unread(was.typed), unread(now.typed)
	return reflect.DeepEqual(was, now)
}

// unread returns the texts that cannot be used; nil where there are none.
func unread(typed map[string]TypedText) map[string]TypedText {
	var out map[string]TypedText
	for id, t := range typed {
		if t.Why == "" {
			continue
		}
		if out == nil {
			out = map[string]TypedText{}
		}
		out[id] = t
	}
	return out
}

// past returns the history of what is set about the machine on the sheet.
func (o *Opened) past() *history {
	if o.history == nil {
		o.history = &history{}
	}
	return o.history
}

// isChanged marks the machine as changed by hand in a way that undoing what was
// set on the sheet does not take back.
func (o *Opened) isChanged() {
	o.Changed = !o.Typed
	for _, steps := range [][]step{o.past().done, o.past().undone} {
		for i := range steps {
			s := steps[i].state.(settings)
			s.changed = o.Changed
			steps[i].state = s
		}
	}
}

// set changes what is set about a machine on the sheet, so that it can be undone.
func (m *Model) set(o *Opened, s step, change func(before any)) {
	if before, changed := o.past().edit(o, s, change); !changed {
		was := before.(settings)
		o.Changed, o.Asked = was.changed, was.asked
	}
	m.settled(o)
}

// settled makes the dossier anew after what is set about a machine has changed,
// and keeps it. A form that corrects the machine must not bring back what was.
func (m *Model) settled(o *Opened) {
	m.spoken = ""
	for _, f := range []*Form{o.draft, &m.Form} {
		if f != nil && f.editing == o {
			f.base = o.Group.Case
		}
	}
	o.assess()
	m.keepCase(o)
}

// fillSheet reads what was typed into a field of the sheet. Each letter is taken
// as if all of it had been typed at once, so that what is typed on the way leaves
// nothing behind.
func (m *Model) fillSheet(o *Opened, x Input, text string) {
	s := step{what: x.undoWords(), field: x.ID, back: x.ID, forth: x.ID, fold: x.fold}
	m.set(o, s, func(before any) {
		now := o.stands()
		o.restore(before)
		var f Form
		x.put(&o.Group.Case, &f, text)
		why := f.Problem("")
		if why != "" && !x.loose {
			o.restore(now)
		} else {
			o.typed = now.(settings).typed
			o.mark(x.aside)
		}
		o.note(x.ID, TypedText{Text: text, Why: why})
	})
	if t := o.typed[x.ID]; t.Why == "" {
		t.Stands = x.stand(o)
		o.note(x.ID, t)
	}
}

// Reset puts the usual value of a field of the sheet back.
func (m *Model) Reset(x Input) {
	o := m.Case()
	if o == nil || x.reset == nil {
		return
	}
	s := step{what: "the usual " + x.undoWords(), back: x.ID, forth: x.ID, fold: x.fold}
	m.set(o, s, func(any) {
		x.reset(&o.Group.Case)
		o.forget(strings.TrimSuffix(x.ID, "value"))
		o.mark(x.aside)
	})
}

// shown finishes fields of the sheet: what stands in them and what is wrong with it.
func (o *Opened) shown(all []Input) []Input {
	for i := range all {
		x := &all[i]
		now := x.stand(o)
		x.Text = now
		if t, ok := o.typed[x.ID]; ok && (t.Why != "" || t.Stands == now) {
			x.Text = t.Text
		}
		if strings.TrimSpace(x.Text) == "" {
			x.Blank = now
		}
		x.Problem = o.problem(*x, x.Text)
		if x.As == AsChoice {
			x.Choices = offered(x.Choices, x.Text)
		}
	}
	return all
}

// problem says what is wrong with a text in a field of the sheet; empty when
// nothing is.
func (o *Opened) problem(x Input, text string) string {
	if why := o.typed[x.ID].Why; why != "" {
		return why
	}
	if o.Dossier.Capacity == nil || x.path == "" {
		return ""
	}
	for _, f := range o.Dossier.Capacity.Asked {
		if f.Path != x.path {
			continue
		}
		if strings.TrimSpace(text) == "" {
			return "still to be typed; expected " + f.Expected
		}
		return f.Message + "; expected " + f.Expected
	}
	return ""
}

// Unread returns how many fields whose ids begin so cannot be read.
func (m *Model) Unread(prefix string) (n int) {
	if o := m.Case(); o != nil {
		for id := range unread(o.typed) {
			if strings.HasPrefix(id, prefix) {
				n++
			}
		}
	}
	return n
}

// undoWords name the field as what is undone.
func (x Input) undoWords() string {
	words := lower(x.Label)
	if x.called != "" {
		words = x.called
	}
	if x.of == "" {
		return words
	}
	return words + " of " + x.of
}

// calledSo says of a field what it is called where its label does not do.
func (x Input) calledSo(words string) Input {
	x.called = words
	return x
}

// mark notes that something was set: beside the record, or in what it is held
// against.
func (o *Opened) mark(aside bool) {
	if aside {
		o.Asked = true
	} else {
		o.Changed = !o.Typed
	}
}

// note keeps a text as it was typed.
func (o *Opened) note(id string, t TypedText) {
	o.typed = maps.Clone(o.typed)
	if o.typed == nil {
		o.typed = map[string]TypedText{}
	}
	o.typed[id] = t
}

// forget drops the texts of fields whose ids begin so.
func (o *Opened) forget(prefix string) {
	o.typed = maps.Clone(o.typed)
	maps.DeleteFunc(o.typed, func(id string, _ TypedText) bool { return strings.HasPrefix(id, prefix) })
}
