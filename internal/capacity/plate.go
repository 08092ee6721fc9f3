package capacity

import (
	"fmt"
	"math"

	"ratchetmark/internal/assume"
	"ratchetmark/internal/record"
)

// CheckPlate holds the stated rated load against the stated persons.
func CheckPlate(c *record.Case, set assume.Set) []record.Finding {
	if c.Machine.RatedLoad == nil || *c.Machine.RatedLoad <= 0 || !record.Finite(*c.Machine.RatedLoad) {
		return nil
	}
	least := 1
	if p := c.Machine.StatedPersons(); p != nil {
		least = *p
	}
	at := record.Path("machine/rated_load_kg")
	if fs := CheckRated(*c.Machine.RatedLoad, least, RuleOf(set), at); len(fs) > 0 {
		return fs
	}
	if f := assume.RatedLoads.Check(float64(*c.Machine.RatedLoad), at); f != nil {
		f.Severity, f.Effect = record.Doubt, "what it covers of persons, tools and materials is not worked out; loads are held against it as it stands"
		return []record.Finding{*f}
	}
	return nil
}

// CheckRated holds a rated load against the smallest one for n persons.
func CheckRated(rated record.Kilogram, n int, rule PersonRule, at record.Path) []record.Finding {
	smallest := SmallestRatedLoad(n, rule.Further, rule.base())
	if covers(rated, smallest) {
		return nil
	}
	return []record.Finding{{
		Code: "plate-inconsistent", Severity: record.Doubt, Path: at, Where: at.Words(),
		Message:  fmt.Sprintf("the rated load is %s kg", record.Number(rated)),
		Expected: fmt.Sprintf("at least %s kg for %s", kgText(float64(smallest)), rule.asked(n)),
		Effect:   "the plate was read wrongly or is older than the rule; every share of the rated load stands on it",
		Hint:     "read the plate again: rated load, persons, and the unit",
	}}
}

// asked writes what the rule asks for n persons.
func (p PersonRule) asked(n int) string {
	if p.First != p.Further {
		return fmt.Sprintf("%s: %s kg for the first and %s kg for each further one", persons(n), kgText(p.First), kgText(p.Further))
	}
	return fmt.Sprintf("%s of %s kg with %s kg of tools and materials", persons(n), kgText(p.Further), kgText(p.Tools))
}

// kgText writes a mass to 10 g: one that was stated in pounds has endless digits.
func kgText(x float64) string { return record.Number(record.Kilogram(math.Round(100*x) / 100)) }

// covers reports whether a rated load is as large as the smallest one. Plates
// state whole figures: one that follows from pounds is off by up to half a kg.
func covers(rated, smallest record.Kilogram) bool {
	if smallest != record.Kilogram(math.Round(float64(smallest))) {
		rated += 0.5
	}
	return rated >= smallest
}

func persons(n int) string {
	if n == 1 {
		return "one person"
	}
	return fmt.Sprintf("%d persons", n)
}

// Left is what n persons leave of the rated load for tools and materials, in
// kg; below zero where the persons alone are over it.
type Left struct {
	Persons int
	Assumed float64 // with persons of the mass that the rule assumes
	Real    float64 // with persons of a real mass
}

// LeftForTools returns what 1, 2, … n persons leave of the rated load, under
// the mass the rule assumes and a real mass in kg, as a mean or a percentile.
// A rule whose first person includes tools leaves what it leaves beside them.
func LeftForTools(rated record.Kilogram, n int, rule PersonRule, real float64) ([]Left, *record.Finding) {
	if f := assume.First(rule.check(), assume.RatedLoads.Check(float64(rated), "machine/rated_load_kg"),
		assume.PersonCount.Check(float64(n), "machine/persons"), assume.PersonLoad.Check(real, "person_kg")); f != nil {
		return nil, f
	}
	if f := coversOne(rated, rule.First); f != nil {
		return nil, f
	}
	var out []Left
	for k := 1; k <= n; k++ {
		out = append(out, Left{
			Persons: k,
			Assumed: float64(rated - SmallestRatedLoad(k, rule.Further, rule.First-rule.Further)),
			Real:    float64(rated) - float64(k)*real,
		})
	}
	return out, nil
}

// coversOne refuses a rated load that does not cover one person.
func coversOne(rated record.Kilogram, person float64) *record.Finding {
	least := assume.RatedLoads
	least.Least = person
	return least.Check(float64(rated), "machine/rated_load_kg")
}
