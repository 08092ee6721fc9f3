package app

import (
	"fmt"
	"strings"

	"ratchetmark/internal/assume"
	"ratchetmark/internal/dossier"
)

// Over answers what went over the rated load, and why.
type Over struct{ view }

// mostShown is how many pieces a sheet shows; a record with more is hardly one
// of a machine, and the rest is in the saved result.
const mostShown = 60

func (c *Over) shown() []dossier.Exceedance {
	all := c.d().Exceedances
	return all[:min(len(all), mostShown)]
}

// more says how many pieces are not shown; empty when all are.
func (c *Over) more() string {
	if n := len(c.d().Exceedances) - mostShown; n > 0 {
		return fmt.Sprintf("%d further pieces are not shown here; they are in the result saved as data.", n)
	}
	return ""
}

func (c *Over) piece(i int) *dossier.Exceedance { return &c.d().Exceedances[i] }

func (c *Over) pieceID(i int) string { return fmt.Sprintf("piece-%d", i+1) }

func (c *Over) title(i int) string { return c.sentence(c.piece(i).Title) }

func (c *Over) when(i int) string {
	return c.sentence(dossier.IntervalText(c.d().History, c.piece(i).Interval))
}

func (c *Over) balanceID(i int) string { return c.pieceID(i) + "-balance" }

func (c *Over) weights(i int, width float64) string {
	return weightsOf(c.piece(i), fmt.Sprintf("p%d-%.0f", i+1, width), width)
}

func (c *Over) balance(i int, width float64) string {
	return balanceOf(c.piece(i), fmt.Sprintf("b%d-%.0f", i+1, width), width)
}

func (c *Over) shared(i int) string { return dossier.SharedText(c.piece(i)) }

func (c *Over) why(i int) string {
	return fmt.Sprintf("Why: %d things the record shows", len(c.piece(i).Reasons))
}

// together says how what is shown adds up.
func (c *Over) together() string {
	return fmt.Sprintf("All together counts at %.0f %% of its strength, because the models are rough.", 100*value(c.d(), assume.Reliance))
}

func (c *Over) telling(i int) []dossier.Reason {
	telling, _ := dossier.Telling(c.piece(i))
	return telling
}

func (c *Over) alike(i int) string {
	_, alike := dossier.Telling(c.piece(i))
	return dossier.AlikeText(alike)
}

// set says, on paper, which assumptions are not the usual ones; the table of all
// is in the result saved as data.
func (c *Over) set() string {
	var own []string
	for _, a := range c.d().Assumptions {
		if a.Group == assume.ForCauses && a.Edited {
			own = append(own, dossier.AssumptionValue(a))
		}
	}
	if len(own) == 0 {
		return "Weighed with the usual assumptions of " + c.d().Method + "; they are listed in the result saved as data."
	}
	return "Weighed with assumptions set for this case: " + strings.Join(own, "; ") + ". All are listed in the result saved as data."
}

func (c *Over) reason(i int, r dossier.Reason) string {
	return c.sentence(r.Text) + ": " + dossier.PullText(c.piece(i), r) + "."
}

func (c *Over) matters(i int) string {
	x := c.piece(i)
	if len(x.Matters) == 0 {
		return ""
	}
	return fmt.Sprintf("What matters most of the assumptions, with how many times as likely %s then is as %s:", dossier.Short(x.Leader), dossier.Short(x.Ratio.Against))
}

func (c *Over) group() string { return assume.ForCauses }

// first names the record that would settle it best.
func (c *Over) first(i int) string {
	a := c.piece(i).AskFor[0]
	return "Ask first for: " + a.Record + " (" + a.Why + ")."
}

func (c *Over) rest(i int) string {
	return fmt.Sprintf("All %d records that would help, best first", len(c.piece(i).AskFor))
}

// sentence begins words with a capital.
func (c *Over) sentence(words string) string {
	if words == "" {
		return ""
	}
	return strings.ToUpper(words[:1]) + words[1:]
}
