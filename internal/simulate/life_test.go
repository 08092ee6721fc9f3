package simulate_test

import (
	"encoding/json"
	"reflect"
	"slices"
	"sync"
	"testing"

	"ratchetmark/internal/record"
	"ratchetmark/internal/simulate"
)

// No life has a finding that withholds a conclusion, at no level; doubts and
// notes occur, as in real records.
func TestLivesPassTheChecks(t *testing.T) {
	g, doubts := simulate.New(2), 0
	for i := range 600 {
		for _, a := range simulate.Availabilities {
			l := g.With(i, a)
			for _, f := range record.Check(&l.Case) {
				if f.Severity == record.Blocking {
					t.Errorf("life %d, %s: got %s at %s: %s, want nothing blocking", i, a, f.Code, f.Where, f.Message)
				}
				doubts++
			}
		}
	}
	if doubts == 0 {
		t.Error("got no doubt and no note in any life, want some")
	}
}

// Every piece has its truth once, and the hours fit what the counters gained.
func TestTruthFitsTheRecord(t *testing.T) {
	g, mixed, bands := simulate.New(3), 0, 0
	for i := range 2000 {
		l := g.Life(i)
		seen := map[simulate.Key]bool{}
		for _, x := range l.Truth {
			if seen[x.Key()] {
				t.Errorf("life %d: got %v twice, want once", i, x.Key())
			}
			seen[x.Key()] = true
			if x.What == simulate.Peak {
				peakFits(t, i, &l, x)
			} else if bandFits(t, i, &l, x); x.Cause != simulate.None {
				bands++
				if x.Share < 0.9 {
					mixed++
				}
			}
		}
	}
	if mixed*100 < bands {
		t.Errorf("got %d of %d bands in which two causes meet, want at least 1 %%", mixed, bands)
	}
}

// peakFits holds a peak against the rated load: over it unless by drift.
func peakFits(t *testing.T, i int, l *simulate.Life, x simulate.Truth) {
	t.Helper()
	rated := float64(*l.Case.Machine.RatedLoad)
	if x.True == nil || x.Hours != nil || x.Share != 1 || (*x.True > rated) == (x.Cause == simulate.Drift) {
		t.Errorf("life %d: got %+v at a rated load of %v kg, want a true load over it, or drift", i, x, rated)
	}
	if float64(x.From) <= rated {
		t.Errorf("life %d: got a peak of %v kg, want one over the rated load of %v kg", i, x.From, rated)
	}
}

// bandFits holds the true hours over the rated load against what the band
// gained: equal to it within what two counters are rounded by where the whole
// band lies over the rated load, no more than it elsewhere.
func bandFits(t *testing.T, i int, l *simulate.Life, x simulate.Truth) {
	t.Helper()
	h := record.Lay(&l.Case)
	v := h.Intervals[x.Interval]
	if v.Withheld != "" {
		v = h.Counters(x.Interval)
	}
	at := slices.IndexFunc(v.Bands, func(b record.Band) bool { return b.From == x.From })
	if at < 0 || x.Hours == nil || x.True != nil {
		t.Fatalf("life %d: got %+v, want one of the bands of its interval", i, x)
	}
	const rounding = 0.1 + 1e-3
	gained, over := float64(v.Bands[at].Hours), x.Hours.Total()
	if over > gained+rounding || x.From >= h.Rated && over < gained-rounding {
		t.Errorf("life %d: got %v h over the rated load in the band from %v kg, which gained %v h", i, over, x.From, gained)
	}
	if cause, share := x.Hours.Main(); cause != x.Cause || share != x.Share || (cause == simulate.None) != (over == 0) {
		t.Errorf("life %d: got %s with %v, want %s with %v", i, x.Cause, x.Share, cause, share)
	}
}

