package record

import (
	"fmt"
	"slices"
)

var bandRules = []Rule{
	{
		ID: "band-reversed", Severity: Blocking,
		Asks:   "does every band's upper edge lie above its lower edge",
		Effect: "the hours of this reading's bands are not used",
		Hint:   "exchange or correct the two edges",
		find: eachBand(func(r *Reading, j int, hit bandHit) {
			if b := r.Bands[j]; !b.Open() && *b.To <= b.From {
				hit("the band runs from "+Number(b.From)+" kg to "+Number(*b.To)+" kg", "an upper edge above the lower edge")
			}
		}),
	},
	{
		ID: "band-duplicate", Severity: Blocking,
		Asks:   "does every band appear once",
		Effect: "hours may be counted twice; the hours of this reading's bands are not used",
		Hint:   "remove one of the two, or correct its edges",
		find: eachBand(func(r *Reading, j int, hit bandHit) {
			for i := range j {
				if r.Bands[i].SameEdges(r.Bands[j]) {
					hit(fmt.Sprintf("%s stands twice, as band %d and band %d", bandText(r.Bands[j]), i+1, j+1), "each band once")
					return
				}
			}
		}),
	},
	{
		ID: "band-overlap", Severity: Blocking,
		Asks:   "does no load belong to two bands",
		Effect: "hours may be counted twice; the hours of this reading's bands are not used",
		Hint:   "correct the edges; each band begins where the one below ends",
		find: eachBand(func(r *Reading, j int, hit bandHit) {
			for i := range j {
				a, b := r.Bands[i], r.Bands[j]
				if !a.SameEdges(b) && !isReversed(a) && !isReversed(b) && overlaps(a, b) {
					hit(fmt.Sprintf("%s shares loads with band %d, %s", bandText(b), i+1, bandText(a)), "bands that do not overlap")
					return
				}
			}
		}),
	},
	{
		ID: "band-gap", Severity: Doubt,
		Asks:   "do the bands cover every load from the lowest to the highest edge",
		Effect: "hours spent in the gap are missing; every figure of hours is a lower bound in that range",
		Hint:   "look for a band that was left out",
		find: eachBand(func(r *Reading, j int, hit bandHit) {
			b := r.Bands[j]
			if slices.ContainsFunc(r.Bands, isReversed) {
				return // where its loads lie is not known
			}
			below, covered := nearestBelow(r.Bands, b.From)
			if !covered && below >= 0 {
				hit("no band counts loads from "+Number(below)+" kg to "+Number(b.From)+" kg", "a band that begins where the one below ends")
			}
		}),
	},
	{
		ID: "band-unsorted", Severity: Note,
		Asks:   "are the bands in order of load",
		Effect: "none; they are taken in order of load, each with its own hours",
		Hint:   "compare the order with the machine's screen: a swapped pair of lines looks the same",
		find: eachBand(func(r *Reading, j int, hit bandHit) {
			if j > 0 && r.Bands[j].From < r.Bands[j-1].From {
				hit("the band from "+Number(r.Bands[j].From)+" kg follows the one from "+Number(r.Bands[j-1].From)+" kg", "ascending loads")
			}
		}),
	},
	{
		ID: "bands-start-above-zero", Severity: Note,
		Asks:   "is there a band for the empty platform",
		Effect: "whether the empty platform reads as empty cannot be told from the bands",
		Hint:   "look for a lowest band that was left out",
		find: eachReading(func(i int, r *Reading, hit func(Path, string, string)) {
			if len(r.Bands) == 0 {
				return
			}
			if lowest := inLoadOrder(r.Bands)[0].From; lowest > 0 {
				hit(readingPath(i).At("bands"), "the lowest band begins at "+Number(lowest)+" kg", "a band from 0 kg")
			}
		}),
	},
}

type bandHit func(message, expected string)

func eachReading(f func(i int, r *Reading, hit func(Path, string, string))) func(*Case, func(Path, string, string)) {
	return func(c *Case, hit func(Path, string, string)) {
		for i := range c.Readings {
			f(i, &c.Readings[i], hit)
		}
	}
}

// eachBand visits the bands of the readings whose bands do not just meet: in
// those that do there is nothing for a rule about bands to find.
func eachBand(f func(r *Reading, j int, hit bandHit)) func(*Case, func(Path, string, string)) {
	return func(c *Case, hit func(Path, string, string)) {
		var i, j int
		here := func(message, expected string) { hit(bandPath(i, j), message, expected) }
		for i = range c.Readings {
			r := &c.Readings[i]
			if meet(r.Bands) {
				continue
			}
			for j = range r.Bands {
				f(r, j, here)
			}
		}
	}
}

func isReversed(b Band) bool { return !b.Open() && *b.To <= b.From }

// overlaps reports whether two bands [from, to) share a load.
func overlaps(a, b Band) bool {
	return (a.Open() || b.From < *a.To) && (b.Open() || a.From < *b.To)
}

// nearestBelow finds what lies directly under a load: whether a band reaches
// up to it, and if none does the highest edge below it (-1 when there is none).
func nearestBelow(bands []Band, from Kilogram) (edge Kilogram, covered bool) {
	edge = -1
	for _, b := range bands {
		switch {
		case b.From >= from:
		case b.Open() || *b.To >= from:
			return 0, true
		case *b.To > edge:
			edge = *b.To
		}
	}
	return edge, false
}

// bandText names a band for a message.
func bandText(b Band) string {
	if b.Open() {
		return "the band over " + Number(b.From) + " kg"
	}
	return "the band from " + Number(b.From) + " to " + Number(*b.To) + " kg"
}
