package app

import (
	"fmt"

	"ratchetmark/internal/bodymass"
	"ratchetmark/internal/dossier"
)

// Crews says how probable it is that people drawn at random are too heavy.
type Crews struct{ view }

func (c *Crews) title() string {
	k := c.d().Capacity.Crew
	if k == nil || len(k.Over) == 0 {
		return "How probable is it that a crew is over the rated load?"
	}
	return fmt.Sprintf("A crew of %d drawn at random is over the rated load in %s of cases", k.Persons, dossier.ChanceText(k.Over[0].Chance))
}

func (c *Crews) answer() string {
	if k := c.d().Capacity.Crew; k != nil {
		return k.Line()
	}
	return "Not worked out: a field or the rated load says why."
}

// lines say what the chance rests on.
func (c *Crews) lines() []string {
	out := []string{
		"People are drawn one by one, without regard to each other or to the work. A real crew is neither random nor of that country: weigh, do not guess, where it is close.",
		fmt.Sprintf("People who work at height are heavier than that: a 95th percentile of %s underestimates theirs (HSE RR342, read).", dossier.Kg(bodymass.AtHeight95)),
	}
	if k := c.d().Capacity.Crew; k != nil {
		out = append([]string{fmt.Sprintf("Mean of %s: %s (%s; %s). The spread of body mass is taken as that of adults in the United States (NCHS Series 3 No. 50, 2025, Table 3, read).",
			k.People, dossier.Mass(k.Mean), k.Source, k.Source.Status)}, out...)
	}
	return out
}
