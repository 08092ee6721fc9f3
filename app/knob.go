package app

import (
	"github.com/vugu/vugu"

	"ratchetmark/app/model"
)

// Knob is one thing that a person sets about how the machine rides, with its
// label and what is wrong with it.
type Knob struct {
	Model *model.Model
	Spec  model.RideField
}

func (c *Knob) isChoice() bool { return c.Spec.As() == model.AsChoice }

// slides reports whether it is set by a slider.
func (c *Knob) slides() bool { return c.Spec.Name == "angle_deg" }

func (c *Knob) types() bool { return !c.isChoice() && !c.slides() }

func (c *Knob) kind() string {
	if c.Spec.As() == model.AsDay {
		return "date"
	}
	return "text"
}

func (c *Knob) mode() string {
	if c.Spec.As() == model.AsWhole {
		return "numeric"
	}
	return "decimal"
}

func (c *Knob) label() string {
	if c.slides() {
		return c.Spec.Label() + ": " + c.text() + "\u00b0"
	}
	return c.Spec.Label()
}

func (c *Knob) text() string { return c.Model.Case().RideText(c.Spec) }

func (c *Knob) problem() string { return c.Model.Case().RideProblem(c.Spec) }

func (c *Knob) problemID() string { return c.Spec.ID() + "-problem" }

func (c *Knob) invalid() string {
	if c.problem() != "" {
		return "true"
	}
	return "false"
}

func (c *Knob) set(event vugu.DOMEvent) {
	text := event.PropString("target", "value")
	c.Model.Do(func() { c.Model.Ride(c.Spec, text) })
}
