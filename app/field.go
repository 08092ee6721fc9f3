package app

import (
	"strings"
	"time"

	"github.com/vugu/vugu"

	"ratchetmark/app/model"
	"ratchetmark/internal/record"
)

// Field is one field, wherever it stands, with its label, its steppers, what is
// said about it and what is wrong with it.
type Field struct {
	Spec  model.Spec
	Model *model.Model

	in model.Input
}

// Compute works out what is shown, before it is built.
func (c *Field) Compute() { c.in = c.Spec.Input(c.Model) }

// label says what a slider stands at: it shows no figure itself.
func (c *Field) label() string {
	if c.in.Slides {
		return c.in.Words() + ": " + c.in.Text + "\u00b0"
	}
	return c.in.Words()
}

// How many letters a choice has that needs a wide field, and one that needs more
// than a narrow one.
const (
	longWords   = 30
	someLetters = 12
)

// class tells the style sheet what kind of field it is.
func (c *Field) class() string {
	if c.in.Steps() {
		return "field number"
	}
	longest := 0
	for _, k := range c.in.Choices {
		longest = max(longest, len(k.Words))
	}
	switch {
	case longest > longWords:
		return "field wide"
	case longest > someLetters:
		return "field words"
	}
	return "field"
}

func (c *Field) kind() string {
	switch {
	case c.in.Slides:
		return "range"
	case c.in.As == model.AsTime:
		return "datetime-local"
	case c.in.As == model.AsDay:
		return "date"
	}
	return "text"
}

// mode says which keyboard a tablet shows.
func (c *Field) mode() string {
	switch c.in.As {
	case model.AsNumber:
		return "decimal"
	case model.AsWhole:
		return "numeric"
	}
	return "text"
}

func (c *Field) isChoice() bool { return c.in.As == model.AsChoice }

// inputClass sets a slider apart; nil leaves the attribute out.
func (c *Field) inputClass() any {
	if c.in.Slides {
		return "slider"
	}
	return nil
}

// limit is a limit or the notch of a slider; nil leaves the attribute out.
func (c *Field) limit(x float64) any {
	if c.in.Slides {
		return record.Number(x)
	}
	return nil
}

// blank says what a blank field counts as; nil leaves the attribute out.
func (c *Field) blank() any {
	if c.in.Blank == "" {
		return nil
	}
	return "usual: " + c.in.Blank
}

// hintClass sets a doubt off from a mere hint.
func (c *Field) hintClass() string {
	if c.in.Doubt {
		return "hint doubt"
	}
	return "hint"
}

// described names what is said about the field below it.
func (c *Field) described() string {
	var ids []string
	if c.in.Hint != "" {
		ids = append(ids, c.in.ID+"-hint")
	}
	if c.in.Problem != "" {
		ids = append(ids, c.in.ID+"-problem")
	}
	return strings.Join(ids, " ")
}

func (c *Field) invalid() string {
	if c.in.Problem != "" {
		return "true"
	}
	return "false"
}

func (c *Field) typed(event vugu.DOMEvent) {
	text := event.PropString("target", "value")
	c.Model.Do(func() { c.Model.Fill(c.in, text) })
}

// stepWords name a stepper: "Peak: 5 kg less".
func (c *Field) stepWords(way string) string {
	words := c.in.Label + ": " + record.Number(c.in.Step) + " "
	if c.in.Unit != "" {
		words += c.in.Unit + " "
	}
	return words + way
}

// tenfold is how many steps a press with Shift makes, and a long one after a while.
const tenfold = 10

// step adds a step, or takes one off.
func (c *Field) step(event vugu.DOMEvent, times int) {
	if event.PropBool("shiftKey") {
		times *= tenfold
	}
	c.Model.Do(func() { c.Model.Press(c.in, times) })
}

func (c *Field) now() { c.Model.Do(func() { c.Model.FillNow(c.in, time.Now()) }) }

func (c *Field) resetWords() string { return c.in.Label + ": back to the usual value" }

func (c *Field) reset() { c.Model.Do(func() { c.Model.Reset(c.in) }) }
