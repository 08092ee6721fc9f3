package app

import (
	"github.com/vugu/vugu"

	"ratchetmark/app/model"
)

// Structure is the form beside the fourth question: what a person can tell of
// the structure and ask about it.
type Structure struct{ view }

func (c *Structure) kind(t model.Told) string {
	if t.Day {
		return "date"
	}
	return "text"
}

func (c *Structure) invalid(t model.Told) string {
	if c.Model.ToldProblem(t) != "" {
		return "true"
	}
	return "false"
}

func (c *Structure) described(t model.Told) string {
	return t.ElementID() + "-hint " + t.ElementID() + "-problem"
}

// choices are the words of a field, and what stands in it if it is none of them.
func (c *Structure) choices(t model.Told) []model.Choice {
	now := c.Model.ToldText(t)
	for _, k := range t.Choices {
		if k.Value == now {
			return t.Choices
		}
	}
	return append([]model.Choice{{Value: now, Words: now + " (not known here)"}}, t.Choices...)
}

func (c *Structure) tell(event vugu.DOMEvent, t model.Told) {
	text := event.PropString("target", "value")
	c.Model.Do(func() { c.Model.Tell(t, text) })
}
