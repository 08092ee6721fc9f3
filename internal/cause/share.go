package cause

import "math"

// Share is how many of a band's hours a cause can have made, at least and at
// most.
type Share struct{ Low, High float64 }

// hardly is the weight under which a cause is left out when hours are shared.
const hardly = 0.02

// longestShock is for how many hours shocks can add up; an assumption.
const longestShock = 0.1

// share bounds how many of a band's hours each cause can have made: a tie-down
// no more than the machine was in transit, or on a trip that custody misses, and
// stood still, work no more than it
// was elsewhere, a shock hardly any; and what the others cannot have made is
// left to the last. A cause with hardly any weight gets none.
func share(f *facts, weight [4]float64) (out [4]Share) {
	h := f.hours
	limit := [4]float64{h, h, min(h, longestShock), h}
	if c := f.custody; c.known && len(f.h.Case.Custody) > 0 && c.unnamed < 0.01*c.total {
		limit[iLashed] = min(h, c.transit+c.missed)
		limit[iWorked] = min(h, c.total-c.transit)
		if f.power != nil {
			limit[iLashed] = min(limit[iLashed], f.power.transit+f.power.unnamed+f.o.step)
			limit[iWorked] = min(limit[iWorked], f.power.elsewhere+f.o.step)
		}
	}
	if f.moving != nil && f.v.Powered != nil && !f.loose {
		limit[iLashed] = min(limit[iLashed], max(0, float64(*f.v.Powered-*f.moving)+f.o.step))
	}
	sum := 0.0
	for c := range limit {
		if weight[c] < hardly {
			limit[c] = 0
		}
		sum += limit[c]
	}
	low := float64(f.x.Low)
	for c := range out {
		out[c] = Share{math.Min(limit[c], math.Max(0, low-(sum-limit[c]))), limit[c]}
	}
	return out
}
