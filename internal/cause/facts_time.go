package cause

import (
	"time"

	"ratchetmark/internal/record"
)

// whenSet is where the moment of a peak lies in custody: shares of the moments
// that are meant, a day where only a day is given.
type whenSet struct {
	at                        time.Time
	transit, elsewhere, never float64 // never: nobody is named
	missed                    float64 // of those in transit, on a trip that custody misses
	weighed                   place   // the same, each by how much of such time the interval has
}

// place divides a chance by where it lies; the three add up to 1.
type place struct{ transit, elsewhere, never float64 }

// weighBy weighs the moments by how many hours in transit, elsewhere, and with nobody
// named the interval has: the day that holds its only trip speaks for the trip,
// however short that is. ok is false where the interval has no hours and the
// day is divided.
func (w *whenSet) weighBy(day float64, c *cover) (ok bool) {
	w.weighed = place{w.transit, w.elsewhere, w.never}
	if max(w.transit, w.elsewhere, w.never) == 1 {
		return true
	}
	if !c.known {
		return false
	}
	part := func(share, hours float64) float64 { return share * day / max(hours, share*day, 1e-9) }
	road := c.transit + c.missed
	a, b, n := part(w.transit, road), part(w.elsewhere, c.total-road-c.unnamed), part(w.never, c.unnamed)
	w.weighed = place{a / (a + b + n), b / (a + b + n), n / (a + b + n)}
	return true
}

// readWhen holds the time of a peak against custody.
func (f *facts) readWhen() {
	t := f.peakTime()
	if f.x.What != Peak || t.IsZero() || len(f.h.Case.Custody) == 0 {
		return
	}
	last := lastOf(t)
	if last.Equal(t) {
		last = t.Add(time.Minute)
	}
	held, unknown := f.h.Case.Cover(t, last)
	all := last.Sub(t).Hours()
	w := whenSet{at: t, transit: held[record.Transit].Hours() / all, never: unknown.Hours() / all}
	w.missed = min(f.custody.missing(t, last)/all, 1-w.transit)
	w.transit += w.missed
	w.never = min(w.never, 1-w.transit)
	w.elsewhere = max(0, 1-w.transit-w.never)
	if w.never < 1 && w.weighBy(all, &f.custody) {
		f.when = &w
	}
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
	for _, e := range f.s.events {
		if e.Kind == record.PeakRise && e.Load != nil && *e.Load == *f.x.Peak && within(e.At) {
			return e.At
		}
	}
	return time.Time{}
}

// alarms counts the overload alarms of an interval by custody: those at loads of
// the piece, or at loads that the list does not tell.
type alarms struct {
	transit, elsewhere, unnamed int
	others                      int  // at other loads
	whole                       bool // the list covers the interval: what it lacks was not there
}

func (a alarms) all() int { return a.transit + a.elsewhere + a.unnamed }

// readAlarms counts alarms. Where the event list does not cover the interval, what
// it holds counts all the same.
func (f *facts) readAlarms() {
	if !f.custody.known || f.loose {
		return
	}
	a := alarms{whole: f.listed(record.OverloadAlarm)}
	for _, e := range f.within(record.OverloadAlarm) {
		switch u := f.h.Case.HolderAt(e.At); {
		case !f.atSuchLoads(e.Load):
			a.others++
		case u == nil:
			a.unnamed++
		case u.Holder == record.Transit:
			a.transit++
		default:
			a.elsewhere++
		}
	}
	if a.whole || a.all() > 0 {
		f.alarms = &a
	}
}

// besideLoad is how far a load that an alarm is listed with may lie beside those of
// a piece, as a share of it; an assumption.
const besideLoad = 0.03

// atSuchLoads reports whether a load is one that the piece is about; one that is
// not known may be.
func (f *facts) atSuchLoads(load *record.Kilogram) bool {
	if load == nil {
		return true
	}
	if f.x.What == Peak {
		return *load >= *f.x.Peak*(1-besideLoad)
	}
	return *load >= f.x.From*(1-besideLoad) && (f.x.To == nil || *load <= *f.x.To*(1+besideLoad))
}

