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
	id, title, answer string
	table             string // markup, for paper
	open              bool
	turn              func()
	blocks            []block
}

// block is a paragraph of a part: fields, lines, or both.
type block struct {
	head, note string
	rows       []askRow
	actions    []action
	lines      []partLine
}

// askRow is fields that belong together, with what can be done with them.
type askRow struct {
	class, name string // name is for a screen reader
	asks        []model.Ask
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

func (c *Part) turn(event vugu.DOMEvent) {
	event.PreventDefault()
	c.Model.Do(c.P.turn)
}

func (c *Part) key(i, j int) string { return fmt.Sprintf("%d-%d", i, j) }

func (c *Part) mount(element js.Value) { (&Picture{Model: c.Model}).mount(element, c.P.table) }
