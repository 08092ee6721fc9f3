package cause

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
	// plain are the causes under which the item knows of no latent value. What it
	// reads is told in [askedBy].
	plain touches
}

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
	{id: "occasion", title: "powered time and trips", reads: "hours and trips of the interval, custody", cap: 2.25, applies: isTimed, weigh: occasion, text: occasionText},
	{id: "size", title: "the size of the load", reads: "the load", cap: 3.5, applies: always, weigh: size, text: sizeText},
	{id: "hours", title: "hours at such loads", reads: "the hours counted at such loads", cap: 4.5, applies: hasHours, weigh: hoursOf, text: hoursText},
	{id: "neighbours", title: "the other bands", reads: "what the other bands over the rated load gained", cap: 0.75, applies: hasNeighbours, weigh: neighbours, text: neighboursText},
	{id: "peak-place", title: "place of the peak", reads: "where the highest load lies, in the band or above it", cap: 1.75, applies: hasPeakBeside, weigh: peakBeside, text: peakPlaceText},
	{id: "empty-band", title: "share near empty", reads: "share of hours in the lowest band, against the machine's other intervals", cap: 2, applies: hasEmpty, weigh: each(emptyBand), text: emptyText, plain: butDrift},
	{id: "movement", title: "movement", reads: "moving hours against powered hours", cap: 1.25, applies: hasMovement, weigh: same(movement), text: movementText, plain: ofAll},
	{id: "moment", title: "when the peak was set", reads: "when the peak was set, against custody", cap: 2, applies: hasMoment, weigh: same(moment), text: momentText, plain: ofAll},
	{id: "power", title: "where it was powered", reads: "power on and off, or daily use, against custody", cap: 0.37, applies: hasPower, weigh: same(power), text: powerText, plain: ofAll},
	{id: "alarms", title: "overload alarms", reads: "overload alarms, against custody", cap: 1.5, applies: hasAlarms, weigh: same(alarmsOf), text: alarmsText, plain: ofAll},
	{id: "afterwards", title: "the interval after", reads: "the interval after", cap: 0.75, applies: hasAfter, weigh: each(after), text: afterText, plain: butDrift},
	{id: "pattern", title: "other trips of the machine", reads: "the machine's other intervals, with trips and without", cap: 0.5, applies: hasPattern, weigh: same(patternOf), text: patternText, plain: ofAll},
	{id: "haulier", title: "other trips of the haulier", reads: "trips of the same haulier with other machines", cap: 1, applies: hasHaulier, weigh: each(haulier), text: haulierText, plain: butLashed},
	{id: "tie-down", title: "the tie-down that was used", reads: "what is known of the tie-down on trips of the interval", cap: 1.5, applies: hasTied, weigh: tieDown, text: tiedText, plain: butLashed},
	{id: "zero-check", title: "the cell with nothing on it", reads: "the load shown with the platform empty", cap: 1.5, applies: hasZeroCheck, weigh: zeroCheck, text: zeroText, plain: butDrift},
	{id: "known-mass", title: "the cell under a known mass", reads: "the load shown with a known mass on the platform", cap: 1.5, applies: hasMassCheck, weigh: massCheck, text: massText, plain: butDrift},
}

func always(*facts) bool { return true }

func isTimed(f *facts) bool { return f.timed }

// occasion: how much more, or less, occasion the interval gave than a usual one.
func occasion(e *ask, like []float64) {
	for i := range like {
		like[i] = e.some(i) / e.model.usually()
	}
}

// size: how probable the load is, given that something went over.
func size(e *ask, like []float64) {
	if e.x.What == Peak {
		for i := range like {
			like[i] = sizeOfPeak(e, i)
		}
		return
	}
	b := e.band(span{e.from, e.to}, e.hours)
	for i := range like {
		like[i] = b.chance[i]
		if e.cause != iDrift {
			like[i] /= e.some(i)
		}
	}
}

func sizeOfPeak(e *ask, i int) float64 {
	t := e.atTop()
	if e.cause == iDrift {
		return t.density[i]
	}
	return e.mean(i) * t.density[i] * t.none[i] / e.some(i)
}

func hasHours(f *facts) bool {
	return f.x.What == Band && f.x.Low > 0 || f.x.What == Peak && f.inBand >= 0
}

// Beside the occasion that set a peak, the hours in its band can have come from
// anything else.
const (
	somethingElse = 0.074 // share of bands in which it did; an assumption
	overlong      = 0.4   // how far hours that custody leaves no time for speak against a cause; an assumption
	usualWay      = 1.2   // h, for a trip that custody must have missed; an assumption
)

var otherHours = lognormal{1, 2} // hours that come from anything else; an assumption

// hoursOf: how probable the hours counted at such loads are.
func hoursOf(e *ask, like []float64) {
	if e.x.What == Band {
		copy(like, e.band(span{e.from, e.to}, e.hours).density[:])
		if e.tooLong() {
			for i := range like {
				like[i] *= overlong
			}
		}
		return
	}
	if e.inBand <= 0 {
		fill(like, e.yield.brief)
		return
	}
	copy(like, e.band(span{e.bandFrom, e.bandTo}, e.inBand).density[:])
	other := somethingElse * otherHours.density(e.inBand) * e.upTo
	for i := range like {
		like[i] += other
	}
}

// tooLong reports whether a band has more hours than custody leaves time for.
func (e *ask) tooLong() bool {
	c := &e.custody
	if !c.known || len(e.h.Case.Custody) == 0 || c.unnamed > 0.05*c.total {
		return false
	}
	slack := 2*e.o.step + 0.1*e.hours
	switch e.cause {
	case iLashed:
		return e.hours > c.transit+c.implied*usualWay+slack
	case iWorked:
		return e.hours > c.total-c.transit+slack
	}
	return false
}

func expNeg(x float64) float64 { return exp(-x) }
