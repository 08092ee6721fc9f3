package record_test

import (
	"testing"
	"time"

	"ratchetmark/internal/record"
)

func TestLayDifferencesCounters(t *testing.T) {
	h := record.Lay(sound())
	equal(t, "rated", h.Rated, 240)
	equal(t, "intervals", len(h.Intervals), 2)
	life, change := h.Intervals[0], h.Intervals[1]

	equal(t, "number of the life", life.Number, 0)
	equal(t, "readings of the life", [2]int{life.Before, life.After}, [2]int{-1, 0})
	equal(t, "beginning of the life", life.From, at("2025-06-02 00:00"))
	equal(t, "end of the life", life.To, at("2026-02-02 08:10"))
	equal(t, "hours of the life", hoursText(life.Bands), "18 14 8 0 0")

	equal(t, "number of the change", change.Number, 1)
	equal(t, "readings of the change", [2]int{change.Before, change.After}, [2]int{0, 1})
	equal(t, "beginning of the change", change.From, at("2026-02-02 08:10"))
	equal(t, "hours of the change", hoursText(change.Bands), "10 7 5 0 0") // 28-18, 21-14, 13-8
	near(t, "powered", float64(*change.Powered), 22)
	near(t, "moving", float64(*change.Moving), 7.5)
	equal(t, "withheld", change.Withheld, "")
}

// 412.5 - 301.2 is 111.30000000000001 in binary; a counter never showed that.
func TestDifferencesKeepTheGrainOfTheCounter(t *testing.T) {
	c := sound()
	c.Readings[0].Bands[0].Hours, c.Readings[1].Bands[0].Hours = 301.2, 412.5
	equal(t, "hours", record.Lay(c).Intervals[1].Bands[0].Hours, 111.3)
}

func TestLayOrdersByTime(t *testing.T) {
	c := sound()
	c.Readings[0], c.Readings[1] = c.Readings[1], c.Readings[0]
	change := record.Lay(c).Intervals[1]
	equal(t, "readings", [2]int{change.Before, change.After}, [2]int{1, 0})
	equal(t, "hours", hoursText(change.Bands), "10 7 5 0 0")

	c.Readings[0].At = time.Time{} // now the order given counts: it runs backwards
	change = record.Lay(c).Intervals[1]
	equal(t, "readings without a time", [2]int{change.Before, change.After}, [2]int{0, 1})
	equal(t, "withheld", change.Withheld, "a counter ran backwards")
}

func TestLaySortsBands(t *testing.T) {
	c := sound()
	b := c.Readings[1].Bands
	b[0], b[4] = b[4], b[0]
	equal(t, "hours", hoursText(record.Lay(c).Intervals[1].Bands), "10 7 5 0 0")
	equal(t, "the case itself", b[0].From, 320)
}

// An interval is withheld with its reason, and the life falls back to the
// counters of the last reading that can be counted with.
func TestWithheld(t *testing.T) {
	for _, v := range []struct {
		name, withheld, life string
		change               func(c *record.Case)
	}{
		{"sound", "", "18 14 8 0 0 + 10 7 5 0 0", func(c *record.Case) {}},
		{"bands changed", "the bands changed", "28 21 13 0 0", func(c *record.Case) { c.Readings[1].Bands[4].From, c.Readings[1].Bands[3].To = 330, kg(330) }},
		{"one band more", "the bands changed", "28 21 13 0 0 0", func(c *record.Case) {
			c.Readings[1].Bands = bands([]float64{0, 80, 160, 240, 320, 400}, 28, 21, 13, 0, 0, 0)
		}},
		{"backwards", "a counter ran backwards", "28 13.9 13 0 0", func(c *record.Case) { c.Readings[1].Bands[1].Hours = 13.9 }},
		{"too fast", "more hours were gained than passed by the clock", "28 21 13 0 0", func(c *record.Case) { c.Readings[1].At = at("2026-02-02 20:10") }},
		{"no bands at the end", "one of the two readings has no bands", "18 14 8 0 0", func(c *record.Case) { c.Readings[1].Bands = nil }},
		{"no bands at the beginning", "one of the two readings has no bands", "28 21 13 0 0", func(c *record.Case) { c.Readings[0].Bands = nil }},
		{"unusable at the end", "the bands of the reading at its end cannot be counted with", "18 14 8 0 0", func(c *record.Case) { c.Readings[1].Bands[0].Hours = -1 }},
		{"reversed at the end", "the bands of the reading at its end cannot be counted with", "18 14 8 0 0", func(c *record.Case) { c.Readings[1].Bands[1].From, c.Readings[1].Bands[1].To = 160, kg(80) }},
		{"without width at the end", "the bands of the reading at its end cannot be counted with", "18 14 8 0 0", func(c *record.Case) { c.Readings[1].Bands[1].From = 160 }},
		{"unusable at the beginning", "the bands of the reading at its beginning cannot be counted with", "28 21 13 0 0", func(c *record.Case) { c.Readings[0].Bands[1].From = 70 }},
		{"no bands at all", "", " + ", func(c *record.Case) { c.Readings[0].Bands, c.Readings[1].Bands = nil, nil }},
	} {
		c := sound()
		v.change(c)
		h := record.Lay(c)
		equal(t, v.name+": withheld", h.Intervals[1].Withheld, v.withheld)
		if v.withheld != "" && h.Intervals[1].Bands != nil {
			t.Errorf("%s: got bands %v, want none", v.name, h.Intervals[1].Bands)
		}
		life := ""
		for i, interval := range h.Life() {
			if i > 0 {
				life += " + "
			}
			life += hoursText(interval.Bands)
		}
		equal(t, v.name+": life", life, v.life)
	}
}

