package cause

import (
	"fmt"
	"math"
	"math/rand/v2"
	"reflect"
	"testing"
	"time"

	"ratchetmark/internal/assume"
	"ratchetmark/internal/record"
)

// Invented cases with one cause each: who leads, and what is said.
func TestLeaders(t *testing.T) {
	for _, v := range []struct {
		name     string
		of       func() *record.Case
		what     What
		interval int
		from     float64
		leader   Cause
		verdict  Cause
	}{
		{"trip, peak", trip, Peak, 1, 0, Lashed, Lashed},
		{"trip, hours", trip, Band, 1, 310, Lashed, Lashed},
		{"hire, hours", hire, Band, 1, 230, Worked, Undecided}, // 6 of 175 h: a drifted cell is not out of the question
		{"hire, hours, a cell that reads right", soundHire, Band, 1, 230, Worked, Worked},
		{"struck, peak", knocked, Peak, 1, 0, Shock, Undecided},
		{"shifted, hours", shifted, Band, 1, 230, Worked, Undecided}, // a crew that overloads every day comes as near
		{"shifted, hours after", shifted, Band, 2, 230, Drift, Undecided},
	} {
		o := piece(v.of(), v.what, v.interval, v.from)
		if o == nil {
			t.Fatalf("%s: got no such piece", v.name)
		}
		if o.Leader != v.leader || o.Verdict != v.verdict {
			t.Errorf("%s: got %s leading with verdict %s, weights %.3f and %.3g (%.3g to %.3g), want %s and %s",
				v.name, o.Leader, o.Verdict, o.Posterior, o.Ratio.Value, o.Ratio.Low, o.Ratio.High, v.leader, v.verdict)
		}
	}
}

// odds returns how many times as heavy one cause is as another.
func odds(o *Opinion, a, b int) float64 { return o.Posterior[a] / o.Posterior[b] }

// otherAlarms is hire with alarms at loads that its bands do not hold.
func otherAlarms() *record.Case {
	c := hire()
	c.Events[0].Load, c.Events[1].Load = kg(600), kg(600)
	return c
}

// inTheYard is hire with a machine that stood in the yard all the time.
func inTheYard() *record.Case {
	c := hire()
	for i := range c.Custody {
		if c.Custody[i].Holder == record.Hire {
			c.Custody[i].Holder = record.Depot
		}
	}
	return c
}

