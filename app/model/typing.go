package model

import (
	"slices"

	"ratchetmark/internal/batch"
	"ratchetmark/internal/record"
)

// TypeNew shows the form of a new machine, with what was being typed if there
// is any.
func (m *Model) TypeNew() {
	if k := m.unfinished(); k != nil {
		m.OpenKept(k.Key)
		return
	}
	m.TypeAfresh()
}

// TypeAfresh shows an empty form. What was being typed stays in the list of
// what is kept on the device.
func (m *Model) TypeAfresh() {
	m.typing = ""
	m.resume()
	m.Page = Typing
	m.host.Show("typing")
}

// Draft returns the name, which may be empty, of the new machine that typing
// would go on with; ok is false when there is none.
func (m *Model) Draft() (name string, ok bool) {
	if k := m.unfinished(); k != nil {
		return k.Name, true
	}
	return "", false
}

// unfinished returns the new machine that is being typed: the one in the form,
// else the newest; nil without one.
func (m *Model) unfinished() *Kept {
	if k := m.row(m.typing); k != nil {
		return k
	}
	for _, k := range m.Recent {
		if k.Draft && !k.Gone() {
			return k
		}
	}
	return nil
}

// resume puts the new machine that is being typed into the form, or nothing.
func (m *Model) resume() {
	m.Form = EmptyForm()
	if k := m.row(m.typing); k != nil && k.form != nil {
		m.Form = *k.form
	}
}

// Correct shows the form filled with the machine on the sheet, as it was left
// if it was being corrected.
func (m *Model) Correct() {
	o := m.Case()
	if o == nil {
		return
	}
	if o.draft != nil {
		m.Form = *o.draft
		m.Form.base = o.Group.Case // an assumption may have been set since
	} else {
		m.Form = FormOf(o.Group.Case)
		m.Form.goOn(o.typedAs)
	}
	m.Form.editing = o
	m.Page = Typing
	m.host.Show("typing")
}

// DropCorrection forgets what was typed to correct the machine on the sheet.
func (m *Model) DropCorrection() {
	o := m.Case()
	if o == nil || o.draft == nil {
		return
	}
	o.draft = nil
	if m.Form.editing == o {
		m.resume()
		m.Page = Sheet
	}
	m.keepCase(o)
}

// Changed is to be called after a field of the form was typed into.
func (m *Model) Changed() {
	if len(m.Form.Problems) > 0 { // once pointed out, a problem goes away as it is mended
		m.Form.Case()
	}
	m.keepForm()
}

// Finish reads the form and shows the sheet, or the problems that stand in the way.
func (m *Model) Finish() {
	c := m.Form.Case()
	if len(m.Form.Problems) > 0 {
		m.Form.revealProblems()
		m.host.Show("problems")
		return
	}
	o := m.Form.editing
	if o == nil || !slices.Contains(m.Opened, o) {
		fresh := &Opened{Typed: true}
		if o == nil { // the machine takes the place of its draft
			fresh.key, m.typing = m.typing, ""
		}
		o = fresh
		m.Opened = append(m.Opened, o)
	}
	o.draft, o.typedAs = nil, m.Form.finish(c)
	o.isChanged()
	o.Group.Record = batch.Record{Case: c, Findings: o.Group.Findings, Origins: record.Origins{}}
	o.assess()
	m.meet()
	m.keepCase(o)
	m.Current = slices.Index(m.Opened, o)
	m.resume()
	m.Page = Sheet
	m.host.Show("sheet")
}
