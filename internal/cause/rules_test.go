package cause

import (
	"math"
	"slices"
	"strings"
	"testing"
	"time"

	"ratchetmark/internal/record"
)

func at(s string) time.Time {
	t, err := time.Parse("2006-01-02 15:04", s)
	if err != nil {
		panic(err)
	}
	return t
}

func kg(x float64) *record.Kilogram { return record.Of(record.Kilogram(x)) }

func hour(x float64) *record.Hour { return record.Of(record.Hour(x)) }

func reading(when string, moving, peak float64, hours ...float64) record.Reading {
	r := record.Reading{At: at(when), Moving: hour(moving), Peak: kg(peak)}
	edges := []float64{0, 60, 130, 230, 310}
	for i, h := range hours {
		b := record.Band{From: record.Kilogram(edges[i]), Hours: record.Hour(h)}
		if i+1 < len(edges) {
			b.To = kg(edges[i+1])
		}
		r.Bands = append(r.Bands, b)
	}
	return r
}

// trip makes an invented case: rated load 230 kg; the second reading brackets a
// trip on which 1 h was counted above 310 kg with a peak of 700 kg.
func trip() *record.Case {
	return &record.Case{
		Format:  record.Format,
		Machine: record.Machine{ID: "T-07", RatedLoad: kg(230), InService: &record.Date{Time: at("2025-01-01 00:00")}},
		Readings: []record.Reading{
			reading("2025-06-11 06:00", 50, 210, 60, 40, 20, 0, 0),
			reading("2025-06-11 10:00", 50, 700, 60, 40, 20, 0, 1),
			reading("2025-08-01 06:00", 80, 700, 90, 60, 30, 0, 1),
		},
		Custody: []record.Custody{
			{From: at("2025-01-01 00:00"), To: at("2025-06-11 06:00"), Holder: record.Depot},
			{From: at("2025-06-11 06:00"), To: at("2025-06-11 10:00"), Holder: record.Transit},
			{From: at("2025-06-11 10:00"), To: at("2025-12-01 06:00"), Holder: record.Hire},
		},
	}
}

// shifted makes an invented case: rated load 230 kg; in the second interval of
// 8 moving hours nothing was read below 60 kg, with 10 h above 230 kg.
func shifted() *record.Case {
	c := trip()
	c.Readings = []record.Reading{
		reading("2025-06-11 06:00", 50, 210, 60, 40, 20, 0, 0),
		reading("2025-08-01 06:00", 58, 290, 60, 90, 60, 10, 0),
	}
	c.Custody = nil
	return c
}

const (
	transit, countable_, zero, never = "in-transit", "countable-hours", "zero-right-afterwards", "never-empty"
)