// What the record shows moves the weights the way it must: each change of a case
// makes the first cause lighter or heavier against the second.
func TestDirections(t *testing.T) {
	hours := func(h float64) func(c *record.Case) {
		return func(c *record.Case) {
			for i := 1; i < len(c.Readings); i++ {
				c.Readings[i].Bands[4].Hours = record.Hour(h)
			}
		}
	}
	for _, v := range []struct {
		name     string
		of       func() *record.Case
		what     What
		from     float64
		a, b     int
		change   func(c *record.Case)
		heavier  bool
		evidence string
	}{
		{"a higher peak speaks against work", hire, Peak, 0, iLashed, iWorked, func(c *record.Case) { c.Readings[1].Peak, c.Readings[2].Peak = kg(650), kg(650) }, true, "size"},
		{"hours in the band of a peak speak against a shock", trip, Peak, 0, iLashed, iShock, hours(0), false, "hours"},
		{"more hours speak against a shock", trip, Band, 310, iShock, iLashed, hours(0.1), true, "hours"},
		{"custody with no trip speaks against tie-down", trip, Band, 310, iLashed, iWorked, func(c *record.Case) { c.Custody[1].Holder = record.Depot }, false, "occasion"},
		{"no custody at all says less", trip, Band, 310, iLashed, iWorked, func(c *record.Case) { c.Custody = nil }, false, "occasion"},
		{"a machine that moved was not tied down", trip, Band, 310, iLashed, iWorked, func(c *record.Case) {
			for i := 1; i < 3; i++ {
				c.Readings[i].Moving = hour(float64(*c.Readings[i].Moving) + 0.9)
			}
		}, false, "movement"},
		{"alarms on hire speak for work", hire, Band, 230, iWorked, iLashed, func(c *record.Case) { c.Events = nil }, false, "alarms"},
		{"alarms at other loads do not", otherAlarms, Band, 230, iWorked, iLashed, func(c *record.Case) { c.Events[0].Load, c.Events[1].Load = nil, nil }, true, "alarms"},
		{"a machine on hire is worked with, not in the yard", inTheYard, Band, 230, iWorked, iDrift, func(c *record.Case) { *c = *hire() }, true, "occasion"},
		{"a peak set in transit speaks for tie-down", trip, Peak, 0, iLashed, iWorked, func(c *record.Case) { c.Readings[1].PeakAt = record.Of(at("2025-06-11 07:30")) }, true, "moment"},
		{"an emptied lowest band speaks for drift", shifted, Band, 230, iDrift, iWorked, func(c *record.Case) { c.Readings[1].Bands[0].Hours, c.Readings[2].Bands[0].Hours = 110, 160 }, false, "empty-band"},
		{"hours over again afterwards speak for drift", shifted, Band, 230, iDrift, iWorked, func(c *record.Case) { c.Readings[2].Bands[3].Hours = 22 }, false, "afterwards"},
		{"bands without hours in between speak against work", trip, Band, 310, iWorked, iLashed, func(c *record.Case) {
			for i := 1; i < 3; i++ {
				c.Readings[i].Bands[3].Hours = 3
			}
		}, true, "neighbours"},
		{"a zero check that shows nothing speaks against drift", shifted, Band, 230, iDrift, iWorked, zeroAt("2025-08-03 08:00", 0), false, "zero-check"},
		{"a zero check that shows an offset speaks for drift", shifted, Band, 230, iDrift, iWorked, zeroAt("2025-08-03 08:00", 40), true, "zero-check"},
		{"a zero check below zero speaks against drift", shifted, Band, 230, iDrift, iWorked, zeroAt("2025-08-03 08:00", -40), false, "zero-check"},
		{"a known mass that is shown right speaks against drift", shifted, Band, 230, iDrift, iWorked, massAt("2025-08-03 08:00", 150, 151), false, "known-mass"},
		{"a known mass that is shown too high speaks for drift", shifted, Band, 230, iDrift, iWorked, massAt("2025-08-03 08:00", 150, 190), true, "known-mass"},
		{"a strap seen over the platform speaks for tie-down", trip, Peak, 0, iLashed, iShock, tiedAt(true, record.Seen), true, "tie-down"},
		{"a strap told of speaks for tie-down", trip, Peak, 0, iLashed, iShock, tiedAt(true, record.ToldOf), true, "tie-down"},
		{"a tie-down seen elsewhere speaks against it", trip, Peak, 0, iLashed, iShock, tiedAt(false, record.Seen), false, "tie-down"},
		{"a strap denied speaks against it", trip, Peak, 0, iLashed, iShock, tiedAt(false, record.ToldOf), false, "tie-down"},
		{"a peak far up in an open band speaks for tie-down", trip, Band, 310, iLashed, iWorked, func(c *record.Case) { c.Readings[1].Peak, c.Readings[2].Peak = kg(330), kg(330) }, false, "peak-place"},
	} {
		before, c := piece(v.of(), v.what, 1, v.from), v.of()
		v.change(c)
		after := piece(c, v.what, 1, v.from)
		if before == nil || after == nil {
			t.Fatalf("%s: got no such piece", v.name)
		}
		if was, is := odds(before, v.a, v.b), odds(after, v.a, v.b); is == was || (is > was) != v.heavier {
			t.Errorf("%s: got odds of %.3g before and %.3g after, want heavier %v", v.name, odds(before, v.a, v.b), odds(after, v.a, v.b), v.heavier)
		}
		found := false
		for _, o := range []*Opinion{before, after} {
			for _, r := range o.Reasons {
				found = found || r.ID == v.evidence
			}
		}
		if !found {
			t.Errorf("%s: got no evidence %s, want it", v.name, v.evidence)
		}
	}
}

