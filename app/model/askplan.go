package model

import (
	"fmt"
	"slices"
	"strings"

	"ratchetmark/internal/bodymass"
	"ratchetmark/internal/capacity"
	"ratchetmark/internal/dossier"
	"ratchetmark/internal/record"
)

// mostInPlan is how many persons and how many items a plan may have on the screen.
const mostInPlan = 20

// plan returns the plan of the machine on the sheet; an empty one without any.
func (m *Model) plan() record.Plan {
	if p := m.Case().Group.Case.Plan; p != nil {
		return *p
	}
	return record.Plan{}
}

// Planned returns how many persons and items the plan has.
func (m *Model) Planned() (persons, items int) {
	p := m.plan()
	return len(p.Persons), len(p.Items)
}

// PersonAsks are the fields of a person of the plan.
func (m *Model) PersonAsks(i int) []Ask {
	p := m.plan().Persons[i]
	id, at := fmt.Sprintf("plan-p%d-", i+1), record.Path("plan/persons").At(i+1)
	mass := func(name, label string, x, step float64, to func(p *record.PlanPerson) *float64) Ask {
		return Ask{ID: id + name, Label: label + ", " + unitOf(p.Unit), As: AsNumber, Step: step, path: at.At(name), text: numberOr(x),
			put: func(c *record.Case, x *float64, _ string) { *to(&c.Plan.Persons[i]) = orZero(x) }}
	}
	return []Ask{
		{ID: id + "name", Label: "Who", As: AsText, text: p.Name,
			put: func(c *record.Case, _ *float64, text string) { c.Plan.Persons[i].Name = strings.TrimSpace(text) }},
		mass("body", "Body", p.Body, 1, func(p *record.PlanPerson) *float64 { return &p.Body }),
		mass("clothing", "Clothing", p.Clothing, 0, func(p *record.PlanPerson) *float64 { return &p.Clothing }),
		mass("harness", "Harness", p.Harness, 0, func(p *record.PlanPerson) *float64 { return &p.Harness }),
		{ID: id + "unit", Label: "Unit", As: AsChoice, Choices: withOwn(massUnits, unitOf(p.Unit)), path: at, text: unitOf(p.Unit),
			put: func(c *record.Case, _ *float64, text string) { inUnit(&c.Plan.Persons[i], text) }},
	}
}

// ItemAsks are the fields of tools or materials of the plan.
func (m *Model) ItemAsks(i int) []Ask {
	it := m.plan().Items[i]
	id, at := fmt.Sprintf("plan-i%d-", i+1), record.Path("plan/items").At(i+1)
	count := itoa(max(it.Count, 1))
	return []Ask{
		{ID: id + "name", Label: "What", As: AsText, text: it.Name,
			put: func(c *record.Case, _ *float64, text string) { c.Plan.Items[i].Name = strings.TrimSpace(text) }},
		{ID: id + "mass", Label: "Mass of one, " + unitOf(it.Unit), As: AsNumber, Step: 1, path: at.At("mass"), text: numberOr(it.Mass),
			put: func(c *record.Case, x *float64, _ string) { c.Plan.Items[i].Mass = orZero(x) }},
		{ID: id + "count", Label: "How many", As: AsWhole, Step: 1, path: at.At("count"), text: count,
			put: func(c *record.Case, x *float64, _ string) { c.Plan.Items[i].Count = int(orZero(x)) }},
		{ID: id + "unit", Label: "Unit", As: AsChoice, Choices: withOwn(massUnits, unitOf(it.Unit)), path: at, text: unitOf(it.Unit),
			put: func(c *record.Case, _ *float64, text string) { c.Plan.Items[i].Unit = text }},
	}
}

var massUnits = []Choice{{string(capacity.Kg), "kg"}, {string(capacity.Lb), "lb"}}

// unitOf names the unit of a mass of the plan.
func unitOf(unit string) string {
	if unit == "" {
		return string(capacity.Kg)
	}
	return unit
}

// usualClothing is what a person is taken to wear, in a unit of the plan.
func usualClothing(unit string) float64 {
	if unit == string(capacity.Lb) {
		return 9 // 4 kg are 8.8 lb
	}
	return dossier.UsualWorn
}

// inUnit changes the unit of a person: the figures stay as they were typed, but
// for clothing that was not.
func inUnit(p *record.PlanPerson, unit string) {
	if p.Clothing == usualClothing(p.Unit) {
		p.Clothing = usualClothing(unit)
	}
	p.Unit = unit
}

