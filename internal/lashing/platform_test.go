package lashing_test

import (
	"math"
	"testing"

	"ratchetmark/internal/lashing"
)

func near(got, want, by float64) bool { return math.Abs(got-want) <= by }

// One 50 mm strap at 350 daN with vertical legs: 700 daN, 714 kg at most
// (computed from V = T sin alpha (1 + exp(-2 alpha mu)) without friction).
func TestOneStrapOverThePlatform(t *testing.T) {
	r := lashing.OverPlatform(350, 1, 90, 0.2)
	if !near(float64(r.High), 713.56, 0.01) || !near(float64(r.Low), 356.78, 0.01) {
		t.Errorf("got %v, want 356.78 to 713.56", r)
	}
	if want := 350 * (1 + math.Exp(-math.Pi*0.2)) / 0.981; !near(float64(r.Estimate), want, 1e-9) {
		t.Errorf("got %v, want %v", r.Estimate, want)
	}
}

// A strap that lies flat pulls nothing down, over whatever edge.
func TestFlatStrap(t *testing.T) {
	if r := lashing.OverPlatform(350, 1, 0, 0.2); r != (lashing.Reading{}) {
		t.Errorf("got %v, want nothing", r)
	}
}

// A reading is in order, rises with tension, straps and angle, and falls with friction.
func TestReadingProperties(t *testing.T) {
	for _, device := range lashing.Devices {
		if !(0 < device.Low && device.Low <= device.Usual && device.Usual <= device.High) || device.Name == "" || device.Source.Status == "" {
			t.Errorf("%s: got %+v, want a name, a source and tensions in order", device.ID, device)
		}
		for _, route := range lashing.Routes {
			for _, blocked := range []bool{false, true} {
				last := -1.0
				for angle := 0.0; angle <= 90; angle += 7.5 {
					o := lashing.Over{Low: device.Low, Usual: device.Usual, High: device.High, Straps: 2, AngleDeg: angle,
						Edge: lashing.Edge{Low: 0.1, Usual: 0.2, High: 0.3}, Route: route, Blocked: blocked}
					r := o.Apparent()
					if !(0 <= r.Low && r.Low <= r.Estimate && r.Estimate <= r.High) {
						t.Fatalf("%s over %s at %v: got %v, want it in order", device.ID, route, angle, r)
					}
					if angle <= 60 && float64(r.Estimate) < last {
						t.Errorf("%s over %s at %v: got %v, want it not to fall from %v", device.ID, route, angle, r.Estimate, last)
					}
					last = float64(r.Estimate)
					o.Straps = 4
					if twice := o.Apparent(); !near(float64(twice.High), 2*float64(r.High), 1e-9) {
						t.Errorf("twice the straps: got %v, want %v", twice.High, 2*r.High)
					}
					if left := r.After(lashing.Settled); left.Low != 0 || left.High != r.High || left.Estimate > r.Estimate {
						t.Errorf("settled: got %v of %v", left, r)
					}
				}
			}
		}
	}
}

// No strap over the platform, nothing on the cell; a block takes load off it.
func TestShares(t *testing.T) {
	if low, usual, high := lashing.Shares(lashing.NotOver, false); low+usual+high != 0 {
		t.Errorf("got %v, %v, %v, want nothing", low, usual, high)
	}
	for _, route := range []lashing.Route{lashing.OverRails, lashing.OverFloor, lashing.OverMount} {
		l, u, h := lashing.Shares(route, false)
		bl, bu, bh := lashing.Shares(route, true)
		if !(bl <= l && bu < u && bh <= h && bl <= bu && bu <= bh && h <= 1) {
			t.Errorf("%s: got %v %v %v blocked, %v %v %v not, want less and in order", route, bl, bu, bh, l, u, h)
		}
	}
	if low, usual, high := lashing.Shares("roof", false); low+usual+high != 0 {
		t.Errorf("unknown route: got %v, %v, %v, want nothing", low, usual, high)
	}
}