// What happens in a life does not depend on how much of it is written down.
func TestSameLifeAtEveryLevel(t *testing.T) {
	g, compared := simulate.New(4), 0
	for i := range 300 {
		least := g.With(i, simulate.PeakAndBands).Case.Readings[0]
		for _, a := range simulate.Availabilities[1:] {
			readings := g.With(i, a).Case.Readings
			last := readings[len(readings)-1]
			if last.Bands == nil || last.Peak == nil {
				continue
			}
			compared++
			if !sameHours(last.Bands, least.Bands) || *last.Peak != *least.Peak {
				t.Errorf("life %d, %s: got %v and %v kg, want %v and %v kg", i, a, last.Bands, *last.Peak, least.Bands, *least.Peak)
			}
		}
	}
	if compared < 800 {
		t.Errorf("got %d lives to compare, want most of 900", compared)
	}
}

// sameHours allows for a counter at the edge of a step.
func sameHours(a, b []record.Band) bool {
	return slices.EqualFunc(a, b, func(x, y record.Band) bool {
		return x.From == y.From && x.Hours-y.Hours <= 0.1001 && y.Hours-x.Hours <= 0.1001
	})
}

// A level gives what it says and no more.
func TestLevels(t *testing.T) {
	g := simulate.New(5)
	for i := range 100 {
		for k, a := range simulate.Availabilities {
			l := g.With(i, a)
			c := &l.Case
			dated := !c.Readings[0].At.IsZero()
			hours := slices.ContainsFunc(c.Readings, func(r record.Reading) bool { return r.Powered != nil || r.Moving != nil || r.PeakAt != nil })
			if l.Availability != a || !dated || k == 0 && (hours || len(c.Readings) != 1) || k == 1 && len(c.Readings) > 2 ||
				k < 2 && c.Custody != nil || k < 3 && (c.Events != nil || c.Daily != nil) {
				t.Errorf("life %d, %s: got %d readings, hour meters %v, %d stays, %d events and %d days", i, a, len(c.Readings), hours, len(c.Custody), len(c.Events), len(c.Daily))
			}
		}
	}
}

func TestDeterministic(t *testing.T) {
	g := simulate.New(6)
	want := make([]simulate.Life, 40)
	for i := range want {
		want[i] = g.Life(i)
	}
	var all sync.WaitGroup
	for i := len(want) - 1; i >= 0; i-- { // in another order, and at once
		all.Go(func() {
			if got := simulate.New(6).Life(i); !reflect.DeepEqual(got, want[i]) {
				t.Errorf("life %d: got another life for the same seed", i)
			}
		})
	}
	all.Wait()
	if reflect.DeepEqual(simulate.New(7).Life(0), want[0]) {
		t.Error("got the same life for another seed")
	}
}

func FuzzLife(f *testing.F) {
	for i := range uint16(8) {
		f.Add(uint64(i)*977, i)
	}
	f.Add(^uint64(0), ^uint16(0))
	f.Fuzz(func(t *testing.T, seed uint64, i uint16) {
		l := simulate.New(seed).Life(int(i))
		if record.Blocks(record.Check(&l.Case)) {
			t.Errorf("got blocking findings, want none: %v", record.Check(&l.Case))
		}
		for _, x := range l.Truth {
			if x.What == simulate.Peak {
				peakFits(t, int(i), &l, x)
			} else {
				bandFits(t, int(i), &l, x)
			}
		}
		if _, err := json.Marshal(l); err != nil {
			t.Errorf("got %v, want it written", err)
		}
	})
}

func BenchmarkLife(b *testing.B) {
	g := simulate.New(1)
	for i := 0; b.Loop(); i++ {
		g.Life(i)
	}
}

func TestClass(t *testing.T) {
	for i, cause := range []string{simulate.Worked, simulate.Lashed, simulate.Shock, simulate.Drift} {
		if got := (simulate.Truth{Cause: cause}).Class(); got != i || simulate.Causes[i] != cause {
			t.Errorf("%s: got class %d, want %d", cause, got, i)
		}
	}
	for _, cause := range []string{simulate.Other, simulate.None} {
		if got := (simulate.Truth{Cause: cause}).Class(); got != -1 {
			t.Errorf("%s: got class %d, want -1", cause, got)
		}
	}
}
