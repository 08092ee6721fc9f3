package monotone_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"ratchetmark/internal/monotone"
)

// The data with which Fritsch and Carlson 1980 show what an unlimited cubic
// does (RPN 14, from memory): the curve keeps to the points and never falls.
func TestCurveOnPublishedData(t *testing.T) {
	x := []float64{7.99, 8.09, 8.19, 8.7, 9.2, 10, 12, 15, 20}
	y := []float64{0, 2.76429e-5, 4.37498e-2, 0.169183, 0.469428, 0.943740, 0.998636, 0.999919, 0.999994}
	c := monotone.New(x, y, false)
	for i := range x {
		if got, _ := c.At(x[i]); math.Abs(got-y[i]) > 1e-12 {
			t.Errorf("at %v: got %v, want %v", x[i], got, y[i])
		}
	}
	before := -1.0
	for at := x[0]; at <= x[len(x)-1]; at += 0.005 {
		got, slope := c.At(at)
		if got < before-1e-12 || slope < -1e-12 {
			t.Fatalf("at %v: got %v after %v, slope %v, want it rising", at, got, before, slope)
		}
		before = got
	}
}

// A straight line stays one, with the slopes of a parabola's ends.
func TestCurveKeepsStraightLines(t *testing.T) {
	c := monotone.New([]float64{0, 1, 4, 9}, []float64{1, 3, 9, 19}, false)
	for _, at := range []float64{0, 0.3, 2.2, 8.9, 9} {
		if got, slope := c.At(at); math.Abs(got-(1+2*at)) > 1e-12 || math.Abs(slope-2) > 1e-12 {
			t.Errorf("at %v: got %v with slope %v, want %v with slope 2", at, got, slope, 1+2*at)
		}
	}
}

func TestCurveProperties(t *testing.T) {
	rng := rand.New(rand.NewPCG(47, 53))
	for range 300 {
		x, y := []float64{rng.Float64()}, []float64{rng.Float64()}
		for range 1 + rng.IntN(8) {
			x = append(x, x[len(x)-1]+0.01+rng.ExpFloat64())
			y = append(y, y[len(y)-1]+float64(rng.IntN(3))*rng.ExpFloat64())
		}
		c := monotone.New(x, y, rng.IntN(2) == 0)
		before, span := y[0], y[len(y)-1]-y[0]
		for i := range 200 {
			at := x[0] + (x[len(x)-1]-x[0])*float64(i)/199
			got, slope := c.At(at)
			if got < before-1e-9 || slope < -1e-9 {
				t.Fatalf("%v, %v at %v: got %v after %v, want it not falling", x, y, at, got, before)
			}
			if back, _ := c.At(c.Inverse(got)); math.Abs(back-got) > 1e-9*(1+span) {
				t.Fatalf("%v, %v: inverse of %v: got back %v", x, y, got, back)
			}
			before = got
		}
	}
}
