package model

import (
	"encoding/json"
	"slices"
	"strings"

	"ratchetmark/internal/intake"
	"ratchetmark/internal/record"
)

// draftKey is where the device keeps what is being typed.
const draftKey = "ratchetmark.typing"

// TypeNew shows the form, with what was being typed if there is any.
func (m *Model) TypeNew() {
	if draft, ok := m.Draft(); ok {
		m.Form = draft
	} else {
		m.Form = EmptyForm()
	}
	m.Page = Typing
	m.host.Show("typing")
}

// TypeAfresh shows an empty form and forgets what was being typed.
func (m *Model) TypeAfresh() {
	m.forgetDraft()
	m.TypeNew()
}

// Draft returns what was being typed when the app was last left.
func (m *Model) Draft() (Form, bool) {
	text := m.host.Kept(draftKey)
	var f Form
	if text == "" || json.Unmarshal([]byte(text), &f) != nil || len(f.Readings) == 0 || f.Blank() {
		return Form{}, false
	}
	return f, true
}

func (m *Model) forgetDraft() { m.keep("") }

// keep keeps the form on the device; a device that refuses is told about once.
func (m *Model) keep(text string) {
	const title = "What you type is not kept on this device"
	if err := m.host.Keep(draftKey, text); err != nil && !slices.ContainsFunc(m.Notices, func(n Notice) bool { return n.Title == title }) {
		m.Notices = append(m.Notices, Notice{Title: title, Lines: []string{"The browser refused: " + err.Error() + ".", "Save the case as a file before you leave the page."}})
	}
}

// Correct shows the form filled with the machine on the sheet.
func (m *Model) Correct() {
	if o := m.Case(); o != nil {
		m.Form = FormOf(o.Group.Case)
		m.Form.editing = o
		m.Page = Typing
		m.host.Show("typing")
	}
}

// Changed is to be called after a field of the form was typed into.
func (m *Model) Changed() {
	if len(m.Form.Problems) > 0 { // once pointed out, a problem goes away as it is mended
		m.Form.Case()
	}
	if m.Form.editing == nil {
		m.keep(m.Form.text())
	}
}

// Finish reads the form and shows the sheet, or the problems that stand in the way.
func (m *Model) Finish() {
	c := m.Form.Case()
	if len(m.Form.Problems) > 0 {
		m.host.Show("problems")
		return
	}
	o := m.Form.editing
	if o == nil || !slices.Contains(m.Opened, o) {
		o = &Opened{Typed: true}
		m.Opened = append(m.Opened, o)
		m.forgetDraft()
	}
	o.Changed = !o.Typed
	o.Group.Record = intake.Record{Case: c, Findings: o.Group.Findings, Origins: record.Origins{}}
	o.assess()
	m.Current = slices.Index(m.Opened, o)
	m.Form = EmptyForm()
	m.Page = Sheet
	m.host.Show("sheet")
}

// AddReading adds a reading with the bands of the last one, hours left blank.
func (m *Model) AddReading() {
	f := &m.Form
	r := FormReading{Bands: EmptyForm().Readings[0].Bands}
	if n := len(f.Readings); n > 0 {
		r.Bands = nil
		for _, b := range f.Readings[n-1].Bands {
			r.Bands = append(r.Bands, FormBand{From: b.From, To: b.To})
		}
	}
	f.Readings = append(f.Readings, r)
	m.Changed()
}

// RemoveReading takes a reading off the form; the last one stays.
func (m *Model) RemoveReading(i int) {
	if len(m.Form.Readings) > 1 {
		m.Form.Readings = slices.Delete(m.Form.Readings, i, i+1)
		m.Changed()
	}
}

// AddBand adds a band above the others.
func (m *Model) AddBand(i int) {
	bands := &m.Form.Readings[i].Bands
	var b FormBand
	if n := len(*bands); n > 0 {
		b.From = (*bands)[n-1].To
	} else {
		b.From = "0"
	}
	*bands = append(*bands, b)
	m.Changed()
}

// RemoveBand takes a band off the form; the one above begins where it began.
func (m *Model) RemoveBand(i, j int) {
	bands := &m.Form.Readings[i].Bands
	if j+1 < len(*bands) && (*bands)[j+1].From == (*bands)[j].To {
		(*bands)[j+1].From = (*bands)[j].From
	}
	*bands = slices.Delete(*bands, j, j+1)
	m.Changed()
}

// SplitBand divides a band at a load that is left to be typed. Its hours stay
// with the lower part, the upper part's are left blank.
func (m *Model) SplitBand(i, j int) {
	bands := &m.Form.Readings[i].Bands
	upper := FormBand{To: (*bands)[j].To}
	(*bands)[j].To = ""
	*bands = slices.Insert(*bands, j+1, upper)
	m.Changed()
}

// SetEdge sets the upper edge of a band; the band above follows if it began there.
func (m *Model) SetEdge(i, j int, text string) {
	bands := m.Form.Readings[i].Bands
	if j+1 < len(bands) && bands[j+1].From == bands[j].To {
		bands[j+1].From = text
	}
	bands[j].To = text
	m.Changed()
}

// Sum returns the hours typed into the bands of a reading; ok is false while
// one of them cannot be read.
func (m *Model) Sum(i int) (sum float64, ok bool) {
	for _, b := range m.Form.Readings[i].Bands {
		if strings.TrimSpace(b.Hours) == "" {
			continue
		}
		x, err := intake.ParseNumber(b.Hours)
		if err != nil {
			return 0, false
		}
		sum += x
	}
	return sum, true
}
