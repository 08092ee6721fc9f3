package app

import (
	"fmt"

	"ratchetmark/internal/assume"
	"ratchetmark/internal/dossier"
)

// Carry answers what the machine may carry.
type Carry struct{ view }

func (c *Carry) hasHours() bool { return c.d().Capacity != nil && c.d().Capacity.Counted > 0 }

func (c *Carry) chart(id string, width float64) string { return hoursOver(c.d(), id, width) }

// lines are the reasoning, a sentence each.
func (c *Carry) lines() []string {
	k := c.d().Capacity
	if k == nil {
		return nil
	}
	mp, me := value(c.d(), assume.PersonMass), value(c.d(), assume.ToolsMass)
	out := []string{
		fmt.Sprintf("The rule: rated load at least persons x %s kg plus %s kg of tools and materials (EN 280-1:2022, 4.2, and ISO 16368; from memory, check it).", dossier.Plain(mp), dossier.Plain(me)),
	}
	if k.Persons != nil {
		out = append(out, fmt.Sprintf("For %d on the plate that is %s; the plate says %s.", *k.Persons, dossier.Kg(float64(k.SmallestRated)), dossier.Kg(float64(k.Rated))))
	} else {
		out = append(out, fmt.Sprintf("The persons are not stated; by the rule the rated load covers %d.", k.PersonsWithin))
	}
	if k.SensingFrom == k.SensingTo {
		out = append(out, fmt.Sprintf("The load-sensing system is stated to act at %s.", dossier.Kg(float64(k.SensingFrom))))
	} else {
		out = append(out, fmt.Sprintf("A sound load-sensing system acts between %s and %s (ANSI/SAIA A92.20, restated; EN 280-1:2022, 4.4.1.2, from memory).", dossier.Kg(float64(k.SensingFrom)), dossier.Kg(float64(k.SensingTo))))
	}
	out = append(out, "Tests: 110 % dynamic and 125 % static (Regulation (EU) 2023/1230, Annex III, 4.1.2.3); 150 % enhanced (EN 280, 5.4.1.6, from memory). They are no licence to work at those loads.")
	if k.MeanLoad != nil {
		out = append(out, "Mean load over the counted hours: "+dossier.KgBounds(*k.MeanLoad)+".")
	}
	return out
}

// value returns an assumption in use.
func value(d *dossier.Dossier, id assume.ID) float64 {
	for _, a := range d.Assumptions {
		if a.ID == id {
			return a.Value
		}
	}
	return 0
}
