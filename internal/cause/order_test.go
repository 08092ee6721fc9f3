package cause

import (
	"fmt"
	"math/rand/v2"
	"reflect"
	"testing"

	"ratchetmark/internal/assume"
	"ratchetmark/internal/record"
)

// poweredTrip is a trip with events that tell where it was powered, and two
// hauliers of whom other machines tell something.
func poweredTrip() *record.Case {
	c := checkedTrip()
	c.Custody = append(c.Custody[:2:2], record.Custody{From: at("2025-06-11 10:00"), To: at("2025-06-20 10:00"), Holder: record.Hire, Who: "hirer B"},
		record.Custody{From: at("2025-06-20 10:00"), To: at("2025-06-20 14:00"), Holder: record.Transit, Who: "haulier C"})
	c.Readings = append(c.Readings[:1:1], c.Readings[2])
	c.Events = []record.Event{
		{At: at("2025-06-11 08:00"), Kind: record.PowerOn}, {At: at("2025-06-11 09:18"), Kind: record.PowerOff},
		{At: at("2025-06-12 08:00"), Kind: record.PowerOn}, {At: at("2025-06-15 00:00"), Kind: record.PowerOff},
		{At: at("2025-06-11 09:00"), Kind: record.PeakRise, Load: kg(700)}, {At: at("2025-06-12 09:00"), Kind: record.PeakRise, Load: kg(700)},
		{At: at("2025-08-01 06:00"), Kind: record.PowerOff},
	}
	c.Checks = []record.LoadCheck{
		{At: at("2025-08-03 00:00"), Kind: record.ZeroCheck, Shown: kg(40)}, {At: at("2025-08-03 00:00"), Kind: record.ZeroCheck, Shown: kg(0)},
		{At: at("2025-08-03 00:00"), Kind: record.MassCheck, Shown: kg(190), Mass: kg(150)}, {At: at("2025-08-03 00:00"), Kind: record.MassCheck, Shown: kg(60), Mass: kg(100)},
	}
	return c
}

// In which order a case lists what it holds tells nothing.
func TestOrderTellsNothing(t *testing.T) {
	habits := Habits{"haulier A": {Over: 4, Not: 1}, "haulier C": {Over: 0, Not: 7}}
	rng := rand.New(rand.NewPCG(5, 6))
	for k, of := range []func() *record.Case{poweredTrip, checkedShift, soundHire} {
		said := func(c *record.Case) (out []string) {
			set, _ := assume.For(c)
			for _, o := range Weigh(record.Lay(c), set, habits) {
				out = append(out, fmt.Sprintf("%s %v %v: %.9v %v %v", o.What, o.From, o.Interval, o.Posterior, o.Reasons, o.AskFor))
			}
			return out
		}
		want := said(of())
		for range 30 {
			c := of()
			shuffle(rng, c.Custody)
			shuffle(rng, c.Events)
			shuffle(rng, c.Checks)
			shuffle(rng, c.TieDowns)
			shuffle(rng, c.Readings)
			for i := range c.Readings {
				shuffle(rng, c.Readings[i].Bands)
			}
			if got := said(c); !reflect.DeepEqual(got, want) {
				t.Fatalf("case %d: got\n%s\nwant\n%s", k, got, want)
			}
		}
	}
}

func shuffle[T any](rng *rand.Rand, list []T) {
	rng.Shuffle(len(list), func(i, j int) { list[i], list[j] = list[j], list[i] })
}

// Of two checks of one day, that with the cell further off tells what it was like
// before, the other what it was like from then on.
func TestTwoChecksOfADay(t *testing.T) {
	for _, v := range []struct {
		when string
		want record.Kilogram
	}{{"2025-08-03 00:00", 40}, {"2025-06-01 00:00", 0}} {
		for _, shown := range [][2]float64{{40, 0}, {0, 40}} {
			c := shifted()
			zeroAt(v.when, shown[0])(c)
			zeroAt(v.when, shown[1])(c)
			h := record.Lay(c)
			pieces := List(h)
			f := factsOf(h, pieces[len(pieces)-1], loadsOf(h, pieces), nil)
			if v.when > "2025-07" {
				f = factsOf(h, pieces[0], loadsOf(h, pieces), nil)
			}
			if f.checks.zero == nil || *f.checks.zero.Shown != v.want {
				t.Errorf("%s: got %+v, want the check that showed %v kg", v.when, f.checks.zero, v.want)
			}
		}
	}
}

// Hours that were converted and miss a step by a little are counted in it: the
// answer does not turn over.
func TestStepOfConverted(t *testing.T) {
	of := func(h float64) [4]float64 {
		c := dayTrip()
		c.Readings[1].Bands[4].Hours = record.Hour(h)
		return piece(c, Band, 1, 310).Posterior
	}
	want := of(0.1)
	for _, h := range []float64{0.0995, 0.0999, 0.1001, 0.1005} {
		got := of(h)
		for c := range got {
			near(t, fmt.Sprintf("%v h, %s", h, All[c]), got[c], want[c], 0.01)
		}
	}
}
