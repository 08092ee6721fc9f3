package simulate

import (
	"fmt"
	"time"

	"ratchetmark/internal/record"
)

// Availability is how much of a life is written down.
type Availability string

// The levels: one reading and nothing else; two dated readings with hour
// meters, no custody; many readings and custody; events and daily use as well.
const (
	PeakAndBands Availability = "peak and bands only"
	TwoReadings  Availability = "two readings"
	WithCustody  Availability = "with custody"
	WithEvents   Availability = "with events"

	// WithAsked is all of that, with what somebody was asked for afterwards: a
	// check of the cell after the life, and word of the tie-downs.
	WithAsked Availability = "with what was asked for"
)

// Availabilities lists the levels that take turns, from the least to the most.
var Availabilities = []Availability{PeakAndBands, TwoReadings, WithCustody, WithEvents}

// Life is the record of one machine and the truth about it.
type Life struct {
	Case         record.Case  `json:"case"`
	Truth        []Truth      `json:"truth"`
	Availability Availability `json:"available"`
}

// Generator makes lives. The same seed gives the same lives, whatever is asked
// for first; it may be used from several goroutines at once.
type Generator struct{ seed uint64 }

// New returns the generator of a seed.
func New(seed uint64) Generator { return Generator{seed} }

// Life returns the i-th life, i from 0; the levels of availability take turns.
func (g Generator) Life(i int) Life {
	return g.With(i, Availabilities[i%len(Availabilities)])
}

// With returns the i-th life with as much written down as a level says. What
// happens in the life is the same at every level.
func (g Generator) With(i int, a Availability) Life {
	happens, written := newDraw(g.seed, i, 0), newDraw(g.seed, i, 1)
	m := newMachine(happens)
	hauliers := newHauliers(happens)
	stays := newCalendar(happens, len(hauliers))
	end := stays[len(stays)-1].to
	w := &world{d: happens, m: m, cell: newCell(happens, m.rated, end), c: newCounters(m.count())}
	if a.events() {
		w.log = &log{}
	}
	times := plan(written, a, stays)
	w.plan = times
	w.live(stays, hauliers)
	l := w.write(written, i, a, stays, times)
	if a == WithAsked {
		o := asked{newDraw(g.seed, i, 2), w, startOf{l.Case.Machine.InService.Time}}
		l.Case.Checks, l.Case.TieDowns = o.checks(end), o.words()
	}
	return l
}

// custody reports whether a level has custody, and events whether it has events
// and daily use.
func (a Availability) custody() bool { return a == WithCustody || a.events() }
func (a Availability) events() bool  { return a == WithEvents || a == WithAsked }

// live runs through the stays.
func (w *world) live(stays []stay, hauliers []haulier) {
	w.t = stays[0].from
	for _, s := range stays {
		switch s.holder {
		case record.Transit:
			w.trip(s, hauliers[s.haulier])
		case record.Hire:
			w.hire(s)
		case record.Workshop:
			w.workshop(s)
		default:
			w.yard(s)
		}
	}
	w.off()
	for range w.plan { // the end of the life
		w.shots = append(w.shots, w.c.clone())
	}
	w.plan = nil
}

// firstDay is the earliest day on which an invented life begins.
var firstDay = time.Date(2019, 3, 4, 0, 0, 0, 0, time.UTC)

// write makes the case of what happened.
func (w *world) write(d draw, i int, a Availability, stays []stay, times []float64) Life {
	o := writer{d, &w.m, a, startOf{firstDay.AddDate(0, 0, d.IntN(700))}}
	c := record.Case{Format: record.Format, Note: "invented life of a machine", Machine: o.machine(i)}
	meters := newMeters(d, a)
	for k, t := range times {
		c.Readings = append(c.Readings, o.reading(t, &w.shots[k], meters))
	}
	if a.custody() {
		c.Custody = o.custody(stays)
	}
	if w.log != nil {
		c.Events = o.events(w.log.events)
		c.Daily = o.daily(w.log.days, meters)
	}
	return Life{Case: c, Truth: truths(&c, w.shots), Availability: a}
}

// machine is what is known of the machine from its plate and papers.
func (w *writer) machine(i int) record.Machine {
	m := record.Machine{ID: fmt.Sprintf("L-%06d", i), Kind: w.m.kind, RatedLoad: record.Of(record.Kilogram(w.m.rated))}
	if w.d.chance(platePersons) {
		m.Persons = record.Of(w.m.persons)
	}
	if w.d.chance(plateSensing) {
		m.LoadSensing = record.Of(record.Kilogram(w.m.acts))
	}
	if w.available != PeakAndBands {
		m.InService = &record.Date{Time: w.start.Time}
	}
	return m
}
