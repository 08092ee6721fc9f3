package app

import (
	"fmt"

	"github.com/vugu/vugu"
	"github.com/vugu/vugu/js"

	"ratchetmark/app/model"
)

// Part is a part of a question that can be laid open: its title answers, what
// is within explains and asks.
type Part struct {
	Model *model.Model
	P     part
}

// part is what a [Part] shows.
type part struct {
	id, class   string
	title, says string // says is a sentence below the title; may be empty
	answer      string // within, said again as it changes; may be empty
	paper       string // markup, for paper alone
	open        bool
	turn        func()
	blocks      []block
}

// block is a paragraph of a part: a picture, a table, fields, lines.
type block struct {
	head, note   string
	wide, narrow string // the picture, in two widths
	table        string // markup
	rows         []fieldRow
	actions      []action
	lines        []partLine
}

// fieldRow is fields that belong together, with what can be done with them.
type fieldRow struct {
	class, name string // name is for a screen reader
	head, note  string // seen; may be empty
	fields      []model.Input
	actions     []action
	sum         string
}

// partLine is a sentence, of which the beginning may stand out.
type partLine struct{ what, more string }

// linesOf makes lines of sentences.
func linesOf(all ...string) []partLine {
	var out []partLine
	for _, text := range all {
		if text != "" {
			out = append(out, partLine{more: text})
		}
	}
	return out
}

// part begins a part that is closed until a person opens it. Its fold is known
// to the model by name.
func (v *view) part(id, class, fold, title string) part {
	key := v.Model.FoldKey(fold, 0)
	return part{id: id, class: class, title: title, open: v.Model.Unfolded(key), turn: func() { v.Model.Unfold(key) }}
}

// line is a line of fields that can be removed.
func line(id, name string, fields []model.Input, remove func()) fieldRow {
	return fieldRow{class: "line asked", name: name, fields: fields, actions: []action{{id: id + "-remove", words: "Remove", name: "Remove " + name, do: remove}}}
}

// rowOf is fields that stand beside each other.
func rowOf(name string, fields []model.Input) []fieldRow {
	return []fieldRow{{class: "fields", name: name, fields: fields}}
}

func (c *Part) turn(event vugu.DOMEvent) {
	event.PreventDefault() // what only the browser knows, the renderer takes away
	c.Model.Do(c.P.turn)
}

func (c *Part) key(i, j int) string { return fmt.Sprintf("%d-%d", i, j) }

func (c *Part) mount(element js.Value, markup string) {
	(&Picture{Model: c.Model}).mount(element, markup)
}
