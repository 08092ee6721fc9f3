package model

import (
	"strings"

	"ratchetmark/internal/dossier"
	"ratchetmark/internal/record"
)

// Ask is a field on the sheet: one about the rules that the machine is held
// against, or one in which something beside the record is asked.
type Ask struct {
	ID, Label, Hint string
	As              Entered
	Step            float64 // what one press of a stepper adds; 0 where there are none
	Choices         []Choice
	Usual           func() // puts the usual value back; nil where it stands

	path  record.Path // of findings about it
	text  string      // as it stands in the case
	rules bool        // changes what the record is held against
	put   func(c *record.Case, x *float64, text string)
	set   func(text string) // in place of put, for what is set in another way
	why   string            // what is wrong with what was set so
}

// asking is what was typed into the fields of the sheet, as it was typed, and
// what is wrong with it.
type asking struct {
	typed, wrong map[string]string
}

// Stands returns what stands in a field of the sheet.
func (m *Model) Stands(a Ask) string {
	if o := m.Case(); o != nil {
		if text, ok := o.asking.typed[a.ID]; ok {
			return text
		}
	}
	return a.text
}

// Problem says what is wrong with a field of the sheet; empty when nothing is.
func (m *Model) Problem(a Ask) string {
	o := m.Case()
	if o == nil {
		return ""
	}
	if why := a.why + o.asking.wrong[a.ID]; why != "" {
		return why
	}
	if o.Dossier.Capacity == nil || a.path == "" {
		return ""
	}
	for _, f := range o.Dossier.Capacity.Asked {
		if f.Path == a.path {
			if strings.TrimSpace(m.Stands(a)) == "" {
				return "still to be typed; expected " + f.Expected
			}
			return f.Message + "; expected " + f.Expected
		}
	}
	return ""
}

// Fill takes what was typed into a field of the sheet. What cannot be read
// stays as it was typed, with the reason, and counts as not given.
func (m *Model) Fill(a Ask, text string) {
	o := m.Case()
	if o == nil {
		return
	}
	if a.set != nil {
		o.note(a.ID, text, "")
		a.set(text)
		return
	}
	x, why := a.read(text)
	o.note(a.ID, text, why)
	m.change(o, a.rules, func(c *record.Case) { a.put(c, x, text) })
}

// StepAsk adds so many steps to the number in a field of the sheet, or takes
// them off where times is negative.
func (m *Model) StepAsk(a Ask, times int) {
	if next, err := stepped(m.Stands(a), a.Step, times, strings.Contains(m.Stands(a), ",")); err == nil {
		m.Fill(a, next)
	}
}

// read reads a number; nil where there is none, with what is wrong.
func (a Ask) read(text string) (x *float64, why string) {
	var f Form
	switch a.As {
	case AsNumber:
		x = number[float64](&f, "asked", text)
	case AsWhole:
		if n := f.whole("asked", text); n != nil {
			x = record.Of(float64(*n))
		}
	}
	return x, f.Problem("asked")
}

// note keeps a text as it was typed.
func (o *Opened) note(id, text, why string) {
	if o.asking.typed == nil {
		o.asking = asking{map[string]string{}, map[string]string{}}
	}
	o.asking.typed[id], o.asking.wrong[id] = text, why
	if why == "" {
		delete(o.asking.wrong, id)
	}
}

// forget drops the texts of fields whose ids begin so: their lines moved.
func (o *Opened) forget(prefix string) {
	for id := range o.asking.typed {
		if strings.HasPrefix(id, prefix) {
			delete(o.asking.typed, id)
			delete(o.asking.wrong, id)
		}
	}
}

// Unread returns how many fields whose ids begin so cannot be read.
func (m *Model) Unread(prefix string) (n int) {
	if o := m.Case(); o != nil {
		for id := range o.asking.wrong {
			if strings.HasPrefix(id, prefix) {
				n++
			}
		}
	}
	return n
}

// change changes the case of a machine on the sheet, makes the dossier anew
// and keeps it. Parts that other copies of the case share are copied before.
func (m *Model) change(o *Opened, rules bool, change func(c *record.Case)) {
	c := &o.Group.Case
	c.Machine.Zones = append([]record.Zone(nil), c.Machine.Zones...)
	c.Thresholds = append([]record.Kilogram(nil), c.Thresholds...)
	if c.Plan != nil {
		c.Plan = &record.Plan{Persons: append([]record.PlanPerson(nil), c.Plan.Persons...), Items: append([]record.PlanItem(nil), c.Plan.Items...)}
	}
	if c.Crew != nil {
		crew := *c.Crew
		c.Crew = &crew
	}
	change(c)
	if rules {
		o.Changed = !o.Typed
	} else {
		o.Asked = true
	}
	o.assess()
	m.keepCase(o)
}

// numberOr writes a number as it stands in a field; empty for zero.
func numberOr(x float64) string {
	if x == 0 {
		return ""
	}
	return dossier.Plain(x)
}

// orZero returns what x points to, or 0.
func orZero(x *float64) float64 {
	if x == nil {
		return 0
	}
	return *x
}
