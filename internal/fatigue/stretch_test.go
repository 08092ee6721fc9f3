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

func hire(from, to time.Time, who string) record.Custody {
	return record.Custody{From: from, To: to, Holder: record.Hire, Who: who}
}

// The intervals and the years add up to the life, estimate for estimate.
func TestStretchesAddUp(t *testing.T) {
	l, u := open(t, life(nil, interval(0, 0, 200, 190, 80, 30, 0), interval(1, 200, 500, 250, 60, 40, 5), interval(2, 500, 900, 250, 70, 10, 0)))
	all := *u.Relative(3, 40_000).Estimate
	for what, stretches := range map[string][]fatigue.Stretch{"intervals": l.ByInterval(), "years": l.ByYear()} {
		var sum float64
		for _, s := range stretches {
			within(t, what, s.Relative)
			sum += *s.Relative.Estimate
		}
		near(t, what, sum, all)
	}
	if got := len(l.ByYear()); got != 3 {
		t.Errorf("got %d years, want 2025 to 2027", got)
	}
}

// By hand: an interval of 10 days with 100 h, wholly on one hire, is that hire's;
// a hire of one day in it has at most 24 h of it, and at least none.
func TestHires(t *testing.T) {
	v := interval(1, 0, 10, 250, 60, 40, 0)
	l := life(nil, v)
	l.Case.Custody = []record.Custody{hire(day(0), day(10), "whole")}
	l, u := open(t, l)
	all := u.Relative(3, 40_000)
	got := l.ByHire()
	if len(got) != 1 || got[0].Title != "whole" {
		t.Fatalf("got %+v, want one hire", got)
	}
	near(t, "whole, low", got[0].Relative.Low, all.Low)
	near(t, "whole, estimate", *got[0].Relative.Estimate, *all.Estimate)
	near(t, "whole, high", *got[0].Relative.High, *all.High)

	own := map[assume.ID]record.Assumed{assume.SelfWeightShare: fixed(0.5), assume.CyclesPerHour: fixed(5)}
	l = life(own, v)
	l.Case.Custody = []record.Custody{hire(day(2), day(3), "a day"), hire(day(3), day(7), "four days")}
	l, _ = open(t, l)
	b := l.ByHire()[0].Relative
	near(t, "a day, low", b.Low, 0)
	near(t, "a day, high", *b.High, 24*5*1/40_000.0) // 24 of the 40 h in the band up to the rated load, at its upper edge
	// An estimate of a fifth of all hours, 20 h.
	_, whole := open(t, life(own, v))
	near(t, "a day, estimate", *b.Estimate, *whole.Relative(3, 40_000).Estimate/5)

	// 230 h in 10 days leave at least 14 h for a day: at the lightest loads.
	l = life(own, interval(1, 0, 10, 250, 100, 130, 0))
	l.Case.Custody = []record.Custody{hire(day(2), day(3), "a day")}
	l, _ = open(t, l)
	near(t, "a full day, low", l.ByHire()[0].Relative.Low, 14*5*0.125/40_000)
}

// The bounds of a hire hold every way to put the hours: draw ways.
func TestHireBoundsHold(t *testing.T) {
	rng := rand.New(rand.NewPCG(6, 6))
	for range 200 {
		hours := []float64{40 * rng.Float64(), 40 * rng.Float64(), 20 * rng.Float64()}
		l := life(map[assume.ID]record.Assumed{assume.SelfWeightShare: {Low: 0.2, Value: 0.4, High: 0.6}}, interval(1, 0, 5, 300, hours...))
		from, to := rng.IntN(4), 0
		to = from + 1 + rng.IntN(5-from)
		l.Case.Custody = []record.Custody{hire(day(from), day(to), "x")}
		l, _ = open(t, l)
		b := l.ByHire()[0].Relative
		within(t, "hire", b)
		inside, outside := 24*float64(to-from), 24*float64(5-to+from)
		total := hours[0] + hours[1] + hours[2]
		share := 0.2 + 0.4*rng.Float64()
		rate := 2 + 10*rng.Float64()
		var mine, sum float64
		for i, h := range hours {
			part := h * rng.Float64()
			mine += part
			at := math.Min(100*(float64(i)+rng.Float64()), 300)
			sum += part * math.Pow(share+(1-share)*at/200, 3) * rate / 40_000
		}
		if mine > inside || total-mine > outside {
			continue // cannot be
		}
		if sum < b.Low*(1-1e-9) || sum > *b.High*(1+1e-9) {
			t.Errorf("%v on days %d to %d: got %v, want it within %v and %v", hours, from, to, sum, b.Low, *b.High)
		}
	}
}

// Undated hours may lie anywhere: between none and all of them, no estimate.
func TestUndated(t *testing.T) {
	v := interval(1, 0, 10, 250, 60, 40, 0)
	v.From = time.Time{}
	l := life(nil, v)
	l.Case.Custody = []record.Custody{hire(day(0), day(10), "x")}
	l, u := open(t, l)
	b := l.ByHire()[0].Relative
	if b.Low != 0 || b.Estimate != nil || *b.High != *u.Relative(3, 40_000).High {
		t.Errorf("got %+v, want none to all", b)
	}
	if got := l.ByYear(); got != nil {
		t.Errorf("got years %+v, want none", got)
	}
}

// A forecast begins at the exposure so far, never falls with time, and doubles
// its growth with the time that passes.
func TestForecast(t *testing.T) {
	l, u := open(t, life(nil, interval(0, 0, 200, 190, 80, 30, 0), interval(1, 200, 300, 250, 60, 40, 5), interval(2, 300, 330, 250, 70, 10, 0)))
	now := u.Relative(3, 40_000)
	var due []fatigue.Forecast
	for _, n := range []int{330, 331, 330 + 365, 330 + 730} {
		due = append(due, fatigue.Due(&record.Date{Time: day(n)}, nil)...)
	}
	got, ok := l.Forecast(now, due)
	if !ok || len(got) != 3 { // the first date is that of the last reading
		t.Fatalf("got %+v, want three", got)
	}
	was := now
	for _, f := range got {
		within(t, "forecast", f.Relative)
		within(t, "rate", f.PerYear)
		if f.Relative.Low < was.Low || *f.Relative.Estimate < *was.Estimate || *f.Relative.High < *was.High {
			t.Errorf("got %+v after %+v, want no less", f.Relative, was)
		}
		was = f.Relative
	}
	near(t, "twice the time", *got[2].Relative.Estimate-*now.Estimate, 2*(*got[1].Relative.Estimate-*now.Estimate))
	near(t, "mean rate", *got[1].PerYear.Estimate, *now.Estimate/(330/365.25))
	// The interval of 30 days is too short to tell a rate; the busiest long one does.
	busy := l.ByInterval()[1].Relative
	near(t, "busiest", *got[1].PerYear.High, *busy.High*365.25/100)
}

func TestDue(t *testing.T) {
	in := record.Date{Time: day(0)}
	if got := fatigue.Due(nil, &in); len(got) != 2 || got[0].At.String() != "2030-01-01" || got[1].At.String() != "2032-01-01" {
		t.Errorf("got %+v, want five and seven years on", got)
	}
	if got := fatigue.Due(&in, &in); len(got) != 1 || got[0].Why != "the planned disposal" {
		t.Errorf("got %+v, want the planned one", got)
	}
	if got := fatigue.Due(nil, nil); got != nil {
		t.Errorf("got %+v, want none", got)
	}
}
