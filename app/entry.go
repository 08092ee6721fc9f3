package app

import (
	"fmt"

	"ratchetmark/app/model"
)

// Entry is the form in which a case is typed.
type Entry struct {
	Model *model.Model
}

func (c *Entry) form() *model.Form { return &c.Model.Form }

func (c *Entry) title() string {
	if c.form().Editing() {
		return "Correct the readings"
	}
	return "Type the readings"
}

// machineFields are the fields of the plate.
func (c *Entry) machineFields() []model.Field { return model.Fields(model.OfMachine, 0, 0) }

func (c *Entry) lists() []model.Part { return model.Lists }

func (c *Entry) adding() []action {
	return []action{{id: "add-reading", words: "Add another reading of this machine", do: c.Model.AddReading}}
}

func (c *Entry) finishing() []action {
	out := []action{
		{id: "finish", words: "Show the sheet", class: "primary", do: c.Model.Finish},
		{id: "save-form", words: "Save what is typed as a case file", do: c.Model.SaveForm},
	}
	if c.form().Editing() {
		out = append(out, action{id: "drop-correction", words: "Leave the machine as it was", do: c.Model.DropCorrection})
	}
	return out
}

func (c *Entry) steps() []action { return stepsOf(c.Model) }

// stepsOf are undo and redo; each says what it takes back or does again.
func stepsOf(m *model.Model) []action {
	undo, redo := m.Undoes(), m.Redoes()
	return []action{
		{id: "undo", words: stepWords("Undo", undo), do: m.Undo, off: undo == ""},
		{id: "redo", words: stepWords("Redo", redo), do: m.Redo, off: redo == ""},
	}
}

func stepWords(verb, what string) string {
	if what == "" {
		return verb
	}
	return verb + ": " + what
}

func (c *Entry) problems() string {
	if n := len(c.form().Problems); n != 1 {
		return fmt.Sprintf("%d fields cannot be read yet; each says why.", n)
	}
	p := c.form().Problems[0]
	return "One field cannot be read yet: " + p.Path.Words() + ": " + p.Message + "."
}