// verdicts are cases with all that is concluded of each piece, in order: the
// rules that apply, and the verdict. A rule that is not listed fails the test.
var verdicts = []struct {
	name   string
	of     func() *record.Case
	change func(c *record.Case)
	want   []string
}{
	{"trip", trip, func(c *record.Case) {}, []string{
		"peak: in-transit zero-right-afterwards = undecided",
		"band: in-transit countable-hours zero-right-afterwards = lashed",
	}},

	// in-transit
	// In the minute nobody is named for, at most 1/60 of the hours can have been
	// counted; the peak may have been set in it.
	{"a minute of the trip in nobody's hands", trip, func(c *record.Case) { c.Custody[1].To = at("2025-06-11 09:59") }, []string{
		"peak: = undecided", "band: in-transit countable-hours = undecided",
	}},
	{"6 min of the trip in the depot", trip, func(c *record.Case) {
		c.Custody[0].To, c.Custody[1].From = at("2025-06-11 06:06"), at("2025-06-11 06:06")
	}, []string{
		"peak: = undecided", "band: in-transit countable-hours zero-right-afterwards = lashed",
	}},
	{"6 min in the depot, and too few hours to be sure", trip, func(c *record.Case) {
		c.Custody[0].To, c.Custody[1].From = at("2025-06-11 06:06"), at("2025-06-11 06:06")
		c.Readings[1].Bands[4].Hours, c.Readings[2].Bands[4].Hours = 0.55, 0.55 // 0.1 h of them may be of the depot
	}, []string{
		"peak: = undecided", "band: countable-hours = undecided",
	}},
	{"6 min in the depot, and just enough hours", trip, func(c *record.Case) {
		c.Custody[0].To, c.Custody[1].From = at("2025-06-11 06:06"), at("2025-06-11 06:06")
		c.Readings[1].Bands[4].Hours, c.Readings[2].Bands[4].Hours = 0.65, 0.65
	}, []string{
		"peak: = undecided", "band: in-transit countable-hours zero-right-afterwards = lashed",
	}},
	{"7 min of the trip in the depot", trip, func(c *record.Case) {
		c.Custody[0].To, c.Custody[1].From = at("2025-06-11 06:07"), at("2025-06-11 06:07")
	}, []string{
		"peak: = undecided", "band: countable-hours = undecided",
	}},
	{"custody contradicts itself", trip, func(c *record.Case) { c.Custody[2].From = at("2025-06-11 09:00") }, []string{
		"peak: = undecided", "band: countable-hours = undecided",
	}},
	{"no custody", trip, func(c *record.Case) { c.Custody = nil }, []string{
		"peak: = undecided", "band: countable-hours = undecided",
	}},
	{"a reading without a time", trip, func(c *record.Case) { c.Readings[1].At = time.Time{} }, []string{
		"peak: = undecided", "band: countable-hours = undecided",
	}},
	{"on hire, the peak set in transit", trip, func(c *record.Case) {
		c.Custody[1].To, c.Custody[2].From = at("2025-06-11 08:00"), at("2025-06-11 08:00")
		c.Readings[1].PeakAt = record.Of(at("2025-06-11 07:59"))
	}, []string{"peak: in-transit zero-right-afterwards = undecided", "band: countable-hours = undecided"}},
	{"on hire, the peak set as the trip ended", trip, func(c *record.Case) {
		c.Custody[1].To, c.Custody[2].From = at("2025-06-11 08:00"), at("2025-06-11 08:00")
		c.Readings[1].PeakAt = record.Of(at("2025-06-11 08:00"))
	}, []string{"peak: = undecided", "band: countable-hours = undecided"}},
	{"the peak dated by an event", trip, func(c *record.Case) {
		c.Custody[1].To, c.Custody[2].From = at("2025-06-11 08:00"), at("2025-06-11 08:00")
		c.Events = []record.Event{{At: at("2025-06-11 07:00"), Kind: record.PeakRise, Load: kg(700)}}
	}, []string{"peak: in-transit zero-right-afterwards = undecided", "band: countable-hours = undecided"}},
	{"an event of another load dates nothing", trip, func(c *record.Case) {
		c.Custody[1].To, c.Custody[2].From = at("2025-06-11 08:00"), at("2025-06-11 08:00")
		c.Events = []record.Event{{At: at("2025-06-11 07:00"), Kind: record.PeakRise, Load: kg(699)}, {At: at("2025-06-11 07:00"), Kind: record.OverloadAlarm, Load: kg(700)}}
	}, []string{"peak: = undecided", "band: countable-hours = undecided"}},
	{"a peak dated after the reading is not dated", trip, func(c *record.Case) {
		c.Custody[1].To, c.Custody[2].From = at("2025-06-11 08:00"), at("2025-06-11 08:00")
		c.Custody[2].Holder = record.Transit
		c.Custody[1].Holder = record.Hire
		c.Readings[1].PeakAt = record.Of(at("2025-06-11 10:01"))
	}, []string{"peak: = undecided", "band: countable-hours = undecided"}},

	// countable-hours
	{"0.5 h", trip, func(c *record.Case) { c.Readings[1].Bands[4].Hours, c.Readings[2].Bands[4].Hours = 0.5, 0.5 }, []string{
		"peak: in-transit zero-right-afterwards = undecided", "band: in-transit countable-hours zero-right-afterwards = lashed",
	}},
	{"less than 0.5 h", trip, func(c *record.Case) { c.Readings[1].Bands[4].Hours, c.Readings[2].Bands[4].Hours = 0.49, 0.49 }, []string{
		"peak: in-transit zero-right-afterwards = undecided", "band: in-transit zero-right-afterwards = undecided",
	}},
	{"a band that straddles the rated load has no hours that are surely over it", trip, func(c *record.Case) {
		c.Machine.RatedLoad = kg(231)
		for i := range c.Readings {
			c.Readings[i].Bands[4].Hours = 0
		}
		c.Readings[1].Bands[3].Hours, c.Readings[2].Bands[3].Hours = 3, 3
		c.Readings[1].Peak, c.Readings[2].Peak = nil, nil
	}, []string{"band: in-transit zero-right-afterwards = undecided"}},

	// zero-right-afterwards
	{"0.3 h in the lowest band afterwards", trip, func(c *record.Case) { c.Readings[2].Bands[0].Hours = 60.3 }, []string{
		"peak: in-transit zero-right-afterwards = undecided", "band: in-transit countable-hours zero-right-afterwards = lashed",
	}},
	{"0.2 h in the lowest band afterwards", trip, func(c *record.Case) { c.Readings[2].Bands[0].Hours = 60.2 }, []string{
		"peak: in-transit = undecided", "band: in-transit countable-hours = undecided",
	}},
	{"no reading afterwards", trip, func(c *record.Case) { c.Readings = c.Readings[:2] }, []string{
		"peak: in-transit = undecided", "band: in-transit countable-hours = undecided",
	}},
	{"the reading afterwards has other bands", trip, func(c *record.Case) { c.Readings[2].Bands[0].To, c.Readings[2].Bands[1].From = kg(65), 65 }, []string{
		"peak: in-transit = undecided", "band: in-transit countable-hours = undecided", "band: = undecided",
	}},
	{"in the workshop afterwards", trip, func(c *record.Case) { c.Custody[2].Holder = record.Workshop }, []string{
		"peak: in-transit = undecided", "band: in-transit countable-hours = undecided",
	}},
	{"in nobody's hands afterwards", trip, func(c *record.Case) { c.Custody[2].From = at("2025-06-12 10:00") }, []string{
		"peak: in-transit = undecided", "band: in-transit countable-hours = undecided",
	}},
	{"with a holder afterwards that is not told apart", trip, func(c *record.Case) { c.Custody[2].Holder = "garage" }, []string{
		"peak: in-transit = undecided", "band: in-transit countable-hours = undecided",
	}},
	{"a lowest band that reaches above the load", trip, func(c *record.Case) {
		c.Machine.RatedLoad = kg(600)
		for i, h := range []record.Hour{120, 121, 180} { // the first under a peak of 210 kg, the others of 699 kg
			c.Readings[i].Bands = []record.Band{{From: 0, To: kg(700), Hours: h}}
		}
		c.Readings[1].Peak, c.Readings[2].Peak = kg(699), kg(699)
	}, []string{
		"peak: in-transit = undecided", "band: in-transit = undecided", "band: = undecided",
	}},

	// never-empty
	{"shifted", shifted, func(c *record.Case) {}, []string{
		"peak: never-empty = undecided", "band: countable-hours never-empty = undecided",
	}},
	{"less than 8 moving hours", shifted, func(c *record.Case) { c.Readings[1].Moving = hour(57.9) }, []string{
		"peak: = undecided", "band: countable-hours = undecided",
	}},
	{"moving hours not known", shifted, func(c *record.Case) { c.Readings[1].Moving = nil }, []string{
		"peak: = undecided", "band: countable-hours = undecided",
	}},
	{"less than 8 h counted", shifted, func(c *record.Case) {
		c.Readings[1].Bands[1].Hours, c.Readings[1].Bands[2].Hours, c.Readings[1].Bands[3].Hours = 41, 20, 6.9
	}, []string{
		"peak: = undecided", "band: countable-hours = undecided",
	}},
	{"8 h counted", shifted, func(c *record.Case) {
		c.Readings[1].Bands[1].Hours, c.Readings[1].Bands[2].Hours, c.Readings[1].Bands[3].Hours = 41, 20, 7
	}, []string{
		"peak: never-empty = undecided", "band: countable-hours never-empty = undecided",
	}},
	{"6 min in the lowest band", shifted, func(c *record.Case) { c.Readings[1].Bands[0].Hours = 60.1 }, []string{
		"peak: = undecided", "band: countable-hours = undecided",
	}},
	{"a peak that leaves just the rated load", shifted, func(c *record.Case) {
		c.Readings[1].Bands[3].To, c.Readings[1].Bands[4].From = kg(310), 310
		c.Readings[1].Peak = kg(290)
	}, []string{
		"peak: never-empty = undecided", "band: countable-hours never-empty = undecided",
	}},
	{"a peak that leaves more than the rated load", shifted, func(c *record.Case) { c.Readings[1].Peak = kg(291) }, []string{
		"peak: = undecided", "band: countable-hours = undecided",
	}},
	{"an open band without a peak", shifted, func(c *record.Case) {
		c.Readings[0].Peak, c.Readings[1].Peak = nil, nil
		c.Readings[1].Bands[4].Hours = 1
		c.Readings[1].Bands[3].Hours = 0
	}, []string{"band: countable-hours = undecided"}},
	{"no band for the empty platform", shifted, func(c *record.Case) {
		for i := range c.Readings {
			c.Readings[i].Bands = c.Readings[i].Bands[1:]
		}
	}, []string{"peak: = undecided", "band: countable-hours = undecided"}},
	{"a gap that may hide lower loads", shifted, func(c *record.Case) {
		for i := range c.Readings {
			c.Readings[i].Bands[0].To = kg(50)
		}
	}, []string{"peak: = undecided", "band: countable-hours = undecided"}},

	// what may be older than the interval
	{"a peak that may be older than the trip", trip, func(c *record.Case) { c.Readings[0].Peak = nil }, []string{
		"peak: = undecided", "band: in-transit countable-hours zero-right-afterwards = lashed",
	}},
	{"such a peak, dated", trip, func(c *record.Case) {
		c.Readings[0].Peak, c.Readings[1].PeakAt = nil, record.Of(at("2025-06-11 07:00"))
	}, []string{
		"peak: in-transit zero-right-afterwards = undecided", "band: in-transit countable-hours zero-right-afterwards = lashed",
	}},
	{"a peak that may be older than the shift", shifted, func(c *record.Case) { c.Readings[0].Peak = nil }, []string{
		"peak: = undecided", "band: countable-hours never-empty = undecided",
	}},
	{"hours that may be older than the trip", trip, func(c *record.Case) { c.Readings[0].Bands = nil }, []string{
		"peak: in-transit zero-right-afterwards = undecided", "band: = undecided",
	}},

	// contradictions
	{"8 h never empty, lashed in transit, with the zero right afterwards", shifted, func(c *record.Case) {
		c.Custody = []record.Custody{{From: at("2025-06-11 06:00"), To: at("2025-08-01 06:00"), Holder: record.Transit}, {From: at("2025-08-01 06:00"), To: at("2025-12-01 06:00"), Holder: record.Hire}}
		c.Readings = append(c.Readings, reading("2025-09-01 06:00", 70, 290, 70, 90, 60, 10, 0))
	}, []string{
		"peak: in-transit never-empty = undecided", "band: in-transit countable-hours never-empty = undecided",
	}},
}

