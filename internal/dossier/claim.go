package dossier

import (
	"fmt"

	"ratchetmark/internal/cause"
	"ratchetmark/internal/fatigue"
	"ratchetmark/internal/record"
)

// groupPhrases names what the exposure came from.
var groupPhrases = map[fatigue.Group]string{
	fatigue.Ordinary:  "use within the rated load",
	fatigue.Unsettled: "loads over it whose cause is undecided",
	"worked":          "work over it (people, tools, material)",
	"lashed":          "tie-down over the platform",
	"shock":           "shocks",
	"drift":           "a drifted load cell",
}

// GroupPhrase names what a share of the exposure came from.
func GroupPhrase(g fatigue.Group) string { return groupPhrases[g] }

// claimWords answers whether what went over the rated load can have caused
// damage that is claimed.
func (d *Dossier) claimWords(c Claim) string {
	switch {
	case c.Damage == "bent":
		return d.bentWords(c)
	case len(c.Shares) == 0:
		return "How much of the exposure came from what is not known: hours or a peak are missing."
	case c.Damage == "crack":
		return "For a fatigue crack: " + shareWords(c.Shares) + placeWords(c.Part)
	}
	return Capital(shareWords(c.Shares))
}

// shareWords says which of the two did more, use within the rated load or loads
// over it, or that it cannot be told.
func shareWords(shares []fatigue.Share) string {
	o := shares[0].Exposure
	switch {
	case o.Low >= 1:
		return "all of the exposure came from use within the rated load; nothing that was counted lay over it."
	case o.Low > 0.5:
		return "use within the rated load did most of it, " + shareText(o) + " of the exposure; what went over had a part in it of " + shareText(complement(o)) + "."
	case *o.High < 0.5:
		return "loads over the rated load did most of it, " + shareText(complement(o)) + " of the exposure."
	}
	return "it cannot be told which did more: use within the rated load made " + shareText(o) + " of the exposure."
}

// complement is the rest of a share.
func complement(b record.Bounds) record.Bounds {
	return record.Bounds{Low: 1 - *b.High, Estimate: record.Of(1 - *b.Estimate), High: record.Of(1 - b.Low)}
}

// shareText writes a share as "between 0 % and 2.1 %".
func shareText(b record.Bounds) string {
	low, high := Percent(b.Low), Percent(*b.High)
	if low == high {
		return high
	}
	return "between " + low + " and " + high
}

// bentWords speaks of a part that is bent: of one load, not of many.
func (d *Dossier) bentWords(c Claim) string {
	text := "A part bends under one load that is too high, not under many: "
	s := d.Static
	if s == nil {
		s = d.static()
	}
	if s == nil {
		return text + "the record shows none over the rated load." + placeWords(c.Part)
	}
	return text + fmt.Sprintf("the highest recorded is %s, %s of the rated load; its cause is %s.%s", Kg(float64(s.Peak)), Percent(s.Percent/100), d.peakCause(s.Peak), placeWords(c.Part))
}

// peakCause says what caused a peak.
func (d *Dossier) peakCause(peak record.Kilogram) string {
	for _, x := range d.Exceedances {
		if x.What == cause.Peak && x.Peak != nil && *x.Peak == peak && x.Verdict != cause.Undecided {
			return Phrase(x.Verdict) + " by the record (" + x.Words + ")"
		}
	}
	return "undecided"
}

// placeWords says that the figure is of the machine, not of the part.
func placeWords(part string) string {
	if part == "" {
		return ""
	}
	return " Whether that holds at the " + part + " depends on the stress there, which the record does not know."
}
