package fatigue

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/integrate/quad"
)

// The model of the method notes: S/S_rated = s + (1-s) P/P_rated.
func TestStressRatio(t *testing.T) {
	for _, v := range []struct{ p, s, want float64 }{
		{1, 0, 1}, {1, 0.37, 1}, {1, 1, 1}, // at the rated load the share does not matter
		{0, 0.4, 0.4}, {2, 0.4, 1.6}, {0.5, 0.5, 0.75}, {3.53, 1, 1},
	} {
		if got := StressRatio(v.p, v.s); math.Abs(got-v.want) > 1e-15 {
			t.Errorf("p %v, s %v: got %v, want %v", v.p, v.s, got, v.want)
		}
	}
}

// The closed form of the mean against numerical integration (Gauss-Legendre of
// 64 points, exact for polynomials up to degree 127).
func TestMeanPowerAgainstIntegration(t *testing.T) {
	for _, ends := range [][2]float64{{0, 1}, {0, 0.2}, {0.9, 1.1}, {1, 4}, {2.7, 3.6}, {1, 1.001}, {1, 1.0001}, {1, 1.00002}, {1, 1.000001}, {1, 1 + 1e-9}, {0.5, 0.5}, {0, 0}} {
		for _, s := range []float64{0, 0.1, 0.5, 0.9, 0.99999, 1} {
			for _, m := range []float64{1, 3, 5, 7.5, 15} {
				a, b := ends[0], ends[1]
				want := math.Pow(StressRatio(a, s), m)
				if b > a {
					want = quad.Fixed(func(p float64) float64 { return math.Pow(StressRatio(p, s), m) }, a, b, 64, quad.Legendre{}, 0) / (b - a)
				}
				if got := meanPower(a, b, s, m); math.Abs(got-want) > 1e-9*want {
					t.Errorf("p %v to %v, s %v, m %v: got %v, want %v", a, b, s, m, got, want)
				}
			}
		}
	}
}

// By hand: the mean of p³ for p from 0 to 1 is 1/4, of p³ from 1 to 2 is 15/4.
func TestMeanPowerByHand(t *testing.T) {
	for _, v := range []struct{ a, b, s, m, want float64 }{
		{0, 1, 0, 3, 0.25}, {1, 2, 0, 3, 3.75}, {0, 1, 1, 3, 1}, {0, 2, 0, 1, 1},
		{0, 1, 0.5, 1, 0.75},
	} {
		if got := meanPower(v.a, v.b, v.s, v.m); math.Abs(got-v.want) > 1e-14 {
			t.Errorf("%+v: got %v", v, got)
		}
	}
}

func TestLeastConvexAgainstGrid(t *testing.T) {
	for name, f := range map[string]func(x float64) float64{
		"least inside":         func(x float64) float64 { return (x-0.37)*(x-0.37) + 2 },
		"least near the left":  func(x float64) float64 { return math.Abs(x-0.201) + 1 },
		"least near the right": func(x float64) float64 { return math.Exp(-8*x) + math.Exp(40*(x-0.8)) },
		"rising":               func(x float64) float64 { return x * x },
		"falling":              func(x float64) float64 { return 1 / x },
		"constant":             func(x float64) float64 { return 3 },
		"flat at the bottom":   func(x float64) float64 { return math.Max(0, math.Abs(x-0.5)-0.1) },
		"sum of cubes": func(x float64) float64 {
			return 100*math.Pow(StressRatio(0.1, x), 3) + 3*math.Pow(StressRatio(3.2, x), 3)
		},
	} {
		want := math.Inf(1)
		const a, b, steps = 0.2, 0.8, 60_000
		for i := range steps + 1 {
			want = min(want, f(a+(b-a)*float64(i)/steps))
		}
		if got := leastConvex(f, a, b); got > want+1e-12 || got < want-1e-5 {
			t.Errorf("%s: got %v, want %v", name, got, want)
		}
	}
	if got := leastConvex(func(x float64) float64 { return x }, 0.3, 0.3); got != 0.3 {
		t.Errorf("no interval: got %v, want 0.3", got)
	}
}

// ISO 4301-1:2016 (restated): Qp0..Qp5 up to .0313 .0625 .125 .25 .5 1.
func TestClass(t *testing.T) {
	for i, upTo := range []float64{0.0313, 0.0625, 0.125, 0.25, 0.5, 1} {
		name := []string{"Qp0", "Qp1", "Qp2", "Qp3", "Qp4", "Qp5", "beyond Qp5"}
		if got := class(upTo); got != name[i] {
			t.Errorf("%v: got %s, want %s", upTo, got, name[i])
		}
		if got := class(upTo + 1e-9); got != name[i+1] {
			t.Errorf("just above %v: got %s, want %s", upTo, got, name[i+1])
		}
	}
	if got := class(0); got != "Qp0" {
		t.Errorf("0: got %s, want Qp0", got)
	}
}

// class returns the load spectrum class of a factor, 2016 edition.
func class(kp float64) string { return stepName(spectrum2016, stepOf(spectrum2016, kp)) }
