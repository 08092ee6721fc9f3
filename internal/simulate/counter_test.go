package simulate_test

import (
	"math"
	"slices"
	"testing"

	"ratchetmark/internal/bodymass"
	"ratchetmark/internal/simulate"
)

func near(t *testing.T, what string, got, want, within float64) {
	t.Helper()
	if !(math.Abs(got-want) <= within) {
		t.Errorf("%s: got %v, want %v within %v", what, got, want, within)
	}
}

func nears(t *testing.T, what string, got, want []float64, within float64) {
	t.Helper()
	if !slices.EqualFunc(got, want, func(a, b float64) bool { return math.Abs(a-b) <= within }) {
		t.Errorf("%s: got %v, want %v", what, got, want)
	}
}

// Bands of a scene: 0-100, 100-180, 180-250, 250-400, 400 and up; rated 200.
func TestCountersOfASoundCell(t *testing.T) {
	s := simulate.NewScene(0, 1, 0)
	s.Run(simulate.Worked, 0, 2, 0)
	s.Run(simulate.Worked, 150, 3, 0.5)
	s.Run(simulate.Worked, 210, 1, 0.5)     // over the rated load, under load sensing
	s.Run(simulate.Worked, 260, 0.5, 0.5)   // blocked
	s.Run(simulate.Lashed, 700, 0.4, 0)     // the alarm is still on
	s.Run(simulate.Worked, 190, 1, 0)       // in the band that straddles, not over
	s.Run(simulate.Shock, 500, 2.0/3600, 0) // below the peak
	s.Run(simulate.Shock, 900, 0.9/3600, 0) // too short for the peak
	s.Run(simulate.Other, 230, 0.25, 0)     // snow
	got := s.State()
	nears(t, "bands", got.Bands, []float64{2, 3, 2.25, 0.5, 0.4 + 2.9/3600}, 1e-9)
	near(t, "powered", got.Powered, 8.15+2.9/3600, 1e-9)
	near(t, "moving", got.Moving, 2, 1e-9)
	near(t, "peak", got.Peak, 700, 1e-6)
	if got.PeakBy != simulate.Lashed || got.PeakTrue != 700 || got.Alarms != 2 { // at 260 and, after 190, at 500 kg
		t.Errorf("got a peak by %s of %v kg and %d alarms, want lashed, 700 and 2", got.PeakBy, got.PeakTrue, got.Alarms)
	}
	for i, want := range []simulate.Hours{{}, {}, {Worked: 1, Other: 0.25}, {Worked: 0.5}, {Lashed: 0.4, Shock: 2.9 / 3600}} {
		nears(t, "hours over", list(got.Over[i]), list(want), 1e-9)
	}
}

func list(h simulate.Hours) []float64 {
	return []float64{h.Worked, h.Lashed, h.Shock, h.Drift, h.Other}
}

// What is over the rated load by the cell's error alone is drift; a true load
// over it keeps its cause, wherever the cell puts it.
func TestDriftIsTheCellAlone(t *testing.T) {
	s := simulate.NewScene(60, 1.1, 0)
	s.Run(simulate.Worked, 0, 1, 0)   // reads 60
	s.Run(simulate.Worked, 120, 2, 1) // reads 192
	s.Run(simulate.Worked, 150, 3, 1) // reads 225: over, and blocked
	s.Run(simulate.Worked, 200, 4, 0) // reads 280; the rated load is not over it
	s.Run(simulate.Worked, 201, 5, 0) // reads 281
	got := s.State()
	nears(t, "bands", got.Bands, []float64{1, 0, 5, 9, 0}, 1e-9)
	near(t, "moving", got.Moving, 2, 1e-9)
	for i, want := range []simulate.Hours{{}, {}, {Drift: 3}, {Worked: 5, Drift: 4}, {}} {
		nears(t, "hours over", list(got.Over[i]), list(want), 1e-9)
	}
	low := simulate.NewScene(-50, 1, 0)
	low.Run(simulate.Worked, 240, 1, 0) // reads 190, in the band that straddles
	low.Run(simulate.Worked, 220, 1, 0) // reads 170: hidden
	nears(t, "hours over, reading too little", list(low.State().Over[2]), []float64{1, 0, 0, 0, 0}, 1e-9)
	nears(t, "hidden", list(low.State().Over[1]), []float64{0, 0, 0, 0, 0}, 0)
	if by := low.State().PeakBy; by != simulate.Worked {
		t.Errorf("peak of a true load over: got %s, want worked", by)
	}
}

