package cause

import (
	"math"
	"testing"

	"ratchetmark/internal/assume"
	"ratchetmark/internal/record"
)

// Every assumption that weighs causes is read by a model or an item: set to the
// end of what makes sense, it moves the weights of a piece of some case.
func TestEveryAssumptionMatters(t *testing.T) {
	cases := []func() *record.Case{trip, hire, knocked, shifted, func() *record.Case {
		c := hire()
		c.Custody = nil
		return c
	}, func() *record.Case { // custody with a trip, alarms in it, and power by day
		c := trip()
		c.Events = []record.Event{{At: at("2025-06-01 08:00"), Kind: record.OverloadAlarm}, {At: at("2025-06-11 08:00"), Kind: record.OverloadAlarm}, {At: at("2025-06-30 08:00"), Kind: record.OverloadAlarm}}
		c.Daily = []record.Daily{{Date: record.Date{Time: at("2025-06-11 00:00")}, Powered: hour(1.3)}}
		return c
	}, checkedShift, checkedTrip}
	set, _ := assume.For(trip())
	for _, a := range set.Rows() {
		if a.Group != assume.ForCauses {
			continue
		}
		moves := false
		for _, of_ := range cases {
			usual := of(of_())
			for _, end := range []float64{a.Least, a.Most} {
				c := of_()
				c.Assumptions = map[string]record.Assumed{string(a.ID): {Low: end, Value: end, High: end}}
				for i, o := range of(c) {
					moves = moves || math.Abs(o.Posterior[0]-usual[i].Posterior[0])+math.Abs(o.Posterior[1]-usual[i].Posterior[1])+math.Abs(o.Posterior[3]-usual[i].Posterior[3]) > 1e-6
					consistent(t, &o)
				}
			}
		}
		if !moves {
			t.Errorf("%s: got the same weights whatever its value, want it to matter", a.ID)
		}
	}
}

// Without intervals there is no range; with a wider interval it is wider.
func TestRange(t *testing.T) {
	c := trip()
	usual := piece(c, Band, 1, 310)
	set, _ := assume.For(c)
	c.Assumptions = map[string]record.Assumed{}
	for _, a := range set.Rows() {
		if a.Group == assume.ForCauses {
			c.Assumptions[string(a.ID)] = record.Assumed{Low: a.Value, Value: a.Value, High: a.Value}
		}
	}
	sure := piece(c, Band, 1, 310)
	if sure.Ratio.Low != sure.Ratio.Value || sure.Ratio.High != sure.Ratio.Value || len(sure.Matters) != 0 {
		t.Errorf("got %+v with %d that matter, want no range", sure.Ratio, len(sure.Matters))
	}
	near(t, "ratio", sure.Ratio.Value, usual.Ratio.Value, 1e-9*usual.Ratio.Value)
	c.Assumptions[string(assume.LeftPowered)] = record.Assumed{Low: 0.02, Value: 0.35, High: 0.95}
	one := piece(c, Band, 1, 310)
	if !(one.Ratio.Low < sure.Ratio.Low) || !(one.Ratio.High > sure.Ratio.High) || len(one.Matters) != 1 || !(one.Ratio.High-one.Ratio.Low < usual.Ratio.High-usual.Ratio.Low) {
		t.Errorf("got %+v, %d that matter, want a range by one assumption, within %+v", one.Ratio, len(one.Matters), usual.Ratio)
	}
}

// Where an assumption turns the leader over, it does so at the value named:
// some way beyond it another leads, well before it the leader still does.
func TestFlips(t *testing.T) {
	flips := 0
	for _, of_ := range []func() *record.Case{trip, hire, knocked, shifted} {
		set, _ := assume.For(of_())
		for _, o := range of(of_()) {
			for _, m := range o.Matters {
				if m.FlipsAt == nil {
					continue
				}
				flips++
				var row assume.Assumption
				for _, a := range set.Rows() {
					if a.Name == m.Name {
						row = a
					}
				}
				leaderAt := func(x float64) Cause {
					c := of_()
					c.Assumptions = map[string]record.Assumed{string(row.ID): {Low: min(x, row.Low), Value: x, High: max(x, row.High)}}
					p := piece(c, o.What, o.Interval, float64(o.From))
					return p.Leader
				}
				// Some way further on, because what lies beside a piece stays at the usual values.
				if got := leaderAt(row.Value + 1.3*(*m.FlipsAt-row.Value)); got == o.Leader {
					t.Errorf("%s beyond %v: got %s still leading, want another", m.Name, *m.FlipsAt, got)
				}
				if got := leaderAt(row.Value + 0.8*(*m.FlipsAt-row.Value)); got != o.Leader && math.Abs(*m.FlipsAt-row.Value) > 0.2*math.Abs(row.High-row.Low) {
					t.Errorf("%s before %v: got %s leading, want %s", m.Name, *m.FlipsAt, got, o.Leader)
				}
			}
		}
	}
	if flips == 0 {
		t.Error("got no assumption that turns a leader over, want one to test with")
	}
}

