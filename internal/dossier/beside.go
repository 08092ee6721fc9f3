package dossier

import (
	"fmt"

	"ratchetmark/internal/cause"
)

// besides says, of a peak and of the hours of the band that it lies in, what
// their answers have to do with each other where they differ: they are weighed
// apart.
func (d *Dossier) besides() {
	for i := range d.Exceedances {
		for j := range d.Exceedances {
			p, b := &d.Exceedances[i], &d.Exceedances[j]
			if p.What != cause.Peak || b.What != cause.Band || b.Interval != p.Interval || !b.holds(p) {
				continue
			}
			if b.MayBeUnder {
				b.Beside = "The " + p.Title + " lies in this band: that much did go over, if only for a moment."
			} else if p.Verdict != b.Verdict || p.Leader != b.Leader {
				p.Beside = fmt.Sprintf("The %s in the band that it lies in %s. %s", HoursBetween(b.Hours.Low, b.Hours.High), standing(b), bothTrue(p, b))
				b.Beside = fmt.Sprintf("The %s lies in this band, is weighed apart, and %s: see there.", p.Title, standing(p))
			}
		}
	}
}

// holds reports whether a peak lies in the band.
func (x *Exceedance) holds(p *Exceedance) bool {
	return x.From <= *p.Peak && (x.To == nil || *p.Peak < *x.To)
}

// standing says what came of the other piece.
func standing(x *Exceedance) string {
	are, stay, lean := "is", "stays", "fits"
	if x.What == cause.Band {
		are, stay, lean = "are", "stay", "fit"
	}
	switch {
	case x.Verdict != cause.Undecided:
		return fmt.Sprintf("%s put down to %s (%s)", are, plainly(x.Verdict), x.Words)
	case x.Ratio.Value < alike:
		return fmt.Sprintf("%s undecided between %s and %s", stay, plainly(x.Leader), plainly(x.Ratio.Against))
	}
	return fmt.Sprintf("%s undecided, but %s %s best", stay, lean, plainly(x.Leader))
}

// bothTrue says how two answers that differ can both be true.
func bothTrue(p, b *Exceedance) string {
	const moment = "Both can be true: a peak is one moment, the hours are all the time that the band was loaded"
	switch {
	case p.Verdict != cause.Undecided && b.Verdict != cause.Undecided:
		return moment + "."
	case b.Verdict != cause.Undecided && b.Verdict != cause.Shock && (p.Leader == cause.Shock || p.Ratio.Against == cause.Shock):
		return "That is no contradiction: a shock can set a peak but hardly counts hours, so the hours speak against it and the peak by itself does not."
	case b.Verdict != cause.Undecided:
		return "That is no contradiction: the hours tell more than one highest load, and the peak may be of another moment."
	case p.Verdict != cause.Undecided:
		return moment + ", and part of them may have come from something else."
	}
	return moment + "; a peak can be lashed while the hours in its band were worked."
}
