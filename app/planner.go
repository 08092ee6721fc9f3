package app

import (
	"fmt"

	"ratchetmark/internal/capacity"
	"ratchetmark/internal/dossier"
	"ratchetmark/internal/record"
)

// Planner adds up who and what shall go up, and says what is left.
type Planner struct{ view }

func (c *Planner) plan() record.Plan {
	if p := c.Model.Case().Group.Case.Plan; p != nil {
		return *p
	}
	return record.Plan{}
}

func (c *Planner) persons() []record.PlanPerson { return c.plan().Persons }
func (c *Planner) items() []record.PlanItem     { return c.plan().Items }
func (c *Planner) count() int                   { return len(c.plan().Persons) }

// added returns the plan added up; nil while it cannot be.
func (c *Planner) added() *dossier.Plan {
	if c.Model.Unread("plan-") > 0 {
		return nil
	}
	return c.d().Capacity.Plan
}

func (c *Planner) begun() bool { return c.Model.Case().Group.Case.Plan != nil }

func (c *Planner) title() string {
	switch p := c.added(); {
	case p != nil:
		return "Plan a crew: " + p.Words
	case c.begun():
		return "Plan a crew: not added up yet"
	}
	return "Plan a crew with its tools: what is left?"
}

// answer says what the plan leaves, or what is still missing.
func (c *Planner) answer() string {
	if !c.begun() {
		return fmt.Sprintf("Add who and what shall go up; it is held against the rated load of %s.", dossier.Kg(float64(c.d().Capacity.Rated)))
	}
	if p := c.added(); p != nil {
		return p.Line()
	}
	if c.count() == 0 {
		return "Not added up yet: add at least one person."
	}
	return "Not added up yet: a field says what is still missing."
}

// worn says what people are taken to wear.
func (c *Planner) worn() string {
	a, b := capacity.Allowances[0], capacity.Allowances[1]
	return fmt.Sprintf("Usual: %s %s (%s to %s), %s %s (%s to %s); without a source, weigh them where it matters.",
		a.Name, dossier.Mass(a.Usual), dossier.Plain(a.Low), dossier.Mass(a.High), b.Name, dossier.Mass(b.Usual), dossier.Plain(b.Low), dossier.Mass(b.High))
}

// sum says what a line weighs, and what all lines up to it do.
func (c *Planner) sum(i int) string {
	p := c.added()
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

func (c *Planner) personName(i int) string { return fmt.Sprintf("person %d", i+1) }
func (c *Planner) itemName(i int) string   { return fmt.Sprintf("tools or materials %d", i+1) }

func (c *Planner) removePerson(i int) []action {
	return []action{{id: fmt.Sprintf("plan-p%d-remove", i+1), words: "Remove", name: "Remove " + c.personName(i), do: func() { c.Model.RemovePerson(i) }}}
}

func (c *Planner) removeItem(i int) []action {
	return []action{{id: fmt.Sprintf("plan-i%d-remove", i+1), words: "Remove", name: "Remove " + c.itemName(i), do: func() { c.Model.RemoveItem(i) }}}
}

func (c *Planner) adding() []action {
	person, item := c.Model.MoreInPlan()
	return []action{
		{id: "add-person", words: "Add a person", do: c.Model.AddPerson, off: !person},
		{id: "add-item", words: "Add tools or materials", do: c.Model.AddItem, off: !item},
	}
}
