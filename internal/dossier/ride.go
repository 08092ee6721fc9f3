package dossier

import (
	"fmt"

	"ratchetmark/internal/cause"
	"ratchetmark/internal/lashing"
	"ratchetmark/internal/record"
)

// ride answers how the machine should ride.
func ride(d *Dossier) string {
	t := d.Transport
	text := HeldText(t) + " " + StrapText(d)
	if len(t.All) > 0 {
		text += " " + Capital(t.Trips.Total.Brief()) + "."
	}
	return text
}

// HeldText says in a sentence how the machine is held.
func HeldText(t *Transport) string {
	h := t.Held
	switch {
	case h == nil:
		return "Hold it at the tie-down points its maker names, the platform lowered onto a block, nothing over it; what holds it is not entered yet."
	case len(h.Margins) == 0:
		return "Whether it is held cannot be said yet: " + firstFinding(t) + "."
	}
	word := "Held"
	if !h.OK {
		word = "NOT held as asked"
	}
	if h.OK && !t.Check.Lowered {
		word = "Held, once the platform and what lifts it are lowered and secured,"
	}
	text := fmt.Sprintf("%s by %s: forward %s, rear %s, sideways %s of what is needed", word, h.Rule,
		share(h.Margins[0]), share(h.Margins[1]), share(h.Margins[2]))
	if !h.OK {
		if why := lacks(h); why != "" {
			text += "; " + why
		}
	}
	return text + "."
}

func share(m HeldMargin) string {
	if m.Percent == nil {
		return "all"
	}
	return digits(floor(*m.Percent), 0) + " %"
}

// floor cuts a percentage down, so that no margin is rounded up to 100.
func floor(x float64) float64 { return float64(int(min(x, 9999) + 1e-9)) }

// lacks says what is not met beside the directions.
func lacks(h *Held) string {
	switch {
	case h.Tipping != nil && h.Tipping.Held < h.Tipping.Needed:
		return "it may tip to the side"
	case h.Aggregate != nil && h.Aggregate.Number < h.Aggregate.Least:
		return fmt.Sprintf("%d tie-downs of at least %d", h.Aggregate.Number, h.Aggregate.Least)
	case h.Aggregate != nil && h.Aggregate.Counted < h.Aggregate.Required:
		return fmt.Sprintf("working load limits count %s lb of %s lb", Count(h.Aggregate.Counted), Count(h.Aggregate.Required))
	case h.Downforce != nil && h.Downforce.Held < h.Downforce.Needed:
		return "too little is held against lifting"
	}
	return ""
}

func firstFinding(t *Transport) string {
	for _, f := range t.Findings {
		if f.Severity == "blocking" {
			return f.Where + ": " + f.Message
		}
	}
	return "nothing was worked out"
}

// routeWords names where a strap goes.
var routeWords = map[lashing.Route]string{
	lashing.OverRails: "over the rails", lashing.OverFloor: "over the floor of the platform", lashing.OverMount: "over the platform's mount",
}

// StrapWords names the straps over the platform with where they go.
func StrapWords(t *Transport) string {
	text := "one " + t.Device.Name
	if t.Over.Straps > 1 {
		text = fmt.Sprintf("%d x %s", t.Over.Straps, t.Device.Name)
	}
	text += " " + routeWords[t.Over.Route]
	if t.Over.Blocked {
		text += ", with a block under it"
	}
	return text
}

// StrapText says in a sentence what straps over the platform do to the cell.
func StrapText(d *Dossier) string {
	t := d.Transport
	if t.Over.Route == lashing.NotOver {
		return "Nothing goes over the platform, so no strap loads the cell."
	}
	a := t.Strap.Apparent
	text := fmt.Sprintf("%s would read as %s", Capital(StrapWords(t)), rangeText(float64(a.Low), float64(a.High), Kg))
	if p := t.Strap.Percent; p != nil {
		text += ", " + rangeText(p.Low/100, p.High/100, Percent) + " of the rated load"
	}
	return text + "."
}

// rangeText writes a range with its unit once: "357 to 714 kg".
func rangeText(low, high float64, write func(float64) string) string {
	l, h := write(low), write(high)
	if l == h {
		return h
	}
	for _, unit := range []string{" kg", " %"} {
		if len(l) > len(unit) && l[len(l)-len(unit):] == unit {
			l = l[:len(l)-len(unit)]
		}
	}
	return l + " to " + h
}

// MatchText says what would give the highest peak; empty where it is not over
// the rated load.
func MatchText(d *Dossier) string {
	if peakPercent(d) <= 100 {
		return ""
	}
	peak := cause.LoadOver(record.Kilogram(*d.Capacity.Peak), d.History.Rated)
	best := lashing.Likeliest(lashing.Matches(record.Kilogram(*d.Capacity.Peak), d.Transport.Over.Edge.Usual))
	if best == nil {
		return "No strap or chain of the table over the rails gives the peak of " + peak + " at 45 to 90 degrees."
	}
	what := "one " + best.Device.Name
	if best.Straps > 1 {
		what = fmt.Sprintf("%d x %s", best.Straps, best.Device.Name)
	}
	return fmt.Sprintf("The peak of %s is what %s at %.0f degrees over the rails gives, pulled to %s daN. That something would give a load does not say that it did.", peak, what, best.AngleDeg, digits(best.Tension, 0))
}

// TestText holds a strap's load against the loads of the type test.
func TestText(d *Dossier) string {
	p := d.Transport.Strap.Percent
	if p == nil || d.Transport.Over.Route == lashing.NotOver {
		return ""
	}
	text := "At its most that is a static load "
	switch {
	case p.High > 150:
		text += "beyond anything the type test covers (150 % of the rated load; EN 280, 5.4.1.6, from memory): have it examined"
	case p.High > 125:
		text += "above the static test load (125 %): have it examined"
	case p.High > 110:
		text += "above the dynamic test load (110 %), below the static one (125 %)"
	case p.High > 100:
		text += "above the rated load, below the test loads (110 and 125 %)"
	default:
		text += "below the rated load"
	}
	s := d.Transport.Strap.Settled
	return text + fmt.Sprintf(". Once it has settled on the road, about %s may be left, at least %s and at most %s.", Kg(float64(s.Estimate)), Kg(float64(s.Low)), Kg(float64(s.High)))
}
