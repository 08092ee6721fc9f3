package capacity

import (
	"strconv"

	"ratchetmark/internal/record"
)

// PlanOf returns the plan of a case against its rated load. A unit that is not
// known is a finding.
func PlanOf(c *record.Case) (Plan, []record.Finding) {
	p := Plan{Allowed: stated(c.Machine.StatedPersons())}
	if c.Machine.RatedLoad != nil {
		p.Rated = *c.Machine.RatedLoad
	}
	var out []record.Finding
	at := record.Path("plan")
	unit := func(text string, at record.Path) Unit {
		if text != "" && text != string(Kg) && text != string(Lb) {
			out = append(out, record.Finding{
				Code: "unit-unknown", Severity: record.Doubt, Path: at, Where: at.Words(), Message: "the unit is " + strconv.Quote(text),
				Expected: "kg or lb", Effect: "the plan is not added up", Hint: "choose kg or lb",
			})
		}
		return Unit(text)
	}
	for i, m := range c.Plan.Persons {
		u := unit(m.Unit, at.At("persons").At(i+1))
		p.Persons = append(p.Persons, Person{Name: m.Name, Body: Mass{m.Body, u}, Clothing: Mass{m.Clothing, u}, Harness: Mass{m.Harness, u}})
	}
	for i, it := range c.Plan.Items {
		u := unit(it.Unit, at.At("items").At(i+1))
		p.Items = append(p.Items, Item{Name: it.Name, Mass: Mass{it.Mass, u}, Count: it.Count})
	}
	return p, out
}
