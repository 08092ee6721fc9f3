package app

import (
	"github.com/vugu/vugu"

	"ratchetmark/app/model"
	"ratchetmark/internal/record"
)

// Field is one field of the form, with its label and what is wrong with it.
type Field struct {
	Spec  fieldSpec
	Model *model.Model
}

// fieldSpec says what a field is for.
type fieldSpec struct {
	Key   string // id of the input
	Label string
	Kind  string // "text", "time", "date"; anything else is a number
	Path  record.Path
	Text  *string
	Edge  func(text string) // takes the text instead, where other fields follow
}

func (c *Field) kind() string {
	switch c.Spec.Kind {
	case "time":
		return "datetime-local"
	case "date":
		return "date"
	}
	return "text"
}

func (c *Field) mode() string {
	if c.Spec.Kind == "" {
		return "decimal"
	}
	return "text"
}

func (c *Field) problem() string { return c.Model.Form.Problem(c.Spec.Path) }

func (c *Field) invalid() string {
	if c.problem() != "" {
		return "true"
	}
	return "false"
}

func (c *Field) typed(event vugu.DOMEvent) {
	text := event.PropString("target", "value")
	c.Model.Do(func() {
		if c.Spec.Edge != nil {
			c.Spec.Edge(text)
			return
		}
		*c.Spec.Text = text
		c.Model.Changed()
	})
}
