package capacity

import (
	"fmt"

	"ratchetmark/internal/assume"
	"ratchetmark/internal/record"
)

// CheckPlate holds the stated rated load against the stated persons.
func CheckPlate(c *record.Case, set assume.Set) []record.Finding {
	if c.Machine.RatedLoad == nil || *c.Machine.RatedLoad <= 0 || !record.Finite(*c.Machine.RatedLoad) {
		return nil
	}
	rated := *c.Machine.RatedLoad
	mp, me := set.Value(assume.PersonMass), set.Value(assume.ToolsMass)
	least := 1
	if p := c.Machine.StatedPersons(); p != nil {
		least = *p
	}
	smallest := SmallestRatedLoad(least, mp, me)
	if rated >= smallest {
		return nil
	}
	at := record.Path("machine/rated_load_kg")
	return []record.Finding{{
		Code: "plate-inconsistent", Severity: record.Doubt, Path: at, Where: at.Words(),
		Message:  fmt.Sprintf("the rated load is %s kg", record.Number(rated)),
		Expected: fmt.Sprintf("at least %s kg for %s of %s kg with %s kg of tools and materials", record.Number(smallest), persons(least), record.Number(mp), record.Number(me)),
		Effect:   "the plate was read wrongly or is older than the rule; every share of the rated load stands on it",
		Hint:     "read the plate again: rated load, persons, and the unit",
	}}
}

func persons(n int) string {
	if n == 1 {
		return "one person"
	}
	return fmt.Sprintf("%d persons", n)
}
