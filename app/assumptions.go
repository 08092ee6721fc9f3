package app

import (
	"github.com/vugu/vugu/js"

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

// mount draws the assumptions as a table, for paper: the fields to change them
// in are made only when they are asked for.
func (c *Assumptions) mount(element js.Value) {
	head := []string{"Assumption", "Low", "Usual", "High", "Source"}
	var rows []chart.Row
	for _, a := range c.listed() {
		rows = append(rows, chart.Row{Title: c.name(a), Cells: []string{dossier.Grouped(a.Low), dossier.Grouped(a.Value), dossier.Grouped(a.High), c.source(a)}})
	}
	(&Picture{Model: c.Model}).mount(element, chart.Table("All that is assumed", head, rows))
}

func (c *Assumptions) name(a assume.Assumption) string {
	if a.Unit == "1" {
		return a.Name
	}
	return a.Name + ", " + a.Unit
}

func (c *Assumptions) source(a assume.Assumption) string { return model.SourceOf(a) }

// fold is what the list is folded away in.
func (c *Assumptions) fold() string { return model.FoldAssumed + c.Group }

func (c *Assumptions) usual(a assume.Assumption) { c.Model.Do(func() { c.Model.Usual(a) }) }
