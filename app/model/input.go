package model

import (
	"slices"
	"strings"

	"ratchetmark/internal/record"
)

// Input is one field as a person meets it, wherever it stands: in the form or on
// the sheet. What is typed or chosen goes to [Model.Fill].
type Input struct {
	ID, Label   string
	Unit        string // of a number; may be empty
	As          Entered
	Text        string // what stands in it: as it was typed, else the value in use
	Choices     []Choice
	Step        float64 // what one press of a stepper, or one notch of a slider, adds; 0 where there is neither
	Least, Most float64 // between which a stepper or a slider moves; both 0: from 0 up
	Slides      bool    // set by a slider
	Blank       string  // the value in use where it is left blank; empty for none
	Hint        string
	Doubt       bool // the hint is a doubt
	Problem     string
	Now         bool // a time that often is now
	Resets      bool // another value than the usual one is set, which can be put back

	field  *Field // of the form; nil for a field of the sheet, which has all that follows
	called string // in undo, where the label does not do
	of     string // what it belongs to, for undo: "zone 2"
	fold   string // what it is folded away in, as [Model.Unfold] has it
	path   record.Path
	loose  bool                   // what cannot be read counts as not given; else the value in use stays
	aside  bool                   // asked beside the record, which it does not change
	stand  func(o *Opened) string // the value in use, as it is written here
	put    func(c *record.Case, f *Form, text string)
	reset  func(c *record.Case)
}

// Spec is anything that can be shown as a field.
type Spec interface {
	Input(m *Model) Input
}

// Input returns the field itself.
func (x Input) Input(*Model) Input { return x }

// Words are the label with its unit.
func (x Input) Words() string {
	if x.Unit == "" {
		return x.Label
	}
	return x.Label + ", " + x.Unit
}

// Steps reports whether the field has steppers.
func (x Input) Steps() bool { return x.Step > 0 && !x.Slides }

// limits are what a stepper moves between.
func (x Input) limits() (least, most float64) {
	if x.Least == 0 && x.Most == 0 {
		return 0, mostStepped
	}
	return x.Least, x.Most
}

// Input returns a field of the form as it is shown.
func (x Field) Input(m *Model) Input { return Beside{Field: x}.Input(m) }

// Beside is a field of the form with what stands around it.
type Beside struct {
	Field
	Words   string       // in place of the usual label; empty for that one
	Earlier *FormReading // the reading before; nil where there is none
}

// Input returns the field as it is shown.
func (b Beside) Input(m *Model) Input {
	f, x := &m.Form, b.Field
	out := Input{ID: x.ID(), Label: x.label, As: x.as, Text: f.Typed(x), Step: x.step, Problem: f.Problem(x.Path()), field: &x}
	if at := strings.LastIndex(x.label, ", "); at > 0 && x.as == AsNumber {
		out.Label, out.Unit = x.label[:at], x.label[at+2:]
	}
	if b.Words != "" {
		out.Label, out.Unit = b.Words, ""
	}
	out.Hint, out.Doubt = f.Hint(x, b.Earlier)
	out.Now = x.part == OfReading && x.name == "at"
	if x.as == AsChoice {
		out.Choices = offered(choices[x.part][x.name], out.Text)
	}
	return out
}

// Fill takes what was typed into a field or chosen in it.
func (m *Model) Fill(x Input, text string) {
	why := ""
	if x.field != nil {
		m.Type(*x.field, text)
		why = m.Form.Problem(x.field.Path())
	} else if o := m.Case(); o != nil {
		m.fillSheet(o, x, text)
		why = o.problem(x, text)
	}
	if why != "" {
		why = x.Label + ": " + why
	}
	m.spoken = why
}

// Said is what a screen reader is to say of what was just done: what is wrong
// with what was typed, or what was undone; empty for nothing.
func (m *Model) Said() string { return m.spoken }

// Press adds so many steps to the number in a field, or takes them off where
// times is negative.
func (m *Model) Press(x Input, times int) {
	if x.field != nil {
		m.Step(*x.field, times)
		return
	}
	o := m.Case()
	if o == nil {
		return
	}
	x = o.shown([]Input{x})[0] // a stepper that is held down is faster than the page is drawn
	least, most := x.limits()
	text := x.Text
	if strings.TrimSpace(text) == "" {
		text = x.Blank
	}
	if next, err := stepped(text, x.Step, times, strings.Contains(text, ","), least, most); err == nil {
		m.Fill(x, next)
	}
}

// offered are the words of a field, and what stands in it if it is none of them,
// so that showing it does not change it.
func offered(known []Choice, now string) []Choice {
	if slices.ContainsFunc(known, func(c Choice) bool { return c.Value == now }) {
		return known
	}
	words := now + " (not known here)"
	if now == "" {
		words = "Choose"
	}
	return append([]Choice{{now, words}}, known...)
}
