package cause

import (
	"math"
	"math/rand/v2"
	"testing"

	"ratchetmark/internal/record"
)

// FuzzWeigh puts figures beyond all machines into cases of many sorts: weights add
// up to 1, ratios lie in their range, shares within the hours, and nothing is said
// that is no number.
func FuzzWeigh(f *testing.F) {
	for seed := range uint64(20) {
		f.Add(seed, 230.0, 1.0, 700.0, 310.0)
	}
	f.Add(uint64(3), 1e5, 2e5, 1e5, 99_999.0)
	f.Add(uint64(7), 60.0, 1e-5, 60.0000001, 60.0)
	f.Add(uint64(9), 230.0, 0.0999, 230.0001, 230.0)
	f.Add(uint64(11), 1e300, math.Inf(1), math.NaN(), -1.0)
	f.Fuzz(func(t *testing.T, seed uint64, rated, hours, peak, edge float64) {
		c := randomCase(rand.New(rand.NewPCG(seed, 1)))
		c.Machine.RatedLoad = kg(rated)
		last := &c.Readings[len(c.Readings)-1]
		last.Peak = kg(peak)
		for i := range c.Readings {
			if b := c.Readings[i].Bands; len(b) == 5 {
				b[3].To, b[4].From = kg(edge), recordKg(edge)
			}
		}
		if len(last.Bands) == 5 {
			last.Bands[4].Hours = record.Hour(hours)
		}
		h := record.Lay(c)
		if h.Rated <= 0 {
			return
		}
		for _, o := range Weigh(h, firstSet(c), Habits{"w1": {Over: int(seed % 999), Not: 3}}) {
			checkOpinion(t, &o)
		}
	})
}

func checkOpinion(t *testing.T, o *Opinion) {
	t.Helper()
	finite := func(what string, x float64) {
		if math.IsNaN(x) || math.IsInf(x, 0) {
			t.Errorf("%s from %v: got %v for %s, want a number", o.What, o.From, x, what)
		}
	}
	sum := 0.0
	for _, w := range o.Posterior {
		sum += w
	}
	if !(math.Abs(sum-1) < 1e-9) {
		t.Errorf("%s from %v: got weights %v, want a sum of 1", o.What, o.From, o.Posterior)
	}
	if r := o.Ratio; !(r.Low > 0 && r.Low <= r.Value && r.Value <= r.High) || math.IsInf(r.High, 1) {
		t.Errorf("%s from %v: got a ratio of %v, %v to %v, want them in order", o.What, o.From, r.Value, r.Low, r.High)
	}
	for _, r := range o.Reasons {
		for _, x := range r.Log10 {
			finite(r.ID, x)
		}
	}
	for _, m := range o.Matters {
		finite(m.Name, m.AtLow)
		finite(m.Name, m.AtHigh)
	}
	for _, a := range o.AskFor {
		if !(a.Bits >= leastBits && a.Bits <= 2+1e-9) {
			t.Errorf("%s: got %v bits, want at most what four causes hold", a.Record, a.Bits)
		}
	}
	for c, s := range o.Shares {
		if !(0 <= s.Low && s.Low <= s.High && s.High <= math.Max(float64(o.High), leastHours)) {
			t.Errorf("%s from %v, %s: got %v to %v of %v h, want them in order", o.What, o.From, All[c], s.Low, s.High, o.High)
		}
	}
}