// The machine's event list tells where it was powered, other intervals and other
// machines what a haulier does.
func TestPowerPatternHaulier(t *testing.T) {
	c := trip()
	c.Events = []record.Event{
		{At: at("2025-06-10 06:00"), Kind: record.PowerOn}, {At: at("2025-06-10 07:00"), Kind: record.PowerOff},
		{At: at("2025-06-11 08:00"), Kind: record.PowerOn}, {At: at("2025-06-11 09:18"), Kind: record.PowerOff},
		{At: at("2025-06-12 08:00"), Kind: record.PowerOn}, {At: at("2025-06-12 09:00"), Kind: record.PowerOff},
	}
	o := piece(c, Band, 1, 310)
	if r := reason(o, "power"); r == nil || !(r.Log10[iLashed] > r.Log10[iWorked]) {
		t.Errorf("got %+v, want power in transit to speak for tie-down", r)
	}
	set, _ := assume.For(c)
	h := record.Lay(c)
	alone := Weigh(h, set, nil)[0]
	habits := Habits{"haulier A": {Over: 4, Not: 1}}
	with := Weigh(h, set, habits)[0]
	without := Weigh(h, set, Habits{"haulier A": {Over: 0, Not: 9}})[0]
	if !(odds(&with, iLashed, iShock) > odds(&alone, iLashed, iShock) && odds(&without, iLashed, iShock) < odds(&alone, iLashed, iShock)) {
		t.Errorf("got odds of %.3g with a habit, %.3g alone, %.3g against one, want them in this order", odds(&with, iLashed, iShock), odds(&alone, iLashed, iShock), odds(&without, iLashed, iShock))
	}
	if reason(&with, "haulier") == nil {
		t.Error("got no evidence of the haulier, want it")
	}
}

// HabitsOf counts intervals that are mostly one haulier's trip.
func TestHabitsOf(t *testing.T) {
	clean := trip()
	clean.Readings[1] = reading("2025-06-11 10:00", 30, 210, 60.3, 40, 20, 0, 0)
	clean.Readings[2] = reading("2025-08-01 06:00", 50, 210, 90, 60, 30, 0, 0)
	got := HabitsOf([]record.History{record.Lay(trip()), record.Lay(clean), record.Lay(trip())})
	if want := (Trips{Over: 2, Not: 1}); got["haulier A"] != want || len(got) != 1 {
		t.Errorf("got %v, want haulier A with %v", got, want)
	}
	if left := got.Less(HabitsOf([]record.History{record.Lay(trip())})); left["haulier A"] != (Trips{Over: 1, Not: 1}) {
		t.Errorf("got %v, want the machine's own trip left out", left)
	}
}

func reason(o *Opinion, id string) *Reason {
	for i := range o.Reasons {
		if o.Reasons[i].ID == id {
			return &o.Reasons[i]
		}
	}
	return nil
}

// The prior is the reader's: it moves the weights and leaves the ratio.
func TestPrior(t *testing.T) {
	c := trip()
	before := piece(c, Band, 1, 310)
	c.Assumptions = map[string]record.Assumed{string(assume.PriorShock): {Low: 5, Value: 5, High: 5}}
	after := piece(c, Band, 1, 310)
	near(t, "odds", odds(after, iShock, iWorked), 5*odds(before, iShock, iWorked), 1e-9)
	near(t, "ratio", after.Ratio.Value, before.Ratio.Value, 1e-9)
}

// A band that begins under the rated load may hold no hours over it at all.
func TestStraddlingBandIsUndecided(t *testing.T) {
	c := hire()
	c.Machine.RatedLoad = kg(250)
	if o := piece(c, Band, 1, 230); !o.MayBeUnder || o.Verdict != Undecided {
		t.Errorf("got verdict %s, may be under %v, want it undecided", o.Verdict, o.MayBeUnder)
	}
}

// Whatever is concluded holds together, and comes out the same again.
func TestConsistent(t *testing.T) {
	rng := rand.New(rand.NewPCG(2026, 11))
	seen := map[Cause]int{}
	for range 500 {
		c := randomCase(rng)
		all := of(c)
		for _, o := range all {
			seen[o.Verdict]++
			consistent(t, &o)
		}
		if !reflect.DeepEqual(all, of(c)) {
			t.Fatal("got another result the second time, want the same")
		}
	}
	for _, c := range []Cause{Lashed, Undecided} {
		if seen[c] < 5 {
			t.Errorf("got %d pieces with %s, want enough of each to mean something", seen[c], c)
		}
	}
}

