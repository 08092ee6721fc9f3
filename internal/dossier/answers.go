package dossier

import (
	"fmt"
	"math"

	"ratchetmark/internal/capacity"
	"ratchetmark/internal/cause"
	"ratchetmark/internal/record"
)

// Answers opens each question of the sheet with one sentence or two.
type Answers struct {
	Summary  string `json:"summary"`
	Recorded string `json:"recorded"`
	Carry    string `json:"carry"`
	Over     string `json:"over"`
	Cost     string `json:"cost"`
	Ride     string `json:"ride"`
	Handover string `json:"handover"`
}

func answers(d *Dossier) Answers {
	return Answers{
		Summary:  summary(d),
		Recorded: recorded(d),
		Carry:    carry(d),
		Over:     over(d),
		Cost:     cost(d),
		Ride:     ride(d),
		Handover: handover(d),
	}
}

func recorded(d *Dossier) string {
	h := d.History
	if len(h.Intervals) == 0 {
		return "No reading yet."
	}
	var parts []string
	for i := len(h.Intervals) - 1; i >= 0; i-- { // the last reading that has hours
		r := h.Case.Readings[h.Intervals[i].After]
		if hours := record.Total(record.Countable(r.Bands)); hours > 0 {
			parts = append(parts, fmt.Sprintf("%s counted in %s", H(float64(hours)), bands(len(r.Bands))))
			break
		}
	}
	if peak := capacity.HighestPeak(h); peak != nil {
		text := "a peak of " + cause.LoadOver(*peak, h.Rated)
		if at := peakDate(h, *peak); at != "" {
			text += " on " + at
		}
		parts = append(parts, text)
	}
	if len(parts) == 0 {
		return "Nothing that can be counted with."
	}
	text := Capital(list(parts, "and"))
	return fmt.Sprintf("%s, in %s.", text, readingsSpan(h))
}

func peakDate(h record.History, peak record.Kilogram) string {
	for _, v := range h.Intervals {
		if v.Peak != nil && *v.Peak == peak && v.PeakAt != nil {
			return v.PeakAt.UTC().Format("2 January 2006")
		}
	}
	return ""
}

func readingsSpan(h record.History) string {
	n := len(h.Intervals)
	first, last := h.Intervals[0].To, h.Intervals[n-1].To
	switch {
	case n == 1 && last.IsZero():
		return "one reading without a date"
	case n == 1:
		return "one reading of " + day(last)
	case first.IsZero() || last.IsZero():
		return fmt.Sprintf("%d readings, not all dated", n)
	case day(first) == day(last):
		return fmt.Sprintf("%d readings of %s", n, day(last))
	}
	return fmt.Sprintf("%d readings from %s to %s", n, day(first), day(last))
}

func bands(n int) string {
	if n == 1 {
		return "one load band"
	}
	return fmt.Sprintf("%d load bands", n)
}

func carry(d *Dossier) string {
	c := d.Capacity
	if c == nil {
		return "Not known: " + missing(d) + "."
	}
	text := carried(d, c) + incomplete(d)
	if c.Several != nil {
		text += fmt.Sprintf(" It has %d rated loads. ", len(c.Several.Zones)) + c.zonesTogether()
	}
	return text
}

func carried(d *Dossier, c *Capacity) string {
	text := "Rated load " + Kg(float64(c.Rated))
	if c.Persons != nil {
		text += fmt.Sprintf(" for %s", persons(*c.Persons))
		switch spare := math.Round(c.Spare); {
		case c.SmallestRated == 0:
			text += ", which no such platform carries: read the plate again"
		case spare > 0:
			text += fmt.Sprintf(", %s more than the rule asks for", Kg(spare))
		case spare < 0:
			text += fmt.Sprintf(", %s less than the rule asks for", Kg(-spare))
		default:
			text += ", just what the rule asks for"
		}
	}
	over := c.HoursOver[0]
	if c.Counted == 0 {
		return text + "; no hours per band to hold against it."
	}
	if over.High == 0 {
		return text + "; no counted hours over it."
	}
	return text + "; " + HoursBetween(over.Low, over.High) + " of " + H(c.Counted) + " were over it."
}

