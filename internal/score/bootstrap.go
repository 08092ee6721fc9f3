package score

import (
	"math/rand/v2"
	"slices"
)

// Bootstrap returns the 95 % interval of a figure when whole groups, as the
// pieces of one machine, are drawn again with replacement: pieces of a group
// go together, so that they are not taken as independent. figure is called
// with indices of groups, some more than once, and returns nil where it has
// none; such draws are left out, and with fewer than half of the draws left
// both ends are nil. The same seed gives the same interval.
//
// Percentile interval, Efron 1979, Annals of Statistics 7 (memory).
func Bootstrap(groups, draws int, seed uint64, figure func(groups []int) *float64) (low, high *float64) {
	d := rand.New(rand.NewPCG(seed, 0))
	var out []float64
	drawn := make([]int, groups)
	for range draws {
		for i := range drawn {
			drawn[i] = d.IntN(groups)
		}
		if x := figure(drawn); x != nil {
			out = append(out, *x)
		}
	}
	if len(out) == 0 || 2*len(out) < draws {
		return nil, nil
	}
	slices.Sort(out)
	at := func(p float64) *float64 {
		x := out[int(p*float64(len(out)-1)+0.5)]
		return &x
	}
	return at(0.025), at(0.975)
}
