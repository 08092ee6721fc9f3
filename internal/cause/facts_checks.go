package cause

import (
	"time"

	"ratchetmark/internal/record"
)

// cellCheck is a check of the cell as a piece sees it: what was on the platform
// and what was shown, and where the check lies from the moment the piece came
// about, which is known to the interval only or to the minute.
type cellCheck struct {
	record.LoadCheck
	before   bool    // made before the piece came about, or perhaps so
	days     float64 // between the two, at least
	quiet    float64 // of those, the days in which nothing shows that a fault was still there
	passed   float64 // share of the powered hours of the interval up to the piece in which a fault can have begun before the check
	workshop float64 // chance that a workshop had the machine in between
}

// checkedCell holds the most telling check of each kind; nil where there is none.
type checkedCell struct {
	zero, mass          *cellCheck
	zeroShown, allShown looked
}

// readChecks places every check beside the piece and keeps, of each kind, the
// one nearest to it, a later one first.
func (f *facts) readChecks() {
	for _, k := range f.h.Case.UsableChecks() {
		c, ok := f.place(k)
		if !ok {
			continue
		}
		best := &f.checks.zero
		if k.Kind == record.MassCheck {
			best = &f.checks.mass
		}
		if *best == nil || c.nearer(*best) {
			*best = &c
		}
	}
}

// nearer reports whether a check tells more than another: one after the piece
// more than one before it, else the one closer to it. Of two at the same time, as of
// one day, the one further off, likely that before the cell was set right, tells what
// it was like before, and the other what it was like from then on.
func (c *cellCheck) nearer(o *cellCheck) bool {
	if c.before != o.before {
		return o.before
	}
	if !c.At.Equal(o.At) {
		return c.before == c.At.After(o.At)
	}
	a, b := c.Off(), o.Off()
	if max(a, -a) != max(b, -b) {
		return c.before == (max(a, -a) < max(b, -b))
	}
	return a > b || a == b && c.On() > o.On()
}

// place works out how a check lies to the piece; ok is false where the interval
// is not dated, and before an interval that cannot have inherited a fault.
func (f *facts) place(k record.LoadCheck) (c cellCheck, ok bool) {
	from, to := f.v.From, f.v.To
	if to.IsZero() {
		return c, false
	}
	if f.loose {
		from = time.Time{}
	}
	first, last := from, to // between which the piece came about
	if t := f.peakTime(); !t.IsZero() {
		first, last = t, lastOf(t)
	}
	c = cellCheck{LoadCheck: k, passed: 1}
	switch {
	case !k.At.Before(last):
		c.days = k.At.Sub(last).Hours() / 24
		c.quiet = min(c.days, max(0, k.At.Sub(f.lastSign(last)).Hours()/24))
		c.workshop = max(f.inWorkshop(last, k.At), f.workshopAfter(first, last))
		return c, true
	case from.IsZero():
		c.before, c.passed = true, 0.5
		return c, true
	}
	if k.At.Before(from) && f.o.earlier <= 0 {
		return c, false
	}
	c.before = true
	if k.At.Before(first) {
		c.days = first.Sub(k.At).Hours() / 24
		c.quiet = c.days
		c.workshop = f.inWorkshop(k.At, first)
	}
	c.passed = 0
	if k.At.After(from) {
		c.passed = min(1, k.At.Sub(from).Hours()/max(last.Sub(from).Hours(), 1e-9))
	}
	return c, true
}

// lastSign returns until when the intervals after the piece, one by one, went over
// the rated load again: if it was a fault, it was there until then.
func (f *facts) lastSign(last time.Time) time.Time {
	for i := f.x.at + 1; i < len(f.h.Intervals); i++ {
		v := &f.h.Intervals[i]
		if v.Withheld != "" || f.s.each[i].low <= 0 || !v.To.After(last) {
			break
		}
		last = v.To
	}
	return last
}

// inWorkshop returns 1 where custody names a workshop between two times, else 0.
func (f *facts) inWorkshop(from, to time.Time) float64 {
	if from.IsZero() {
		return 0
	}
	held, _ := f.h.Case.Cover(from, to)
	if held[record.Workshop] > 0 {
		return 1
	}
	return 0
}

// workshopAfter returns the chance that a piece that came about between two times
// did so before a workshop had the machine: how late in that time it had it.
func (f *facts) workshopAfter(first, last time.Time) float64 {
	chance := 0.0
	if first.IsZero() {
		return chance
	}
	all := last.Sub(first).Hours()
	for _, u := range f.h.Case.Custody {
		if u.Holder == record.Workshop && u.To.After(first) && u.From.Before(last) && all > 0 {
			chance = max(chance, u.From.Sub(first).Hours()/all)
		}
	}
	return chance
}

// tiedTrip is what is said of the tie-down on one trip.
type tiedTrip struct {
	custody *record.Custody // nil where none names the trip
	said    []record.TieDown
}

// tiedDown is what is said of the tie-downs on trips of the interval.
type tiedDown struct {
	trips []tiedTrip
	one   bool // the piece came about on just this trip, if on any
}

// readTied collects what is known of tie-downs on the trips of the interval. A
// peak whose time lies in one of the trips is held against that trip alone.
func (f *facts) readTied() {
	if f.loose || f.v.To.IsZero() {
		return
	}
	all := f.h.Case.Tied()
	if len(all) == 0 {
		return
	}
	t := f.peakTime()
	timed := !t.IsZero() && !midnight(t)
	var out tiedDown
	number := map[int]int{}
	for _, d := range all {
		if !f.holds(d) {
			continue
		}
		trip := tiedTrip{}
		if d.Trip >= 0 {
			trip.custody = &f.h.Case.Custody[d.Trip]
			if timed && (t.Before(trip.custody.From.Add(-shortWay)) || t.After(trip.custody.To.Add(shortWay))) {
				continue
			}
			out.one = out.one || timed
			if i, known := number[d.Trip]; known {
				out.trips[i].said = append(out.trips[i].said, d.TieDown)
				continue
			}
			number[d.Trip] = len(out.trips)
		}
		trip.said = []record.TieDown{d.TieDown}
		out.trips = append(out.trips, trip)
	}
	if len(out.trips) > 0 {
		f.tied = &out
	}
}

// leastOfTrip is the share of a trip from which it counts as one of an interval:
// readings are taken a little after loading and before unloading. An assumption.
const leastOfTrip = 0.25

// holds reports whether the trip of a tie-down lies in the interval, by custody
// or, where that names none, by its time.
func (f *facts) holds(d record.Tied) bool {
	from, to := f.v.From, lastOf(f.v.To)
	if d.Trip >= 0 {
		u := f.h.Case.Custody[d.Trip]
		return clip(u.From, u.To, from, to) >= leastOfTrip*u.To.Sub(u.From).Hours()
	}
	return !d.At.Before(from) && !d.At.After(to)
}
