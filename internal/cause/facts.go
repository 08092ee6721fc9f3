package cause

import (
	"fmt"
	"time"

	"ratchetmark/internal/record"
)

// facts is what the rules read of a record about one exceedance.
type facts struct {
	h     record.History
	x     Exceedance
	v     record.Interval
	at    int // index of the interval
	rated record.Kilogram

	moving         *record.Hour
	lowestRead     record.Kilogram // lower edge of the lowest band with hours
	otherHours     record.Hour     // hours counted in all bands
	inTransit      bool
	transitText    string
	custodyUnknown bool
	workshopSince  bool
	loose          bool // it may be older than the interval: what held within the interval says nothing
}

func factsOf(h record.History, x Exceedance) facts {
	f := facts{h: h, x: x, v: h.Intervals[x.at], at: x.at, rated: h.Rated}
	f.moving = f.v.Moving
	f.lowestRead, f.otherHours = lowestRead(f.v)
	f.loose = f.mayBeOlder()
	f.transit()
	f.workshopSince = f.workshop()
	return f
}

// lowestRead returns the lower edge of the lowest band with hours and the
// hours in all bands; 0 where every load down to zero is not covered by bands.
func lowestRead(v record.Interval) (record.Kilogram, record.Hour) {
	if len(v.Bands) == 0 || v.Bands[0].From > 0 {
		return 0, 0
	}
	for i, b := range v.Bands {
		if i > 0 && b.From > *v.Bands[i-1].To { // a gap may hide lower loads
			return 0, 0
		}
		if b.Hours > 0 {
			return b.From, record.Total(v.Bands)
		}
	}
	return 0, 0
}

// transit works out whether the exceedance lies within transit custody: for a
// peak the moment it was set, or the whole interval; for a band the interval,
// but for loose ends in which its hours cannot have been counted.
func (f *facts) transit() {
	from, to := f.v.From, lastOf(f.v.To)
	held, unknown := f.h.Case.Cover(from, to)
	dated := !f.v.From.IsZero() && !f.v.To.IsZero()
	f.custodyUnknown = unknown > 0 || !dated
	if t := f.peakTime(); f.x.What == Peak && !t.IsZero() {
		u := f.h.Case.HolderAt(t)
		if u == nil || u.Holder != record.Transit {
			return
		}
		if day := lastOf(t).Sub(t); day > 0 {
			if held, _ := f.h.Case.Cover(t, t.Add(day)); held[record.Transit] < day {
				return
			}
		}
		f.inTransit = true
		f.transitText = fmt.Sprintf("the peak was set at %s, while the machine was in transit", clock(t))
		return
	}
	if !dated || f.loose || held[record.Transit] <= 0 {
		return
	}
	outside := to.Sub(from) - held[record.Transit]
	span := fmt.Sprintf("between the two readings, %s to %s, the machine was in transit", clock(f.v.From), clock(f.v.To))
	switch {
	case outside == 0:
		f.inTransit = true
		f.transitText = span + " all the time"
	case f.x.What == Band && outside <= looseEnds && f.x.Low-record.Hour(outside.Hours()) >= countable:
		f.inTransit = true
		f.transitText = fmt.Sprintf("%s for all but %.0f min, too short for the %s h that were counted", span, outside.Minutes(), hours(f.x.Low))
	}
}

// lastOf returns the last moment that a time may stand for. One of exactly
// midnight is most likely a day without a time of day: all of it may be meant,
// and nothing is ruled out on the strength of its first moment.
func lastOf(t time.Time) time.Time {
	if t.IsZero() || !t.UTC().Equal(t.UTC().Truncate(24*time.Hour)) {
		return t
	}
	return t.Add(24 * time.Hour)
}

// mayBeOlder reports whether the exceedance may have come about before the
// interval: a peak that no reading at its beginning dates, or hours of a change
// that is withheld.
func (f *facts) mayBeOlder() bool {
	if f.x.What == Peak {
		return f.v.PeakLoose && f.peakTime().IsZero()
	}
	return f.v.Withheld != "" && f.v.Before >= 0
}

// peakTime returns when the peak was set, if that lies within the interval.
func (f *facts) peakTime() time.Time {
	if f.x.What != Peak {
		return time.Time{}
	}
	within := func(t time.Time) bool {
		return !f.v.To.IsZero() && !t.After(f.v.To) && (f.v.From.IsZero() || !t.Before(f.v.From))
	}
	if f.v.PeakAt != nil && within(*f.v.PeakAt) {
		return *f.v.PeakAt
	}
	for _, e := range f.h.Case.Events {
		if e.Kind == record.PeakRise && e.Load != nil && *e.Load == *f.x.Peak && within(e.At) {
			return e.At
		}
	}
	return time.Time{}
}

// workshop reports whether somebody may have corrected the zero during this
// interval or the next: workshop custody there, or hands that are not named.
func (f *facts) workshop() bool {
	for _, i := range []int{f.at, f.at + 1} {
		if i >= len(f.h.Intervals) {
			continue
		}
		v := f.h.Intervals[i]
		held, unknown := f.h.Case.Cover(v.From, v.To)
		if held[record.Workshop] > 0 || unknown > 0 || v.From.IsZero() || v.To.IsZero() {
			return true
		}
	}
	return false
}

// hoursBelow returns the hours of an interval in bands wholly below the load
// of the exceedance; 0 where the interval does not exist or is withheld.
func (f facts) hoursBelow(i int) record.Hour {
	if i < 0 || i >= len(f.h.Intervals) {
		return 0
	}
	bands := f.h.Intervals[i].Bands
	if len(bands) == 0 || bands[0].Open() || *bands[0].To > f.x.From {
		return 0
	}
	return bands[0].Hours
}

// top returns the highest load the exceedance can have reached.
func (f facts) top() (record.Kilogram, bool) {
	if f.x.What == Peak {
		return *f.x.Peak, true
	}
	return f.x.segment.To, f.x.segment.Bounded
}

func clock(t time.Time) string { return t.UTC().Format("2 January 2006, 15:04 UTC") }
