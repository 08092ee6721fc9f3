package fatigue

import (
	"ratchetmark/internal/record"
)

// factor returns the load spectrum factor Kp = Σ w (P/P_rated)³ / Σ w, weighted
// by hours and normalised by the rated load (ISO 4301-1, restated). It exceeds
// 1 where loads above the rated load dominate.
func (x spectrum) factor() record.Bounds {
	hours := x.hours()
	if hours == 0 {
		return record.Bounds{Estimate: record.Of(0.0), High: record.Of(0.0)}
	}
	const noSelfWeight, exponent = 0, 3 // ISO 4301-1:2016
	b := record.Bounds{Low: x.sum(lowerEdge, noSelfWeight, exponent) / hours}
	if x.bounded {
		b.Estimate = record.Of(x.sum(uniform, noSelfWeight, exponent) / hours)
		b.High = record.Of(x.sum(upperEdge, noSelfWeight, exponent) / hours)
	}
	return b
}

// classes are the load spectrum classes of ISO 4301-1:2016 with their upper
// bounds (restated).
var classes = []struct {
	Name string
	UpTo float64
}{
	{"Qp0", 0.0313}, {"Qp1", 0.0625}, {"Qp2", 0.125}, {"Qp3", 0.25}, {"Qp4", 0.5}, {"Qp5", 1},
}

// beyondClasses is said of a factor above 1, which no class covers.
const beyondClasses = "beyond Qp5"

// Class returns the load spectrum class of a factor of 0 or more.
func Class(kp float64) string {
	for _, c := range classes {
		if kp <= c.UpTo {
			return c.Name
		}
	}
	return beyondClasses
}

// ClassText names the classes that the bounds of a factor allow.
func ClassText(kp record.Bounds) string {
	low := Class(kp.Low)
	if kp.High == nil {
		return low + " or above (ISO 4301-1:2016)"
	}
	if high := Class(*kp.High); high != low {
		return low + " to " + high + " (ISO 4301-1:2016)"
	}
	return low + " (ISO 4301-1:2016)"
}
