package fatigue_test

import (
	"encoding/json"
	"math"
	"math/rand/v2"
	"os"
	"testing"

	"ratchetmark/internal/assume"
	"ratchetmark/internal/fatigue"
	"ratchetmark/internal/record"
)

func closed(from, to, hours float64) record.Segment {
	return record.Segment{From: record.Kilogram(from), To: record.Kilogram(to), Bounded: true, Hours: record.Hour(hours)}
}

// assumed returns the assumptions with some of them set.
func assumed(own map[assume.ID]record.Assumed) assume.Set {
	c := &record.Case{Assumptions: map[string]record.Assumed{}}
	for id, v := range own {
		c.Assumptions[string(id)] = v
	}
	set, findings := assume.For(c)
	if len(findings) > 0 {
		panic(findings[0].Message)
	}
	return set
}

func fixed(x float64) record.Assumed { return record.Assumed{Low: x, Value: x, High: x} }

func near(t *testing.T, what string, got, want float64) {
	t.Helper()
	if !(math.Abs(got-want) <= 1e-9*math.Max(1, math.Abs(want))) {
		t.Errorf("%s: got %v, want %v", what, got, want)
	}
}

func TestSpectrumFactor(t *testing.T) {
	data, err := os.ReadFile("../../testdata/vectors/kp.json")
	if err != nil {
		t.Fatal(err)
	}
	var file struct { // the source of the vectors stands in the file
		Vectors []struct {
			Rows [][2]float64
			Kp   float64
		}
	}
	if err := json.Unmarshal(data, &file); err != nil || len(file.Vectors) == 0 {
		t.Fatalf("got %v and %d vectors, want some", err, len(file.Vectors))
	}
	for _, v := range file.Vectors {
		var segments []record.Segment
		for _, row := range v.Rows {
			segments = append(segments, closed(240*row[1], 240*row[1], row[0]))
		}
		kp := fatigue.Assess(segments, 240, assumed(nil)).FactorKp
		near(t, "low", kp.Low, v.Kp)
		near(t, "estimate", *kp.Estimate, v.Kp)
		near(t, "high", *kp.High, v.Kp)
	}
}

// By hand, rated load 200 kg: 6 h at 0 to 100 kg and 2 h at 200 to 300 kg. Kp
// is (6·0 + 2·1)/8 = 0.25 at least and (6·0.125 + 2·3.375)/8 = 0.9375 at most.
func TestSpectrumFactorByHand(t *testing.T) {
	kp := fatigue.Assess([]record.Segment{closed(0, 100, 6), closed(200, 300, 2)}, 200, assumed(nil)).FactorKp
	near(t, "low", kp.Low, 0.25)
	near(t, "high", *kp.High, 0.9375)
	// mean of p³: on [0, 0.5] 0.5³/4 = 0.03125; on [1, 1.5] (5.0625-1)/2 = 2.03125
	near(t, "estimate", *kp.Estimate, (6*0.03125+2*2.03125)/8)
}

func TestClassText(t *testing.T) {
	for _, v := range []struct {
		kp   record.Bounds
		want string
	}{
		{record.Bounds{Low: 0.2, High: record.Of(0.25)}, "Qp3 (ISO 4301-1:2016)"},
		{record.Bounds{Low: 0.03, High: record.Of(0.13)}, "Qp0 to Qp3 (ISO 4301-1:2016)"},
		{record.Bounds{Low: 0.6, High: record.Of(1.2)}, "Qp5 to beyond Qp5 (ISO 4301-1:2016)"},
		{record.Bounds{Low: 0.3}, "Qp4 or above (ISO 4301-1:2016)"},
	} {
		if got := fatigue.ClassText(v.kp); got != v.want {
			t.Errorf("%v: got %q, want %q", v.kp, got, v.want)
		}
	}
}

// EN 280, 5.2.5.3.3 (from memory): 10 years of 40 weeks of 20 hours at 5 load
// cycles an hour are the 40 000 load cycles of light intermittent duty. All of
// them at the rated load use the whole budget, whatever the self-weight share.
func TestWholeBudgetAtRatedLoad(t *testing.T) {
	for _, share := range []float64{0, 0.3, 0.77, 1} {
		for _, m := range []float64{1, 3, 5} {
			r := fatigue.Assess([]record.Segment{closed(240, 240, 10*40*20)}, 240, assumed(map[assume.ID]record.Assumed{
				assume.CyclesPerHour: fixed(5), assume.SelfWeightShare: fixed(share), assume.Slope: fixed(m),
			}))
			near(t, "cycles", *r.LoadCycles.Estimate, 40_000)
			near(t, "low", r.Relative.Low, 1)
			near(t, "estimate", *r.Relative.Estimate, 1)
			near(t, "high", *r.Relative.High, 1)
		}
	}
}

