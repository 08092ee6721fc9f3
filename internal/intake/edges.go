package intake

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"ratchetmark/internal/batch"
	"ratchetmark/internal/record"
	"ratchetmark/internal/wording"
)

// leastMeter is the least an hour meter is taken to show, h: bands may well have
// the same few hours.
const leastMeter = 24

// alike leaves out bands that all have the same hours where these may be the
// hour meter, repeated beside each band.
func (c *tableCase) alike() {
	for i := range c.readings {
		r, n := &c.out.Case.Readings[i], &c.readings[i]
		if !n.meter || n.spoilt || len(r.Bands) < 2 || r.Bands[0].Hours < leastMeter {
			continue
		}
		if slices.ContainsFunc(r.Bands, func(b record.Band) bool { return b.Hours != r.Bands[0].Hours }) {
			continue
		}
		n.paths = c.g.pathsOf(i)
		c.lacks(n, "hours-alike", fmt.Sprintf("every band has the same %s h: they may be the hour meter", record.Number(r.Bands[0].Hours)),
			"the hours in each band", "look for another column with the hours in the bands, or name the column hours in band")
	}
}

// meeting reports whether bands stand in order of load and each reaches up to the next.
func meeting(bands []record.Band) bool {
	for i := range len(bands) - 1 {
		to, from := bands[i].To, bands[i+1].From
		if to == nil || from <= bands[i].From || math.Abs(float64(from-*to)) >= 1e-6 {
			return false
		}
	}
	return true
}

// byLoad returns the indices of bands in order of load.
func byLoad(bands []record.Band) []int {
	order := make([]int, len(bands))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(i, j int) int { return cmp.Compare(bands[i].From, bands[j].From) })
	return order
}

// closeEdges closes bands that are labelled in whole units, as 0-89, 90-179, or
// in whole tenths or hundredths: the loads between 89 and 90 belong to one of the two.
func (c *tableCase) closeEdges(r *record.Reading, n *readingNotes) {
	if n.step == 0 || n.mixed || n.percent || len(r.Bands) < 2 || meeting(r.Bands) {
		return
	}
	order := byLoad(r.Bands)
	gap := 0.0
	for k := 0; k+1 < len(order); k++ {
		to, from := r.Bands[order[k]].To, r.Bands[order[k+1]].From
		if to == nil {
			return
		}
		here := float64(from - *to)
		if math.Abs(here) < 1e-6 {
			continue // these meet
		}
		if gap != 0 && math.Abs(here-gap) > 1e-6 {
			return
		}
		gap = here
	}
	if gap == 0 {
		return
	}
	steps := math.Round(n.step/gap*1e6) / 1e6
	if gap <= 0 || steps != 1 && steps != 10 && steps != 100 {
		return
	}
	rated := c.out.Case.Machine.RatedLoad
	for k := 0; k+1 < len(order); k++ {
		a, b := &r.Bands[order[k]], &r.Bands[order[k+1]]
		if *a.To == b.From {
			continue
		}
		if rated != nil && *a.To <= *rated && *rated < b.From { // up to 250, from 251: over 250 is over the rated load
			b.From = *rated
		}
		a.To = record.Of(b.From)
	}
	c.g.find(c, n.at, record.Finding{
		Code: "edges-closed", Severity: record.Note, Path: n.paths.reading.At("bands"),
		Message: "each band ends one step below the next, as counted in whole steps", Expected: "bands that meet",
		Effect: "each band is taken to reach up to the next", Hint: "check the labels if loads are recorded in fractions",
	})
}

// roundEdges puts an edge, or the peak, that is the rated load but for the
// rounding of another unit at the rated load: 227 kg are 500 lb.
func (c *tableCase) roundEdges(r *record.Reading, n *readingNotes) {
	rated := c.out.Case.Machine.RatedLoad
	if rated == nil {
		return
	}
	moved := false
	if near := rounding(n.unit, c.ratedUnit, float64(*rated)); !n.mixed && !n.percent && n.step != 0 && near > 0 {
		moved = roundTo(r.Bands, *rated, record.Kilogram(near))
	}
	if near := rounding(n.peakUnit, c.ratedUnit, float64(*rated)); near > 0 && r.Peak != nil && *r.Peak != *rated && math.Abs(float64(*r.Peak-*rated)) <= near {
		r.Peak, moved = record.Of(*rated), true
	}
	if moved && !c.rounded {
		c.rounded = true
		c.g.find(c, n.at, record.Finding{
			Code: "unit-rounded", Severity: record.Note, Path: n.paths.reading,
			Message: "a load is the rated load but for the rounding between two units", Expected: "loads in one unit",
			Effect: "it is taken as the rated load", Hint: "check it against the plate if it was meant to differ",
		})
	}
}

