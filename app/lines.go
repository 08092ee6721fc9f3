package app

import (
	"fmt"
	"strings"

	"ratchetmark/app/model"
)

// Lines is one of the lists of the form beside the readings: who had the
// machine, alarms and power, daily use.
type Lines struct {
	Model *model.Model
	Part  model.Part
}

// listTexts is what is said about a list, and on the button that adds to it.
var listTexts = map[model.Part]struct{ about, add string }{
	model.OfCustody: {"Custody: in whose hands the machine was, from when to when. It tells which hire or trip a change between two readings belongs to.", "Add who had it"},
	model.OfEvent:   {"What the machine logged: alarms, power on and off, each rise of the peak.", "Add an alarm or a switching"},
	model.OfDay:     {"Hours of use day by day, where the machine or its tracker keeps them.", "Add a day"},
	model.OfCheck:   {"What the machine showed with nothing on its platform, or with a mass on it that is known by itself. A cell that reads right has hardly drifted.", "Add a check"},
	model.OfTieDown: {"What is known of the tie-down on a trip: a photo of the loaded machine, the delivery note, the crew's word. It says how the machine was held, not who did it.", "Add a tie-down"},
}

func (c *Lines) about() string { return listTexts[c.Part].about }

func (c *Lines) count() int { return c.Model.Form.Lines(c.Part, 0) }

func (c *Lines) isOpen() bool { return c.Model.Form.ListOpen(c.Part) }

// folding opens and closes the list, and shows more of it.
func (c *Lines) folding() []action {
	out := []action{{id: c.id("fold"), words: c.foldWords(), name: c.Part.Words() + ": " + c.foldWords(), class: "fold",
		folds: foldOf(c.isOpen()), do: func() { c.Model.FoldList(c.Part) }}}
	if n := c.from(); n > 0 && c.isOpen() {
		out = append(out, action{id: c.id("earlier"), words: fmt.Sprintf("Show earlier lines (%d more)", n), class: "quiet",
			do: func() { c.Model.ShowEarlier(c.Part) }})
	}
	return out
}

// lineActions are what can be done with a line.
func (c *Lines) lineActions(i int) []action {
	id := model.LineID(c.Part, i, 0, "remove")
	return []action{{id: id, words: "Remove", name: "Remove " + c.name(i), do: func() { c.Model.RemoveLine(c.Part, i) }}}
}

func (c *Lines) adding() []action {
	return []action{{id: c.Part.AddID(), words: listTexts[c.Part].add, do: func() { c.Model.AddLine(c.Part) }}}
}

// foldWords says how many lines there are, and what pressing does.
func (c *Lines) foldWords() string {
	verb := "show"
	if c.isOpen() {
		verb = "hide"
	}
	switch n := c.count(); n {
	case 0:
		return "Nothing entered: " + verb
	case 1:
		return "1 line: " + verb
	default:
		return fmt.Sprintf("%d lines: %s", n, verb)
	}
}

func (c *Lines) id(name string) string { return string(c.Part) + "-" + name }

// name names a line for a screen reader.
func (c *Lines) name(i int) string {
	return fmt.Sprintf("line %d of %s", i+1, strings.ToLower(c.Part.Words()))
}

func (c *Lines) fields(i int) []model.Field { return model.Fields(c.Part, i, 0) }

func (c *Lines) from() int { return c.Model.Form.ShownFrom(c.Part) }

// shown lists the lines that are shown: the latest ones, unless more were asked for.
func (c *Lines) shown() []int {
	var out []int
	for i := c.from(); i < c.count(); i++ {
		out = append(out, i)
	}
	return out
}
