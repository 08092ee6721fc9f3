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
		return math.Pow((ra+rb)/2, m)
	}
	return (math.Pow(rb, m+1) - math.Pow(ra, m+1)) / ((m + 1) * (rb - ra))
}

// Result is the exposure of a machine's life so far.
type Result struct {
	LoadCycles   record.Bounds `json:"load_cycles"`
	DesignCycles float64       `json:"design_cycles"`
	Relative     record.Bounds `json:"relative"`        // of the design cycle budget, 1 = all of it
	FactorKp     record.Bounds `json:"spectrum_factor"` // ISO 4301-1
	Class        string        `json:"class"`
}

// placement says at which load of its segment each hour is put.
type placement int

const (
	lowerEdge placement = iota
	uniform
	upperEdge
)

// Assess returns the exposure of the segments for a rated load above 0. High is
// nil where an open band without a peak leaves it unbounded.
func Assess(segments []record.Segment, rated record.Kilogram, set assume.Set) Result {
	rate, share := set.Get(assume.CyclesPerHour), set.Get(assume.SelfWeightShare)
	m, budget := set.Value(assume.Slope), set.Value(assume.DesignCycles)
	spectrum := spectrumOf(segments, rated)

	r := Result{DesignCycles: budget}
	hours := spectrum.hours()
	r.LoadCycles = record.Bounds{
		Low: rate.Low * hours, Estimate: record.Of(rate.Value * hours), High: record.Of(rate.High * hours),
	}
	sum := func(at placement) func(s float64) float64 {
		return func(s float64) float64 { return spectrum.sum(at, s, m) }
	}
	r.Relative.Low = leastConvex(sum(lowerEdge), share.Low, share.High) * rate.Low / budget
	if spectrum.bounded {
		r.Relative.Estimate = record.Of(sum(uniform)(share.Value) * rate.Value / budget)
		high := max(sum(upperEdge)(share.Low), sum(upperEdge)(share.High))
		r.Relative.High = record.Of(high * rate.High / budget)
	}
	r.FactorKp = spectrum.factor()
	r.Class = ClassText(r.FactorKp)
	return r
}

// spectrum is hours over load ratios P/P_rated.
type spectrum struct {
	from, to, h []float64
	bounded     bool
}

func spectrumOf(segments []record.Segment, rated record.Kilogram) spectrum {
	out := spectrum{bounded: true}
	for _, s := range segments {
		to := s.To
		if !s.Bounded {
			to, out.bounded = s.From, false
		}
		out.from = append(out.from, float64(s.From/rated))
		out.to = append(out.to, float64(to/rated))
		out.h = append(out.h, float64(s.Hours))
	}
	return out
}

func (x spectrum) hours() float64 {
	var sum float64
	for _, h := range x.h {
		sum += h
	}
	return sum
}

// sum returns Σ h·(S/S_rated)^m with the hours placed as told, in hours.
// With the hours at the edges this is convex in s, as each term is.
func (x spectrum) sum(at placement, s, m float64) float64 {
	var sum float64
	for i, h := range x.h {
		switch at {
		case lowerEdge:
			sum += h * math.Pow(StressRatio(x.from[i], s), m)
		case upperEdge:
			sum += h * math.Pow(StressRatio(x.to[i], s), m)
		case uniform:
			sum += h * meanPower(x.from[i], x.to[i], s, m)
		}
	}
	return sum
}

// leastConvex returns the least value of a convex function on [a, b], by
// golden-section search to well below the digits that are shown.
func leastConvex(f func(float64) float64, a, b float64) float64 {
	const ratio = 0.6180339887498949
	least := min(f(a), f(b))
	for range 60 {
		c, d := b-ratio*(b-a), a+ratio*(b-a)
		fc, fd := f(c), f(d)
		least = min(least, fc, fd)
		if fc < fd {
			b = d
		} else {
			a = c
		}
	}
	return least
}
