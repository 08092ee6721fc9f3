package cause

import "math"

// numbers of the causes, in the order of All.
const (
	iWorked = iota
	iLashed
	iShock
	iDrift
)

// item is one row of evidence: what it reads of the record, and how probable
// that is under each cause. Items are weighed in the order of the table, each
// given those before it: what they share is counted once.
type item struct {
	id    string
	group string // items that read the same parameters; may be empty
	title string // in a word or two
	reads string // what of the record it reads
	cap   float64
	// applies reports whether the record has what the item needs.
	applies func(f *facts) bool
	// weigh works out the likelihood under one cause, for each of its latent
	// values.
	weigh func(e *ask, like []float64)
	// text says what was found.
	text func(f *facts) string
	// plain are the causes under which the item knows of no latent value, and of
	// no parameter of a model but those that it reads beside it.
	plain touches
}

// ask is what an item is asked about: a piece, under one cause.
type ask struct {
	*facts
	p     *params
	cause int
	model model
}

// mean returns the occasions that the interval is expected to hold over the
// rated load.
func (e *ask) mean(i int) float64 { return max(e.model.occasions(i, &e.o), 1e-9) }

// each weighs an item for each latent value by itself.
func each(weigh func(e *ask, i int) float64) func(e *ask, like []float64) {
	return func(e *ask, like []float64) {
		for i := range like {
			like[i] = weigh(e, i)
		}
	}
}

// same weighs an item that knows of no latent value.
func same(weigh func(e *ask) float64) func(e *ask, like []float64) {
	return func(e *ask, like []float64) { fill(like, weigh(e)) }
}

func fill(like []float64, x float64) {
	for i := range like {
		like[i] = x
	}
}

// evidence is the table of items. A cap is in log10 between the best and the
// worst cause: no single item speaks louder, because its model is not that sure.
var evidence = []item{
	{id: "occasion", title: "powered time and trips", reads: "hours and trips of the interval, custody", cap: 2, applies: isTimed, weigh: occasion, text: occasionText},
	{id: "size", title: "the size of the load", reads: "the load", cap: 3, applies: always, weigh: each(size), text: sizeText},
	{id: "hours", title: "hours at such loads", reads: "the hours counted at such loads", cap: 2.5, applies: hasHours, weigh: hoursOf, text: hoursText},
	{id: "neighbours", title: "bands without hours", reads: "bands over the rated load that gained nothing", cap: 2, applies: hasNeighbours, weigh: each(neighbours), text: neighboursText},
	{id: "peak-in-band", title: "place of the peak", reads: "where in the band the highest load lies", cap: 1, applies: hasPeakInBand, weigh: each(peakInBand), text: peakInBandText},
	{id: "empty-band", title: "share near empty", reads: "share of hours in the lowest band, against the machine's other intervals", cap: 2, applies: hasEmpty, weigh: each(emptyBand), text: emptyText, plain: butDrift},
	{id: "movement", title: "movement", reads: "moving hours against powered hours", cap: 1.5, applies: hasMovement, weigh: same(movement), text: movementText, plain: ofAll},
	{id: "moment", title: "when the peak was set", reads: "when the peak was set, against custody", cap: 2, applies: hasMoment, weigh: same(moment), text: momentText, plain: ofAll},
	{id: "power", title: "where it was powered", reads: "power on and off, or daily use, against custody", cap: 1.5, applies: hasPower, weigh: same(power), text: powerText, plain: ofAll},
	{id: "alarms", title: "overload alarms", reads: "overload alarms, against custody", cap: 1.5, applies: hasAlarms, weigh: same(alarmsOf), text: alarmsText, plain: ofAll},
	{id: "afterwards", title: "the interval after", reads: "the interval after", cap: 1.5, applies: hasAfter, weigh: each(after), text: afterText, plain: butDrift},
	{id: "pattern", title: "other trips of the machine", reads: "the machine's other intervals, with trips and without", cap: 0.7, applies: hasPattern, weigh: same(patternOf), text: patternText, plain: ofAll},
	{id: "haulier", group: "habit", title: "other trips of the haulier", reads: "trips of the same haulier with other machines", cap: 1, applies: hasHaulier, weigh: each(haulier), text: haulierText, plain: butLashed},
	{id: "tie-down", group: "habit", title: "the tie-down that was used", reads: "what is known of the tie-down on trips of the interval", cap: 1.5, applies: hasTied, weigh: tieDown, text: tiedText, plain: butLashed},
	{id: "zero-check", group: "checks", title: "the cell with nothing on it", reads: "the load shown with the platform empty", cap: 1.5, applies: hasZeroCheck, weigh: zeroCheck, text: zeroText, plain: butDrift},
	{id: "known-mass", group: "checks", title: "the cell under a known mass", reads: "the load shown with a known mass on the platform", cap: 1.5, applies: hasMassCheck, weigh: massCheck, text: massText, plain: butDrift},
}

