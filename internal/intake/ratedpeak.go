package intake

import (
	"strings"

	"ratchetmark/internal/batch"
	"ratchetmark/internal/record"
	"ratchetmark/internal/wording"
)

// ratedPeak is a peak given in percent of the rated load, which may be said later.
type ratedPeak struct {
	at    record.Path
	share float64
	where record.Origin
}

// peakPercent takes a peak in percent.
func (c *tableCase) peakPercent(v *cell, at record.Path) {
	of := *v
	of.unit = wording.Percent
	x, err := of.number(portion)
	switch {
	case ambiguous(err):
		v.twoWays(c, at, batch.AskDecimal)
	case err != nil:
		v.unreadable(c, at, "a number of kg, lb or t, or of percent of the rated load")
	default:
		c.rated = append(c.rated, ratedPeak{at, x, v.at()})
	}
}

// settlePeaks turns peaks in percent of the rated load into kg.
func (c *tableCase) settlePeaks() {
	said := false
	for _, p := range c.rated {
		i := number0(strings.Split(string(p.at), "/")[1]) - 1
		if i < 0 || i >= len(c.out.Case.Readings) || c.out.Case.Readings[i].Peak != nil {
			continue
		}
		rated := c.out.Case.Machine.RatedLoad
		if rated == nil {
			c.g.find(c, p.where, record.Finding{
				Code: "peak-without-rated-load", Severity: record.Blocking, Path: p.at,
				Message: "a peak in percent, and no rated load", Expected: "the rated load, from the plate",
				Effect: "the peak is taken as missing", Hint: "give the rated load",
			})
			continue
		}
		c.out.Case.Readings[i].Peak = record.Of(tidy(record.Kilogram(p.share) * *rated))
		c.out.Origins[p.at] = p.where
		if !said {
			said = true
			c.g.find(c, p.where, record.Finding{
				Code: "peak-of-rated", Severity: record.Note, Path: p.at,
				Message: "the peak is given in percent", Expected: "kg, lb or t",
				Effect: "it is taken as percent of the rated load", Hint: "check what it is percent of",
			})
		}
	}
}
