package trips

import "math"

// Rate is how many of a number of trips raised the peak, with the interval that
// the true rate a trip lies in with 95 %.
type Rate struct {
	Raised  int      `json:"raised"`
	Trips   int      `json:"trips"` // with readings before and after
	Unread  int      `json:"without_readings"`
	PerTrip *float64 `json:"per_trip"` // nil without a trip
	Low     float64  `json:"low"`
	High    float64  `json:"high"`
}

// rateOf fills in the rate. A trip raises the peak once at most: the interval
// ends at 1.
func rateOf(raised, trips, unread int) Rate {
	r := Rate{Raised: raised, Trips: trips, Unread: unread, High: 1}
	if trips == 0 {
		return r
	}
	low, high := Poisson(raised)
	n := float64(trips)
	per := float64(raised) / n
	r.PerTrip, r.Low, r.High = &per, math.Min(low/n, per), math.Min(high/n, 1)
	return r
}

// Apart reports whether the intervals of two rates do not meet.
func (r Rate) Apart(s Rate) bool { return r.Low > s.High || s.Low > r.High }

// Poisson returns the exact 95 % interval of the mean of a Poisson variable of
// which k was observed, 0 to 1000: the mean at which k or more has 2.5 %, and
// the one at which k or fewer has 2.5 %.
//
// Garwood, Biometrika 28 (1936), from memory; 0 gives 0 to 3.689.
func Poisson(k int) (low, high float64) {
	k = min(max(k, 0), 1000)
	const tail = 0.025
	top := float64(k) + 10*math.Sqrt(float64(k)+1) + 10
	if k > 0 {
		low = where(top, func(mean float64) bool { return 1-atMost(k-1, mean) < tail })
	}
	return low, where(top, func(mean float64) bool { return atMost(k, mean) > tail })
}

// where returns the mean from 0 to top at which is turns from true to false.
func where(top float64, is func(mean float64) bool) float64 {
	from, to := 0.0, top
	for range 60 {
		if middle := (from + to) / 2; is(middle) {
			from = middle
		} else {
			to = middle
		}
	}
	return (from + to) / 2
}

// atMost returns the probability that a Poisson variable is k or less.
func atMost(k int, mean float64) float64 {
	if mean <= 0 {
		return 1
	}
	sum, log := 0.0, -mean
	for i := 0; ; {
		sum += math.Exp(log)
		if i++; i > k {
			return math.Min(sum, 1)
		}
		log += math.Log(mean / float64(i))
	}
}
