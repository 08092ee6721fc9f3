package dossier

import (
	"fmt"
	"time"

	"ratchetmark/internal/capacity"
	"ratchetmark/internal/record"
)

// AsRead says what the exposure takes for granted.
const AsRead = "Loads are taken as the cell read them, whatever the cause: where it read too high, or nothing moved, the true figures are lower; where it read too low, higher."

// cautions lists what has to stand beside the result, the gravest first.
func cautions(d *Dossier) []string {
	out := []string{
		"This is not a certificate, an inspection or a licence to return a machine to use. The maker's manual, local law and a competent person come first.",
	}
	if len(d.Exceedances) > 0 {
		out = append(out, "A machine suspected of an overload stays out of use until a competent person has examined it.")
	}
	if text := beyondTests(d); text != "" {
		out = append(out, text)
	}
	switch wrong := wrongNow(d); {
	case wrong != nil:
		out = append(out, "This load cell showed "+offWords(*wrong)+": a cell that reads wrongly may fail to stop a real overload. Have it set and checked again, zero and a known mass, before the machine is used.")
	case len(d.Exceedances) > 0:
		out = append(out, "A load cell that reads wrongly may fail to stop a real overload: have its zero and a known mass checked before the machine is used.")
	}
	if peakPercent(d) > 100 || len(d.Exceedances) > 0 {
		out = append(out, "In transport, no strap over the platform: hold the machine at the tie-down points its maker names, and switch it off before lashing.")
	}
	out = append(out,
		"A passed load test does not clear a history of overloads, and a 125 % test is no licence to work at 125 %.",
		"Exposure is an index by Miner's rule: it knows no sequence of loads, no corrosion, no earlier damage, and does not say how long a machine will last.",
	)
	return out
}

// beyondTests says that the peak lies above the loads of the tests; the usual
// ones where the edition has none. Empty where it does not.
func beyondTests(d *Dossier) string {
	static, enhanced := 125.0, 150.0
	source := "EN 280, 5.4.1.6, from memory"
	if d.Capacity != nil {
		for _, s := range d.Capacity.Shares {
			switch s.Param {
			case capacity.StaticTest:
				static = s.Percent
			case capacity.EnhancedTest:
				enhanced, source = s.Percent, fmt.Sprintf("%s, %s", s.Source, s.Source.Status)
			}
		}
	}
	switch p := peakPercent(d); {
	case p > max(static, enhanced):
		return fmt.Sprintf("The peak lies beyond anything the type test covers (%s %% of the rated load; %s): have the structure examined, whatever the cause.", Plain(max(static, enhanced)), source)
	case p > static:
		return fmt.Sprintf("The peak lies above the static test load (%s %% of the rated load): have the structure examined, whatever the cause.", Plain(static))
	}
	return ""
}

// peakPercent returns the peak in percent of the rated load; 0 without one.
func peakPercent(d *Dossier) float64 {
	if d.Capacity == nil || d.Capacity.PeakPercent == nil {
		return 0
	}
	return *d.Capacity.PeakPercent
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
		return "on " + day(v.From) + ", " + v.From.UTC().Format("15:04") + " to " + v.To.UTC().Format("15:04") + " UTC"
	}
	return day(v.From) + " to " + day(v.To)
}