func TestVerdicts(t *testing.T) {
	for _, v := range verdicts {
		c := v.of()
		v.change(c)
		var got []string
		for _, o := range Weigh(record.Lay(c)) {
			line := string(o.What) + ":"
			for _, r := range o.Reasons {
				line += " " + r.ID
			}
			got = append(got, line+" = "+string(o.Verdict))
		}
		if !slices.Equal(got, v.want) {
			t.Errorf("%s: got\n\t%s\nwant\n\t%s", v.name, strings.Join(got, "\n\t"), strings.Join(v.want, "\n\t"))
		}
	}
}

// Every rule has a vector in which it applies and one in which it does not.
func TestEveryRuleHasVectors(t *testing.T) {
	for _, r := range rules {
		with, without := false, false
		for _, v := range verdicts {
			for _, line := range v.want {
				has := strings.Contains(line, r.id)
				with, without = with || has, without || !has
			}
		}
		if !with || !without {
			t.Errorf("rule %s: got applied %v, not applied %v, want both", r.id, with, without)
		}
		if r.restsOn == "" || len(r.out) == 0 && r.id != never {
			t.Errorf("rule %s: got %+v, want what it rests on and what it rules out", r.id, r)
		}
	}
}

// Values: H(1/2) = 1 by definition of the bit; H(1/4) = 2 - 3/4·log2 3 =
// 0.811278; H(1/3) = log2 3 - 2/3 = 0.918296 (Shannon 1948, theorem 2 and
// figure 7).
func TestEntropy(t *testing.T) {
	for p, want := range map[float64]float64{
		0: 0, 1: 0, -1: 0, 2: 0, 0.5: 1,
		0.25: 2 - 0.75*math.Log2(3), 0.75: 0.811278, 1.0 / 3: math.Log2(3) - 2.0/3,
	} {
		if got := entropy(p); math.Abs(got-want) > 1e-6 {
			t.Errorf("H(%v): got %v, want %v", p, got, want)
		}
	}
	if math.Abs(entropy(0.25)-0.811278) > 1e-6 {
		t.Errorf("H(1/4): got %v, want 0.811278", entropy(0.25))
	}
}
