package score_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"ratchetmark/internal/score"
)

// The mean of n normal figures: plus and minus 1.96 of its standard error.
func TestBootstrapOfAMean(t *testing.T) {
	d := rand.New(rand.NewPCG(5, 1))
	x := make([]float64, 400)
	var sum, square float64
	for i := range x {
		x[i] = d.NormFloat64()
		sum += x[i]
		square += x[i] * x[i]
	}
	n := float64(len(x))
	mean := sum / n
	error := math.Sqrt((square/n - mean*mean) / n)
	figure := func(of func(i int) float64) func([]int) *float64 {
		return func(drawn []int) *float64 {
			var s float64
			for _, i := range drawn {
				s += of(i)
			}
			s /= float64(len(drawn))
			return &s
		}
	}
	low, high := score.Bootstrap(len(x), 2000, 1, figure(func(i int) float64 { return x[i] }))
	near(t, "low", low, mean-1.96*error, 0.12*error)
	near(t, "high", high, mean+1.96*error, 0.12*error)

	// ten figures to a group, all alike: as wide as if there were one tenth of them
	low, high = score.Bootstrap(len(x)/10, 2000, 1, figure(func(i int) float64 { return x[i] }))
	if width := *high - *low; width < 2.5*2*1.96*error || width > 4*2*1.96*error {
		t.Errorf("groups of ten: got a width of %v, want about %v", width, math.Sqrt(10)*2*1.96*error)
	}
}

func TestBootstrapWithoutAFigure(t *testing.T) {
	none := func([]int) *float64 { return nil }
	if low, high := score.Bootstrap(5, 100, 1, none); low != nil || high != nil {
		t.Errorf("got %v to %v, want no figures", show(low), show(high))
	}
	calls := 0
	seldom := func([]int) *float64 {
		if calls++; calls%3 == 0 {
			x := 1.0
			return &x
		}
		return nil
	}
	if low, _ := score.Bootstrap(5, 100, 1, seldom); low != nil {
		t.Errorf("a third of the draws: got %v, want no figure", *low)
	}
	if low, _ := score.Bootstrap(0, 0, 1, none); low != nil {
		t.Errorf("no groups: got %v, want no figure", *low)
	}
}
