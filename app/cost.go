package app

import (
	"strings"

	"github.com/vugu/vugu"
	"github.com/vugu/vugu/js"

	"ratchetmark/app/model"
	"ratchetmark/internal/assume"
	"ratchetmark/internal/chart"
	"ratchetmark/internal/dossier"
)

// Cost answers what the use has cost the structure.
type Cost struct{ view }

func (c *Cost) known() bool { return c.d().Exposure != nil }

func (c *Cost) chart(id string, width float64) string { return exposure(c.d(), id, width) }

func (c *Cost) lines() []string {
	e := c.d().Exposure
	return []string{
		"Load cycles: " + dossier.CountBounds(e.LoadCycles) + ", of " + dossier.Count(e.DesignCycles) + " designed for.",
		"Load spectrum factor: " + dossier.FactorBounds(e.FactorKp) + "; class " + e.Class + ".",
		dossier.AsRead,
		"An index by Miner's rule, with each stress range taken as self-weight share plus load share. It says nothing about how long the machine will last.",
	}
}

// assumed says in one sentence what the figures rest on.
func (c *Cost) assumed() string {
	var words []string
	for _, id := range []assume.ID{assume.CyclesPerHour, assume.SelfWeightShare, assume.DesignCycles, assume.Slope} {
		for _, a := range c.d().Assumptions {
			if a.ID == id {
				words = append(words, dossier.AssumptionValue(a))
			}
		}
	}
	return "Assumed: " + strings.Join(words, "; ") + "."
}

// mount draws the assumptions as a table, for paper: the fields to change them
// in are made only when they are asked for.
func (c *Cost) mount(element js.Value) {
	head := []string{"Assumption", "Low", "Usual", "High", "Source"}
	var rows []chart.Row
	for _, a := range c.rows() {
		rows = append(rows, chart.Row{Title: c.name(a), Cells: []string{dossier.Grouped(a.Low), dossier.Grouped(a.Value), dossier.Grouped(a.High), c.source(a)}})
	}
	(&Picture{Model: c.Model}).mount(element, chart.Table("All that is assumed", head, rows))
}

// id names the input of an assumption.
func (c *Cost) id(a assume.Assumption, part string) string { return string(a.ID) + "-" + part }

func (c *Cost) name(a assume.Assumption) string {
	if a.Unit == "1" {
		return a.Name
	}
	return a.Name + ", " + a.Unit
}

func (c *Cost) source(a assume.Assumption) string { return model.SourceOf(a) }

// rows are the assumptions but for the rules, which stand with what the machine
// may carry.
func (c *Cost) rows() []assume.Assumption {
	var out []assume.Assumption
	for _, a := range c.d().Assumptions {
		if !a.Rule {
			out = append(out, a)
		}
	}
	return out
}

// parts are the values of an assumption that can be set.
func (c *Cost) parts(a assume.Assumption) []string {
	if a.Fixed {
		return []string{"value"}
	}
	return []string{"low", "value", "high"}
}

func (c *Cost) partLabel(a assume.Assumption, part string) string {
	if part == "value" && !a.Fixed {
		return "usual"
	}
	return part
}

// text is what the input shows: what was refused as it was typed, else the
// value in use.
func (c *Cost) text(a assume.Assumption, part string) string {
	if r, ok := c.Model.Case().Refused[a.ID]; ok && r.Part == part {
		return r.Text
	}
	switch part {
	case "low":
		return dossier.Plain(a.Low)
	case "high":
		return dossier.Plain(a.High)
	}
	return dossier.Plain(a.Value)
}

func (c *Cost) problem(a assume.Assumption) string {
	return c.Model.Case().Refused[a.ID].Why
}

func (c *Cost) set(event vugu.DOMEvent, a assume.Assumption, part string) {
	text := event.PropString("target", "value")
	c.Model.Do(func() { c.Model.Assume(a.ID, part, text) })
}

func (c *Cost) usual(a assume.Assumption) { c.Model.Do(func() { c.Model.Usual(a.ID) }) }
