// Package capacity holds a record against what the machine may carry: the
// rated load as persons plus tools and materials, the load-sensing window, the
// test loads, and for how many hours a load was exceeded, as exact bounds. It
// adds up a crew's plan, and lists what is asked for after an overload.
//
// No body text of EN 280 or ISO 16368 was at hand: values from memory are said
// to be so in the table of package assume and stay editable.
package capacity

import (
	"encoding/json"
	"math"

	"gonum.org/v1/gonum/stat"

	"ratchetmark/internal/assume"
	"ratchetmark/internal/record"
)

// SmallestRatedLoad returns m = n·mp + me, the smallest rated load for n
// persons of mass mp with tools and materials me, all in kg.
func SmallestRatedLoad(n int, mp, me float64) record.Kilogram {
	return record.Kilogram(float64(n)*mp + me) // EN 280-1:2022, 4.2 (from memory)
}

// PersonsWithin returns how many persons of mass mp a load covers when tools
// and materials of mass me are also on the platform; 0 when not even one.
func PersonsWithin(load record.Kilogram, mp, me float64) int {
	n := math.Floor((float64(load) - me) / mp)
	return int(max(n, 0))
}

// Percents are the shares of the rated load, in percent, against which hours
// are counted: the rated load; the dynamic test (110 %) and static test
// (125 %) of Regulation (EU) 2023/1230, Annex III, 4.1.2.3; the upper end of
// the load-sensing window (120 %, ANSI/SAIA A92.20); and the enhanced overload
// test (150 %, EN 280, 5.4.1.6, from memory).
var Percents = []int{100, 110, 120, 125, 150}

// Over is how many hours were spent above a share of the rated load.
type Over struct {
	Percent  int      `json:"pct"`
	Low      float64  `json:"low_h"`
	Estimate *float64 `json:"estimate_h"` // loads uniform within a band
	Smooth   *float64 `json:"smooth_h"`   // hours as a monotone cubic of the load; nil where it was not asked for
	High     float64  `json:"high_h"`

	// Unbounded: hours are missing from the record, and nothing bounds the
	// figure from above. High and Estimate are then null in JSON.
	Unbounded bool `json:"-"`
}

// MarshalJSON writes what is not known as null.
func (o Over) MarshalJSON() ([]byte, error) {
	type plain Over
	if !o.Unbounded {
		return json.Marshal(plain(o))
	}
	return json.Marshal(struct {
		Percent  int      `json:"pct"`
		Low      float64  `json:"low_h"`
		Estimate *float64 `json:"estimate_h"`
		Smooth   *float64 `json:"smooth_h"`
		High     *float64 `json:"high_h"`
	}{o.Percent, o.Low, nil, nil, nil})
}

// Result is what the machine may carry and how far the record went over it.
type Result struct {
	Rated         record.Kilogram `json:"rated_load_kg"`
	Persons       *int            `json:"persons"`
	SmallestRated record.Kilogram `json:"smallest_rated_load_kg"` // 0 where it cannot be told
	Spare         float64         `json:"spare_kg"`               // rated load above the smallest one
	PersonsWithin int             `json:"persons_within"`
	SensingFrom   record.Kilogram `json:"load_sensing_from_kg,omitempty"` // 0 where the rules ask for none
	SensingTo     record.Kilogram `json:"load_sensing_to_kg,omitempty"`
	Peak          *float64        `json:"peak_kg"` // highest the record shows
	PeakPercent   *float64        `json:"peak_pct"`
	Counted       float64         `json:"counted_h"`
	HoursOver     []Over          `json:"hours_over"`
	MeanLoad      *record.Bounds  `json:"mean_load_kg"` // weighted by hours
	Details
}

// Assess holds a history against the rated load. The history must have one.
func Assess(h record.History, set assume.Set) Result {
	rule := RuleOf(set)
	r := Result{Rated: h.Rated, Persons: h.Case.Machine.StatedPersons()}
	sensible := float64(h.Rated) <= assume.RatedLoads.Most // else it is a slip of the hand, and no platform
	if sensible {
		r.PersonsWithin, _ = rule.Within(h.Rated)
	}
	if r.Persons != nil && sensible {
		r.SmallestRated = SmallestRatedLoad(*r.Persons, rule.Further, rule.base())
		r.Spare = float64(r.Rated - r.SmallestRated)
	}
	r.SensingFrom, r.SensingTo = Sensing(h, set)
	if peak := HighestPeak(h); peak != nil {
		r.Peak = record.Of(float64(*peak))
		r.PeakPercent = record.Of(100 * float64(*peak/h.Rated))
	}
	segments := Segments(h.Life())
	for _, s := range segments {
		r.Counted += float64(s.Hours)
	}
	for _, pct := range Percents {
		r.HoursOver = append(r.HoursOver, HoursOver(segments, h.Rated, pct))
	}
	r.MeanLoad = MeanLoad(segments)
	r.Details = details(h, set, segments)
	r.smooth(NewLoads(h.Life()))
	return r
}

// Sensing returns the loads between which the load-sensing system has to act:
// the machine's own value where it is stated, the window of its rules else; 0
// where they have none.
func Sensing(h record.History, set assume.Set) (from, to record.Kilogram) {
	if own := h.Case.Machine.StatedSensing(); own != nil {
		return *own, *own
	}
	first, ok := set.Find(assume.SensingFrom)
	last, too := set.Find(assume.SensingTo)
	if !ok || !too {
		return 0, 0
	}
	return h.Rated * record.Kilogram(first.Value/100), h.Rated * record.Kilogram(last.Value/100)
}

// HighestPeak returns the highest peak of any reading; nil when there is none.
func HighestPeak(h record.History) *record.Kilogram {
	var highest *record.Kilogram
	for _, v := range h.Intervals {
		if v.Peak != nil && (highest == nil || *v.Peak > *highest) {
			highest = v.Peak
		}
	}
	return highest
}

// Segments returns the segments of all intervals.
func Segments(intervals []record.Interval) []record.Segment {
	var out []record.Segment
	for _, v := range intervals {
		out = append(out, v.Segments()...)
	}
	return out
}

// HoursOver bounds the hours spent above pct percent of the rated load. Low
// puts every hour at the lower edge of its band, high at the upper edge, which
// the peak closes; the estimate takes loads as uniform within a band.
func HoursOver(segments []record.Segment, rated record.Kilogram, pct int) Over {
	o := Over{Percent: pct}
	var estimate float64
	known := true
	for _, s := range segments {
		low, mid, high, ok := s.Over(rated * record.Kilogram(pct) / 100)
		o.Low += float64(low)
		o.High += float64(high)
		estimate += float64(mid)
		known = known && ok
	}
	if known {
		o.Estimate = record.Of(estimate)
	}
	return o
}

// MeanLoad returns the mean load weighted by hours, in kg; nil without hours.
func MeanLoad(segments []record.Segment) *record.Bounds {
	var low, mid, high, hours []float64
	bounded := true
	for _, s := range segments {
		low = append(low, float64(s.From))
		mid = append(mid, float64(s.From+s.To)/2)
		high = append(high, float64(s.To))
		hours = append(hours, float64(s.Hours))
		bounded = bounded && s.Bounded
	}
	if len(hours) == 0 {
		return nil
	}
	b := &record.Bounds{Low: stat.Mean(low, hours)}
	if bounded {
		b.Estimate = record.Of(stat.Mean(mid, hours))
		b.High = record.Of(stat.Mean(high, hours))
	}
	return b
}
