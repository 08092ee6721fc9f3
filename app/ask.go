package app

import (
	"github.com/vugu/vugu"

	"ratchetmark/app/model"
	"ratchetmark/internal/record"
)

// Ask is a field on the sheet, with its label, its steppers and what is wrong
// with it.
type Ask struct {
	Ask   model.Ask
	Model *model.Model

	problem string // what is said below it
}

// Compute works out what is said below the field, before it is built.
func (c *Ask) Compute() { c.problem = c.Model.Problem(c.Ask) }

// class tells the style sheet what kind of field it is.
func (c *Ask) class() string {
	if c.steps() {
		return "field number"
	}
	for _, k := range c.Ask.Choices {
		if len(k.Words) > 30 {
			return "field wide"
		}
	}
	return "field"
}

func (c *Ask) steps() bool { return c.Ask.Step > 0 }

func (c *Ask) isChoice() bool { return c.Ask.As == model.AsChoice }

// mode says which keyboard a tablet shows.
func (c *Ask) mode() string {
	switch c.Ask.As {
	case model.AsNumber:
		return "decimal"
	case model.AsWhole:
		return "numeric"
	}
	return "text"
}

func (c *Ask) text() string { return c.Model.Stands(c.Ask) }

func (c *Ask) invalid() string {
	if c.problem != "" {
		return "true"
	}
	return "false"
}

func (c *Ask) described() string {
	if c.problem != "" {
		return c.Ask.ID + "-problem"
	}
	return ""
}

func (c *Ask) typed(event vugu.DOMEvent) {
	text := event.PropString("target", "value")
	c.Model.Do(func() { c.Model.Fill(c.Ask, text) })
}

func (c *Ask) less() string { return c.Ask.Label + ": " + record.Number(c.Ask.Step) + " less" }
func (c *Ask) more() string { return c.Ask.Label + ": " + record.Number(c.Ask.Step) + " more" }

// step adds a step, or takes one off.
func (c *Ask) step(event vugu.DOMEvent, times int) {
	if event.PropBool("shiftKey") {
		times *= tenfold
	}
	c.Model.Do(func() { c.Model.StepAsk(c.Ask, times) })
}
