package cause

import (
	"math"
	"slices"
	"time"

	"ratchetmark/internal/record"
)

// facts is what the evidence reads of a record about one exceedance. Loads are
// kept as numbers into the history's list of loads; -1 stands for none.
type facts struct {
	h record.History
	s *intervals
	x Exceedance
	v record.Interval
	o opportunity

	from, to   int           // the piece; to is -1 for a band open upwards
	peak       int           // the peak of the interval, where it was set in it
	neighbours []neighbour   // the other bands over the rated load
	pulls      [2]lastPull   // of a tie-down that left the hours of a band
	made       made          // what each cause can be expected to have left beside it
	inBand     float64       // hours in the band of the peak; negative where no band tells
	bandFrom   int           // that band
	bandTo     int           //
	hours      float64       // of a band, over the rated load at most
	custody    cover         // who had the machine
	moving     *record.Hour  //
	empty      *emptyShare   //
	after      *afterwards   //
	alarms     *alarms       //
	power      *powerBy      //
	pattern    *pattern      //
	when       *whenSet      //
	haulier    *haulierTrips //
	tied       *tiedDown     //
	checks     checkedCell   //
	past       float64       // peak before the interval; 0 when not known
	timed      bool          // hours of the interval are known
	loose      bool          // it may be older than the interval: what held within the interval says nothing
}

// span is a range of loads by number.
type span struct{ from, to int }

// neighbour is another band over the rated load: its loads and the hours that it
// gained, none or some.
type neighbour struct {
	span
	hours float64
	next  bool // to the band of the piece
}

// cover is how an interval's clock hours divide by custody.
type cover struct {
	known            bool    // both readings are dated
	total            float64 // clock hours
	transit, unnamed float64
	depot            float64
	trips            float64 // transit entries, as far as they lie in the interval
	tripHours        float64 // mean length of those; 0 where only days are given
	implied          float64 // trips that custody must have missed, as far as they lie in the interval
	missed           float64 // hours within which those went
	gaps             []gap
	whole            []record.Custody
}

// gap is a time between two entries of custody in which the machine must have
// been carried, because it was in other hands afterwards.
type gap struct{ from, to time.Time }

// moves lists the trips that custody must have missed: from the yard to a hirer,
// from a hirer to the next, with no transit in between. The workshop may be at
// the yard.
func moves(c *record.Case) []gap {
	entries := make([]record.Custody, 0, len(c.Custody))
	for _, u := range c.Custody {
		if u.To.After(u.From) {
			entries = append(entries, u)
		}
	}
	record.SortStable(entries, func(a, b record.Custody) int { return a.From.Compare(b.From) })
	var out []gap
	for i := 1; i < len(entries); i++ {
		a, b := entries[i-1], entries[i]
		if a.Holder == record.Transit || b.Holder == record.Transit || a.Holder != record.Hire && b.Holder != record.Hire {
			continue
		}
		if a.Holder == b.Holder && a.Who == b.Who || b.From.Sub(a.To) > longestGap {
			continue
		}
		g := gap{a.To, b.From}
		if g.to.Before(g.from) { // the entries overlap
			g.from, g.to = g.to, g.from
		}
		out = append(out, gap{g.from.Add(-shortWay), g.to.Add(shortWay)})
	}
	return out
}

// longestGap is the longest time between two entries in which just one trip is
// taken to be missing, shortWay how far off the times of a change may be; both
// assumptions.
const (
	longestGap = 36 * time.Hour
	shortWay   = time.Hour
)

// coverOf divides the time of an interval by custody.
func coverOf(c *record.Case, from, to time.Time) cover {
	to = lastOf(to)
	out := cover{known: !from.IsZero() && !to.IsZero() && to.After(from)}
	if !out.known {
		return out
	}
	held, unknown := c.Cover(from, to)
	out.total, out.unnamed = to.Sub(from).Hours(), unknown.Hours()
	out.transit, out.depot = held[record.Transit].Hours(), held[record.Depot].Hours()
	timed := 0.0
	for _, u := range c.Custody {
		if u.Holder != record.Transit || !u.To.After(u.From) || !u.From.Before(to) || !u.To.After(from) {
			continue
		}
		inside := clip(u.From, u.To, from, to)
		out.trips += inside / u.To.Sub(u.From).Hours()
		if !midnight(u.From) || !midnight(u.To) {
			out.tripHours += inside
			timed += inside / u.To.Sub(u.From).Hours()
		}
		out.whole = append(out.whole, u)
	}
	if timed > 0 {
		out.tripHours /= timed
	}
	record.SortStable(out.whole, func(a, b record.Custody) int { return a.From.Compare(b.From) })
	for _, g := range moves(c) {
		if inside := clip(g.from, g.to, from, to); inside > 0 {
			out.implied += inside / g.to.Sub(g.from).Hours()
			out.missed += inside
			out.gaps = append(out.gaps, g)
		}
	}
	return out
}