// What the clock contradicts is not used at all: no hour counter of it is.
func TestTooFastWithholdsEveryCounter(t *testing.T) {
	c := sound()
	c.Readings[1].At = at("2026-02-02 20:10")
	v := record.Lay(c).Intervals[1]
	if v.Powered != nil || v.Moving != nil {
		t.Errorf("got powered %v and moving %v, want neither", v.Powered, v.Moving)
	}
}

func TestUnknownCounters(t *testing.T) {
	for name, change := range map[string]func(r []record.Reading){
		"missing at the beginning": func(r []record.Reading) { r[0].Moving = nil },
		"missing at the end":       func(r []record.Reading) { r[1].Moving = nil },
		"backwards":                func(r []record.Reading) { r[1].Moving = hour(13) },
		"negative":                 func(r []record.Reading) { r[0].Moving = hour(-1) },
		"beyond range":             func(r []record.Reading) { r[1].Moving = hour(1e9) },
	} {
		c := sound()
		change(c.Readings)
		if v := record.Lay(c).Intervals[1]; v.Moving != nil {
			t.Errorf("%s: got %v moving hours, want none", name, *v.Moving)
		}
	}
}

// Whether a peak is one of the interval, and whether it bounds its loads.
func TestPeak(t *testing.T) {
	for _, v := range []struct {
		name               string
		peaks              []float64 // -1: none
		rose, loose, bound bool      // of the last interval
	}{
		{"first reading", []float64{221}, true, false, true},
		{"same", []float64{221, 221}, false, false, true},
		{"rose", []float64{221, 228}, true, false, true},
		{"fell", []float64{221, 200}, true, false, false},
		{"none", []float64{221, -1}, false, false, false},
		{"first seen", []float64{-1, 221}, true, true, true},
		{"rose since the one before last", []float64{200, -1, 221}, true, true, true},
		{"same as the one before last", []float64{221, -1, 221}, false, false, true},
		{"fell since the one before last", []float64{221, -1, 200}, true, true, false},
		{"unusable before", []float64{1e308, 221}, true, true, true},
		{"unusable", []float64{221, 1e308}, false, false, false},
		{"below an occupied band", []float64{159, 159}, false, false, false},
		{"at the edge of the occupied band", []float64{160, 160}, false, false, true},
	} {
		c := sound()
		c.Readings = nil
		for i, p := range v.peaks {
			r := reading("2026-02-02 08:10", 40, 14, p, 18, 14, 8, 0, 0)
			r.At = r.At.AddDate(0, i, 0)
			if p < 0 {
				r.Peak = nil
			}
			c.Readings = append(c.Readings, r)
		}
		intervals := record.Lay(c).Intervals
		last := intervals[len(intervals)-1]
		equal(t, v.name+": rose", last.PeakRose, v.rose)
		equal(t, v.name+": loose", last.PeakLoose, v.loose)
		equal(t, v.name+": bounds", last.Ceiling != nil, v.bound)
	}
}

// A peak register that is capped bounds no interval, not even one whose own
// hours lie below it.
func TestCappedPeakBoundsNothing(t *testing.T) {
	c := sound()
	c.Readings[0].Peak, c.Readings[1].Peak = kg(150), kg(150)
	c.Readings[1].Bands = bands(edges, 28, 26, 8, 0, 0) // nothing gained above 160 kg
	if v := record.Lay(c).Intervals[1]; v.Ceiling != nil {
		t.Errorf("got a ceiling of %v kg, want none", *v.Ceiling)
	}
}

func TestWithheldChangeHasNoCeiling(t *testing.T) {
	c := sound()
	c.Readings[1].Bands[1].Hours = 13
	h := record.Lay(c)
	if v := h.Intervals[1]; v.Ceiling != nil {
		t.Errorf("change: got a ceiling of %v kg, want none", *v.Ceiling)
	}
	if v := h.Counters(1); v.Ceiling == nil || *v.Ceiling != 228 || v.Number != 0 || v.Before != -1 {
		t.Errorf("counters: got %+v, want the whole life under 228 kg", v)
	}
}

func TestRatedLoadThatCannotBeCountedWith(t *testing.T) {
	for _, rated := range []*record.Kilogram{nil, kg(0), kg(-1), kg(0.99), kg(1e-310), kg(100_001), kg(1e308)} {
		c := sound()
		c.Machine.RatedLoad = rated
		equal(t, "rated load", record.Lay(c).Rated, 0)
	}
}

func TestOrderIsStable(t *testing.T) {
	same := at("2026-02-02 08:10")
	order := record.Order([]record.Reading{{At: same.AddDate(0, 1, 0)}, {At: same}, {At: same}})
	equal(t, "order", [3]int(order), [3]int{1, 2, 0})
}

func TestTotal(t *testing.T) {
	near(t, "hours", float64(record.Total(bands(edges, 18, 14, 8, 0.5, 0.25))), 40.75)
	near(t, "no band", float64(record.Total(nil)), 0)
}
