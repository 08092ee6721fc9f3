package model

import (
	"fmt"
	"maps"
	"slices"
	"strings"

	"ratchetmark/internal/assume"
	"ratchetmark/internal/capacity"
	"ratchetmark/internal/dossier"
	"ratchetmark/internal/record"
)

// ruleChoice is a field that chooses what the machine is held against.
func ruleChoice(id, label string, choices []Choice, stand func(k *record.Machine) string, put func(k *record.Machine, text string)) Input {
	return Input{ID: id, Label: label, As: AsChoice, Choices: choices, fold: foldRules,
		stand: func(o *Opened) string { return stand(&o.Group.Case.Machine) },
		put:   func(c *record.Case, _ *Form, text string) { put(&c.Machine, text) }}
}

// RuleInputs are the fields that choose the rules of the machine on the sheet.
func (m *Model) RuleInputs() []Input {
	k := &m.Case().Group.Case.Machine
	out := []Input{
		ruleChoice("region", "Region where it is used", regionChoices(), func(k *record.Machine) string { return k.Region }, func(k *record.Machine, text string) { k.Region = text }),
		ruleChoice("edition", "Built to", editionChoices(capacity.StandingOf(*k).Region), func(k *record.Machine) string { return k.Edition }, func(k *record.Machine, text string) { k.Edition = text }).calledSo("edition it is built to"),
		ruleChoice("by-hand", "How it is moved", []Choice{{"", "Driven or towed"}, {yes, "By hand: nothing but people move it"}},
			func(k *record.Machine) string { return yesIf(k.ByHand) }, func(k *record.Machine, text string) { k.ByHand = text == yes }),
	}
	if k.Kind == record.Scissor || k.RaisingOnly {
		out = append(out, ruleChoice("raising-only", "It senses the load", []Choice{{"", "At all times"}, {yes, "Only when raising from the lowest position"}},
			func(k *record.Machine) string { return yesIf(k.RaisingOnly) }, func(k *record.Machine, text string) { k.RaisingOnly = text == yes }).calledSo("when it senses the load"))
	}
	return m.Case().shown(out)
}

const yes = "yes"

