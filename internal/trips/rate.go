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
	if k > 0 {
		low = meanAt(k-1, 1-tail, -1.96)
	}
	return low, meanAt(k, tail, 1.96)
}

// meanAt returns the mean at which a Poisson variable is k or less with
// probability p: Newton's steps from the cube-root approximation of Wilson and
// Hilferty (1931, from memory), z being the normal deviate that goes with p.
func meanAt(k int, p, z float64) float64 {
	n := float64(k + 1)
	mean := n * math.Pow(1-1/(9*n)+z/(3*math.Sqrt(n)), 3)
	for range 20 {
		sum, last := atMost(k, mean)
		step := (sum - p) / last // the slope is the last term, falling
		mean = math.Max(mean+step, mean/4)
		if math.Abs(step) < 1e-12*mean {
			break
		}
	}
	return mean
}

// atMost returns the probability that a Poisson variable is k or less, and that
// it is k.
func atMost(k int, mean float64) (sum, last float64) {
	log := -mean
	for i := 0; ; {
		last = math.Exp(log)
		sum += last
		if i++; i > k {
			return math.Min(sum, 1), last
		}
		log += math.Log(mean / float64(i))
	}
}
