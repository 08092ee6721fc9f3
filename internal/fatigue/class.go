package fatigue

import (
	"fmt"

	"ratchetmark/internal/record"
)

// factor returns the load spectrum factor Kp = Σ w (P/P_rated)³ / Σ w, weighted
// by hours and normalised by the rated load (ISO 4301-1, restated). It exceeds
// 1 where loads above the rated load dominate.
func (x *spectrum) factor() record.Bounds {
	hours := x.sumOfHours()
	if hours == 0 {
		return record.Bounds{Estimate: record.Of(0.0), High: record.Of(0.0)}
	}
	b := x.fullLoadHours()
	for _, sum := range []*float64{&b.Low, b.Estimate, b.High} {
		if sum != nil {
			*sum /= hours
		}
	}
	return b
}

// FullLoadHours returns the full-load-equivalent hours Σ h (P/P_rated)³.
// (ISO 4301-1:2016, annex B, restated)
func (u *Use) FullLoadHours() record.Bounds {
	b := u.fullLoadHours()
	if u.AtLeast {
		return record.Bounds{Low: b.Low}
	}
	return b
}

func (x *spectrum) fullLoadHours() record.Bounds {
	const noSelfWeight, exponent = 0, 3 // ISO 4301-1:2016
	b := record.Bounds{Low: x.sum(lowerEdge, noSelfWeight, exponent)}
	if x.bounded {
		b.Estimate = record.Of(x.sum(uniform, noSelfWeight, exponent))
		b.High = record.Of(x.sum(upperEdge, noSelfWeight, exponent))
	}
	return b
}

// step is a class with the most it covers.
type step struct {
	name string
	upTo float64
}

// The classes of ISO 4301-1 with their upper bounds (restated): load spectrum
// classes of both editions, classes of use by load cycles, and mechanism classes
// by full-load-equivalent hours (2016, annex B).
var (
	spectrum2016 = []step{{"Qp0", 0.0313}, {"Qp1", 0.0625}, {"Qp2", 0.125}, {"Qp3", 0.25}, {"Qp4", 0.5}, {"Qp5", 1}}
	spectrum1986 = []step{{"Q1", 0.125}, {"Q2", 0.25}, {"Q3", 0.5}, {"Q4", 1}}
	useClasses   = []step{{"U0", 1.6e4}, {"U1", 3.15e4}, {"U2", 6.3e4}, {"U3", 1.25e5}, {"U4", 2.5e5}, {"U5", 5e5}, {"U6", 1e6}, {"U7", 2e6}, {"U8", 4e6}, {"U9", 8e6}}
	hourClasses  = []step{{"M1", 100}, {"M2", 200}, {"M3", 400}, {"M4", 800}, {"M5", 1600}, {"M6", 3200}, {"M7", 6300}, {"M8", 12500}}
)

// stepOf returns the index of the class of a value; len(steps) beyond the last.
func stepOf(steps []step, x float64) int {
	for i, c := range steps {
		if x <= c.upTo {
			return i
		}
	}
	return len(steps)
}

func stepName(steps []step, i int) string {
	if i < len(steps) {
		return steps[i].name
	}
	return "beyond " + steps[len(steps)-1].name
}

// stepText names the classes that bounds allow.
func stepText(steps []step, b record.Bounds) string {
	first := stepName(steps, stepOf(steps, b.Low))
	if b.High == nil {
		return first + " or above"
	}
	if last := stepName(steps, stepOf(steps, *b.High)); last != first {
		return first + " to " + last
	}
	return first
}

// ClassText names the classes that the bounds of a factor allow.
func ClassText(kp record.Bounds) string { return stepText(spectrum2016, kp) + " (ISO 4301-1:2016)" }

// Classes are the classes of the use so far, each edition by its own rule.
type Classes struct {
	Use          string `json:"use"`           // U0 to U9, by load cycles; both editions
	Spectrum2016 string `json:"spectrum_2016"` // Qp0 to Qp5
	Group2016    string `json:"group_2016"`    // number of the group A, U + Qp - 3
	Spectrum1986 string `json:"spectrum_1986"` // Q1 to Q4
	Group1986    string `json:"group_1986"`    // A1 to A8
	Hours        string `json:"hours_2016"`    // M1 to M8, by full-load-equivalent hours
}

// Classes classes the use.
func (u *Use) Classes() Classes {
	cycles, kp := u.Cycles(), u.factor()
	return Classes{
		Use: stepText(useClasses, cycles), Hours: stepText(hourClasses, u.FullLoadHours()),
		Spectrum2016: stepText(spectrum2016, kp), Spectrum1986: stepText(spectrum1986, kp),
		Group2016: groupText(cycles, kp, spectrum2016, Group2016),
		Group1986: groupText(cycles, kp, spectrum1986, Group1986),
	}
}

// Group2016 names the group of classes Uu and Qpq by A = U + Qp - 3; ok is false
// beyond the last class of either. (ISO 4301-1:2016, restated)
func Group2016(u, q int) (name string, ok bool) {
	return fmt.Sprintf("number %d", u+q-3), u < len(useClasses) && q < len(spectrum2016)
}

// Group1986 names the group of classes Uu and Q(q+1) by A = U + Q - 2, no less
// than A1 and no more than A8; ok is false beyond the last class of either.
// (ISO 4301-1:1986, restated)
func Group1986(u, q int) (name string, ok bool) {
	return fmt.Sprintf("A%d", min(max(u+(q+1)-2, 1), 8)), u < len(useClasses) && q < len(spectrum1986)
}

func groupText(cycles, kp record.Bounds, spectrum []step, group func(u, q int) (string, bool)) string {
	name := func(cycles, kp float64) string {
		text, ok := group(stepOf(useClasses, cycles), stepOf(spectrum, kp))
		if !ok {
			return "beyond the classes"
		}
		return text
	}
	first := name(cycles.Low, kp.Low)
	if cycles.High == nil || kp.High == nil {
		return first + " or above"
	}
	if last := name(*cycles.High, *kp.High); last != first {
		return first + " to " + last
	}
	return first
}