// By hand: 100 h at half the rated load, s = 0.5, m = 3: (0.75)³ = 0.421875 of
// 100·5/40 000 = 0.0125; twice the rated load: 1.5³ = 3.375.
func TestExposureByHand(t *testing.T) {
	set := assumed(map[assume.ID]record.Assumed{assume.CyclesPerHour: {Low: 2, Value: 5, High: 12}, assume.SelfWeightShare: fixed(0.5)})
	r := fatigue.Assess([]record.Segment{closed(120, 120, 100)}, 240, set)
	near(t, "half: low", r.Relative.Low, 0.421875*100*2/40_000)
	near(t, "half: estimate", *r.Relative.Estimate, 0.421875*100*5/40_000)
	near(t, "half: high", *r.Relative.High, 0.421875*100*12/40_000)
	near(t, "half: cycles", r.LoadCycles.Low, 200)
	near(t, "half: most cycles", *r.LoadCycles.High, 1200)
	r = fatigue.Assess([]record.Segment{closed(480, 480, 100)}, 240, set)
	near(t, "twice: estimate", *r.Relative.Estimate, 3.375*100*5/40_000)
}

// The bounds are attained, not only kept: they are the least and the most over
// every placement of the hours at the edges, every rate and every share.
func TestBoundsAreAttained(t *testing.T) {
	rng := rand.New(rand.NewPCG(5, 9))
	for range 60 {
		var segments []record.Segment
		from := float64(rng.IntN(80))
		for range 1 + rng.IntN(4) {
			s := closed(from, from+1+float64(rng.IntN(250)), 0.1+rng.Float64()*100)
			from = float64(s.To)
			segments = append(segments, s)
		}
		share := record.Assumed{Low: 0.5 * rng.Float64()}
		share.High = share.Low + (1-share.Low)*rng.Float64()
		share.Value = share.Low + (share.High-share.Low)*rng.Float64()
		rate := record.Assumed{Low: 2, Value: 2 + 10*rng.Float64(), High: 12}
		m := 1 + 6*rng.Float64()
		r := fatigue.Assess(segments, 240, assumed(map[assume.ID]record.Assumed{
			assume.CyclesPerHour: rate, assume.SelfWeightShare: share, assume.Slope: fixed(m),
		}))
		least, most := extremes(segments, share, m)
		least, most = least*rate.Low/40_000, most*rate.High/40_000
		if got := r.Relative.Low; got > least*(1+1e-12) || got < least*(1-1e-5) {
			t.Errorf("%v, s %v, m %v: got low %v, want %v", segments, share, m, got, least)
		}
		near(t, "high", *r.Relative.High, most)
		if e := *r.Relative.Estimate; e < r.Relative.Low || e > *r.Relative.High {
			t.Errorf("%v: got estimate %v, want it within %v and %v", segments, e, r.Relative.Low, *r.Relative.High)
		}
		if kp := r.FactorKp; *kp.Estimate < kp.Low || *kp.Estimate > *kp.High {
			t.Errorf("%v: got Kp %v, want it within %v and %v", segments, *kp.Estimate, kp.Low, *kp.High)
		}
	}
}

// extremes tries every segment's hours at its lower edge, its middle and its
// upper edge, under a fine grid of self-weight shares.
func extremes(segments []record.Segment, share record.Assumed, m float64) (least, most float64) {
	least, most = math.Inf(1), 0
	combinations := int(math.Pow(3, float64(len(segments))))
	const steps = 400
	for i := range steps + 1 {
		s := share.Low + (share.High-share.Low)*float64(i)/steps
		for c := range combinations {
			var sum float64
			for _, segment := range segments {
				at := float64(segment.From) + float64(segment.To-segment.From)*float64(c%3)/2
				c /= 3
				sum += float64(segment.Hours) * math.Pow(s+(1-s)*at/240, m)
			}
			least, most = min(least, sum), max(most, sum)
		}
	}
	return least, most
}

