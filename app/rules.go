package app

import (
	"fmt"

	"ratchetmark/internal/capacity"
	"ratchetmark/internal/chart"
	"ratchetmark/internal/dossier"
)

// rulesPart says by which rules the machine is held against its record, and
// lets a person choose and change them.
func (c *Carry) rulesPart() part {
	m := &c.Model.Case().Group.Case.Machine
	s := capacity.StandingOf(*m)
	p := c.carryPart("rules", fmt.Sprintf("Rules: %s; %s", s.Edition, s.Region))
	if s.Region == "" {
		p.title = "Rules: " + string(s.Edition) + "; choose the region and edition"
	}
	p.paper = c.rulesTable()
	if !p.open {
		return p
	}
	zones := block{
		head:    "Further rated loads of the plate",
		note:    "For a part of the reach, or with the deck extended. The record does not know in which zone a load was carried.",
		actions: []action{{id: "add-zone", words: "Add a rated load", do: c.Model.AddZone, off: !c.Model.MoreZones()}},
	}
	for i := range m.Zones {
		zones.rows = append(zones.rows, line(fmt.Sprintf("zone-%d", i+1), fmt.Sprintf("zone %d", i+1), c.Model.ZoneInputs(i), func() { c.Model.RemoveZone(i) }))
	}
	var answers []partLine
	for _, row := range capacity.SensingAnswers(s.Region, m.Kind) {
		answers = append(answers, partLine{dossier.Capital(row.What) + ".", dossier.WhoLine(row)})
	}
	p.blocks = []block{
		{rows: rowOf("region and edition", c.Model.RuleInputs())},
		zones,
		{
			head: "Its values, to change",
			note: "No text of the standards was at hand: values from memory say so. Compare them with the rule in force. Test loads are no licence to work at those loads.",
			rows: rowOf("values of the rules", c.Model.ValueInputs()),
		},
		{head: "What the plate states and how the machine answers an overload", lines: answers},
	}
	return p
}

// rulesTable lists the values of the rules, for paper.
func (c *Carry) rulesTable() string {
	var rows []chart.Row
	for _, a := range c.Model.ValueInputs() {
		rows = append(rows, chart.Row{Title: a.Words(), Cells: []string{a.Text, a.Hint}})
	}
	return chart.Table("The rules the machine is held against", []string{"Rule", "Value", "Source"}, rows)
}
