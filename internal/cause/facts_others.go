package cause

import (
	"ratchetmark/internal/record"
)

// emptyShare is how much of the counted hours lay in the lowest band, in this
// interval and in the others of the machine.
type emptyShare struct {
	edge   float64 // upper edge of the band, kg
	now    float64
	usual  float64 // in the others; negative where they tell nothing
	shares shares
}

// leastToTell is how many counted hours tell how a platform is used.
const leastToTell = 5

func (f *facts) readEmpty() {
	if f.v.Withheld != "" || f.loose {
		return
	}
	lowest, total, ok := lowestBand(f.v.Bands)
	if !ok || total < leastToTell {
		return
	}
	e := emptyShare{edge: float64(*f.v.Bands[0].To), now: lowest / total, usual: -1}
	var others, all float64
	for i, v := range f.h.Intervals {
		if i == f.x.at || v.Withheld != "" || len(v.Bands) == 0 {
			continue
		}
		if low := f.s.each[i].low; low > 0.02*float64(record.Total(v.Bands)) {
			continue
		}
		if low, sum, ok := lowestBand(v.Bands); ok && *v.Bands[0].To == *f.v.Bands[0].To {
			others, all = others+low, all+sum
		}
	}
	if all >= leastToTell {
		e.usual = others / all
	}
	e.shares = sharesOf(&e)
	f.empty = &e
}

// lowestBand returns the hours in the band that begins at no load, and in all.
func lowestBand(bands []record.Band) (lowest, total float64, ok bool) {
	if len(bands) < 2 || bands[0].From != 0 || bands[0].Open() {
		return 0, 0, false
	}
	return float64(bands[0].Hours), float64(record.Total(bands)), true
}

// overHours bounds the hours over a load.
func overHours(v record.Interval, load record.Kilogram) (low, high float64) {
	for _, s := range v.Segments() {
		l, _, h, _ := s.Over(load)
		low, high = low+float64(l), high+float64(h)
	}
	return low, high
}

// wentOver reports whether something in an interval went over a load; known is
// false where a band that lies on both sides of it leaves that open.
func wentOver(v record.Interval, load record.Kilogram) (over, known bool) {
	low, high := overHours(v, load)
	return wentBy(v, load, low, high)
}

// wentBy is the same where the hours over the load are known.
func wentBy(v record.Interval, load record.Kilogram, low, high float64) (over, known bool) {
	over = low > 0 || v.PeakRose && *v.Peak > load
	return over, over || high <= 0
}

// afterwards is what the interval after showed.
type afterwards struct {
	hours    float64 // counted
	over     float64 // over the rated load
	lowest   float64 // in bands wholly below the piece
	workshop bool    // somebody may have corrected the cell in between
}

func (f *facts) readAfter() {
	if f.x.at+1 >= len(f.h.Intervals) || f.loose {
		return
	}
	next := f.h.Intervals[f.x.at+1]
	if next.Withheld != "" || len(next.Bands) == 0 {
		return
	}
	low, high := f.s.each[f.x.at+1].low, f.s.each[f.x.at+1].high
	a := afterwards{hours: float64(record.Total(next.Bands)), over: low}
	if a.hours < leastToTell || low <= 0 && high > 0 { // a band on both sides of the rated load leaves it open
		return
	}
	a.lowest, _, _ = lowestBand(next.Bands)
	for _, v := range []record.Interval{f.v, next} {
		held, unknown := f.h.Case.Cover(v.From, lastOf(v.To))
		if held[record.Workshop] > 0 || unknown > 0 || v.From.IsZero() || v.To.IsZero() {
			a.workshop = true
		}
	}
	f.after = &a
}

// pattern is in how many other intervals something went over, with trips and
// without, by custody.
type pattern struct {
	tripOver, tripNot, restOver, restNot int
	lashed, otherwise                    float64 // how probable it is
}

func (f *facts) readPattern() {
	if !f.custody.known {
		return
	}
	p := pattern{}
	for i, v := range f.h.Intervals {
		if i == f.x.at || v.Withheld != "" || v.From.IsZero() || v.To.IsZero() || len(v.Bands) == 0 && v.Peak == nil {
			continue
		}
		c := f.s.cover(i)
		if c.total <= 0 || c.unnamed > 0.1*c.total {
			continue
		}
		over, known := f.s.each[i].went, f.s.each[i].told
		switch {
		case !known:
		case c.trips > 0 && over:
			p.tripOver++
		case c.trips > 0:
			p.tripNot++
		case over:
			p.restOver++
		default:
			p.restNot++
		}
	}
	if p.tripOver+p.tripNot > 0 && p.restOver+p.restNot > 0 {
		p.weigh()
		f.pattern = &p
	}
}

// Trips is what became of the trips of one haulier on other machines: how many
// intervals that hold little but such a trip saw something go over the rated
// load, and how many did not.
type Trips struct{ Over, Not int }

// Habits is what other machines show of hauliers, by the name in custody.
type Habits map[string]Trips

type haulierTrips struct {
	who string
	Trips
}

func (f *facts) readHaulier(habits Habits) {
	for _, u := range f.custody.whole {
		if t, ok := habits[u.Who]; ok && u.Who != "" && t.Over+t.Not > 0 {
			f.haulier = &haulierTrips{u.Who, t}
			return
		}
	}
}

// mostlyTrip is the share of an interval's clock hours from which it counts as
// little but a trip.
const mostlyTrip = 0.5

// HabitsOf collects what machines show of hauliers: intervals that are mostly a
// trip of one haulier.
func HabitsOf(histories []record.History) Habits {
	out := Habits{}
	for _, h := range histories {
		if h.Rated <= 0 {
			continue
		}
		for _, v := range h.Intervals {
			c := coverOf(h.Case, v.From, v.To)
			if v.Withheld != "" || !c.known || len(c.whole) != 1 || c.transit < mostlyTrip*c.total || c.whole[0].Who == "" {
				continue
			}
			over, known := wentOver(v, h.Rated)
			t := out[c.whole[0].Who]
			switch {
			case over:
				t.Over++
			case known:
				t.Not++
			}
			out[c.whole[0].Who] = t
		}
	}
	return out
}

// Less returns the habits without what one machine adds to them, so that a
// machine is not held against itself.
func (h Habits) Less(own Habits) Habits {
	out := Habits{}
	for who, t := range h {
		if left := (Trips{t.Over - own[who].Over, t.Not - own[who].Not}); left != (Trips{}) {
			out[who] = left
		}
	}
	return out
}

// Loads of a load test, as shares of the rated load, and how near a peak has to
// be: the dynamic and the static test of Regulation (EU) 2023/1230, Annex III,
// 4.1.2.3 (read); the nearness is an assumption.
var testLoads = []float64{1.1, 1.25, 1.5}

const testNearness = 0.02

// likeLoadTest reports whether the machine was in a workshop and its peak is that of
// a load test: the piece, or in its band.
func (f *facts) likeLoadTest() bool {
	if !f.custody.known || f.v.Peak == nil || !f.v.PeakRose {
		return false
	}
	if f.x.What == Band && (*f.v.Peak < f.x.From || f.x.To != nil && *f.v.Peak >= *f.x.To) {
		return false
	}
	for _, share := range testLoads {
		if r := float64(*f.v.Peak / f.h.Rated); r > share-testNearness && r < share+testNearness {
			held, _ := f.h.Case.Cover(f.v.From, lastOf(f.v.To))
			return held[record.Workshop] > 0
		}
	}
	return false
}
