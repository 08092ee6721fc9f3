package fatigue

import (
	"ratchetmark/internal/assume"
	"ratchetmark/internal/record"
)

// Basis says what hours become load cycles through.
type Basis string

// The bases.
const (
	ByHours  Basis = "hours"  // an assumed rate for each counted hour
	ByMoving Basis = "moving" // an assumed rate for each hour that the machine moved
	ByCount  Basis = "count"  // load cycles that the machine counted
)

// Bases are all bases in the order in which they are shown.
var Bases = []Basis{ByHours, ByMoving, ByCount}

// The three values of an assumption.
const (
	low = iota
	usual
	high
)

// Use is what a machine did: hours over loads, and what turns them into load
// cycles. Weights are counted hours, or moving hours spread over the bands as
// the counted ones are.
type Use struct {
	spectrum
	Basis Basis
	rate  [3]float64 // load cycles for each hour of weight
	share assume.Assumption
	set   assume.Set
	rated record.Kilogram

	// AtLeast: hours are missing from the record, and nothing bounds what grows
	// with them from above.
	AtLeast bool
}

func useByHours(segments []record.Segment, rated record.Kilogram, set assume.Set) Use {
	rate := set.Get(assume.CyclesPerHour)
	return Use{
		spectrum: spectrumOf(segments, rated, 1), Basis: ByHours, rate: [3]float64{rate.Low, rate.Value, rate.High},
		share: set.Get(assume.SelfWeightShare), set: set, rated: rated,
	}
}

// UseOf returns the use within intervals for a rated load above 0. ok is false
// where the basis is not in the record: an interval with hours and no moving
// hours, or no count. Without any hours it is false for every basis.
func UseOf(intervals []record.Interval, rated record.Kilogram, set assume.Set, basis Basis, count *float64) (u Use, ok bool) {
	u = useByHours(nil, rated, set)
	u.Basis = basis
	for _, v := range intervals {
		scale, known := scaleOf(v, basis)
		segments := v.Segments()
		if len(segments) == 0 {
			continue
		}
		if !known {
			return u, false
		}
		u.spectrum.add(segments, rated, scale)
	}
	hours := u.sumOfHours()
	switch {
	case len(u.h) == 0:
		return u, false
	case basis == ByMoving:
		rate := set.Get(assume.CyclesPerMovingHour)
		u.rate = [3]float64{rate.Low, rate.Value, rate.High}
	case basis == ByCount:
		const fastest = 10_000 // load cycles an hour; more says that the two counters do not belong together
		if count == nil || !(*count > 0) || !(*count <= fastest*hours) {
			return u, false
		}
		each := *count / hours
		u.rate = [3]float64{each, each, each}
	}
	return u, true
}

// scaleOf returns the weight of a counted hour of an interval.
func scaleOf(v record.Interval, basis Basis) (scale float64, known bool) {
	if basis != ByMoving {
		return 1, true
	}
	const most = 100 // more moving than counted hours is a matter for the checks; so many more says nothing
	hours := record.Total(v.Bands)
	if v.Moving == nil || !(*v.Moving <= most*hours) || hours <= 0 {
		return 0, false
	}
	return float64(*v.Moving / hours), true
}

// slope is the slope m in use.
func (u *Use) slope() float64 { return u.set.Value(assume.Slope) }
