// Package fatigue bounds what use has cost the structure: the hours per load
// band become load cycles, the cycles a sum of relative stress ranges to the
// power of the slope, held against the design cycle budget.
//
// The sum follows Miner's rule: an index without sequence effect or corrosion.
// It never says how much longer a structure will last.
package fatigue

import (
	"math"

	"ratchetmark/internal/assume"
	"ratchetmark/internal/record"
)

// StressRatio returns S/S_rated = s + (1-s)·P/P_rated, the stress range of a
// load cycle relative to the one at rated load, for a self-weight share s in
// [0, 1] and a load ratio p = P/P_rated of 0 or more. A model assumption: the
// self-weight moves with the boom in every cycle, the platform load adds to it.
func StressRatio(p, s float64) float64 { return s + (1-s)*p }

// meanPower returns the mean of StressRatio(p, s)^m for p uniform on [a, b]:
// (r(b)^(m+1) - r(a)^(m+1)) / ((m+1)(r(b) - r(a))).
func meanPower(a, b, s, m float64) float64 {
	ra, rb := StressRatio(a, s), StressRatio(b, s)
	// Below this width the closed form loses digits to cancellation, and the
	// midpoint is right to better than 1e-10.
	if rb-ra <= 1e-5*rb {
		return power((ra+rb)/2, m)
	}
	return (power(rb, m+1) - power(ra, m+1)) / ((m + 1) * (rb - ra))
}

// power returns x^m; the usual slopes 3 and 5, and one more, are quick.
func power(x, m float64) float64 {
	switch m {
	case 3:
		return x * x * x
	case 4:
		return x * x * x * x
	case 5:
		return x * x * x * x * x
	case 6:
		return x * x * x * x * x * x
	}
	return math.Pow(x, m)
}

// Result is the exposure of a machine's life so far.
type Result struct {
	LoadCycles   record.Bounds `json:"load_cycles"`
	DesignCycles float64       `json:"design_cycles"`
	Relative     record.Bounds `json:"relative"`        // of the design cycle budget, 1 = all of it
	FactorKp     record.Bounds `json:"spectrum_factor"` // ISO 4301-1
	Class        string        `json:"class"`
}

// Assess returns the exposure of the segments for a rated load above 0, with
// load cycles by the hour. High is nil where an open band without a peak leaves
// it unbounded.
func Assess(segments []record.Segment, rated record.Kilogram, set assume.Set) Result {
	u := useByHours(segments, rated, set)
	return u.Result()
}

// Result returns the exposure of the use under the slope and the budget in use.
func (u *Use) Result() Result {
	budget := u.set.Value(assume.DesignCycles)
	r := Result{
		LoadCycles: u.Cycles(), DesignCycles: budget,
		Relative: u.Relative(u.set.Value(assume.Slope), budget),
		FactorKp: u.factor(),
	}
	r.Class = ClassText(r.FactorKp)
	return r
}

// Cycles returns the load cycles.
func (u *Use) Cycles() record.Bounds {
	hours := u.sumOfHours()
	if u.AtLeast {
		return record.Bounds{Low: u.rate[low] * hours}
	}
	return record.Bounds{Low: u.rate[low] * hours, Estimate: record.Of(u.rate[usual] * hours), High: record.Of(u.rate[high] * hours)}
}

// Relative returns Σ n·(S/S_rated)^m over a budget of load cycles.
func (u *Use) Relative(m, budget float64) record.Bounds {
	return u.equivalent(u.spectrum, m).Scale(1/budget, 1/budget, 1/budget)
}

// equivalent returns Σ n·(S/S_rated)^m of a spectrum, in cycles at rated load.
// The bounds put the hours at the edges, the rate at its ends and the share
// where the sum is least and most.
func (u *Use) equivalent(x spectrum, m float64) record.Bounds {
	b := record.Bounds{Low: x.least(lowerEdge, u.share, m) * u.rate[low]}
	if x.bounded && !u.AtLeast {
		b.Estimate = record.Of(x.sum(uniform, u.share.Value, m) * u.rate[usual])
		b.High = record.Of(x.most(upperEdge, u.share, m) * u.rate[high])
	}
	return b
}
