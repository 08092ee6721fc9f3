package cause

import (
	"time"

	"ratchetmark/internal/assume"
	"ratchetmark/internal/record"
)

func at(s string) time.Time {
	t, err := time.Parse("2006-01-02 15:04", s)
	if err != nil {
		panic(err)
	}
	return t
}

func recordKg(x float64) record.Kilogram { return record.Kilogram(x) }

func kg(x float64) *record.Kilogram { return record.Of(record.Kilogram(x)) }

func hour(x float64) *record.Hour { return record.Of(record.Hour(x)) }

// reading makes a reading with powered hours that are the sum of its bands.
func reading(when string, moving, peak float64, hours ...float64) record.Reading {
	r := record.Reading{At: at(when), Moving: hour(moving), Peak: kg(peak)}
	edges := []float64{0, 60, 130, 230, 310}
	sum := 0.0
	for i, h := range hours {
		b := record.Band{From: record.Kilogram(edges[i]), Hours: record.Hour(h)}
		if i+1 < len(edges) {
			b.To = kg(edges[i+1])
		}
		sum += h
		r.Bands = append(r.Bands, b)
	}
	r.Powered = hour(sum)
	return r
}

// trip makes an invented case: rated load 230 kg; the second reading brackets a
// trip on which 1 h was counted above 310 kg with a peak of 700 kg.
func trip() *record.Case {
	return &record.Case{
		Format:  record.Format,
		Machine: record.Machine{ID: "T-07", Kind: record.Boom, RatedLoad: kg(230), Persons: record.Of(2), InService: &record.Date{Time: at("2025-01-01 00:00")}},
		Readings: []record.Reading{
			reading("2025-06-11 06:00", 30, 210, 60, 40, 20, 0, 0),
			reading("2025-06-11 10:00", 30, 700, 60.3, 40, 20, 0, 1),
			reading("2025-08-01 06:00", 50, 700, 90, 60, 30, 0, 1),
		},
		Custody: []record.Custody{
			{From: at("2025-01-01 00:00"), To: at("2025-06-11 06:00"), Holder: record.Depot},
			{From: at("2025-06-11 06:00"), To: at("2025-06-11 10:00"), Holder: record.Transit, Who: "haulier A"},
			{From: at("2025-06-11 10:00"), To: at("2025-12-01 06:00"), Holder: record.Hire, Who: "hirer B"},
		},
	}
}

// hire makes an invented case: the second interval is a hire without a trip,
// with 6 h above the rated load and alarms.
func hire() *record.Case {
	c := trip()
	c.Readings = []record.Reading{
		reading("2025-06-11 10:30", 30, 210, 60, 40, 20, 0, 0),
		reading("2025-08-01 06:00", 60, 305, 90, 70, 40, 6, 0),
		reading("2025-09-01 06:00", 80, 305, 120, 90, 55, 6, 0),
	}
	c.Events = []record.Event{
		{At: at("2025-06-01 10:00"), Kind: record.OverloadAlarm},
		{At: at("2025-07-01 10:00"), Kind: record.OverloadAlarm},
		{At: at("2025-08-20 10:00"), Kind: record.PowerOn},
		{At: at("2025-09-02 10:00"), Kind: record.PowerOn},
	}
	return c
}

// soundHire is the same with more of it further up, and a cell that read right
// when it was checked.
func soundHire() *record.Case {
	c := hire()
	c.Readings[1] = reading("2025-08-01 06:00", 60, 340, 90, 70, 40, 2, 4)
	c.Readings[2] = reading("2025-09-01 06:00", 80, 340, 120, 90, 55, 2, 4)
	c.Checks = []record.LoadCheck{
		{At: at("2025-08-02 08:00"), Kind: record.ZeroCheck, Shown: kg(0)},
		{At: at("2025-08-02 08:10"), Kind: record.MassCheck, Shown: kg(151), Mass: kg(150)},
	}
	return c
}

// knocked makes an invented case: a platform that struck something; a peak, and
// no hours at such loads.
func knocked() *record.Case {
	c := hire()
	c.Events = nil
	c.Readings[1] = reading("2025-08-01 06:00", 60, 420, 90, 70, 40, 0, 0)
	c.Readings[2] = reading("2025-09-01 06:00", 80, 420, 120, 90, 55, 0, 0)
	return c
}

// shifted makes an invented case: from the second interval on the lowest band
// stays empty and a good part of the hours lies over the rated load.
func shifted() *record.Case {
	c := hire()
	c.Events = nil
	c.Readings = []record.Reading{
		reading("2025-06-11 10:30", 30, 210, 60, 40, 20, 0, 0),
		reading("2025-08-01 06:00", 60, 300, 60, 90, 60, 22, 0),
		reading("2025-09-01 06:00", 80, 310, 60, 130, 80, 35, 0),
	}
	return c
}

// checkedShift is shifted, with checks a day and a week after the second interval
// ended, a workshop in between.
func checkedShift() *record.Case {
	c := shifted()
	c.Custody[2].To = at("2025-08-01 12:00")
	c.Custody = append(c.Custody, record.Custody{From: at("2025-08-01 12:00"), To: at("2025-08-05 12:00"), Holder: record.Workshop})
	c.Checks = []record.LoadCheck{
		{At: at("2025-08-06 12:00"), Kind: record.ZeroCheck, Shown: kg(21)},
		{At: at("2025-08-06 12:10"), Kind: record.MassCheck, Shown: kg(172), Mass: kg(150)},
		{At: at("2025-11-28 12:10"), Kind: record.MassCheck, Shown: kg(170), Mass: kg(150)},
	}
	return c
}

// checkedTrip is trip, with a photo and the crew's word of the tie-down.
func checkedTrip() *record.Case {
	c := trip()
	c.TieDowns = []record.TieDown{
		{At: at("2025-06-11 07:00"), Over: record.Of(true), How: record.Pictured},
		{At: at("2025-06-11 10:30"), Over: record.Of(false), How: record.ToldOf},
	}
	return c
}

// of weighs a case under its assumptions.
func of(c *record.Case) []Opinion {
	set, _ := assume.For(c)
	return Weigh(record.Lay(c), set, nil)
}

// piece returns the opinion on a peak or on the band that begins at a load, in
// an interval.
func piece(c *record.Case, what What, interval int, from float64) *Opinion {
	for _, o := range of(c) {
		if o.What == what && o.Interval == interval && (what == Peak || o.From == record.Kilogram(from)) {
			return &o
		}
	}
	return nil
}

// factsOf reads a history for one exceedance.
func factsOf(h record.History, x Exceedance, loads []float64, habits Habits) facts {
	return readIntervals(h).factsOf(x, loads, habits)
}
