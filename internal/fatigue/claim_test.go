package fatigue_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"ratchetmark/internal/assume"
	"ratchetmark/internal/fatigue"
	"ratchetmark/internal/record"
)

var causes = []fatigue.Group{"worked", "lashed", "shock", "drift"}

func share(t *testing.T, shares []fatigue.Share, g fatigue.Group) record.Bounds {
	t.Helper()
	for _, s := range shares {
		if s.Group == g {
			return s.Exposure
		}
	}
	t.Fatalf("got no share of %s", g)
	return record.Bounds{}
}

// By hand, rated load 200 kg, s = 0.5, m = 3: 80 h at 100 kg make 80·0.75³ =
// 33.75; 2 h at 400 kg make 2·1.5³ = 6.75, of 40.5 in all.
func TestSharesByHand(t *testing.T) {
	own := map[assume.ID]record.Assumed{assume.SelfWeightShare: fixed(0.5), assume.CyclesPerHour: fixed(5)}
	v := record.Interval{Number: 1, Bands: []record.Band{{From: 100, To: kg(100), Hours: 80}, {From: 400, To: kg(400), Hours: 2}}}
	u, _ := fatigue.UseOf([]record.Interval{v}, 200, assumed(own), fatigue.ByHours, nil)
	pieces := []fatigue.Over{{Interval: 1, From: 400, Verdict: "worked"}}
	shares := u.Shares([]record.Interval{v}, pieces, causes)
	for g, want := range map[fatigue.Group]float64{fatigue.Ordinary: 33.75 / 40.5, "worked": 6.75 / 40.5, "lashed": 0, "drift": 0} {
		b := share(t, shares, g)
		near(t, string(g)+", low", b.Low, want)
		near(t, string(g)+", estimate", *b.Estimate, want)
		near(t, string(g)+", high", *b.High, want)
	}
	// Lashed: one load cycle at least, a fifth of an hour at 5 an hour.
	pieces[0].Verdict, pieces[0].Once = "lashed", true
	b := share(t, u.Shares([]record.Interval{v}, pieces, causes), "lashed")
	near(t, "lashed, low", b.Low, 0.2*3.375/(0.2*3.375+33.75))
	near(t, "lashed, high", *b.High, 6.75/40.5)
	// A strap that held while nothing moved is still one load cycle.
	still := v
	still.Moving = record.Of(record.Hour(8.2))
	still.Bands = []record.Band{{From: 100, To: kg(100), Hours: 82}}
	held := record.Interval{Number: 2, Moving: record.Of(record.Hour(0)), Bands: []record.Band{{From: 400, To: kg(400), Hours: 2}}}
	own[assume.CyclesPerMovingHour] = fixed(10)
	moving, ok := fatigue.UseOf([]record.Interval{still, held}, 200, assumed(own), fatigue.ByMoving, nil)
	if !ok {
		t.Fatal("got no use by moving hours, want one")
	}
	pieces[0].Interval = 2
	b = share(t, moving.Shares([]record.Interval{still, held}, pieces, causes), "lashed")
	one := 0.1 * 3.375 / (0.1*3.375 + 8.2*0.421875)
	near(t, "held, low", b.Low, one)
	near(t, "held, estimate", *b.Estimate, one)
	near(t, "held, high", *b.High, one)
	pieces[0].Interval = 1
	// Undecided between two: none to all for either, none for the others.
	pieces[0] = fatigue.Over{Interval: 1, From: 400, Verdict: fatigue.Unsettled, Open: []fatigue.Group{"worked", "drift"}}
	shares = u.Shares([]record.Interval{v}, pieces, append(causes, fatigue.Unsettled))
	for g, want := range map[fatigue.Group]float64{"worked": 6.75 / 40.5, "drift": 6.75 / 40.5, "shock": 0, fatigue.Unsettled: 6.75 / 40.5} {
		near(t, string(g)+", high", *share(t, shares, g).High, want)
	}
	near(t, "worked, low", share(t, shares, "worked").Low, 0)
	near(t, "undecided, low", share(t, shares, fatigue.Unsettled).Low, 6.75/40.5)
	near(t, "ordinary, low", share(t, shares, fatigue.Ordinary).Low, 33.75/40.5)
	// A peak without hours is one load cycle.
	peak := []fatigue.Over{{Interval: 1, From: 600, Peak: true, Verdict: "shock"}}
	v.Bands = v.Bands[:1]
	u, _ = fatigue.UseOf([]record.Interval{v}, 200, assumed(own), fatigue.ByHours, nil)
	near(t, "peak", *share(t, u.Shares([]record.Interval{v}, peak, causes), "shock").Estimate, 0.2*8/(0.2*8+33.75))
}