// consistent checks one opinion against itself.
func consistent(t *testing.T, o *Opinion) {
	t.Helper()
	sum := 0.0
	for _, w := range o.Posterior {
		if !(w >= 0 && w <= 1) {
			t.Fatalf("got weights %v, want each from 0 to 1", o.Posterior)
		}
		sum += w
	}
	near(t, "weights", sum, 1, 1e-12)
	r := o.Ratio
	need := required[o.Leader]
	switch {
	case !(0 < r.Low && r.Low <= r.Value*(1+1e-12) && r.Value <= r.High*(1+1e-12)) || math.IsInf(r.High, 0):
		t.Fatalf("got a ratio of %+v, want it within its range", r)
	case r.Against == o.Leader:
		t.Fatalf("got %s against itself", o.Leader)
	case o.Verdict != Undecided && (o.Verdict != o.Leader || r.Low < need.ratio || o.MayBeUnder):
		t.Fatalf("got verdict %s with %+v, want the whole range to support it", o.Verdict, o)
	case o.What == Band && !(0 <= o.Low && o.Low <= o.Estimate && o.Estimate <= o.High && o.High > 0):
		t.Fatalf("got %v, %v, %v h, want them in order: %+v", o.Low, o.Estimate, o.High, o)
	}
	if o.Verdict != Undecided && o.What == Band {
		for c, s := range o.Shares {
			if All[c] == o.Verdict && s.High < 0.9*float64(o.High)-0.11 {
				t.Fatalf("got verdict %s with at most %v of %v h, want no cause named that cannot have made them", o.Verdict, s.High, o.High)
			}
		}
	}
	for i, a := range o.AskFor {
		if a.Bits <= 0 || a.Bits > 2 || i > 0 && a.Bits > o.AskFor[i-1].Bits {
			t.Fatalf("got %v, want gains in (0, 2], the greatest first", o.AskFor)
		}
	}
	for _, r := range o.Reasons {
		best := math.Inf(-1)
		for _, l := range r.Log10 {
			best = max(best, l)
		}
		if r.Text == "" || r.Title == "" || best != 0 || spread(r.Log10) > capOf(r.ID)+1e-9 {
			t.Fatalf("got reason %+v, want words, the best cause at 0, the others within the cap", r)
		}
	}
	for c, s := range o.Shares {
		if o.What == Band && !(0 <= s.Low && s.Low <= s.High+1e-9 && s.High <= math.Max(float64(o.High), leastHours)+1e-9) {
			t.Fatalf("got %v h of %s of %v h, want bounds within", s, All[c], o.High)
		}
	}
}

func capOf(id string) float64 {
	for _, e := range evidence {
		if e.id == id {
			return e.cap
		}
	}
	return -1
}