// roundTo puts the one edge that is nearest to a load, and near it, at that load.
func roundTo(bands []record.Band, load, near record.Kilogram) (moved bool) {
	nearest, least := load, near
	each := func(f func(x *record.Kilogram)) {
		for i := range bands {
			f(&bands[i].From)
			if bands[i].To != nil {
				f(bands[i].To)
			}
		}
	}
	each(func(x *record.Kilogram) {
		if d := max(*x, load) - min(*x, load); d <= least {
			nearest, least = *x, d
		}
	})
	if nearest == load {
		return false
	}
	each(func(x *record.Kilogram) {
		if *x == nearest {
			*x, moved = load, true
		}
	})
	return moved
}

// roundPeaks puts a peak that is the one of the reading before but for the
// rounding of another unit at that one: it did not fall.
func (c *tableCase) roundPeaks() {
	for i := 1; i < len(c.readings); i++ {
		if c.readings[i-1].peakUnit == c.readings[i].peakUnit {
			continue
		}
		a, b := c.out.Case.Readings[i-1].Peak, c.out.Case.Readings[i].Peak
		if a == nil || b == nil || *a == *b {
			continue
		}
		if math.Abs(float64(*a-*b)) <= rounding(c.readings[i-1].peakUnit, c.readings[i].peakUnit, float64(*a)) {
			c.out.Case.Readings[i].Peak = record.Of(*a)
		}
	}
}

// rounding returns how far apart, in kg, one load may stand in two units: half
// of each unit; for forces what g makes against ten metres a second squared.
func rounding(a, b wording.Unit, rated float64) float64 {
	whole := func(u wording.Unit) bool {
		return u == wording.NoUnit || u == wording.Kilogram || u == wording.Pound || u == wording.Tonne
	}
	pound := func(u wording.Unit) bool { return u == wording.Pound }
	switch {
	case a.IsForce() != b.IsForce():
		return 0.02 * rated
	case whole(a) && whole(b) && pound(a) != pound(b):
		return (wording.Pound.In(1) + 1) / 2
	}
	return 0
}

// openEdges completes bands that name one edge each.
func (c *tableCase) openEdges() {
	var open []int
	for i := range c.readings {
		if n := &c.readings[i]; !n.spoilt && oneEdge(c.out.Case.Readings[i].Bands) != noEdge {
			open = append(open, i)
		}
	}
	if len(open) == 0 {
		return
	}
	counts := c.countsOf(open)
	for _, i := range open {
		n := &c.readings[i]
		n.paths = c.g.pathsOf(i)
		r := &c.out.Case.Readings[i]
		if counts == "" {
			n.askCounts(r)
			c.lacks(n, "counts-unclear", "each band names one edge only, and its hours may be its own or all beyond that edge", "two edges with each band", "say which they are")
			continue
		}
		complete(r, counts)
		effect := "each is taken to reach to the next; the hours are its own"
		if counts == countsCumulative {
			effect = "the hours are taken as all beyond the edge; those of a band are the difference to the next"
		}
		c.g.find(c, n.at, record.Finding{
			Code: "edges-completed", Severity: record.Note, Path: n.paths.reading.At("bands"),
			Message: "each band names one edge only", Expected: "two edges with each band",
			Effect: effect, Hint: "check the bands against the machine's screen",
		})
	}
}

// edgeKind is which edge bands name where they name one only.
type edgeKind int

const (
	noEdge edgeKind = iota
	lowers          // over 0, over 100, over 250
	uppers          // up to 100, up to 250; a last one over 250 may follow
)

