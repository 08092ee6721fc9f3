package fatigue_test

import (
	"math"
	"math/rand/v2"
	"testing"
	"time"

	"ratchetmark/internal/assume"
	"ratchetmark/internal/endurance"
	"ratchetmark/internal/fatigue"
	"ratchetmark/internal/record"
	"ratchetmark/internal/vibration"
)

func design(c endurance.Curve) endurance.Design {
	return endurance.Design{Curve: c, GammaFf: 1, GammaMf: 1}
}

// By hand: 100 h at the rated load, 5 cycles an hour, 71 MPa on category 71:
// 500 of 2 000 000 cycles.
func TestDetailByHand(t *testing.T) {
	own := map[assume.ID]record.Assumed{assume.CyclesPerHour: fixed(5), assume.StressCycles: fixed(1)}
	u, _ := fatigue.UseOf([]record.Interval{interval(1, 0, 100, 200, 0, 0, 100)}, 200, assumed(own), fatigue.ByHours, nil)
	d := u.Detail(71, design(endurance.EN1993Normal(71, 1)))
	near(t, "low", d.Damage.Low, 500/2e6)
	near(t, "estimate", *d.Damage.Estimate, 500/2e6)
	near(t, "high", *d.Damage.High, 500/2e6)
	if len(d.Terms) != 1 || d.Terms[0].Share != 1 || math.Abs(*d.Terms[0].Endurance-2e6) > 1 {
		t.Errorf("got %+v, want one term of 2e6", d.Terms)
	}
	// Two stress cycles a load cycle at most, and a partial factor on the range.
	own[assume.StressCycles] = record.Assumed{Low: 1, Value: 1, High: 2}
	u, _ = fatigue.UseOf([]record.Interval{interval(1, 0, 100, 200, 0, 0, 100)}, 200, assumed(own), fatigue.ByHours, nil)
	dd := design(endurance.EN1993Normal(71, 1))
	dd.GammaFf = 1.1
	d = u.Detail(71, dd)
	near(t, "two cycles", *d.Damage.High, 2*1.331*500/2e6)
	// Below the cut-off nothing is damaged, and no endurance is claimed.
	d = u.Detail(20, design(endurance.EN1993Normal(71, 1)))
	if *d.Damage.High != 0 || d.Terms[0].Endurance != nil || d.Terms[0].Share != 0 {
		t.Errorf("below the cut-off: got %+v, want no damage", d)
	}
}

// The bounds are the least and the most over a fine grid of shares and over the
// edges of the bands, knees and cut-off included; stress, hours and a wider
// interval only add.
func TestDetailBoundsAreAttained(t *testing.T) {
	rng := rand.New(rand.NewPCG(7, 3))
	for range 60 {
		v := interval(1, 0, 100, 210+300*rng.Float64(), 50*rng.Float64(), 30*rng.Float64(), 5*rng.Float64())
		self := record.Assumed{Low: 0.3 * rng.Float64()}
		self.High = self.Low + 0.6*rng.Float64()
		self.Value = (self.Low + self.High) / 2
		own := map[assume.ID]record.Assumed{assume.SelfWeightShare: self, assume.CyclesPerHour: fixed(5), assume.StressCycles: fixed(1)}
		u, _ := fatigue.UseOf([]record.Interval{v}, 200, assumed(own), fatigue.ByHours, nil)
		curve := endurance.EN1993Normal(endurance.Categories[rng.IntN(14)], 1.15)
		at := 20 + 150*rng.Float64()
		got := u.Detail(at, design(curve)).Damage
		within(t, "damage", got)
		least, most := math.Inf(1), 0.
		const steps = 4000
		for i := range steps + 1 {
			s := self.Low + (self.High-self.Low)*float64(i)/steps
			var low, high float64
			for _, x := range v.Segments() {
				low += float64(x.Hours) * curve.Damage(at*fatigue.StressRatio(float64(x.From)/200, s)) * 5
				high += float64(x.Hours) * curve.Damage(at*fatigue.StressRatio(float64(x.To)/200, s)) * 5
			}
			least, most = min(least, low), max(most, high)
		}
		if got.Low > least*(1+1e-9) || got.Low < least*(1-0.02)-1e-12 {
			t.Errorf("got low %v, want %v", got.Low, least)
		}
		if *got.High < most*(1-1e-9) || *got.High > most*1.02+1e-12 {
			t.Errorf("got high %v, want %v", *got.High, most)
		}
		more := u.Detail(at*1.2, design(curve)).Damage
		if more.Low < got.Low || *more.Estimate < *got.Estimate || *more.High < *got.High {
			t.Errorf("more stress: got %+v after %+v, want no less", more, got)
		}
	}
}