// randomCase makes a case of a few readings, custody entries and events that
// meet each other often.
func randomCase(rng *rand.Rand) *record.Case {
	start := time.Date(2025, 6, 11, 6, 0, 0, 0, time.UTC)
	clock := func(steps int) time.Time { return start.Add(time.Duration(steps) * 6 * time.Hour) }
	c := &record.Case{Format: record.Format, Machine: record.Machine{RatedLoad: kg(float64(150 + rng.IntN(120)))}}
	edges := []float64{0, 60, 130, 230, 310}
	hours := make([]float64, len(edges))
	moving, peak := 0.0, 100.0
	for i := range 1 + rng.IntN(4) {
		r := record.Reading{At: clock(i * 8)}
		if rng.IntN(30) == 0 {
			r.At = time.Time{}
		}
		for j := range edges {
			if rng.IntN(1+j) == 0 {
				hours[j] += float64(rng.IntN(40)) * 0.3
			}
			b := record.Band{From: record.Kilogram(edges[j]), Hours: record.Hour(hours[j])}
			if j+1 < len(edges) {
				b.To = kg(edges[j+1])
			}
			r.Bands = append(r.Bands, b)
		}
		moving += float64(rng.IntN(12))
		if rng.IntN(5) > 0 {
			r.Moving = hour(moving)
		}
		if rng.IntN(3) == 0 {
			peak += float64(rng.IntN(400))
		}
		if rng.IntN(6) > 0 {
			r.Peak = kg(peak - float64(rng.IntN(20)/19*50)) // sometimes it fell
		}
		if rng.IntN(3) == 0 {
			r.PeakAt = record.Of(clock(rng.IntN(32)))
		}
		if rng.IntN(25) == 0 {
			r.Bands = nil
		}
		c.Readings = append(c.Readings, r)
	}
	holders := []record.Holder{record.Transit, record.Transit, record.Hire, record.Depot, record.Workshop, "garage"}
	for from := 0; from < 32; {
		to := from + 1 + rng.IntN(16)
		u := record.Custody{From: clock(from), To: clock(to), Holder: holders[rng.IntN(len(holders))], Who: fmt.Sprint("w", rng.IntN(3))}
		if rng.IntN(8) > 0 {
			c.Custody = append(c.Custody, u)
		}
		from = to - rng.IntN(12)/11
	}
	for range rng.IntN(8) {
		c.Events = append(c.Events, record.Event{At: clock(rng.IntN(40)), Kind: record.EventKinds[rng.IntN(len(record.EventKinds))], Load: kg(float64(rng.IntN(500)))})
	}
	for range rng.IntN(4) {
		k := record.LoadCheck{At: clock(rng.IntN(60) - 10), Kind: record.LoadKinds[rng.IntN(2)], Shown: kg(float64(rng.IntN(300) - 50))}
		if k.Kind == record.MassCheck {
			k.Mass = kg(float64(rng.IntN(300)))
		}
		c.Checks = append(c.Checks, k)
	}
	for range rng.IntN(4) {
		c.TieDowns = append(c.TieDowns, record.TieDown{At: clock(rng.IntN(36)), Over: record.Of(rng.IntN(2) == 0), How: record.Knowns[rng.IntN(4)]})
	}
	return c
}

// A tie-down is not named where the machine was on hire throughout, a register
// at its end names nothing, and a load test is told of.
func TestNotNamed(t *testing.T) {
	onHire := trip()
	onHire.Custody = []record.Custody{{From: at("2025-01-01 00:00"), To: at("2025-12-01 06:00"), Holder: record.Hire, Who: "hirer B"}}
	if o := piece(onHire, Band, 1, 310); o.Verdict == Lashed {
		t.Errorf("got %s with at most %v h of it in transit, want it not named", o.Verdict, o.Shares[iLashed].High)
	}
	full := trip()
	full.Readings[1].Peak, full.Readings[2].Peak = kg(65535), kg(65535)
	if o := piece(full, Peak, 1, 0); o.Verdict != Undecided || !o.Beyond {
		t.Errorf("got %s for a peak of 65535 kg, want it undecided, beyond what is known", o.Verdict)
	}
	tested := trip()
	tested.Custody[1].Holder = record.Workshop
	tested.Readings[1].Peak, tested.Readings[2].Peak = kg(287.5), kg(287.5)
	tested.Readings[1].Bands[4].Hours, tested.Readings[2].Bands[4].Hours = 0, 0
	if o := piece(tested, Peak, 1, 0); !o.LoadTest {
		t.Error("got no word of a load test at 125 % in a workshop, want it")
	}
	tested.Readings[1].Bands[3].Hours, tested.Readings[2].Bands[3].Hours = 0.2, 0.2
	tested.Readings[1].Bands[4].Hours, tested.Readings[2].Bands[4].Hours = 30, 30
	if in, over := piece(tested, Band, 1, 230), piece(tested, Band, 1, 310); !in.LoadTest || over.LoadTest {
		t.Errorf("got a load test %v in the band of the peak and %v in the one above, want it in the first alone", in.LoadTest, over.LoadTest)
	}
}