// listed reports whether the machine's event list reaches over the whole interval and
// holds events of a kind at all, in it or elsewhere.
func (f *facts) listed(kind record.EventKind) bool {
	var first, last time.Time
	holds := false
	for _, e := range f.h.Case.Events {
		if e.Kind == record.PeakRise { // told apart from what the machine logs by itself
			continue
		}
		holds = holds || e.Kind == kind
		if first.IsZero() || e.At.Before(first) {
			first = e.At
		}
		if e.At.After(last) {
			last = e.At
		}
	}
	slack := max(24*time.Hour, f.v.To.Sub(f.v.From)/20) // a list ends with its last event
	return holds && !first.After(f.v.From) && !last.Before(f.v.To.Add(-slack))
}

func (f *facts) within(kind record.EventKind) []record.Event {
	var out []record.Event
	for _, e := range f.h.Case.Events {
		if e.Kind == kind && !e.At.Before(f.v.From) && !e.At.After(lastOf(f.v.To)) {
			out = append(out, e)
		}
	}
	return out
}

// powerBy is for how many hours of an interval the machine was powered in
// transit and elsewhere, by its event list or its daily use.
type powerBy struct {
	transit, elsewhere float64 // elsewhere with the time that may be either
	unnamed            float64 // that time: nobody is named, or custody misses a trip
	daily              bool    // by daily use
}

func (f *facts) readPower() {
	if !f.custody.known || len(f.h.Case.Custody) == 0 || f.loose {
		return
	}
	if p := f.powerByEvents(); p != nil {
		f.power = p
		return
	}
	f.power = f.powerByDays()
}

// powerByEvents adds up the spans between power on and power off.
func (f *facts) powerByEvents() *powerBy {
	if !f.listed(record.PowerOn) || !f.listed(record.PowerOff) {
		return nil
	}
	p := powerBy{}
	var on time.Time
	for _, e := range f.s.events {
		switch {
		case e.Kind == record.PowerOn && !on.IsZero() && e.At.After(f.v.From) && on.Before(lastOf(f.v.To)):
			return nil // nobody knows when it went off
		case e.Kind == record.PowerOn:
			on = e.At
		case e.Kind == record.PowerOff && !on.IsZero():
			p.add(f, on, e.At)
			on = time.Time{}
		}
	}
	if !on.IsZero() && on.Before(lastOf(f.v.To)) {
		return nil
	}
	if f.v.Powered == nil || p.transit+p.elsewhere < 0.9*float64(*f.v.Powered)-0.1 { // the list has holes
		return nil
	}
	return &p
}

func (p *powerBy) add(f *facts, on, off time.Time) {
	if on.Before(f.v.From) {
		on = f.v.From
	}
	if last := lastOf(f.v.To); off.After(last) {
		off = last
	}
	if !off.After(on) {
		return
	}
	held, unknown := f.h.Case.Cover(on, off)
	p.unnamed += unknown.Hours() + f.custody.missing(on, off)
	p.transit += held[record.Transit].Hours()
	p.elsewhere += off.Sub(on).Hours() - held[record.Transit].Hours()
}

// powerByDays adds up the daily use of days wholly in transit or wholly
// elsewhere; a day that is divided counts for both. Nil where days are missing.
func (f *facts) powerByDays() *powerBy {
	p := powerBy{daily: true}
	days, covered := 0, 0.0
	for _, d := range f.h.Case.Daily {
		end := d.Date.Add(24 * time.Hour)
		inside := clip(d.Date.Time, end, f.v.From, lastOf(f.v.To))
		if d.Powered == nil || inside <= 0 {
			continue
		}
		days++
		covered += inside
		held, unknown := f.h.Case.Cover(d.Date.Time, end)
		p.unnamed += min(float64(*d.Powered), unknown.Hours()+f.custody.missing(d.Date.Time, end))
		transit := held[record.Transit].Hours()
		if transit > 0 {
			p.transit += min(float64(*d.Powered), transit)
		}
		p.elsewhere += min(float64(*d.Powered), 24-transit)
	}
	if days == 0 || f.v.Powered == nil || covered < 0.9*f.custody.total && p.transit+p.elsewhere < 0.9*float64(*f.v.Powered) {
		return nil
	}
	return &p
}
