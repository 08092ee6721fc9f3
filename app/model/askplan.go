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

// The parts of the second question that its fields are folded away in.
const (
	foldRules   = "rules"
	foldPlanner = "planner"
	foldAny     = "any"
	foldCrews   = "crews"
)

// Planned returns how many persons and items the plan has.
func (m *Model) Planned() (persons, items int) {
	if p := m.Case().Group.Case.Plan; p != nil {
		return len(p.Persons), len(p.Items)
	}
	return 0, 0
}

// ownPlan gives the case a copy of its plan, to be changed; an empty one without any.
func ownPlan(c *record.Case) *record.Plan {
	own := record.Plan{}
	if c.Plan != nil {
		own = record.Plan{Persons: slices.Clone(c.Plan.Persons), Items: slices.Clone(c.Plan.Items)}
	}
	c.Plan = &own
	return &own
}

// planMass is the field of a mass of the plan.
func planMass(id, label, unit string, step float64, path record.Path, at func(p *record.Plan) *float64) Input {
	return Input{ID: id, Label: label, Unit: unit, As: AsNumber, Step: step, fold: foldPlanner, path: path, loose: true, aside: true,
		stand: func(o *Opened) string { return numberOr(*at(o.Group.Case.Plan)) },
		put:   func(c *record.Case, f *Form, text string) { *at(ownPlan(c)) = orZero(number[float64](f, "", text)) }}
}

// planWord is a field of the plan that takes words or offers some.
func planWord(id, label string, as Entered, path record.Path, stand func(p *record.Plan) string, put func(p *record.Plan, text string)) Input {
	return Input{ID: id, Label: label, As: as, fold: foldPlanner, path: path, aside: true,
		stand: func(o *Opened) string { return stand(o.Group.Case.Plan) },
		put:   func(c *record.Case, _ *Form, text string) { put(ownPlan(c), strings.TrimSpace(text)) }}
}

// PersonInputs are the fields of a person of the plan.
func (m *Model) PersonInputs(i int) []Input {
	o := m.Case()
	unit := unitOf(o.Group.Case.Plan.Persons[i].Unit)
	id, at := fmt.Sprintf("plan-p%d-", i+1), record.Path("plan/persons").At(i+1)
	mass := func(name, label string, step float64, to func(p *record.PlanPerson) *float64) Input {
		return planMass(id+name, label, unit, step, at.At(name), func(p *record.Plan) *float64 { return to(&p.Persons[i]) })
	}
	units := planWord(id+"unit", "Unit", AsChoice, at, func(p *record.Plan) string { return unitOf(p.Persons[i].Unit) },
		func(p *record.Plan, text string) { inUnit(&p.Persons[i], text) })
	units.Choices = massUnits
	return o.shown(of("person "+itoa(i+1),
		planWord(id+"name", "Who", AsText, "", func(p *record.Plan) string { return p.Persons[i].Name }, func(p *record.Plan, text string) { p.Persons[i].Name = text }).calledSo("name"),
		mass("body", "Body", 1, func(p *record.PlanPerson) *float64 { return &p.Body }),
		mass("clothing", "Clothing", 0, func(p *record.PlanPerson) *float64 { return &p.Clothing }),
		mass("harness", "Harness", 0, func(p *record.PlanPerson) *float64 { return &p.Harness }),
		units,
	))
}

// ItemInputs are the fields of tools or materials of the plan.
func (m *Model) ItemInputs(i int) []Input {
	o := m.Case()
	id, at := fmt.Sprintf("plan-i%d-", i+1), record.Path("plan/items").At(i+1)
	units := planWord(id+"unit", "Unit", AsChoice, at, func(p *record.Plan) string { return unitOf(p.Items[i].Unit) },
		func(p *record.Plan, text string) { p.Items[i].Unit = text })
	units.Choices = massUnits
	return o.shown(of("tools or materials "+itoa(i+1),
		planWord(id+"name", "What", AsText, "", func(p *record.Plan) string { return p.Items[i].Name }, func(p *record.Plan, text string) { p.Items[i].Name = text }).calledSo("name"),
		planMass(id+"mass", "Mass of one", unitOf(o.Group.Case.Plan.Items[i].Unit), 1, at.At("mass"), func(p *record.Plan) *float64 { return &p.Items[i].Mass }),
		Input{ID: id + "count", Label: "How many", called: "number", As: AsWhole, Step: 1, Least: 1, Most: mostStepped, fold: foldPlanner, path: at.At("count"), loose: true, aside: true,
			stand: func(o *Opened) string { return itoa(max(o.Group.Case.Plan.Items[i].Count, 1)) },
			put: func(c *record.Case, f *Form, text string) {
				n := f.whole("", text)
				if n == nil {
					n = new(int)
				}
				ownPlan(c).Items[i].Count = *n
			}},
		units,
	))
}

