package capacity

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"ratchetmark/internal/assume"
	"ratchetmark/internal/record"
)

// Standing is what a machine is held against: where it is used, the document it
// was built to, and the rules of that.
type Standing struct {
	Region  Region  // empty: not stated
	Edition Edition // the usual one of the region where none is stated
	Stated  bool    // the edition is
	Rules   Rules
}

// StandingOf returns what a machine is held against, as its case says. Where
// neither region nor edition is stated it is that of European machines of today.
func StandingOf(m record.Machine) Standing {
	s := Standing{Edition: EN2022}
	if r := Region(m.Region); slices.Contains(Regions, r) {
		s.Region, s.Edition = r, UsualEdition(r)
	}
	if e := Edition(m.Edition); knownEdition(e) {
		s.Edition, s.Stated = e, true
	}
	s.Rules = Choose(Choice{Edition: s.Edition, Kind: m.Kind, Manual: m.ByHand, RaisingOnly: m.RaisingOnly})
	return s
}

func knownEdition(e Edition) bool {
	return slices.ContainsFunc(Editions, func(r EditionRow) bool { return r.Edition == e })
}

// ids name the values of the rules among the assumptions.
var ids = map[Param]assume.ID{
	FirstPerson: "first_person_kg", FurtherPerson: assume.PersonMass, Tools: assume.ToolsMass,
	WindowFrom: assume.SensingFrom, WindowTo: assume.SensingTo,
	DynamicTest: "dynamic_test_pct", StaticTest: "static_test_pct", EnhancedTest: "enhanced_test_pct",
	FromRail: "person_from_rail_m", Apart: "persons_apart_m", ToolsFloor: "tools_floor_pct", ToolsPressure: "tools_pressure_kn_m2",
	ForceOne: "manual_force_one_n", ForceMore: "manual_force_more_n",
}

// Counts reports whether a figure of a [Result] rests on a value of the rules;
// the others say how people stand and push, and are there to be looked up.
func Counts(id assume.ID) bool {
	for _, p := range []Param{FromRail, Apart, ToolsFloor, ToolsPressure, ForceOne, ForceMore} {
		if p.ID() == id {
			return false
		}
	}
	return true
}

// ID names the value among the assumptions of a case.
func (p Param) ID() assume.ID { return ids[p] }

// Assumptions returns the assumptions for a case: the values of the rules that
// hold for its machine, and all others. What the case sets itself is in place.
func Assumptions(c *record.Case) (assume.Set, []record.Finding) {
	return assume.For(c, StandingOf(c.Machine).assumptions()...)
}

// assumptions writes the values of the rules as rows of the table.
func (s Standing) assumptions() []assume.Assumption {
	var out []assume.Assumption
	for _, row := range s.Rules.rows {
		if row.Param == FirstPerson && s.onePerson() {
			continue // as each further one
		}
		a := row.assumption()
		if row.Param == FurtherPerson && s.onePerson() {
			a.Name = "mass of a person"
		}
		out = append(out, a)
	}
	if _, ok := s.Rules.Get(Tools); !ok { // the masses of the persons are all the rule has
		row, _ := s.Rules.Get(FurtherPerson)
		row.Param, row.Value = Tools, 0
		out = append(out, row.assumption())
	}
	return out
}

// onePerson reports whether the rules have one mass for all persons.
func (s Standing) onePerson() bool {
	return s.Rules.mass(FirstPerson) == s.Rules.mass(FurtherPerson)
}

func (r Row) assumption() assume.Assumption {
	limits := rangeOf(r.Param)
	x := r.Value
	a := assume.Assumption{
		ID: r.Param.ID(), Name: limits.Name, Unit: string(r.Unit), Rule: true, Fixed: true,
		Least: limits.Least, Most: limits.Most, Source: r.Source.String(), Status: r.Source.Status,
	}
	if r.Unit == Lb {
		x, a.Unit = float64(Mass{x, Lb}.Kilograms()), string(Kg)
		a.Stated = strconv.FormatFloat(r.Value, 'f', -1, 64) + " lb"
	}
	a.Low, a.Value, a.High = x, x, x
	return a
}

// Under returns the rules with the values that a case sets itself.
func (r Rules) Under(set assume.Set) Rules {
	for _, row := range r.rows {
		a, ok := set.Find(row.Param.ID())
		if row.Param == FirstPerson && !ok {
			a, ok = set.Find(assume.PersonMass)
		}
		if !ok || !a.Edited {
			continue
		}
		x := a.Value
		if row.Unit == Lb {
			x /= KgPerLb
		}
		r, _ = r.With(row.Param, x) // within the same range
	}
	return r
}

// RuleOf returns the persons-plus-tools rule of the assumptions in use.
func RuleOf(set assume.Set) PersonRule {
	mp := set.Value(assume.PersonMass)
	p := PersonRule{First: mp, Further: mp, Tools: set.Value(assume.ToolsMass)}
	if first, ok := set.Find(FirstPerson.ID()); ok {
		p.First = first.Value
	}
	return p
}

// CheckConditions holds what a case says of region, edition and further rated
// loads against what there is.
func CheckConditions(c *record.Case, set assume.Set) []record.Finding {
	var out []record.Finding
	m := &c.Machine
	at := record.Path("machine")
	if m.Region != "" && !slices.Contains(Regions, Region(m.Region)) {
		out = append(out, unknown(at.At("region"), "region", m.Region, words(Regions), "no region is taken as stated"))
	}
	if m.Edition != "" && !knownEdition(Edition(m.Edition)) {
		var names []Edition
		for _, e := range Editions {
			names = append(names, e.Edition)
		}
		out = append(out, unknown(at.At("edition"), "edition", m.Edition, words(names), "the edition that is usual in the region is used"))
	}
	if len(m.Zones) > 0 {
		out = append(out, checkZones(m, RuleOf(set))...)
	}
	return out
}

func unknown(at record.Path, what, found, expected, effect string) record.Finding {
	return record.Finding{
		Code: what + "-unknown", Severity: record.Doubt, Path: at, Where: at.Words(),
		Message: fmt.Sprintf("%s %q is not known here", what, found), Expected: expected,
		Effect: effect, Hint: "choose the " + what + " on the sheet",
	}
}

func words[T ~string](all []T) string {
	var out []string
	for _, x := range all {
		out = append(out, string(x))
	}
	return "one of " + strings.Join(out, "; ")
}
