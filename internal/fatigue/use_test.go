package fatigue_test

import (
	"math"
	"math/rand/v2"
	"testing"
	"time"

	"ratchetmark/internal/assume"
	"ratchetmark/internal/fatigue"
	"ratchetmark/internal/record"
)

func kg(x float64) *record.Kilogram { return record.Of(record.Kilogram(x)) }

func day(n int) time.Time { return time.Date(2025, 1, 1, 0, 0, 0, 0, time.UTC).AddDate(0, 0, n) }

// interval makes an interval of hours per band, with edges 0, 100, 200 kg and
// up, closed by a peak.
func interval(number, from, to int, peak float64, hours ...float64) record.Interval {
	v := record.Interval{Number: number, From: day(from), To: day(to), Ceiling: kg(peak), Moving: record.Of(record.Hour(0))}
	for i, h := range hours {
		b := record.Band{From: record.Kilogram(100 * i), To: kg(float64(100 * (i + 1))), Hours: record.Hour(h)}
		if i == len(hours)-1 {
			b.To = nil
		}
		v.Bands = append(v.Bands, b)
		*v.Moving += record.Hour(h / 4)
	}
	return v
}

func open(t *testing.T, l fatigue.Life) (fatigue.Life, fatigue.Use) {
	t.Helper()
	u, ok := l.Open()
	if !ok {
		t.Fatal("got no use, want one")
	}
	return l, u
}

func life(own map[assume.ID]record.Assumed, intervals ...record.Interval) fatigue.Life {
	return fatigue.Life{Intervals: intervals, Case: &record.Case{}, Rated: 200, Set: assumed(own), Basis: fatigue.ByHours}
}

func within(t *testing.T, what string, b record.Bounds) {
	t.Helper()
	if b.Estimate == nil || b.High == nil || *b.Estimate < b.Low || *b.Estimate > *b.High {
		t.Errorf("%s: got %v, %v, %v, want them in order", what, b.Low, b.Estimate, b.High)
	}
}

// By hand: 100 counted hours, 25 moving, at half the rated load: 500 load cycles
// by the hour, 375 by moving hours at 15, 4000 counted.
func TestBases(t *testing.T) {
	v := interval(1, 0, 100, 250, 0, 100, 0)
	for basis, want := range map[fatigue.Basis]float64{fatigue.ByHours: 500, fatigue.ByMoving: 375, fatigue.ByCount: 4000} {
		u, ok := fatigue.UseOf([]record.Interval{v}, 200, assumed(nil), basis, record.Of(4000.0))
		if !ok {
			t.Errorf("%s: got nothing, want load cycles", basis)
			continue
		}
		near(t, string(basis), *u.Cycles().Estimate, want)
		within(t, string(basis), u.Relative(3, 40_000))
	}
	u, _ := fatigue.UseOf([]record.Interval{v}, 200, assumed(nil), fatigue.ByCount, record.Of(4000.0))
	near(t, "counted, least", u.Cycles().Low, 4000)
	near(t, "counted, most", *u.Cycles().High, 4000)
	v.Moving = nil
	for basis, count := range map[fatigue.Basis]*float64{fatigue.ByMoving: record.Of(1.0), fatigue.ByCount: nil} {
		if _, ok := fatigue.UseOf([]record.Interval{v}, 200, assumed(nil), basis, count); ok {
			t.Errorf("%s without its counter: got a use, want none", basis)
		}
	}
	if _, ok := fatigue.UseOf(nil, 200, assumed(nil), fatigue.ByHours, nil); ok {
		t.Error("no hours: got a use, want none")
	}
}

// The slope raises the weight of what lies above the rated load and lowers that
// of what lies below it; heavy duty has a larger budget.
func TestCompare(t *testing.T) {
	_, u := open(t, life(nil, interval(1, 0, 100, 250, 50, 30, 0)))
	light3, light5, heavy3 := u.Compare()[0], u.Compare()[1], u.Compare()[2]
	if light3.Duty != "light" || light3.Slope != 3 || light5.Slope != 5 || heavy3.Duty != "heavy" || heavy3.Cycles != 100_000 {
		t.Errorf("got %+v, want light 3, light 5, heavy 3", u.Compare())
	}
	if !(*light5.Relative.Estimate < *light3.Relative.Estimate) {
		t.Errorf("below the rated load: got %v with slope 5, want less than %v", *light5.Relative.Estimate, *light3.Relative.Estimate)
	}
	near(t, "heavy duty", *heavy3.Relative.Estimate, *light3.Relative.Estimate*0.4)
	_, over := open(t, life(nil, interval(1, 0, 100, 400, 0, 0, 50)))
	if c := over.Compare(); !(*c[1].Relative.Estimate > *c[0].Relative.Estimate) {
		t.Errorf("above the rated load: got %v with slope 5, want more than %v", *c[1].Relative.Estimate, *c[0].Relative.Estimate)
	}
}

// Each row of the spread holds the estimate and lies within the bounds; an
// assumption without an interval spreads nothing.
func TestSpread(t *testing.T) {
	_, u := open(t, life(nil, interval(1, 0, 100, 250, 50, 30, 5)))
	all := u.Relative(3, 40_000)
	for _, s := range u.Spread() {
		if s.Low > *all.Estimate || s.High < *all.Estimate {
			t.Errorf("%s: got %v to %v, want %v within", s.ID, s.Low, s.High, *all.Estimate)
		}
		if s.ID != "slope" && (s.Low < all.Low || s.High > *all.High) {
			t.Errorf("%s: got %v to %v, want it within %v to %v", s.ID, s.Low, s.High, all.Low, *all.High)
		}
	}
	_, u = open(t, life(map[assume.ID]record.Assumed{assume.CyclesPerHour: fixed(5)}, interval(1, 0, 100, 250, 50, 30, 5)))
	for _, s := range u.Spread() {
		if s.ID == "rate" && s.High-s.Low > 1e-15 {
			t.Errorf("a rate that is known: got %v to %v, want no width", s.Low, s.High)
		}
	}
}

