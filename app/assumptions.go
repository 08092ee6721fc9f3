package app

import (
	"ratchetmark/app/model"
	"ratchetmark/internal/assume"
	"ratchetmark/internal/chart"
	"ratchetmark/internal/dossier"
)

// Assumptions lists the assumptions of a group, with their sources, to change
// them.
type Assumptions struct {
	view
	Group string // of the assumptions; empty for those that belong to none
	Title string
}

// listID names the list.
func (c *Assumptions) listID() string {
	if c.Group == "" {
		return "assumed-use"
	}
	return "assumed-" + c.Group
}

func (c *Assumptions) listed() []assume.Assumption {
	var out []assume.Assumption
	for _, a := range c.d().Assumptions {
		if a.Group == c.Group && !a.Rule { // rules stand with what the machine may carry
			out = append(out, a)
		}
	}
	return out
}

// list is the assumptions as a part: a table for paper, and fields to change them
// in once they are asked for.
func (c *Assumptions) list() part {
	fold := model.FoldAssumed + c.Group
	p := c.part(c.listID(), "assumed-part", fold, c.Title)
	p.paper = c.table()
	if !p.open {
		return p
	}
	var b block
	for _, a := range c.listed() {
		row := fieldRow{class: "assumption", name: a.Name, head: c.name(a), note: model.SourceOf(a), fields: c.Model.AssumptionInputs(a)}
		if c.Model.IsSet(a) {
			row.actions = []action{{id: string(a.ID) + "-usual", words: "Back to the usual value", name: a.Name + ": back to the usual value", class: "quiet", do: func() { c.Model.Usual(a) }}}
		}
		b.rows = append(b.rows, row)
	}
	p.blocks = []block{b}
	return p
}

// table lists the assumptions, for paper.
func (c *Assumptions) table() string {
	var rows []chart.Row
	for _, a := range c.listed() {
		rows = append(rows, chart.Row{Title: c.name(a), Cells: []string{dossier.Grouped(a.Low), dossier.Grouped(a.Value), dossier.Grouped(a.High), model.SourceOf(a)}})
	}
	return chart.Table("All that is assumed", []string{"Assumption", "Low", "Usual", "High", "Source"}, rows)
}

func (c *Assumptions) name(a assume.Assumption) string {
	if a.Unit == "1" {
		return a.Name
	}
	return a.Name + ", " + a.Unit
}