func always(*facts) bool { return true }

func isTimed(f *facts) bool { return f.timed }

// occasion: how much more, or less, occasion the interval gave than a usual one.
func occasion(e *ask, like []float64) {
	usual := 0.0
	for i, l := range e.model.latents() {
		usual += l.weight * some(e.model.occasions(i, &usualInterval))
		like[i] = some(e.mean(i))
	}
	for i := range like {
		like[i] /= usual
	}
}

// size: how probable the load is, given that something went over.
func size(e *ask, i int) float64 {
	mean := e.mean(i)
	if e.x.What == Peak {
		c := e.model.highest(i)
		if d, ok := e.model.(*drift); ok {
			return d.peakDensity(i, float64(*e.x.Peak), e.past)
		}
		return mean * c.density(e.from) * expNeg(mean*c.over(e.from)) / some(mean)
	}
	share := e.model.curve(i).share(e.from, e.to)
	if d, ok := e.model.(*drift); ok {
		return some(d.expected(i, &e.o) * share / e.o.step)
	}
	return some(mean*share) / some(mean)
}

func hasHours(f *facts) bool {
	return f.x.What == Band && f.x.Low > 0 || f.x.What == Peak && f.inBand >= 0
}

// Beside the occasion that set a peak, the hours in its band can have come from
// anything else.
const (
	somethingElse = 0.3 // share of bands in which it did; an assumption
)

var otherHours = lognormal{1, 2} // hours that come from anything else; an assumption

// hoursOf: how probable the hours counted at such loads are.
func hoursOf(e *ask, like []float64) {
	if e.x.What == Band {
		e.model.hours(func(i int) float64 { return e.model.curve(i).share(e.from, e.to) }, e.hours, &e.o, like)
		return
	}
	if e.inBand <= 0 {
		fill(like, e.model.within(0, &e.o))
		return
	}
	e.model.hours(func(i int) float64 { return e.model.curve(i).share(e.bandFrom, e.bandTo) }, e.inBand, &e.o, like)
	other := somethingElse * otherHours.density(e.inBand) * e.model.within(e.inBand, &e.o)
	for i := range like {
		like[i] += other
	}
}

// How much alike the overloads of one crew are, and the chance that a machine
// whose cell drifted only ever lifts one load; assumptions.
const (
	alikeAtWork = 0.7
	onlyOneLoad = 0.1
)

func hasNeighbours(f *facts) bool { return len(f.neighbours) > 0 }

// neighbours: how probable it is that other bands over the rated load gained
// nothing.
func neighbours(e *ask, i int) float64 {
	share := 0.0
	for _, s := range e.facts.neighbours {
		share += e.model.curve(i).share(s.from, s.to)
	}
	if d, ok := e.model.(*drift); ok {
		return max(expNeg(d.expected(i, &e.o)*share/e.o.step), onlyOneLoad)
	}
	share *= 1 - [4]float64{iWorked: alikeAtWork, iLashed: alike}[e.cause]
	return expNeg(e.mean(i) * share * (1 - e.model.within(0, &e.o)))
}

func hasPeakInBand(f *facts) bool {
	return f.x.What == Band && f.peak >= 0 && f.v.Withheld == "" && *f.v.Peak >= f.x.From && (f.x.To == nil || *f.v.Peak < *f.x.To)
}

const sameOccasion = 0.6 // chance that the peak in a band and its hours have one cause; an assumption

// peakInBand: how probable the place of the peak in the band is, against any
// other place in it.
func peakInBand(e *ask, i int) float64 {
	return sameOccasion*peakShape(e, i) + 1 - sameOccasion
}

func peakShape(e *ask, i int) float64 {
	c := e.model.highest(i)
	share := max(c.share(e.from, e.bandTo), 1e-9)
	return c.density(e.peak) * math.Log(e.bandWidth()) / share
}

// bandWidth is how many times its lower edge the upper edge of the piece's band
// is; twice where it is open upwards.
func (f *facts) bandWidth() float64 {
	from := float64(max(f.x.From, f.h.Rated))
	if f.x.To == nil {
		return 2
	}
	return max(float64(*f.x.To)/from, 1.0001)
}

func expNeg(x float64) float64 { return math.Exp(-x) }
