package app

import (
	"strings"
	"time"

	"github.com/vugu/vugu"

	"ratchetmark/app/model"
	"ratchetmark/internal/record"
)

// Field is one field of the form, with its label, its steppers, what the last
// reading had in it and what is wrong with it.
type Field struct {
	Spec    model.Field
	Model   *model.Model
	Words   string             // in place of the usual label; empty for that one
	Earlier *model.FormReading // the reading before; nil where there is none

	hint, problem string // what is said below it
	doubt         bool   // the hint is one
}

// Compute works out what is said below the field, before it is built.
func (c *Field) Compute() {
	c.hint, c.doubt = c.Model.Form.Hint(c.Spec, c.Earlier)
	c.problem = c.Model.Form.Problem(c.Spec.Path())
}

func (c *Field) label() string {
	if c.Words != "" {
		return c.Words
	}
	return c.Spec.Label()
}

// class tells the style sheet what kind of field it is.
func (c *Field) class() string {
	if c.steps() {
		return "field number"
	}
	return "field"
}

func (c *Field) kind() string {
	switch c.Spec.As() {
	case model.AsTime:
		return "datetime-local"
	case model.AsDay:
		return "date"
	}
	return "text"
}

// mode says which keyboard a tablet shows.
func (c *Field) mode() string {
	switch c.Spec.As() {
	case model.AsNumber:
		return "decimal"
	case model.AsWhole:
		return "numeric"
	}
	return "text"
}

func (c *Field) isChoice() bool { return c.Spec.As() == model.AsChoice }

func (c *Field) choices() []model.Choice { return c.Model.Form.Choices(c.Spec) }

func (c *Field) text() string { return c.Model.Form.Typed(c.Spec) }

// hintClass sets a doubt off from a mere hint.
func (c *Field) hintClass() string {
	if c.doubt {
		return "hint doubt"
	}
	return "hint"
}

// described names what is said about the field below it.
func (c *Field) described() string {
	var ids []string
	if c.hint != "" {
		ids = append(ids, c.Spec.ID()+"-hint")
	}
	if c.problem != "" {
		ids = append(ids, c.Spec.ID()+"-problem")
	}
	return strings.Join(ids, " ")
}

func (c *Field) invalid() string {
	if c.problem != "" {
		return "true"
	}
	return "false"
}

func (c *Field) typed(event vugu.DOMEvent) {
	text := event.PropString("target", "value")
	c.Model.Do(func() { c.Model.Type(c.Spec, text) })
}

func (c *Field) steps() bool { return c.Spec.By() > 0 }

func (c *Field) less() string { return c.label() + ": " + record.Number(c.Spec.By()) + " less" }
func (c *Field) more() string { return c.label() + ": " + record.Number(c.Spec.By()) + " more" }

// tenfold is how many steps a press with Shift makes, and a long one after a while.
const tenfold = 10

// step adds a step, or takes one off.
func (c *Field) step(event vugu.DOMEvent, times int) {
	if event.PropBool("shiftKey") {
		times *= tenfold
	}
	c.Model.Do(func() { c.Model.Step(c.Spec, times) })
}

// hasNow reports whether the field is the time of a reading, which is often now.
func (c *Field) hasNow() bool { return c.Spec.Path() == model.ReadAt(c.Spec.I).Path() }

func (c *Field) now() { c.Model.Do(func() { c.Model.Now(c.Spec.I, time.Now()) }) }