func yesIf(x bool) string {
	if x {
		return yes
	}
	return ""
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

// ZoneInputs are the fields of a further rated load of the machine on the sheet.
func (m *Model) ZoneInputs(i int) []Input {
	id := fmt.Sprintf("zone-%d-", i+1)
	field := func(name, label, unit string, as Entered, step float64, stand func(z *record.Zone) string, put func(z *record.Zone, f *Form, text string)) Input {
		return Input{ID: id + name, Label: label, Unit: unit, As: as, Step: step, fold: foldRules, loose: true,
			stand: func(o *Opened) string { return stand(&o.Group.Case.Machine.Zones[i]) },
			put: func(c *record.Case, f *Form, text string) {
				c.Machine.Zones = slices.Clone(c.Machine.Zones)
				put(&c.Machine.Zones[i], f, text)
			}}
	}
	return m.Case().shown(of("zone "+itoa(i+1),
		field("name", "Where it holds", "", AsText, 0, func(z *record.Zone) string { return z.Name }, func(z *record.Zone, _ *Form, text string) { z.Name = strings.TrimSpace(text) }).calledSo("name"),
		field("rated", "Rated load", "kg", AsNumber, 10, func(z *record.Zone) string { return numberText(z.RatedLoad) },
			func(z *record.Zone, f *Form, text string) { z.RatedLoad = number[record.Kilogram](f, "", text) }),
		field("persons", "Persons", "", AsWhole, 1, func(z *record.Zone) string { return wholeText(z.Persons) }, func(z *record.Zone, f *Form, text string) { z.Persons = f.whole("", text) }),
	))
}

func wholeText(x *int) string {
	if x == nil {
		return ""
	}
	return itoa(*x)
}

func (m *Model) zoneList() setList {
	return setList{name: "zone", fold: foldRules, add: "add-zone", line: m.ZoneInputs}
}

// MoreZones reports whether the machine on the sheet may have a further rated load.
func (m *Model) MoreZones() bool {
	return len(m.Case().Group.Case.Machine.Zones)+1 < int(capacity.ZoneCount.Most)
}

// AddZone adds a further rated load to the machine on the sheet.
func (m *Model) AddZone() {
	n := len(m.Case().Group.Case.Machine.Zones)
	m.addLine(m.zoneList(), n, fmt.Sprintf("zone-%d-name", n+1), func(c *record.Case) {
		c.Machine.Zones = append(slices.Clone(c.Machine.Zones), record.Zone{})
	})
}

// RemoveZone takes a further rated load off.
func (m *Model) RemoveZone(i int) {
	m.removeLine(m.zoneList(), i, len(m.Case().Group.Case.Machine.Zones), func(c *record.Case) {
		c.Machine.Zones = slices.Delete(slices.Clone(c.Machine.Zones), i, i+1)
	})
}

// ValueInputs are the fields of the values of the rules in use, in the units of
// the documents that state them, with where they come from.
func (m *Model) ValueInputs() []Input {
	var out []Input
	o := m.Case()
	for _, a := range o.Dossier.Assumptions {
		if !a.Rule {
			continue
		}
		x := assumedInput(a, "value")
		x.Label, x.called, x.Unit, x.Hint, x.Resets, x.fold = a.Name, "", a.Unit, SourceOf(a), a.Edited || o.typed[x.ID].Why != "", foldRules
		if a.Stated != "" {
			inPounds(&x, a)
		}
		out = append(out, x)
	}
	return o.shown(out)
}

// inPounds has a value of the rules that is stated in pounds typed so.
func inPounds(x *Input, a assume.Assumption) {
	x.Unit = string(capacity.Lb)
	x.stand = func(o *Opened) string { return dossier.Plain(assumedOf(o, a.ID).Value / capacity.KgPerLb) }
	kg := x.put
	x.put = func(c *record.Case, f *Form, text string) {
		switch lb := number[float64](f, "", text); {
		case len(f.Problems) > 0:
		case lb == nil:
			kg(c, f, text)
		case dossier.Plain(*lb)+" lb" == a.Stated:
			c.Assumptions = without(c.Assumptions, a.ID)
		default:
			kg(c, f, dossier.Plain(*lb*capacity.KgPerLb))
		}
	}
}

// AssumedParts are the values of an assumption that can be set.
func AssumedParts(a assume.Assumption) []string {
	if a.Fixed {
		return []string{"value"}
	}
	return []string{"low", "value", "high"}
}

// AssumptionInputs are the fields of an assumption: one for each value that can
// be set.
func (m *Model) AssumptionInputs(a assume.Assumption) []Input {
	var out []Input
	for _, part := range AssumedParts(a) {
		out = append(out, assumedInput(a, part))
	}
	return m.Case().shown(of(a.Name, out...))
}

// FoldAssumed begins what the assumptions of a group are folded away in.
const FoldAssumed = "assumed-"

// assumedInput is the field of one of the values of an assumption.
func assumedInput(a assume.Assumption, part string) Input {
	label, called := part, ""
	if part == "value" && !a.Fixed {
		label, called = "usual", "usual value"
	}
	return Input{ID: string(a.ID) + "-" + part, Label: label, called: called, As: AsNumber, fold: FoldAssumed + a.Group,
		stand: func(o *Opened) string {
			switch row := assumedOf(o, a.ID); part {
			case "low":
				return dossier.Plain(row.Low)
			case "high":
				return dossier.Plain(row.High)
			default:
				return dossier.Plain(row.Value)
			}
		},
		put:   func(c *record.Case, f *Form, text string) { f.assume(c, a.ID, part, text) },
		reset: func(c *record.Case) { c.Assumptions = without(c.Assumptions, a.ID) },
	}
}

// assumedOf returns an assumption in use.
func assumedOf(o *Opened, id assume.ID) assume.Assumption {
	all := o.Dossier.Assumptions
	if i := slices.IndexFunc(all, func(a assume.Assumption) bool { return a.ID == id }); i >= 0 {
		return all[i]
	}
	return assume.Assumption{}
}

// assume sets one of the values of an assumption: "low", "value" or "high".
func (f *Form) assume(c *record.Case, id assume.ID, part, text string) {
	set, _ := capacity.Assumptions(c)
	row := set.Get(id)
	x := number[float64](f, "", text)
	if x == nil {
		if len(f.Problems) == 0 {
			f.problem("", "a number is expected")
		}
		return
	}
	own := row.With(record.Assumed{Low: row.Low, Value: row.Value, High: row.High}, part, *x)
	if fault := row.Fault(own); fault != "" {
		f.problem("", fault+"; expected "+row.Expected())
		return
	}
	usual := *c
	usual.Assumptions = without(c.Assumptions, id)
	set, _ = capacity.Assumptions(&usual)
	c.Assumptions = usual.Assumptions
	if row := set.Get(id); own == (record.Assumed{Low: row.Low, Value: row.Value, High: row.High}) {
		return
	}
	c.Assumptions = maps.Clone(c.Assumptions)
	if c.Assumptions == nil {
		c.Assumptions = map[string]record.Assumed{}
	}
	c.Assumptions[string(id)] = own
}

// without returns assumptions without one; nil where that leaves none.
func without(all map[string]record.Assumed, id assume.ID) map[string]record.Assumed {
	all = maps.Clone(all)
	if delete(all, string(id)); len(all) == 0 {
		return nil
	}
	return all
}

// IsSet reports whether an assumption has a value of its own, or a text that was
// refused.
func (m *Model) IsSet(a assume.Assumption) bool {
	for _, part := range AssumedParts(a) {
		if m.Case().typed[string(a.ID)+"-"+part].Why != "" {
			return true
		}
	}
	return a.Edited
}

// Usual puts the usual value of an assumption back, low and high too.
func (m *Model) Usual(a assume.Assumption) {
	m.Reset(assumedInput(a, "value").calledSo(a.Name))
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