// ENFSI, Guideline for evaluative reporting in forensic science, 2015, the scale
// from 2-10 weak support upwards (from memory).
func TestWords(t *testing.T) {
	for ratio, want := range map[float64]string{
		1: "no support for one over the other", 1.9: "no support for one over the other", 2: "weak support", 9.9: "weak support", 10: "moderate support",
		99: "moderate support", 100: "moderately strong support", 1000: "strong support", 10_000: "very strong support", 1e6: "extremely strong support",
	} {
		if got := Words(ratio); got != want {
			t.Errorf("%v: got %q, want %q", ratio, got, want)
		}
	}
}

// "At least 1.2 of the 1.9 h were worked": the trip in the interval lasted 0.7 h.
func TestShare(t *testing.T) {
	f := facts{x: Exceedance{What: Band, Low: 1.9, High: 1.9}, hours: 1.9}
	f.h.Case = &record.Case{Custody: make([]record.Custody, 1)}
	f.custody = cover{known: true, total: 100, transit: 0.7}
	got := share(&f, [4]float64{0.6, 0.39, 0.005, 0.005})
	want := [4]Share{{1.2, 1.9}, {0, 0.7}, {0, 0}, {0, 0}}
	for c := range want {
		near(t, string(All[c])+" low", got[c].Low, want[c].Low, 1e-12)
		near(t, string(All[c])+" high", got[c].High, want[c].High, 1e-12)
	}
	// Where a drifted cell has weight, it can have made all of them.
	got = share(&f, [4]float64{0.5, 0.3, 0.005, 0.195})
	near(t, "with drift", got[iWorked].Low, 0, 1e-12)
}

// A strap of 350 daN with vertical legs that do not slip puts 700 daN, 714 kg,
// on the cell, of which the usual share is what the model takes (lashing rules,
// computed).
func TestStraps(t *testing.T) {
	var p params
	p[shortTension], p[longTension], p[chainTension] = 350, 500, 1000
	p[strapAngle], p[edgeFriction], p[cellShare] = 90, 0, 1
	near(t, "one strap", strapsOf(&p)[0].load, 714, 1)
	near(t, "two straps", strapsOf(&p)[1].load, 1427, 1)
	sum := 0.0
	p[longShare], p[chainShare], p[twoStraps] = 0.3, 0.1, 0.4
	for _, s := range strapsOf(&p) {
		sum += s.weight
	}
	near(t, "weights", sum, 1, 1e-12)
}

// Latent values weigh one in all, whatever the habit.
func TestHabits(t *testing.T) {
	for _, share := range []float64{0.005, 0.08, 0.2, 0.45, 0.5} {
		sum, mean := 0.0, 0.0
		for _, l := range habitsOf(share) {
			sum += l.weight
			mean += l.weight * l.value
		}
		near(t, "weights", sum, 1, 1e-12)
		near(t, "mean habit", mean, share, 0.05*share+0.003)
	}
}

func BenchmarkWeigh(b *testing.B) {
	c := trip()
	for i := range 7 { // ten readings in all
		r := reading("2025-08-01 06:00", 60+10*float64(i), 700+float64(i), 100+10*float64(i), 70+8*float64(i), 35+5*float64(i), float64(i), 1+0.3*float64(i))
		r.At = r.At.AddDate(0, 0, 20*(i+1))
		c.Readings = append(c.Readings, r)
	}
	set, _ := assume.For(c)
	h := record.Lay(c)
	b.ReportMetric(float64(len(List(h))), "pieces")
	for b.Loop() {
		Weigh(h, set, nil)
	}
}
