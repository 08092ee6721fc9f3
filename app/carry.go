package app

import (
	"fmt"
	"slices"

	"ratchetmark/app/model"
	"ratchetmark/internal/assume"
	"ratchetmark/internal/dossier"
)

// Carry answers what the machine may carry.
type Carry struct{ view }

func (c *Carry) known() bool { return c.d().Capacity != nil }

func (c *Carry) hasHours() bool { return c.known() && c.d().Capacity.Counted > 0 }

func (c *Carry) chart(id string, width float64) string { return hoursOver(c.d(), id, width) }

// lines are the reasoning, a sentence each; what is more is in the parts below.
func (c *Carry) lines() []string {
	k := c.d().Capacity
	if k == nil {
		return nil
	}
	out := []string{k.RulesLine(), c.rule()}
	if k.Persons != nil && k.SmallestRated > 0 {
		out = append(out, fmt.Sprintf("For %d on the plate that is %s; the plate says %s.", *k.Persons, dossier.Kg(float64(k.SmallestRated)), dossier.Kg(float64(k.Rated))))
	} else if k.Persons == nil {
		out = append(out, fmt.Sprintf("The persons are not stated; by the rule the rated load covers %d.", k.PersonsWithin))
	}
	if zones := k.ZoneLines(); len(zones) > 0 {
		out = append(out, zones[:len(zones)-1]...) // the answer has the last one
	}
	out = append(out, k.LeftLine(value(c.d(), assume.PersonMass)), c.sensing())
	if k.Stage != nil && k.Stage.Over > 0 {
		out = append(out, "The peak lies "+k.Stage.Words+".")
	}
	if k.MeanLoad != nil {
		out = append(out, "Mean load over the counted hours: "+dossier.KgBounds(*k.MeanLoad)+".")
	}
	return slices.DeleteFunc(out, func(s string) bool { return s == "" })
}

// rule says how the rated load follows from persons and tools.
func (c *Carry) rule() string {
	person, tools := row(c.d(), assume.PersonMass), row(c.d(), assume.ToolsMass)
	if kg, ok := first(c.d()); ok {
		return fmt.Sprintf("The rule: rated load at least %s for the first person and %s for each further one (%s).", dossier.Mass(kg), dossier.Mass(person.Value), model.SourceOf(person))
	}
	return fmt.Sprintf("The rule: rated load at least persons x %s plus %s of tools and materials (%s).", massOf(person), massOf(tools), model.SourceOf(person))
}

// sensing says where the load-sensing system has to act.
func (c *Carry) sensing() string {
	k := c.d().Capacity
	switch {
	case k.SensingFrom == 0:
		return "These rules ask for no load sensing."
	case k.SensingFrom == k.SensingTo:
		return fmt.Sprintf("The load-sensing system is stated to act at %s.", dossier.Kg(float64(k.SensingFrom)))
	}
	return fmt.Sprintf("A sound load-sensing system acts between %s and %s (%s).", dossier.Kg(float64(k.SensingFrom)), dossier.Kg(float64(k.SensingTo)), model.SourceOf(row(c.d(), assume.SensingTo)))
}

// paper are the lines that a screen has in parts to be opened, and paper not.
func (c *Carry) paper() []string {
	k := c.d().Capacity
	if k == nil {
		return nil
	}
	shown := append(c.lines(), k.ZoneLines()...)
	return slices.DeleteFunc(dossier.CarryLines(c.d()), func(s string) bool { return slices.Contains(shown, s) })
}

// row returns an assumption in use; the zero value where there is none.
func row(d *dossier.Dossier, id assume.ID) assume.Assumption {
	for _, a := range d.Assumptions {
		if a.ID == id {
			return a
		}
	}
	return assume.Assumption{}
}

// value returns an assumption in use; 0 where there is none.
func value(d *dossier.Dossier, id assume.ID) float64 { return row(d, id).Value }

// massOf writes a mass of the rules as its document states it.
func massOf(a assume.Assumption) string {
	if a.Stated != "" && !a.Edited {
		return a.Stated + " (" + dossier.Mass(a.Value) + ")"
	}
	return dossier.Mass(a.Value)
}
