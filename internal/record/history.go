package record

import (
	"slices"
	"time"
)

// History is a record laid out as intervals, with only what can be counted with.
type History struct {
	Case      *Case
	Rated     Kilogram // 0 when there is none to hold the record against
	Intervals []Interval
}

// Interval is what changed between two readings. Number 0 is the life before
// the first reading; number n the change from the n-th to the next in time.
type Interval struct {
	Number        int
	Before, After int       // indices of the readings; Before is -1 for the life before the first
	From, To      time.Time // zero when not dated
	Bands         []Band    // hours gained, in order of load; nil when unknown
	Powered       *Hour     // gained
	Moving        *Hour     // gained
	Peak          *Kilogram // as it stood at the end
	PeakAt        *time.Time
	PeakRose      bool      // the peak is not that of an earlier reading: it was set within the interval
	PeakLoose     bool      // or before it: the reading at its beginning has no peak
	Ceiling       *Kilogram // no load within the interval lay above; nil when not known
	Withheld      string    // why the change of the bands is not used; empty when it is
}

// Lay lays a case out as intervals.
func Lay(c *Case) History {
	h := History{Case: c}
	if r := c.Machine.RatedLoad; r != nil && *r >= leastRated && usable(*r, maxLoad) {
		h.Rated = *r
	}
	order := Order(c.Readings)
	for k, j := range order {
		before := -1
		if k > 0 {
			before = order[k-1]
		}
		v := layInterval(c, k, before, j)
		v.layPeak(c, order[:k])
		h.Intervals = append(h.Intervals, v)
	}
	return h
}

// Life returns the intervals that together hold every counted hour. Where an
// interval within the life is withheld, it is the last reading with usable
// bands alone: its counters, with no earlier peak to bound them more closely.
func (h History) Life() []Interval {
	for _, v := range h.Intervals {
		if v.Withheld != "" {
			return []Interval{h.lastCounted()}
		}
	}
	return h.Intervals
}

// lastCounted returns the counters of the last reading with usable bands; of
// the last reading where none has any.
func (h History) lastCounted() Interval {
	last := len(h.Intervals) - 1
	for k := last; k >= 0; k-- {
		if v := h.Counters(k); len(v.Bands) > 0 {
			return v
		}
	}
	return h.Counters(last)
}

// Counters returns the counters of the k-th reading in time as one interval:
// the whole life up to it.
func (h History) Counters(k int) Interval {
	v := layInterval(h.Case, 0, -1, h.Intervals[k].After)
	v.layPeak(h.Case, nil)
	return v
}

func layInterval(c *Case, number, before, after int) Interval {
	b := &c.Readings[after]
	v := Interval{Number: number, Before: before, After: after, To: b.At, PeakAt: b.PeakAt}
	var a *Reading
	if before >= 0 {
		a = &c.Readings[before]
		v.From = a.At
	} else if c.Machine.InService != nil {
		v.From = c.Machine.InService.Time
	}
	v.Powered = gainedHours(a, b, func(r *Reading) *Hour { return r.Powered })
	v.Moving = gainedHours(a, b, func(r *Reading) *Hour { return r.Moving })
	v.Bands, v.Withheld = gainedBands(a, b)
	if a != nil && tooFast(a, b) {
		v.Bands, v.Powered, v.Moving = nil, nil, nil
		v.Withheld = "more hours were gained than passed by the clock"
	}
	return v
}

func tooFast(a, b *Reading) bool {
	wall, gained, ok := step{a: a, b: b}.gain()
	return ok && gained > wall+hourSlack(max(1, len(b.Bands)))
}

// gainedHours returns how much one hour counter gained; nil when not known.
func gainedHours(a, b *Reading, counter func(*Reading) *Hour) *Hour {
	end := counter(b)
	if end == nil || !usable(*end, maxHours) {
		return nil
	}
	if a == nil {
		return end
	}
	start := counter(a)
	if start == nil || !usable(*start, maxHours) || *end < *start {
		return nil
	}
	return Of(end.minus(*start))
}

// gainedBands returns the hours each band gained, or why they are not used.
func gainedBands(a, b *Reading) (bands []Band, withheld string) {
	switch {
	case !bandsUsable(b.Bands):
		return nil, "the bands of the reading at its end cannot be counted with"
	case a == nil && len(b.Bands) == 0:
		return nil, ""
	case a == nil:
		return Sorted(b.Bands), ""
	case !bandsUsable(a.Bands):
		return nil, "the bands of the reading at its beginning cannot be counted with"
	case len(a.Bands) == 0 && len(b.Bands) == 0:
		return nil, ""
	case len(a.Bands) == 0 || len(b.Bands) == 0:
		return nil, "one of the two readings has no bands"
	case !sameEdges(a.Bands, b.Bands):
		return nil, "the bands changed"
	}
	bands, ok := difference(a.Bands, b.Bands)
	if !ok {
		return nil, "a counter ran backwards"
	}
	return bands, ""
}

// layPeak works out whether the peak was set within the interval, and whether
// it bounds the loads of the interval from above. The readings before it are
// given in order of time.
func (v *Interval) layPeak(c *Case, before []int) {
	b := &c.Readings[v.After]
	if !hasPeak(b) {
		return
	}
	v.Peak = b.Peak
	earlier := lastPeak(c, before)
	fell := earlier >= 0 && *b.Peak < *c.Readings[earlier].Peak
	v.PeakRose = earlier < 0 || fell || *b.Peak > *c.Readings[earlier].Peak
	v.PeakLoose = v.PeakRose && v.Before >= 0 && earlier != v.Before
	if fell || v.Withheld != "" && v.Before >= 0 {
		return
	}
	if top, ok := highestOccupied(b.Bands); ok && *b.Peak < top.From {
		return // reset or capped: see the rule peak-below-occupied-band
	}
	v.Ceiling = b.Peak
}

func hasPeak(r *Reading) bool { return r.Peak != nil && usable(*r.Peak, maxLoad) }

// lastPeak returns the index of the last of the readings that has a usable
// peak; -1 when none has.
func lastPeak(c *Case, readings []int) int {
	for _, i := range slices.Backward(readings) {
		if hasPeak(&c.Readings[i]) {
			return i
		}
	}
	return -1
}