// missing returns for how many hours between two times custody may miss a trip.
func (c *cover) missing(from, to time.Time) (hours float64) {
	for _, g := range c.gaps {
		hours += clip(g.from, g.to, from, to)
	}
	return hours
}

// clip returns how many hours of a span lie between two times.
func clip(from, to, first, last time.Time) float64 {
	if from.Before(first) {
		from = first
	}
	if to.After(last) {
		to = last
	}
	return max(0, to.Sub(from).Hours())
}

func midnight(t time.Time) bool { return t.UTC().Equal(t.UTC().Truncate(24 * time.Hour)) }

// lastOf returns the last moment that a time may stand for. One of exactly
// midnight is most likely a day without a time of day: all of it may be meant.
func lastOf(t time.Time) time.Time {
	if t.IsZero() || !midnight(t) {
		return t
	}
	return t.Add(24 * time.Hour)
}

// factsOf reads a history for one exceedance. The loads are those of loadsOf.
func (s *intervals) factsOf(x Exceedance, loads []float64, habits Habits) facts {
	h := s.h
	f := facts{h: h, s: s, x: x, v: h.Intervals[x.at], peak: -1, bandFrom: -1, bandTo: -1, to: -1, inBand: -1}
	f.loose = f.mayBeOlder()
	number := func(kg record.Kilogram) int {
		i, _ := slices.BinarySearch(loads, float64(kg))
		return i
	}
	f.from = number(max(x.From, h.Rated))
	if x.What == Band && x.To != nil {
		f.to = number(*x.To)
	}
	f.hours = math.Max(float64(x.High), leastHours)
	if !f.loose {
		f.custody = *s.cover(x.at)
	}
	f.readPeak(number)
	f.readNeighbours(number)
	f.readOpportunity()
	f.moving = f.v.Moving
	f.readEmpty()
	f.readAfter()
	f.readWhen()
	f.readAlarms()
	f.readPower()
	f.readPattern()
	f.readHaulier(habits)
	f.readTied()
	f.readChecks()
	return f
}

// leastHours is the shortest time that is told from none.
const leastHours = 1e-4

// mayBeOlder reports whether the exceedance may have come about before the
// interval: a peak that no reading at its beginning dates, or hours of a change
// that is withheld.
func (f *facts) mayBeOlder() bool {
	if f.x.What == Peak {
		return f.v.PeakLoose && f.peakTime().IsZero()
	}
	return f.v.Withheld != "" && f.v.Before >= 0
}

func (f *facts) readPeak(number func(record.Kilogram) int) {
	if f.v.Before >= 0 {
		if before := f.h.Case.Readings[f.v.Before].Peak; before != nil {
			f.past = float64(*before)
		}
	}
	if !f.v.PeakRose || f.v.Peak == nil || *f.v.Peak <= f.h.Rated {
		return
	}
	f.peak = number(*f.v.Peak)
	if f.v.Withheld != "" {
		return
	}
	for k, b := range f.v.Bands {
		if *f.v.Peak >= b.From && (b.Open() || *f.v.Peak < *b.To) {
			if k > 0 && b.Hours <= 0 && float64(*f.v.Peak) < noisy*float64(b.From) && f.v.Bands[k-1].Hours > 0 {
				b = f.v.Bands[k-1]
			}
			if f.inBand = float64(b.Hours); b.From < f.h.Rated && b.Hours > 0 {
				f.inBand = -1 // they may lie under the rated load
			}
			f.bandFrom = number(max(b.From, f.h.Rated))
			if !b.Open() {
				f.bandTo = number(*b.To)
			}
		}
	}
}

// noisy is how far over the edge of a band, of it, the highest of many readings of
// a load under the edge can lie; an assumption.
const noisy = 1.02

