package dossier

import (
	"time"

	"ratchetmark/internal/cause"
	"ratchetmark/internal/record"
)

// cautions lists what has to stand beside the result, the gravest first.
func cautions(d *Dossier) []string {
	out := []string{
		"This is not a certificate, an inspection or a licence to return a machine to use. The maker's manual, local law and a competent person come first.",
	}
	if needsExamination(d) {
		out = append(out, "A machine suspected of an overload stays out of use until a competent person has examined it.")
	}
	if beyondTests(d) {
		out = append(out, "The peak lies beyond anything the type test covers (150 % of the rated load): have the structure examined, whatever the cause.")
	}
	if has(d, cause.Drift) || undecided(d) {
		out = append(out, "A load cell that reads wrongly may fail to stop a real overload: have its zero and a known mass checked before the machine is used.")
	}
	out = append(out,
		"A passed load test does not clear a history of overloads, and a 125 % test is no licence to work at 125 %.",
		"Exposure is an index by Miner's rule: it knows no sequence of loads, no corrosion, no earlier damage, and does not say how long a machine will last.",
	)
	return out
}

func has(d *Dossier, c cause.Cause) bool {
	for _, x := range d.Exceedances {
		if x.Verdict == c {
			return true
		}
	}
	return false
}

func undecided(d *Dossier) bool { return has(d, cause.Undecided) }

// beyondTests reports whether the peak exceeds the highest test load.
func beyondTests(d *Dossier) bool {
	return d.Capacity != nil && d.Capacity.PeakPercent != nil && *d.Capacity.PeakPercent > 150
}

// day writes a date for a person.
func day(t time.Time) string { return t.UTC().Format("2 January 2006") }

// IntervalText names an interval for a person.
func IntervalText(h record.History, number int) string {
	if number < 0 || number >= len(h.Intervals) {
		return ""
	}
	v := h.Intervals[number]
	switch {
	case v.Before < 0 && v.To.IsZero():
		return "up to the only or first reading"
	case v.Before < 0:
		return "up to " + day(v.To)
	case v.From.IsZero() || v.To.IsZero():
		return "between readings " + numberPair(v.Before+1, v.After+1)
	case day(v.From) == day(v.To):
		return "on " + day(v.From) + ", " + v.From.UTC().Format("15:04") + " to " + v.To.UTC().Format("15:04")
	}
	return day(v.From) + " to " + day(v.To)
}
