package app

import (
	"strings"

	"ratchetmark/internal/assume"
	"ratchetmark/internal/dossier"
)

// Cost answers what the use has cost the structure.
type Cost struct{ view }

func (c *Cost) known() bool { return c.d().Exposure != nil }

func (c *Cost) chart(id string, width float64) string { return exposure(c.d(), id, width) }

func (c *Cost) lines() []string {
	e := c.d().Exposure
	return []string{
		"Load cycles: " + dossier.CountBounds(e.LoadCycles) + ", of " + dossier.Count(e.DesignCycles) + " designed for.",
		"Load spectrum factor: " + dossier.FactorBounds(e.FactorKp) + "; class " + e.Class + ".",
		dossier.AsRead,
		"An index by Miner's rule, with each stress range taken as self-weight share plus load share. It says nothing about how long the machine will last.",
	}
}

// assumed says in one sentence what the figures rest on.
func (c *Cost) assumed() string {
	var words []string
	for _, id := range []assume.ID{assume.CyclesPerHour, assume.SelfWeightShare, assume.DesignCycles, assume.Slope} {
		for _, a := range c.d().Assumptions {
			if a.ID == id {
				words = append(words, dossier.AssumptionValue(a))
			}
		}
	}
	return "Assumed: " + strings.Join(words, "; ") + "."
}