// A machine left powered on the truck, with no power off in the list, says
// nothing against tie-down; neither does a list that ends within the interval.
func TestOpenLists(t *testing.T) {
	on := trip()
	on.Events = []record.Event{
		{At: at("2025-06-10 06:00"), Kind: record.PowerOn}, {At: at("2025-06-10 07:00"), Kind: record.PowerOff},
		{At: at("2025-06-11 06:30"), Kind: record.PowerOn}, {At: at("2025-06-12 08:00"), Kind: record.PowerOn},
		{At: at("2025-06-12 09:00"), Kind: record.PowerOff},
	}
	if r := reason(piece(on, Band, 1, 310), "power"); r != nil {
		t.Errorf("got %+v, want nothing of power that was never seen to go off", r)
	}
	short := hire()
	short.Events = []record.Event{{At: at("2025-06-01 10:00"), Kind: record.OverloadAlarm}, {At: at("2025-06-12 10:00"), Kind: record.PowerOn}}
	if r := reason(piece(short, Band, 1, 230), "alarms"); r != nil {
		t.Errorf("got %+v, want nothing of a list that ends long before the interval does", r)
	}
}

// A band on both sides of the rated load leaves open whether an interval went over.
func TestStraddlingBandLeavesItOpen(t *testing.T) {
	c := shifted()
	for i := range c.Readings {
		c.Readings[i].Bands[3].From, c.Readings[i].Bands[2].To = 200, kg(200)
	}
	c.Readings[2].Bands[3].Hours += 5
	for _, o := range of(c) {
		if r := reason(&o, "afterwards"); r != nil && o.Interval == 1 {
			t.Errorf("got %+v, want nothing said of an interval that may have gone over", r)
		}
	}
}

// Hours that custody leaves no time for: a tie-down has the trips, and the way of
// those that custody must have missed; work has the rest.
func TestTooLong(t *testing.T) {
	entry := []record.Custody{{Holder: record.Transit}}
	for _, v := range []struct {
		name    string
		cause   int
		hours   float64
		custody cover
		entries []record.Custody
		want    bool
	}{
		{"tie-down within the trip", iLashed, 2, cover{known: true, total: 100, transit: 3}, entry, false},
		{"tie-down for longer than the trip", iLashed, 5, cover{known: true, total: 100, transit: 3}, entry, true},
		{"with a trip that custody missed", iLashed, 4, cover{known: true, total: 100, transit: 3, implied: 1}, entry, false},
		{"work beside the trip", iWorked, 5, cover{known: true, total: 100, transit: 3}, entry, false},
		{"work where all is trip", iWorked, 2, cover{known: true, total: 3.5, transit: 3.4}, entry, true},
		{"a drifted cell has no such limit", iDrift, 5, cover{known: true, total: 100, transit: 3}, entry, false},
		{"hardly anybody is named", iLashed, 5, cover{known: true, total: 100, transit: 3, unnamed: 50}, entry, false},
		{"no custody", iLashed, 5, cover{known: true, total: 100}, nil, false},
	} {
		f := facts{h: record.History{Case: &record.Case{Custody: v.entries}}, custody: v.custody, hours: v.hours, o: opportunity{step: 0.1}}
		if got := (&ask{facts: &f, cause: v.cause}).tooLong(); got != v.want {
			t.Errorf("%s: got %v, want %v", v.name, got, v.want)
		}
	}
}

// Whoever drives a machine from its platform is over a rated load of less than a
// person, and never over one of several: 92 kg with a deviation of 21 kg is over 60 kg
// in 94 %, over 90 kg in 54 % (tables of the normal distribution), and 1 kg of tools more.
func TestHandled(t *testing.T) {
	set, _ := assume.For(&record.Case{})
	values, _ := usualParams(set)
	for _, v := range []struct{ rated, least, most float64 }{{60, 0.9, 1}, {90, 0.5, 0.65}, {230, 0, 1e-6}} {
		m := models(&values, platform{rated: v.rated, persons: 1, windowTo: 1.2 * v.rated}, []float64{v.rated})[iWorked]
		o := opportunity{powered: 1, work: 1, step: 0.1}
		without := m.occasions(2, &o)
		o.trips = 1
		if got := (m.occasions(2, &o) - without) / handlings; got < v.least || got > v.most {
			t.Errorf("rated load %v kg: got a chance of %.3g that one person is over it, want %v to %v", v.rated, got, v.least, v.most)
		}
	}
}
