package dossier

import (
	"fmt"
	"strings"

	"ratchetmark/internal/capacity"
	"ratchetmark/internal/record"
)

// Answers opens each question of the sheet with one sentence or two.
type Answers struct {
	Summary  string `json:"summary"`
	Recorded string `json:"recorded"`
	Carry    string `json:"carry"`
	Over     string `json:"over"`
	Cost     string `json:"cost"`
	Handover string `json:"handover"`
}

func answers(d *Dossier) Answers {
	return Answers{
		Summary:  summary(d),
		Recorded: recorded(d),
		Carry:    carry(d),
		Over:     over(d),
		Cost:     cost(d),
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
		text := "a peak of " + Kg(float64(*peak))
		if at := peakDate(h, *peak); at != "" {
			text += " on " + at
		}
		parts = append(parts, text)
	}
	if len(parts) == 0 {
		return "Nothing that can be counted with."
	}
	text := capital(list(parts, "and"))
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
	return carried(d, c) + incomplete(d)
}

func carried(d *Dossier, c *capacity.Result) string {
	text := "Rated load " + Kg(float64(c.Rated))
	if c.Persons != nil {
		text += fmt.Sprintf(" for %s", persons(*c.Persons))
		if c.Spare >= 0 {
			text += fmt.Sprintf(", %s more than the rule asks for", Kg(c.Spare))
			if c.Spare == 0 {
				text = strings.Replace(text, "0 kg more than the rule asks for", "just what the rule asks for", 1)
			}
		} else {
			text += fmt.Sprintf(", %s less than the rule asks for", Kg(-c.Spare))
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
	case n == 0 && withoutPeak(d) != "":
		return "No counted hours went over the rated load; a short overload cannot be excluded, because " + withoutPeak(d) + "."
	case n == 0:
		return "Nothing went over the rated load."
	case n == 1:
		return "One piece went over: " + byVerdict(d) + "."
	default:
		return fmt.Sprintf("%d pieces went over: %s.", n, byVerdict(d))
	}
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
	return text + fmt.Sprintf("between %s and %s of the design cycle budget, about %s.", Percent(e.Relative.Low), Percent(*e.Relative.High), Percent(*e.Relative.Estimate))
}

func handover(d *Dossier) string {
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