// AddPerson adds a person to the plan, in the unit of the one before, in usual
// work clothing.
func (m *Model) AddPerson() {
	m.changePlan(func(p *record.Plan) {
		next := record.PlanPerson{}
		if n := len(p.Persons); n > 0 {
			next.Unit = p.Persons[n-1].Unit
		}
		next.Clothing = usualClothing(next.Unit)
		p.Persons = append(p.Persons, next)
	})
	persons, _ := m.Planned()
	m.host.Show(fmt.Sprintf("plan-p%d-body", persons))
}

// AddItem adds tools or materials to the plan.
func (m *Model) AddItem() {
	m.changePlan(func(p *record.Plan) {
		next := record.PlanItem{Count: 1}
		if n := len(p.Items); n > 0 {
			next.Unit = p.Items[n-1].Unit
		}
		p.Items = append(p.Items, next)
	})
	_, items := m.Planned()
	m.host.Show(fmt.Sprintf("plan-i%d-mass", items))
}

// MoreInPlan reports whether a further person, or item, fits the plan.
func (m *Model) MoreInPlan() (person, item bool) {
	persons, items := m.Planned()
	return persons < mostInPlan, items < mostInPlan
}

// RemovePerson takes a person off the plan.
func (m *Model) RemovePerson(i int) {
	m.removeFromPlan("plan-p", "add-person", func(p *record.Plan) { p.Persons = slices.Delete(p.Persons, i, i+1) })
}

// RemoveItem takes tools or materials off the plan.
func (m *Model) RemoveItem(i int) {
	m.removeFromPlan("plan-i", "add-item", func(p *record.Plan) { p.Items = slices.Delete(p.Items, i, i+1) })
}

func (m *Model) removeFromPlan(prefix, focus string, remove func(p *record.Plan)) {
	m.Case().forget(prefix)
	m.changePlan(remove)
	m.host.Show(focus)
}

// changePlan changes the plan; one with nothing in it is none.
func (m *Model) changePlan(change func(p *record.Plan)) {
	m.change(m.Case(), false, func(c *record.Case) {
		if c.Plan == nil {
			c.Plan = &record.Plan{}
		}
		change(c.Plan)
		if len(c.Plan.Persons)+len(c.Plan.Items) == 0 {
			c.Plan = nil
		}
	})
}

// LoadAsk is the field for a load over which the hours are asked.
func (m *Model) LoadAsk() Ask {
	text := ""
	if all := m.Case().Group.Case.Thresholds; len(all) > 0 {
		text = dossier.Plain(float64(all[0]))
	}
	return Ask{ID: "any-load", Label: "Load, kg", As: AsNumber, Step: 10, path: "thresholds_kg/1", text: text,
		put: func(c *record.Case, x *float64, _ string) {
			rest := c.Thresholds[min(1, len(c.Thresholds)):]
			if x != nil {
				rest = append([]record.Kilogram{record.Kilogram(*x)}, rest...)
			}
			c.Thresholds = rest
		}}
}

// CrewAsks are the fields of a crew that is drawn from a group of people. They
// show the usual values where none are set, and take them again when emptied.
func (m *Model) CrewAsks() []Ask {
	now := m.Case().Dossier.Capacity.Drawn()
	own := func(c *record.Case) *record.Crew {
		if c.Crew == nil {
			c.Crew = &record.Crew{}
		}
		return c.Crew
	}
	var groups []Choice
	for _, p := range bodymass.Populations {
		groups = append(groups, Choice{p.ID, fmt.Sprintf("%s, mean %s", dossier.Capital(p.Name), dossier.Mass(p.Mean))})
	}
	return []Ask{
		{ID: "crew-population", Label: "People drawn from", As: AsChoice, Choices: withOwn(groups, now.Population), path: "crew/population", text: now.Population,
			put: func(c *record.Case, _ *float64, text string) { own(c).Population = text }},
		{ID: "crew-persons", Label: "How many", As: AsWhole, Step: 1, path: "crew/persons", text: numberOr(float64(now.Persons)),
			put: func(c *record.Case, x *float64, _ string) {
				own(c).Persons = nil
				if x != nil {
					own(c).Persons = record.Of(int(*x))
				}
			}},
		{ID: "crew-worn", Label: "Worn by each, kg", As: AsNumber, Step: 0.5, path: "crew/worn_kg", text: dossier.Plain(now.Worn),
			put: func(c *record.Case, x *float64, _ string) { own(c).Worn = x }},
		{ID: "crew-tools", Label: "Tools and materials, kg", As: AsNumber, Step: 5, path: "crew/tools_kg", text: dossier.Plain(now.Tools),
			put: func(c *record.Case, x *float64, _ string) { own(c).Tools = x }},
	}
}