// EN 280, 5.4.1.6 (from memory) and Regulation (EU) 2023/1230: the tests passed.
func TestStatic(t *testing.T) {
	for _, v := range []struct {
		peak   float64
		passed int
		words  string
		look   int
	}{
		{205, 0, "It lies within what the dynamic test puts on", 2},
		{221, 1, "It lies above the dynamic test (110 %), within the static test", 3},
		{251, 2, "It lies above the static test (125 %): only the enhanced overload test", 5},
		{301, 3, "It lies beyond anything the type test covers: have it examined.", 6},
	} {
		s := fatigue.StaticOf(record.Kilogram(v.peak), 200, fatigue.TypeTests, nil)
		passed := 0
		for _, x := range s.Tests {
			if x.Passed {
				passed++
			}
		}
		if passed != v.passed || len(s.Examine) != v.look || s.Words[:len(v.words)] != v.words {
			t.Errorf("%v: got %d tests passed, %d to examine, %q", v.peak, passed, len(s.Examine), s.Words)
		}
	}
	if s := fatigue.StaticOf(200, 200, fatigue.TypeTests, nil); s != nil {
		t.Errorf("at the rated load: got %+v, want nothing", s)
	}
	if s := fatigue.StaticOf(310, 200, nil, nil); len(s.Tests) != 0 || s.Words[:41] != "The rules that are chosen name no type te" {
		t.Errorf("without tests: got %+v, want that there is none", s)
	}
	if s := fatigue.StaticOf(220, 200, fatigue.TypeTests, nil); s.Tests[0].Passed { // 110 % to the last bit
		t.Error("at the dynamic test: got it gone over, want it not")
	}
	s := fatigue.StaticOf(310, 200, fatigue.TypeTests, kg(320))
	if last := s.Tests[len(s.Tests)-1]; last.Passed || last.Load != 320 || last.Percent != 160 {
		t.Errorf("got %+v, want the maker's value, not passed", last)
	}
}

func transit(from, to time.Time) record.Custody {
	return record.Custody{From: from, To: to, Holder: record.Transit}
}

// The index grows with the hours on the road, falls with damping, holds its own
// estimate, and is nothing without a trip.
func TestRoad(t *testing.T) {
	work := record.Bounds{Low: 0.01, Estimate: record.Of(0.03), High: record.Of(0.1)}
	c := &record.Case{Custody: []record.Custody{transit(day(0), day(0).Add(3*time.Hour)), transit(day(5), day(5).Add(2*time.Hour))}}
	r := fatigue.RoadOf(c, time.Time{}, assumed(nil), work)
	if r == nil || r.Trips != 2 || r.Hours != 5 {
		t.Fatalf("got %+v, want two trips of 5 h", r)
	}
	within(t, "index", r.Index)
	within(t, "against work", r.Against)
	near(t, "against work", *r.Against.Estimate, *r.Index.Estimate/0.03)
	near(t, "level", math.Round(r.Level*100)/100, 0.54)
	// By hand: hours on the road times the damage a second by Dirlik, with s 0.4
	// and a fifth of it stowed.
	m := vibration.Response(vibration.Profiles[1], vibration.Mode{Hz: 5, Damping: 0.05})
	near(t, "estimate", *r.Index.Estimate, 5*0.6*3600*m.Rainflow(3)*math.Pow(2*0.4*0.2, 3)/40_000)

	if one := fatigue.RoadOf(c, day(3), assumed(nil), work); one.Trips != 1 || !(one.Index.Low < r.Index.Low) {
		t.Errorf("until the third day: got %+v, want one trip", one)
	}
	damped := fatigue.RoadOf(c, time.Time{}, assumed(map[assume.ID]record.Assumed{assume.RoadDamping: fixed(0.2)}), work)
	if !(*damped.Index.Estimate < *r.Index.Estimate) {
		t.Errorf("got %v with more damping, want less than %v", *damped.Index.Estimate, *r.Index.Estimate)
	}
	if got := fatigue.RoadOf(&record.Case{}, time.Time{}, assumed(nil), work); got != nil {
		t.Errorf("no trip: got %+v, want nothing", got)
	}
}

// The bounds of the index hold every draw of what is assumed.
func TestRoadBoundsHold(t *testing.T) {
	rng := rand.New(rand.NewPCG(8, 2))
	c := &record.Case{Custody: []record.Custody{transit(day(0), day(1))}}
	all := fatigue.RoadOf(c, time.Time{}, assumed(nil), record.Bounds{})
	for range 100 {
		between := func(a, b float64) record.Assumed { return fixed(a + (b-a)*rng.Float64()) }
		r := fatigue.RoadOf(c, time.Time{}, assumed(map[assume.ID]record.Assumed{
			assume.SelfWeightShare: between(0.1, 0.7), assume.RoadDamping: between(0.02, 0.1), assume.RoadTime: between(0.2, 1),
			assume.RoadFrequency: between(2, 15), assume.RoadSpeed: between(30, 80), assume.RoadStowed: between(0.05, 0.5),
		}), record.Bounds{})
		if x := *r.Index.Estimate; x < all.Index.Low || x > *all.Index.High {
			t.Errorf("got %v, want it within %v and %v", x, all.Index.Low, *all.Index.High)
		}
	}
}
