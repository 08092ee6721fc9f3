package model

import (
	"fmt"
	"slices"
	"strings"

	"ratchetmark/internal/assume"
	"ratchetmark/internal/capacity"
	"ratchetmark/internal/dossier"
	"ratchetmark/internal/record"
)

// RuleAsks are the fields that choose the rules of the machine on the sheet.
func (m *Model) RuleAsks() []Ask {
	k := &m.Case().Group.Case.Machine
	out := []Ask{
		{ID: "region", Label: "Region where it is used", As: AsChoice, Choices: withOwn(regionChoices(), k.Region), text: k.Region, rules: true,
			put: func(c *record.Case, _ *float64, text string) { c.Machine.Region = text }},
		{ID: "edition", Label: "Built to", As: AsChoice, Choices: withOwn(editionChoices(capacity.StandingOf(*k).Region), k.Edition), text: k.Edition, rules: true,
			put: func(c *record.Case, _ *float64, text string) { c.Machine.Edition = text }},
		{ID: "by-hand", Label: "How it is moved", As: AsChoice, Choices: []Choice{{"", "Driven or towed"}, {yes, "By hand: nothing but people move it"}}, text: yesIf(k.ByHand), rules: true,
			put: func(c *record.Case, _ *float64, text string) { c.Machine.ByHand = text == yes }},
	}
	if k.Kind == record.Scissor || k.RaisingOnly {
		out = append(out, Ask{ID: "raising-only", Label: "It senses the load", As: AsChoice,
			Choices: []Choice{{"", "At all times"}, {yes, "Only when raising from the lowest position"}}, text: yesIf(k.RaisingOnly), rules: true,
			put: func(c *record.Case, _ *float64, text string) { c.Machine.RaisingOnly = text == yes }})
	}
	return out
}

const yes = "yes"

func yesIf(x bool) string {
	if x {
		return yes
	}
	return ""
}

// withOwn offers what the case says too where it is none of the choices.
func withOwn(known []Choice, own string) []Choice {
	if slices.ContainsFunc(known, func(c Choice) bool { return c.Value == own }) {
		return known
	}
	return append(known, Choice{own, own + " (not known here)"})
}

func regionChoices() []Choice {
	out := []Choice{{"", "Not stated"}}
	for _, r := range capacity.Regions {
		out = append(out, Choice{string(r), dossier.Capital(string(r))})
	}
	return out
}

func editionChoices(region capacity.Region) []Choice {
	usual := capacity.StandingOf(record.Machine{Conditions: record.Conditions{Region: string(region)}}).Edition
	out := []Choice{{"", "Usual: " + string(usual)}}
	for _, e := range capacity.Editions {
		out = append(out, Choice{string(e.Edition), fmt.Sprintf("%s (%s)", e.Edition, e.Words)})
	}
	return out
}

// ZoneAsks are the fields of a further rated load of the machine on the sheet.
func (m *Model) ZoneAsks(i int) []Ask {
	z := m.Case().Group.Case.Machine.Zones[i]
	id := fmt.Sprintf("zone-%d-", i+1)
	persons := ""
	if z.Persons != nil {
		persons = itoa(*z.Persons)
	}
	return []Ask{
		{ID: id + "name", Label: "Where it holds", As: AsText, text: z.Name, rules: true,
			put: func(c *record.Case, _ *float64, text string) { c.Machine.Zones[i].Name = strings.TrimSpace(text) }},
		{ID: id + "rated", Label: "Rated load, kg", As: AsNumber, Step: 10, text: numberText(z.RatedLoad), rules: true,
			put: func(c *record.Case, x *float64, _ string) {
				c.Machine.Zones[i].RatedLoad = nil
				if x != nil {
					c.Machine.Zones[i].RatedLoad = record.Of(record.Kilogram(*x))
				}
			}},
		{ID: id + "persons", Label: "Persons", As: AsWhole, Step: 1, text: persons, rules: true,
			put: func(c *record.Case, x *float64, _ string) {
				c.Machine.Zones[i].Persons = nil
				if x != nil {
					c.Machine.Zones[i].Persons = record.Of(int(*x))
				}
			}},
	}
}

// MoreZones reports whether the machine on the sheet may have a further rated load.
func (m *Model) MoreZones() bool {
	return len(m.Case().Group.Case.Machine.Zones)+1 < int(capacity.ZoneCount.Most)
}

// AddZone adds a further rated load to the machine on the sheet.
func (m *Model) AddZone() {
	o := m.Case()
	m.change(o, true, func(c *record.Case) { c.Machine.Zones = append(c.Machine.Zones, record.Zone{}) })
	m.host.Show(fmt.Sprintf("zone-%d-name", len(o.Group.Case.Machine.Zones)))
}

// RemoveZone takes a further rated load off.
func (m *Model) RemoveZone(i int) {
	o := m.Case()
	if i < len(o.Group.Case.Machine.Zones) {
		o.forget("zone-")
		m.change(o, true, func(c *record.Case) { c.Machine.Zones = slices.Delete(c.Machine.Zones, i, i+1) })
		m.host.Show("add-zone")
	}
}

// ValueAsks are the fields of the values of the rules in use, in the units of
// the documents that state them, with where they come from.
func (m *Model) ValueAsks() []Ask {
	var out []Ask
	o := m.Case()
	for _, a := range o.Dossier.Assumptions {
		if !a.Rule {
			continue
		}
		id := string(a.ID) + "-value"
		unit, text := a.Unit, dossier.Plain(a.Value)
		if a.Stated != "" {
			unit, text = string(capacity.Lb), dossier.Plain(a.Value/capacity.KgPerLb)
		}
		field := Ask{ID: id, Label: a.Name + ", " + unit, Hint: SourceOf(a), As: AsNumber, text: text,
			why: o.Refused[a.ID].Why, set: func(text string) { m.setRule(a, text) }}
		if a.Edited {
			field.Usual = func() {
				o.forget(id)
				m.Usual(a.ID)
			}
		}
		out = append(out, field)
	}
	return out
}

// setRule sets a value of the rules for the machine on the sheet.
func (m *Model) setRule(a assume.Assumption, text string) {
	x, why := (Ask{As: AsNumber}).read(text)
	switch {
	case a.Stated == "" || x == nil || why != "":
		m.Assume(a.ID, "value", text)
	case dossier.Plain(*x)+" lb" == a.Stated:
		m.Usual(a.ID)
	default:
		m.Assume(a.ID, "value", dossier.Plain(*x*capacity.KgPerLb))
	}
}

// SourceOf says where an assumption comes from.
func SourceOf(a assume.Assumption) string {
	switch {
	case a.Edited:
		return "set for this case"
	case a.Status == assume.Guess:
		return string(a.Status)
	}
	return a.Source + "; " + string(a.Status)
}
