package model

import (
	"slices"

	"ratchetmark/internal/record"
)

// Tellings returns the fields that are shown for the machine on the sheet.
func (m *Model) Tellings() []Told {
	_, c := m.structure()
	chosen := standardOf(&c)
	var out []Told
	for _, t := range told {
		if t.only == nil || slices.Contains(t.only, chosen) {
			out = append(out, t)
		}
	}
	return out
}

// structure returns copies of what is told of the machine on the sheet.
func (m *Model) structure() (s record.Structure, c record.Curve) {
	if o := m.Case(); o != nil && o.Group.Case.Structure != nil {
		s = *o.Group.Case.Structure
		if s.Curve != nil {
			c = *s.Curve
		}
	}
	return s, c
}

// ToldText returns what a field shows: what was refused as it was typed, else
// what is in use.
func (m *Model) ToldText(t Told) string {
	if r, ok := m.Case().ToldRefused[t.ID]; ok {
		return r.Text
	}
	s, c := m.structure()
	return t.text(&s, &c)
}

// ToldProblem says why what stands in a field cannot be used.
func (m *Model) ToldProblem(t Told) string { return m.Case().ToldRefused[t.ID].Why }

// Tell takes what was typed into a field or chosen. What cannot be read is kept
// as typed, with the reason, and what was told before stays.
func (m *Model) Tell(t Told, text string) {
	o := m.Case()
	if o == nil {
		return
	}
	s, c := m.structure()
	x := &telling{}
	t.set(x, &s, &c, text)
	if len(x.form.Problems) > 0 {
		if o.ToldRefused == nil {
			o.ToldRefused = map[string]Refused{}
		}
		o.ToldRefused[t.ID] = Refused{Text: text, Why: x.form.Problems[0].Message}
		return
	}
	delete(o.ToldRefused, t.ID)
	s.Curve = nil
	if c != (record.Curve{}) {
		s.Curve = &c
	}
	o.Group.Case.Structure = nil
	if s != (record.Structure{}) {
		o.Group.Case.Structure = &s
	}
	o.Changed = !o.Typed
	o.assess()
	m.keepCase(o)
}

// ElementID is the id of the element of a field.
func (t Told) ElementID() string { return "told-" + t.ID }
