package app

import (
	"fmt"

	"github.com/vugu/vugu"
	"github.com/vugu/vugu/js"

	"ratchetmark/internal/assume"
	"ratchetmark/internal/capacity"
	"ratchetmark/internal/chart"
	"ratchetmark/internal/dossier"
	"ratchetmark/internal/record"
)

// Rules says by which rules the machine is held against its record, and lets a
// person choose and change them.
type Rules struct{ view }

func (c *Rules) machine() *record.Machine { return &c.Model.Case().Group.Case.Machine }

func (c *Rules) title() string {
	s := capacity.StandingOf(*c.machine())
	if s.Region == "" {
		return "Rules: " + string(s.Edition) + "; choose the region and edition"
	}
	return fmt.Sprintf("Rules: %s; %s", s.Edition, s.Region)
}

// mount draws the values as a table, for paper: the fields to change them in
// are made only when they are asked for.
func (c *Rules) mount(element js.Value) {
	var rows []chart.Row
	for _, a := range c.Model.RuleValues() {
		rows = append(rows, chart.Row{Title: c.name(a), Cells: []string{c.Model.RuleText(a), c.source(a)}})
	}
	(&Picture{Model: c.Model}).mount(element, chart.Table("The rules the machine is held against", []string{"Rule", "Value", "Source"}, rows))
}

func (c *Rules) zones() []record.Zone { return c.machine().Zones }

func (c *Rules) zoneName(i int) string { return fmt.Sprintf("further rated load %d", i+1) }

func (c *Rules) removing(i int) []action {
	return []action{{id: fmt.Sprintf("zone-%d-remove", i+1), words: "Remove", name: "Remove " + c.zoneName(i), do: func() { c.Model.RemoveZone(i) }}}
}

func (c *Rules) adding() []action {
	return []action{{id: "add-zone", words: "Add a rated load", do: c.Model.AddZone, off: !c.Model.MoreZones()}}
}

func (c *Rules) id(a assume.Assumption) string { return string(a.ID) + "-value" }

// name names a value with its unit, that of the document.
func (c *Rules) name(a assume.Assumption) string {
	unit := a.Unit
	if a.Stated != "" {
		unit = "lb"
	}
	return a.Name + ", " + unit
}

func (c *Rules) source(a assume.Assumption) string { return sourceOf(a) }

func (c *Rules) problem(a assume.Assumption) string { return c.Model.Case().Refused[a.ID].Why }

func (c *Rules) set(event vugu.DOMEvent, a assume.Assumption) {
	text := event.PropString("target", "value")
	c.Model.Do(func() { c.Model.SetRule(a, text) })
}

func (c *Rules) usual(a assume.Assumption) { c.Model.Do(func() { c.Model.Usual(a.ID) }) }

// answers are what the plate states, and how the machine answers an overload.
func (c *Rules) answers() []string {
	s := capacity.StandingOf(*c.machine())
	var out []string
	for _, row := range capacity.SensingAnswers(s.Region, c.machine().Kind) {
		out = append(out, dossier.AskedLine(row))
	}
	return out
}