// Noise of 10 kg on 195 kg puts the normal share of the time over 200 kg, by
// the cell alone, and a long time lifts the peak over it.
func TestNoise(t *testing.T) {
	s := simulate.NewScene(0, 1, 10)
	s.Run(simulate.Worked, 195, 10, 0)
	got := s.State()
	tail := func(z float64) float64 { return math.Erfc(z/math.Sqrt2) / 2 }
	near(t, "below 180", got.Bands[1], 10*tail(1.5), 1e-9)
	near(t, "180 to 250", got.Bands[2], 10*(1-tail(1.5)), 1e-9)
	near(t, "over 200", got.Over[2].Drift, 10*tail(0.5), 1e-9)
	if got.Peak < 220 || got.Peak > 235.001 || got.PeakBy != simulate.Drift || got.PeakTrue != 195 {
		t.Errorf("got a peak of %v kg by %s, true %v, want 220 to 235 by drift, 195", got.Peak, got.PeakBy, got.PeakTrue)
	}
}

// The highest of n normal noises: its distribution is that of one to the n-th.
func TestHighest(t *testing.T) {
	for _, n := range []float64{1, 10, 1000} {
		for _, u := range []float64{0.05, 0.5, 0.95} {
			z := simulate.Highest(n, u)
			near(t, "share below", math.Pow(1-math.Erfc(z/math.Sqrt2)/2, n), u, 1e-9)
		}
	}
	near(t, "limit", simulate.Highest(1e9, 0.9), 4, 0)
}

func TestShownHours(t *testing.T) {
	for _, v := range []struct {
		h, step  float64
		truncate bool
		want     float64
	}{
		{1.29, 0.1, true, 1.2}, {1.29, 0.1, false, 1.3}, {1.3, 0.1, true, 1.3},
		{1.0 / 60, 1.0 / 60, true, 0.0167}, {0.024, 1.0 / 60, true, 0.0167}, {0.026, 1.0 / 60, false, 0.0333}, {0.05, 0.1, false, 0.1},
	} {
		near(t, "shown", simulate.Shown(v.h, v.step, v.truncate), v.want, 1e-12)
	}
}

func TestCellFaults(t *testing.T) {
	nears(t, "step", simulate.Walk(100, 30, 0, 0, 99, 100, 199, 200), []float64{100, 130, 130, 100}, 1e-9)
	nears(t, "walk to its limit", simulate.Walk(100, 0, 1, 0, 100, 120, 180), []float64{100, 120, 150}, 1e-9)
	nears(t, "walk down", simulate.Walk(20, 0, -1, 0, 110, 150), []float64{10, 0}, 1e-9)
	nears(t, "gain", simulate.Walk(100, 0, 0, -0.2, 150), []float64{80}, 1e-9)
}

// The tabulated masses have the published mean of men, 90.3 kg, and the
// quantiles of the distribution.
func TestBodyMasses(t *testing.T) {
	body := simulate.Body()
	var sum float64
	for _, m := range body {
		sum += m
	}
	near(t, "mean", sum/float64(len(body)), 90.3, 0.3)
	p95, _ := bodymass.Men().Quantile(0.95)
	near(t, "95th percentile", body[len(body)*95/100], p95, 0.3)
}

// Straps over the platform: the least share of the least tension to three
// chains; the reference's strap of 350 daN with upright legs, 714 kg at most,
// lies within.
func TestStrapLoads(t *testing.T) {
	loads := simulate.StrapLoads(20_000)
	slices.Sort(loads)
	if loads[0] <= 0 || loads[0] > 20 || loads[len(loads)-1] < 1500 || loads[len(loads)-1] > 13_500 {
		t.Errorf("got %v to %v kg, want a few kg to several tonnes", loads[0], loads[len(loads)-1])
	}
	if median := loads[len(loads)/2]; median < 150 || median > 600 {
		t.Errorf("got a median of %v kg, want a few people", median)
	}
}