// The estimate is that of uniform loads: draw them.
func TestEstimateAgainstDraws(t *testing.T) {
	rng := rand.New(rand.NewPCG(8, 8))
	segments := []record.Segment{closed(0, 70, 401.7), closed(150, 240, 253.4), closed(240, 290, 10.8)}
	var sum float64
	const draws = 200_000
	for _, s := range segments {
		for range draws {
			p := (float64(s.From) + rng.Float64()*float64(s.To-s.From)) / 240
			sum += float64(s.Hours) / draws * math.Pow(0.4+0.6*p, 3)
		}
	}
	r := fatigue.Assess(segments, 240, assumed(nil)) // other kinds: usual share 0.4, 5 cycles an hour, m 3
	want := sum * 5 / 40_000
	if got := *r.Relative.Estimate; math.Abs(got-want) > 0.002*want {
		t.Errorf("got %v, want %v", got, want)
	}
}

func relative(segments []record.Segment, own map[assume.ID]record.Assumed) [3]float64 {
	b := fatigue.Assess(segments, 240, assumed(own)).Relative
	return [3]float64{b.Low, *b.Estimate, *b.High}
}

// More hours, more load or a higher rate never make less exposure; double
// hours make double exposure, double the budget half of it.
func TestMonotoneAndScaling(t *testing.T) {
	base := []record.Segment{closed(0, 80, 18), closed(160, 240, 8), closed(240, 320, 1)}
	was := relative(base, nil)
	for name, now := range map[string][3]float64{
		"more hours":   relative([]record.Segment{closed(0, 80, 19), closed(160, 240, 8), closed(240, 320, 1)}, nil),
		"another band": relative(append(base, closed(320, 400, 0.1)), nil),
		"higher load":  relative([]record.Segment{closed(0, 80, 18), closed(161, 241, 8), closed(240, 320, 1)}, nil),
		"higher rate":  relative(base, map[assume.ID]record.Assumed{assume.CyclesPerHour: {Low: 2.1, Value: 5.1, High: 12.1}}),
	} {
		for i := range was {
			if now[i] <= was[i] {
				t.Errorf("%s: got %v, want more than %v", name, now, was)
				break
			}
		}
	}
	double := relative([]record.Segment{closed(0, 80, 36), closed(160, 240, 16), closed(240, 320, 2)}, nil)
	half := relative(base, map[assume.ID]record.Assumed{assume.DesignCycles: fixed(80_000)})
	for i := range was {
		near(t, "double hours", double[i], 2*was[i])
		near(t, "double budget", half[i], was[i]/2)
	}
}

// A wider interval of an assumption never gives tighter bounds.
func TestWiderAssumptionsWiderBounds(t *testing.T) {
	segments := []record.Segment{closed(0, 80, 18), closed(160, 240, 8), closed(640, 812, 1.9)}
	narrow := relative(segments, map[assume.ID]record.Assumed{assume.SelfWeightShare: {Low: 0.4, Value: 0.5, High: 0.6}})
	wide := relative(segments, map[assume.ID]record.Assumed{assume.SelfWeightShare: {Low: 0.1, Value: 0.5, High: 0.9}})
	if wide[0] > narrow[0] || wide[2] < narrow[2] || wide[1] != narrow[1] {
		t.Errorf("got %v, want it to hold %v", wide, narrow)
	}
}

// An open band without a peak leaves the figures unbounded above, and says so.
func TestUnbounded(t *testing.T) {
	r := fatigue.Assess([]record.Segment{closed(0, 80, 18), {From: 320, Hours: 1}}, 240, assumed(nil))
	for what, b := range map[string]record.Bounds{"relative": r.Relative, "factor": r.FactorKp} {
		if b.High != nil || b.Estimate != nil || b.Low <= 0 {
			t.Errorf("%s: got %+v, want a low alone", what, b)
		}
	}
	if r.LoadCycles.High == nil {
		t.Error("load cycles: got no high, want one: hours are known")
	}
	if r.Class != "Qp2 or above (ISO 4301-1:2016)" { // (320/240)³/19 = 0.1248
		t.Errorf("class: got %q, want Qp2 or above", r.Class)
	}
}

// A peak of 0 kg leaves the hours of the lowest band at 0 kg: no load, no factor.
func TestAllHoursAtNoLoad(t *testing.T) {
	r := fatigue.Assess([]record.Segment{closed(0, 0, 5)}, 240, assumed(nil))
	near(t, "factor", *r.FactorKp.Estimate, 0)
	near(t, "estimate", *r.Relative.Estimate, math.Pow(0.4, 3)*5*5/40_000) // other kinds: s 0.4
}

func TestNoHours(t *testing.T) {
	r := fatigue.Assess(nil, 240, assumed(nil))
	if r.Relative.Low != 0 || *r.Relative.High != 0 || r.FactorKp.Low != 0 || *r.FactorKp.High != 0 || r.Class != "Qp0 (ISO 4301-1:2016)" {
		t.Errorf("got %+v, want nothing used", r)
	}
}