func persons(n int) string {
	if n == 1 {
		return "one person"
	}
	return fmt.Sprintf("%d persons", n)
}

func over(d *Dossier) string {
	switch n := len(d.Exceedances); {
	case d.Capacity == nil:
		return "Not known: " + missing(d) + "."
	case n == 0 && d.Blocked():
		return "Nothing went over the rated load in what could be read; part of the record could not be used."
	case n == 0 && readLow(d) != nil:
		return "Nothing that was kept went over the rated load; a real overload cannot be excluded, because " + cellLow(d) + "."
	case n == 0 && withoutPeak(d) != "":
		return "No counted hours went over the rated load; a short overload cannot be excluded, because " + withoutPeak(d) + "."
	case n == 0 && d.Capacity.Mixed() != "":
		return "Nothing went over the rated load of the machine; " + d.Capacity.Mixed() + "."
	case n == 0:
		return "Nothing went over the rated load."
	case d.carriesNobody():
		return "Not known: " + d.nobody() + "."
	case n == 1:
		return "One piece went over: " + byVerdict(d) + "." + askFirst(d)
	default:
		return fmt.Sprintf("%d pieces went over: %s.", n, byVerdict(d)) + askFirst(d)
	}
}

// askFirst names the record that would tell most about what is undecided.
func askFirst(d *Dossier) string {
	if len(d.Settle) == 0 || !d.canSettle(d.Exceedances[d.Settle[0].Pieces[0].Piece]) {
		return ""
	}
	return " What would tell most: " + d.Settle[0].Name + "."
}

func cost(d *Dossier) string {
	e := d.Exposure
	if e == nil {
		return "Not known: it needs a rated load and hours per band."
	}
	text := "Use so far amounts to "
	if e.Relative.High != nil && *e.Relative.High < 0.0001 {
		return "Use so far amounts to under 0.01 % of the design cycle budget."
	}
	if e.Relative.High == nil {
		text += "at least " + Percent(e.Relative.Low) + " of the design cycle budget"
		if missing := incomplete(d); missing != "" {
			return text + "." + missing
		}
		return text + "; nothing bounds it above, because the open band has hours and there is no usable peak."
	}
	text += fmt.Sprintf("between %s and %s of the design cycle budget, about %s.", Percent(e.Relative.Low), Percent(*e.Relative.High), Percent(*e.Relative.Estimate))
	if len(d.Exceedances) > 0 && len(e.Claim.Shares) > 0 {
		text += " " + whichMore(e.Claim.Shares[0].Exposure)
	}
	return text
}

// whichMore says in a sentence whether use within the rated load did most of it.
func whichMore(ordinary record.Bounds) string {
	switch {
	case ordinary.Low > 0.5:
		return "Use within the rated load did most of it, " + shareText(ordinary) + "."
	case *ordinary.High < 0.5:
		return "Loads over the rated load did most of it, " + shareText(complement(ordinary)) + "."
	}
	return "Whether use within the rated load or loads over it did more cannot be told."
}

func handover(d *Dossier) string { return restsOn(d) + others(d) }

// others says where the other machines have a part in the result.
func others(d *Dossier) string {
	for _, x := range d.Exceedances {
		for _, r := range x.Reasons {
			if r.ID == "haulier" {
				return " What other machines show of the same haulier is weighed as well: their files belong to it."
			}
		}
	}
	return ""
}

func restsOn(d *Dossier) string {
	if len(d.Inputs) == 0 {
		return "Typed in by hand; print it or save the case so that another person can repeat it."
	}
	if d.has("changed-by-hand") {
		return fmt.Sprintf("Rests on %s and on changes made by hand since, worked out by %s; save the case and hand that over, so that another person can repeat it.", files(len(d.Inputs)), d.Method)
	}
	if d.has("guide-used") {
		return fmt.Sprintf("Rests on %s and on a guide made by hand that says what its columns are, worked out by %s; another person gets the same from both.", files(len(d.Inputs)), d.Method)
	}
	return fmt.Sprintf("Rests on %s, worked out by %s; another person gets the same from the same file.", files(len(d.Inputs)), d.Method)
}

func files(n int) string {
	if n == 1 {
		return "one file"
	}
	return fmt.Sprintf("%d files", n)
}
