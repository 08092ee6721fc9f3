package fatigue

import (
	"fmt"
	"time"

	"ratchetmark/internal/assume"
	"ratchetmark/internal/record"
)

// Stretch is a part of the life with its exposure: an interval, a hire, a year.
type Stretch struct {
	Kind     string        `json:"kind"` // interval, hire, year
	Title    string        `json:"title"`
	From     *time.Time    `json:"from"`
	To       *time.Time    `json:"to"`
	Interval *int          `json:"interval"` // number; nil for hires and years
	Relative record.Bounds `json:"relative"`
}

// Life is a machine's life, interval by interval.
type Life struct {
	Intervals []record.Interval
	Case      *record.Case
	Rated     record.Kilogram
	Set       assume.Set
	Basis     Basis
	Count     *float64
	AtLeast   bool // hours are missing from the record

	uses   []Use
	budget float64
	slope  float64
}

// Open lays the uses of the intervals out and returns that of all of them. ok is
// false where the basis is not in the record.
func (l *Life) Open() (whole Use, ok bool) {
	whole, ok = UseOf(l.Intervals, l.Rated, l.Set, l.Basis, l.Count)
	whole.AtLeast, l.uses = l.AtLeast, nil
	l.budget, l.slope = l.Set.Value(assume.DesignCycles), l.Set.Value(assume.Slope)
	for _, v := range l.Intervals {
		u := useByHours(nil, l.Rated, l.Set)
		u.Basis, u.rate, u.AtLeast = l.Basis, whole.rate, l.AtLeast
		if scale, known := scaleOf(v, l.Basis); known {
			u.spectrum.add(v.Segments(), l.Rated, scale)
		}
		l.uses = append(l.uses, u)
	}
	return whole, ok
}

// ByInterval returns the exposure of each interval that has hours.
func (l *Life) ByInterval() []Stretch {
	var out []Stretch
	for i, v := range l.Intervals {
		if len(l.uses[i].h) > 0 {
			out = append(out, Stretch{Kind: "interval", From: moment(v.From), To: moment(v.To), Interval: record.Of(v.Number), Relative: l.uses[i].Relative(l.slope, l.budget)})
		}
	}
	return out
}

func moment(t time.Time) *time.Time {
	if t.IsZero() {
		return nil
	}
	return &t
}

// ByHire returns the exposure of each hire in the custody list.
func (l *Life) ByHire() []Stretch {
	var out []Stretch
	for i := range l.Case.Custody {
		u := &l.Case.Custody[i]
		if u.Holder != record.Hire || l.Case.HolderAt(u.From) != u {
			continue
		}
		title := u.Who
		if title == "" {
			title = "hire"
		}
		out = append(out, Stretch{Kind: "hire", Title: title, From: &u.From, To: &u.To, Relative: l.within(u.From, u.To, hired)})
	}
	return out
}

// ByYear returns the exposure of each calendar year from the first dated moment
// to the last; none where an interval with hours has no dates.
func (l *Life) ByYear() []Stretch {
	var first, last time.Time
	for i, v := range l.Intervals {
		if len(l.uses[i].h) == 0 {
			continue
		}
		if !dated(v) {
			return nil
		}
		if first.IsZero() || v.From.Before(first) {
			first = v.From
		}
		if v.To.After(last) {
			last = v.To
		}
	}
	const mostYears = 30 // of a machine's life; more is a slip in a date
	if first.IsZero() || last.Year()-first.Year() > mostYears {
		return nil
	}
	var out []Stretch
	for y := first.UTC().Year(); y <= last.UTC().Year(); y++ {
		from, to := time.Date(y, 1, 1, 0, 0, 0, 0, time.UTC), time.Date(y+1, 1, 1, 0, 0, 0, 0, time.UTC)
		out = append(out, Stretch{Kind: "year", Title: fmt.Sprint(y), From: &from, To: &to, Relative: l.within(from, to, passed)})
	}
	return out
}

func dated(v record.Interval) bool { return !v.From.IsZero() && v.To.After(v.From) }

// within bounds the exposure between two moments. Of the hours of an interval
// at least those that do not fit into the time outside lie within, and at most
// those that fit; the lightest of them at least, the heaviest at most. The
// estimate spreads the hours as weight tells, and takes them as like the rest.
func (l *Life) within(from, to time.Time, weight func(l *Life, v record.Interval, from, to time.Time) float64) record.Bounds {
	u := useByHours(nil, l.Rated, l.Set)
	u.AtLeast = l.AtLeast
	lightest, heaviest := spectrum{bounded: true}, spectrum{bounded: true}
	estimate := record.Of(0.)
	for i, v := range l.Intervals {
		x := l.uses[i]
		hours := x.sumOfHours()
		least, most := fitting(v, hours, from, to)
		if most <= 0 {
			continue
		}
		u.rate = x.rate
		lightest.join(x.first(least, lowerEdge))
		heaviest.join(x.first(most, upperEdge))
		all := x.equivalent(x.spectrum, l.slope).Estimate
		if !dated(v) || all == nil {
			estimate = nil
		} else if estimate != nil {
			part := min(max(hours*weight(l, v, from, to), least), most) / hours
			*estimate += part * *all
		}
	}
	b := record.Bounds{Low: u.equivalent(lightest, l.slope).Low}
	if b.High = u.equivalent(heaviest, l.slope).High; b.High != nil && estimate != nil {
		// Hours like the rest may be more, or less, than the bounds allow.
		b.Estimate = record.Of(min(max(*estimate, b.Low), *b.High))
	}
	return b.Scale(1/l.budget, 1/l.budget, 1/l.budget)
}

// fitting returns how many of the hours of an interval lie between two moments
// at least and at most.
func fitting(v record.Interval, hours float64, from, to time.Time) (least, most float64) {
	if !dated(v) {
		return 0, hours
	}
	inside := overlap(v.From, v.To, from, to)
	outside := v.To.Sub(v.From) - inside
	most = min(hours, inside.Hours())
	return min(max(hours-outside.Hours(), 0), most), most
}

// passed is the share of an interval that lies between two moments.
func passed(_ *Life, v record.Interval, from, to time.Time) float64 {
	return float64(overlap(v.From, v.To, from, to)) / float64(v.To.Sub(v.From))
}

// hired is the share of a hire in the time that the machine was on hire within
// an interval: it is taken to have worked there alone.
func hired(l *Life, v record.Interval, from, to time.Time) float64 {
	held, _ := l.Case.Cover(v.From, v.To)
	all := held[record.Hire]
	if all <= 0 {
		return passed(l, v, from, to)
	}
	return min(float64(overlap(v.From, v.To, from, to))/float64(all), 1)
}

func overlap(aFrom, aTo, bFrom, bTo time.Time) time.Duration {
	if bFrom.After(aFrom) {
		aFrom = bFrom
	}
	if bTo.Before(aTo) {
		aTo = bTo
	}
	return max(aTo.Sub(aFrom), 0)
}