// of says of fields what they belong to.
func of(what string, all ...Input) []Input {
	for i := range all {
		all[i].of = what
	}
	return all
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

func (m *Model) personList() setList {
	return setList{name: "person", fold: foldPlanner, add: "add-person", aside: true, line: m.PersonInputs}
}

func (m *Model) itemList() setList {
	return setList{name: "tools or materials", fold: foldPlanner, add: "add-item", aside: true, line: m.ItemInputs}
}

// AddPerson adds a person to the plan, in the unit of the one before, in usual
// work clothing.
func (m *Model) AddPerson() {
	persons, _ := m.Planned()
	m.addLine(m.personList(), persons, fmt.Sprintf("plan-p%d-body", persons+1), func(c *record.Case) {
		p, next := ownPlan(c), record.PlanPerson{}
		if persons > 0 {
			next.Unit = p.Persons[persons-1].Unit
		}
		next.Clothing = usualClothing(next.Unit)
		p.Persons = append(p.Persons, next)
	})
}

// AddItem adds tools or materials to the plan.
func (m *Model) AddItem() {
	_, items := m.Planned()
	m.addLine(m.itemList(), items, fmt.Sprintf("plan-i%d-mass", items+1), func(c *record.Case) {
		p, next := ownPlan(c), record.PlanItem{Count: 1}
		if items > 0 {
			next.Unit = p.Items[items-1].Unit
		}
		p.Items = append(p.Items, next)
	})
}

// MoreInPlan reports whether a further person, or item, fits the plan.
func (m *Model) MoreInPlan() (person, item bool) {
	persons, items := m.Planned()
	return persons < mostInPlan, items < mostInPlan
}

// RemovePerson takes a person off the plan.
func (m *Model) RemovePerson(i int) {
	persons, _ := m.Planned()
	m.removeLine(m.personList(), i, persons, func(c *record.Case) {
		p := ownPlan(c)
		p.Persons = slices.Delete(p.Persons, i, i+1)
		dropEmptyPlan(c)
	})
}

// RemoveItem takes tools or materials off the plan.
func (m *Model) RemoveItem(i int) {
	_, items := m.Planned()
	m.removeLine(m.itemList(), i, items, func(c *record.Case) {
		p := ownPlan(c)
		p.Items = slices.Delete(p.Items, i, i+1)
		dropEmptyPlan(c)
	})
}

// dropEmptyPlan makes a plan with nothing in it none.
func dropEmptyPlan(c *record.Case) {
	if len(c.Plan.Persons)+len(c.Plan.Items) == 0 {
		c.Plan = nil
	}
}

// LoadInput is the field for a load over which the hours are asked.
func (m *Model) LoadInput() []Input {
	return m.Case().shown([]Input{{ID: "any-load", Label: "Load", called: "load over which hours are asked", Unit: "kg", As: AsNumber, Step: 10, fold: foldAny, path: "thresholds_kg/1", loose: true, aside: true,
		stand: func(o *Opened) string {
			if all := o.Group.Case.Thresholds; len(all) > 0 {
				return dossier.Plain(float64(all[0]))
			}
			return ""
		},
		put: func(c *record.Case, f *Form, text string) {
			rest := slices.Clone(c.Thresholds[min(1, len(c.Thresholds)):])
			if x := number[record.Kilogram](f, "", text); x != nil {
				rest = append([]record.Kilogram{*x}, rest...)
			}
			c.Thresholds = rest
		}}})
}

// changeCrew changes a copy of a case's crew; one of which nothing is set is none.
func changeCrew(c *record.Case, change func(k *record.Crew)) {
	own := record.Crew{}
	if c.Crew != nil {
		own = *c.Crew
	}
	change(&own)
	c.Crew = nil
	if own != (record.Crew{}) {
		c.Crew = &own
	}
}

// CrewInputs are the fields of a crew that is drawn from a group of people. They
// show the usual values where none are set, and take them again when emptied.
func (m *Model) CrewInputs() []Input {
	var groups []Choice
	for _, p := range bodymass.Populations {
		groups = append(groups, Choice{p.ID, fmt.Sprintf("%s, mean %s", dossier.Capital(p.Name), dossier.Mass(p.Mean))})
	}
	field := func(name, label, unit string, as Entered, step float64, stand func(k dossier.Crew) string, put func(k *record.Crew, f *Form, text string)) Input {
		return Input{ID: "crew-" + name, Label: label, Unit: unit, As: as, Step: step, fold: foldCrews, path: "crew/" + record.Path(name), loose: true, aside: true,
			stand: func(o *Opened) string { return stand(o.Dossier.Capacity.Drawn()) },
			put:   func(c *record.Case, f *Form, text string) { changeCrew(c, func(k *record.Crew) { put(k, f, text) }) }}
	}
	all := of("the crew drawn",
		field("population", "People drawn from", "", AsChoice, 0, func(k dossier.Crew) string { return k.Population }, func(k *record.Crew, _ *Form, text string) { k.Population = text }),
		field("persons", "How many", "", AsWhole, 1, func(k dossier.Crew) string { return numberOr(float64(k.Persons)) }, func(k *record.Crew, f *Form, text string) { k.Persons = f.whole("", text) }).calledSo("number"),
		field("worn", "Worn by each", "kg", AsNumber, 0.5, func(k dossier.Crew) string { return dossier.Plain(k.Worn) }, func(k *record.Crew, f *Form, text string) { k.Worn = number[float64](f, "", text) }),
		field("tools", "Tools and materials", "kg", AsNumber, 5, func(k dossier.Crew) string { return dossier.Plain(k.Tools) }, func(k *record.Crew, f *Form, text string) { k.Tools = number[float64](f, "", text) }),
	)
	all[0].Choices = groups
	all[2].path, all[3].path = "crew/worn_kg", "crew/tools_kg"
	return m.Case().shown(all)
}

// numberOr writes a number as it stands in a field; empty for zero.
func numberOr(x float64) string {
	if x == 0 {
		return ""
	}
	return dossier.Plain(x)
}

// orZero returns what x points to, or 0.
func orZero(x *float64) float64 {
	if x == nil {
		return 0
	}
	return *x
}