// The equivalent load does the same damage in as many cycles: put it back.
func TestEquivalentLoad(t *testing.T) {
	rng := rand.New(rand.NewPCG(2, 7))
	for range 80 {
		share := rng.Float64() * 0.95
		m := 3 + 2*rng.Float64()
		own := map[assume.ID]record.Assumed{assume.SelfWeightShare: fixed(share), assume.CyclesPerHour: fixed(5)}
		_, u := open(t, life(own, interval(1, 0, 100, 210+200*rng.Float64(), 50*rng.Float64(), 30*rng.Float64(), 0.1+rng.Float64())))
		load := u.EquivalentLoad(m)
		within(t, "load", load)
		cycles := *u.Cycles().Estimate
		for what, pair := range map[string][2]float64{"low": {load.Low, u.Relative(m, 1).Low}, "estimate": {*load.Estimate, *u.Relative(m, 1).Estimate}, "high": {*load.High, *u.Relative(m, 1).High}} {
			back := cycles * math.Pow(fatigue.StressRatio(pair[0]/200, share), m)
			if math.Abs(back-pair[1]) > 1e-6*pair[1] {
				t.Errorf("%s, share %v: got %v back, want %v", what, share, back, pair[1])
			}
		}
	}
	// It falls as the share rises.
	was := math.Inf(1)
	for _, share := range []float64{0, 0.3, 0.6, 0.9, 1} {
		_, u := open(t, life(map[assume.ID]record.Assumed{assume.SelfWeightShare: fixed(share)}, interval(1, 0, 100, 250, 50, 30, 5)))
		now := *u.EquivalentLoad(3).Estimate
		if now > was {
			t.Errorf("share %v: got %v after %v, want no more", share, now, was)
		}
		was = now
	}
	near(t, "plain mean", was, (50*50+30*150+5*225)/85.0)
}

// ISO 4301-1, both editions (restated). By hand: 425 load cycles are U0; all
// hours at the rated load are Qp5 and Q4, group 0 + 5 - 3 and 0 + 4 - 2.
func TestClasses(t *testing.T) {
	set := assumed(map[assume.ID]record.Assumed{assume.CyclesPerHour: fixed(5)})
	u, _ := fatigue.UseOf([]record.Interval{interval(1, 0, 100, 200, 0, 0, 85)}, 200, set, fatigue.ByHours, nil)
	c := u.Classes()
	want := fatigue.Classes{Use: "U0", Spectrum2016: "Qp5", Group2016: "number 2", Spectrum1986: "Q4", Group1986: "A2", Hours: "M1"}
	if c != want {
		t.Errorf("got %+v, want %+v", c, want)
	}
	near(t, "full-load-equivalent hours", *u.FullLoadHours().Estimate, 85)
	u, _ = fatigue.UseOf([]record.Interval{interval(1, 0, 3000, 260, 0, 10_000, 3000)}, 200, set, fatigue.ByHours, nil)
	c = u.Classes() // 65 000 load cycles
	if c.Use != "U3" || c.Group1986 != "A4 to beyond the classes" || c.Group2016 != "number 4 to beyond the classes" {
		t.Errorf("got %+v, want U3 and groups to beyond the classes", c)
	}
	for _, v := range []struct {
		u, q             int
		name2016, name86 string
	}{{0, 0, "number -3", "A1"}, {3, 1, "number 1", "A3"}, {9, 3, "number 9", "A8"}, {0, 2, "number -1", "A1"}} {
		if got, _ := fatigue.Group2016(v.u, v.q); got != v.name2016 {
			t.Errorf("U%d Qp%d: got %s, want %s", v.u, v.q, got, v.name2016)
		}
		if got, _ := fatigue.Group1986(v.u, v.q); got != v.name86 {
			t.Errorf("U%d Q%d: got %s, want %s", v.u, v.q+1, got, v.name86)
		}
	}
}

// ISO 12482:2014, table 1, as an open-access paper gives it.
func TestDutyRecord(t *testing.T) {
	for id, want := range map[string]float64{"recorder": 1, "process": 1.1, "production": 1.2, "undocumented": 1.3, "unknown": 1.5, "": 1} {
		if got := fatigue.DutyRecordOf(id).F1; got != want {
			t.Errorf("%q: got %v, want %v", id, got, want)
		}
	}
}

// Where hours are missing there is a low alone, for every figure that grows with
// hours; means stay.
func TestAtLeast(t *testing.T) {
	l := life(nil, interval(1, 0, 300, 250, 50, 30, 5))
	l.AtLeast = true
	l, u := open(t, l)
	for what, b := range map[string]record.Bounds{"cycles": u.Cycles(), "relative": u.Relative(3, 1), "hours": u.FullLoadHours(), "interval": l.ByInterval()[0].Relative, "year": l.ByYear()[0].Relative} {
		if b.High != nil || b.Estimate != nil || !(b.Low > 0) {
			t.Errorf("%s: got %+v, want a low alone", what, b)
		}
	}
	if len(u.Spread()) > 0 || u.EquivalentLoad(3).High == nil || u.Classes().Use != "U0 or above" {
		t.Errorf("got %v, %v, %v", u.Spread(), u.EquivalentLoad(3), u.Classes())
	}
	if _, ok := l.Forecast(u.Relative(3, 40_000), fatigue.Due(&record.Date{Time: day(800)}, nil)); ok {
		t.Error("got a forecast, want none")
	}
}