// Draw causes, placements, shares and rates: each drawn share of a group lies
// within its bounds, and the groups make up the whole.
func TestShareBoundsHold(t *testing.T) {
	rng := rand.New(rand.NewPCG(9, 1))
	for range 300 {
		v := interval(1, 0, 100, 150+300*rng.Float64(), 50*rng.Float64(), 30*rng.Float64(), 6*rng.Float64())
		v.Bands[1].To = kg(240)
		v.Bands[2].From = 240
		if *v.Ceiling < 240 {
			v.Bands = v.Bands[:2]
		}
		self := record.Assumed{Low: 0.2, Value: 0.45, High: 0.7}
		u, _ := fatigue.UseOf([]record.Interval{v}, 200, assumed(map[assume.ID]record.Assumed{assume.SelfWeightShare: self}), fatigue.ByHours, nil)
		all := append([]fatigue.Group{fatigue.Unsettled}, causes...)
		var pieces []fatigue.Over
		truth := map[float64]fatigue.Group{}
		for _, from := range []float64{100, 240} {
			open := []fatigue.Group{causes[rng.IntN(4)], causes[rng.IntN(4)]}
			x := fatigue.Over{Interval: 1, From: record.Kilogram(from), Verdict: all[rng.IntN(5)], Open: open}
			x.Once = x.Verdict == "lashed" || x.Verdict == "shock" || x.Verdict == fatigue.Unsettled && (open[0] == "lashed" || open[1] == "lashed")
			truth[from] = x.Verdict
			if x.Verdict == fatigue.Unsettled {
				truth[from] = open[rng.IntN(2)]
			}
			pieces = append(pieces, x)
		}
		shares := u.Shares([]record.Interval{v}, pieces, causes)
		s := self.Low + (self.High-self.Low)*float64(rng.IntN(9))/8
		made := map[fatigue.Group]float64{}
		var sum float64
		for _, x := range v.Segments() {
			at := float64(x.From) + float64(x.To-x.From)*rng.Float64()
			over := math.Max(at, 200)
			part := rng.Float64() // of the hours in a band that may lie over
			g := truth[float64(v.Bands[x.Band].From)]
			e := func(load float64) float64 { return float64(x.Hours) * math.Pow(s+(1-s)*load/200, 3) }
			switch {
			case x.To <= 200:
				made[fatigue.Ordinary] += e(at)
			case x.From >= 200 && g == "lashed": // one load cycle, at a rate of 2 to 12 an hour, or as many as its hours make
				cycle := 1 / (2 + 10*rng.Float64())
				made[g] += e(at) / float64(x.Hours) * math.Max(cycle, float64(x.Hours)*rng.Float64())
			case x.From >= 200:
				made[g] += e(at)
			default:
				over = 200 + (float64(x.To)-200)*rng.Float64()
				below := float64(x.From) + (200-float64(x.From))*rng.Float64()
				made[g] += part * e(over)
				made[fatigue.Ordinary] += (1 - part) * e(below)
			}
		}
		for _, x := range made {
			sum += x
		}
		for _, g := range append([]fatigue.Group{fatigue.Ordinary}, causes...) {
			b := share(t, shares, g)
			if x := made[g] / sum; x < b.Low-1e-9 || x > *b.High+1e-9 {
				t.Errorf("%s of %+v: got %v, want it within %v and %v", g, pieces, x, b.Low, *b.High)
			}
			within(t, string(g), b)
		}
	}
}