// oneEdge tells which edge bands name where they name one only.
func oneEdge(bands []record.Band) edgeKind {
	if len(bands) < 2 {
		return noEdge
	}
	low, high := true, true
	for i, b := range bands {
		low = low && b.To == nil && (i == 0 || b.From > bands[i-1].From)
		switch last := i == len(bands)-1 && i > 1; {
		case b.To != nil:
			high = high && b.From == 0 && (i == 0 || bands[i-1].To != nil && *b.To > *bands[i-1].To)
		default:
			high = high && last && bands[i-1].To != nil && b.From == *bands[i-1].To
		}
		if !low && !high {
			return noEdge
		}
	}
	switch {
	case low:
		return lowers
	case high:
		return uppers
	}
	return noEdge
}

// countsOf finds out what the hours of bands with one edge are: as a guide says,
// as they cannot be otherwise, or as the hour meter shows; empty where nothing tells.
func (c *tableCase) countsOf(open []int) string {
	each, cumulative := false, false
	for _, i := range open {
		r, n := &c.out.Case.Readings[i], &c.readings[i]
		if n.counts != "" {
			return n.counts
		}
		all, ordered := summed(r.Bands)
		if !ordered {
			return countsEach
		}
		if r.Powered == nil || *r.Powered <= 0 {
			continue
		}
		near := func(x record.Hour) bool { return math.Abs(float64(x / *r.Powered)-1) < 0.02 }
		each = each || near(record.Total(r.Bands)) && !near(all)
		cumulative = cumulative || near(all) && !near(record.Total(r.Bands))
	}
	switch {
	case each && !cumulative:
		return countsEach
	case cumulative && !each:
		return countsCumulative
	}
	return ""
}

// summed returns all hours if the bands are cumulative, and whether they can be.
func summed(bands []record.Band) (all record.Hour, ordered bool) {
	ordered = true
	last := len(bands) - 1
	if oneEdge(bands) == lowers {
		for i := 1; i <= last; i++ {
			ordered = ordered && bands[i].Hours <= bands[i-1].Hours
		}
		return bands[0].Hours, ordered
	}
	if bands[last].To == nil { // the open one stands by itself
		last--
		all = bands[last+1].Hours
	}
	for i := 1; i <= last; i++ {
		ordered = ordered && bands[i].Hours >= bands[i-1].Hours
	}
	return all + bands[last].Hours, ordered
}

// complete gives each band its other edge, and its own hours.
func complete(r *record.Reading, counts string) {
	bands := slices.Clone(r.Bands)
	if oneEdge(bands) == lowers {
		for i := range bands[:len(bands)-1] {
			bands[i].To = record.Of(bands[i+1].From)
			if counts == countsCumulative {
				bands[i].Hours = tidy(bands[i].Hours - bands[i+1].Hours)
			}
		}
		r.Bands = bands
		return
	}
	for i := len(bands) - 1; i > 0; i-- {
		if bands[i].To == nil {
			continue
		}
		bands[i].From = *bands[i-1].To
		if counts == countsCumulative {
			bands[i].Hours = tidy(bands[i].Hours - bands[i-1].Hours)
		}
	}
	r.Bands = bands
}

// askCounts asks what the hours of bands with one edge are.
func (n *readingNotes) askCounts(r *record.Reading) {
	if n.s == nil {
		return
	}
	g := n.s.g
	if len(g.questions) >= maxQuestions || slices.ContainsFunc(g.questions, func(q Question) bool { return q.Kind == batch.AskCounts && q.Sheet == n.s.index }) {
		return
	}
	q := Question{Kind: batch.AskCounts, Sheet: n.s.index, Column: "hours"}
	for _, b := range r.Bands[:min(len(r.Bands), maxAsked)] {
		q.Values = append(q.Values, bandWords(b)+": "+plainNumber(float64(b.Hours))+" h")
	}
	for _, counts := range []string{countsEach, countsCumulative} {
		as := *r
		complete(&as, counts)
		b := as.Bands[0]
		if oneEdge(r.Bands) == uppers {
			b = as.Bands[1]
		}
		q.Choices = append(q.Choices, batch.Choice{Answer: counts, Means: bandWords(b) + ": " + plainNumber(float64(b.Hours)) + " h"})
	}
	g.questions = append(g.questions, q)
}

// bandWords writes the loads of a band: "100-250 kg", "over 250 kg".
func bandWords(b record.Band) string {
	if b.To == nil {
		return "over " + plainNumber(float64(b.From)) + " kg"
	}
	return plainNumber(float64(b.From)) + "-" + plainNumber(float64(*b.To)) + " kg"
}
