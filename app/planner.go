package app

import (
	"fmt"

	"ratchetmark/internal/capacity"
	"ratchetmark/internal/dossier"
)

// planPart adds up who and what shall go up, and says what is left.
func (c *Carry) planPart() part {
	p := c.carryPart("planner", "Plan a crew with its tools: what is left?")
	k := c.d().Capacity
	persons, items := c.Model.Planned()
	sum := k.Plan
	if c.Model.Unread("plan-") > 0 {
		sum = nil
	}
	switch {
	case sum != nil:
		p.title, p.answer = "Plan a crew: "+sum.Words, sum.Line()
	case persons+items == 0:
		p.answer = fmt.Sprintf("Add who and what shall go up; it is held against the rated load of %s.", dossier.Kg(float64(k.Rated)))
	case persons == 0:
		p.title, p.answer = planOpen, "Not added up yet: add at least one person."
	default:
		p.title, p.answer = planOpen, "Not added up yet: a field says what is still missing."
	}
	if !p.open {
		return p
	}
	lines := block{note: usuallyWorn(), actions: c.addToPlan()}
	for i := range persons {
		row := line(fmt.Sprintf("plan-p%d", i+1), fmt.Sprintf("person %d", i+1), c.Model.PersonInputs(i), func() { c.Model.RemovePerson(i) })
		row.sum = planSum(sum, i)
		lines.rows = append(lines.rows, row)
	}
	for i := range items {
		row := line(fmt.Sprintf("plan-i%d", i+1), fmt.Sprintf("tools or materials %d", i+1), c.Model.ItemInputs(i), func() { c.Model.RemoveItem(i) })
		row.sum = planSum(sum, persons+i)
		lines.rows = append(lines.rows, row)
	}
	p.blocks = []block{lines, {note: "The plan is kept on this device with the machine and saved with the case. It says nothing of wind, outreach, or how the load is placed: the maker's manual does."}}
	return p
}

const planOpen = "Plan a crew: not added up yet"

func (c *Carry) addToPlan() []action {
	person, item := c.Model.MoreInPlan()
	return []action{
		{id: "add-person", words: "Add a person", do: c.Model.AddPerson, off: !person},
		{id: "add-item", words: "Add tools or materials", do: c.Model.AddItem, off: !item},
	}
}

// usuallyWorn says what people are taken to wear.
func usuallyWorn() string {
	a, b := capacity.Allowances[0], capacity.Allowances[1]
	return fmt.Sprintf("Usual: %s %s (%s to %s), %s %s (%s to %s); without a source, weigh them where it matters.",
		a.Name, dossier.Mass(a.Usual), dossier.Plain(a.Low), dossier.Mass(a.High), b.Name, dossier.Mass(b.Usual), dossier.Plain(b.Low), dossier.Mass(b.High))
}

// planSum says what a line of a plan weighs, and what all lines up to it do.
func planSum(p *dossier.Plan, i int) string {
	if p == nil || i >= len(p.Lines) {
		return ""
	}
	l := p.Lines[i]
	text := fmt.Sprintf("%s, together %s", dossier.Mass(float64(l.Mass)), dossier.Mass(float64(l.Sum)))
	switch {
	case l.Alone:
		text += ": over the rated load on its own"
	case i == p.FirstOver:
		text += ": from here on over the rated load"
	}
	return text
}