// readNeighbours lists the other bands over the rated load.
func (f *facts) readNeighbours(number func(record.Kilogram) int) {
	if f.v.Withheld != "" {
		return
	}
	for _, b := range f.v.Bands {
		if b.From < f.h.Rated || f.x.What == Band && b.From == f.x.From {
			continue
		}
		s := span{number(b.From), -1}
		if !b.Open() {
			s.to = number(*b.To)
		}
		if f.x.What == Peak && s.from == f.bandFrom && f.bandFrom >= 0 {
			continue // the band of the peak is read on its own
		}
		f.neighbours = append(f.neighbours, neighbour{s, float64(b.Hours), s.from == f.ownTo() || s.to >= 0 && s.to == f.ownFrom()})
	}
}

// ownFrom and ownTo are the limits of the band of a piece.
func (f *facts) ownFrom() int {
	if f.x.What == Band {
		return f.from
	}
	return f.bandFrom
}

func (f *facts) ownTo() int {
	if f.x.What == Band {
		return f.to
	}
	return f.bandTo
}

// readOpportunity works out what the interval gave occasion for.
func (f *facts) readOpportunity() {
	v := f.v
	powered := float64(record.Total(v.Bands))
	if v.Powered != nil {
		powered = max(powered, float64(*v.Powered))
	}
	if f.loose || powered <= 0 { // all that the machine has behind it
		c := f.h.Counters(f.x.at)
		powered = max(powered, float64(record.Total(c.Bands)))
		if c.Powered != nil {
			powered = max(powered, float64(*c.Powered))
		}
	}
	f.timed = powered > 0
	if !f.timed {
		powered = usualInterval.powered
	}
	f.o = opportunity{powered: powered, work: powered, unlisted: powered, earlier: f.earlier(), step: f.s.step}
	c := f.custody
	if !c.known || c.total <= 0 || len(f.h.Case.Custody) == 0 {
		return
	}
	f.o.work = min(powered, c.total-c.transit-c.depot) + inYard*min(powered, c.depot)
	f.o.trips, f.o.tripHours = c.trips+c.implied, c.tripHours
	f.o.unlisted = powered * c.unnamed / c.total
}

// earlier returns for how many powered hours before the interval a fault of the
// cell can have begun: for hardly any where the interval before shows that there was
// none yet, the surer the more hours it counted.
func (f *facts) earlier() float64 {
	if f.loose || f.x.at == 0 {
		return usualInterval.earlier
	}
	before := f.h.Intervals[f.x.at-1]
	if before.Withheld != "" {
		return usualInterval.earlier
	}
	hidden := exp(-float64(record.Total(before.Bands)) / leastToTell)
	switch low, high := f.s.each[f.x.at-1].low, f.s.each[f.x.at-1].high; {
	case high <= 0 && hidden < asGoodAsNone:
		return 0
	case high <= 0:
		return hidden * usualInterval.earlier
	case low > 0:
		return (2 - hidden) * usualInterval.earlier
	}
	return usualInterval.earlier
}

// asGoodAsNone is the chance under which a fault is not taken to have hidden in the
// interval before; an assumption.
const asGoodAsNone = 1e-4

// inYard is how much occasion for work an hour of power in the yard gives, of one
// on hire; an assumption.
const inYard = 0.088

// stepOf returns the step in which the machine counts hours: 1 h, 0.1 h or a
// minute, the widest that fits all hours of the bands.
func stepOf(c *record.Case) float64 {
	for _, step := range []float64{1, 0.1} {
		if multiples(c, step) {
			return step
		}
	}
	return 1.0 / 60
}

// offStep is how far from a whole number of steps hours may lie, in steps, that are
// counted in it: figures that were converted are off by a little.
const offStep = 0.01

func multiples(c *record.Case, step float64) bool {
	for _, r := range c.Readings {
		for _, b := range r.Bands {
			n := float64(b.Hours) / step
			if math.Abs(n-math.Round(n)) > offStep {
				return false
			}
		}
	}
	return true
}

// loadsOf lists, in order, the loads that the evidence of a history asks for.
func loadsOf(h record.History, pieces []Exceedance) []float64 {
	loads := []float64{float64(h.Rated)}
	for _, v := range h.Intervals {
		for _, b := range v.Bands {
			loads = append(loads, float64(max(b.From, h.Rated)))
			if !b.Open() {
				loads = append(loads, float64(max(*b.To, h.Rated)))
			}
		}
		if v.Peak != nil {
			loads = append(loads, float64(max(*v.Peak, h.Rated)))
		}
	}
	for _, x := range pieces {
		loads = append(loads, float64(max(x.From, h.Rated)))
		if x.What == Band && x.To != nil {
			loads = append(loads, float64(max(*x.To, h.Rated)))
		}
	}
	slices.Sort(loads)
	return slices.Compact(loads)
}
