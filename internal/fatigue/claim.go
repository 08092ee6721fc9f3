package fatigue

import (
	"ratchetmark/internal/record"
)

// Group is a part of the exposure told by what it came from: use within the
// rated load, one of the causes of loads over it, or none that is settled.
type Group string

// Ordinary is use within the rated load; Unsettled is what went over it for a
// cause that is not settled. The other groups are the causes themselves.
const (
	Ordinary  Group = "ordinary"
	Unsettled Group = "undecided"
)

// Over is a piece that went over the rated load: hours in the band of an
// interval, or a peak.
type Over struct {
	Interval int
	From     record.Kilogram  // lower edge of the band; the peak itself
	Peak     bool             //
	Verdict  Group            // Unsettled, or a cause
	Open     []Group          // causes that are not ruled out
	Once     bool             // what it was is one load cycle, not one for each so many hours
	To       *record.Kilogram // upper edge of the band, nil for the open one
}

// Share is the part of the exposure that a group made.
type Share struct {
	Group    Group         `json:"group"`
	Exposure record.Bounds `json:"share"` // of the whole, 1 = all of it
}

// portion is hours over the rated load with what is known of their cause.
type portion struct {
	over            Over
	from, to        float64 // load ratios, from 1 up
	low, usual, top float64 // hours of weight
	within          float64 // hours of the same band that lie within the rated load when as few as can be lie over it
	start           float64 // lower edge of that band, where it is below 1
}

// Shares divides the exposure among the groups. Each share has its least and its
// most over the placements of the hours in their bands, over the self-weight
// share (in a grid of nine; for the whole of what went over the ends of the
// interval are exact, because loads over the rated one fall and others rise with
// it), and over the causes that are open. A tie-down is a single load cycle at
// least, and at most as many as its hours would make.
func (u *Use) Shares(intervals []record.Interval, pieces []Over, groups []Group) []Share {
	if !u.bounded || u.AtLeast {
		return []Share{}
	}
	ordinary, portions := u.portions(intervals, pieces)
	var out []Share
	for _, g := range append([]Group{Ordinary}, groups...) {
		out = append(out, Share{g, u.exposureOf(ordinary, portions, g)})
	}
	return out
}

// exposureOf bounds the share of one group.
func (u *Use) exposureOf(ordinary spectrum, portions []portion, g Group) record.Bounds {
	possible := g == Ordinary
	for i := range portions {
		may, _ := portions[i].mayBe(g)
		possible = possible || may
	}
	if !possible {
		return record.Bounds{Estimate: record.Of(0.), High: record.Of(0.)}
	}
	least, most := 1., 0.
	const steps = 8
	for i := range steps + 1 {
		at := u.share.Low + (u.share.High-u.share.Low)*float64(i)/steps
		least = min(least, u.extreme(ordinary, portions, g, at, false))
		most = max(most, u.extreme(ordinary, portions, g, at, true))
	}
	estimate := min(max(u.usualShare(ordinary, portions, g), least), most)
	return record.Bounds{Low: least, Estimate: &estimate, High: &most}
}

// portions divides the hours into those within the rated load for certain and
// those that may lie over it.
func (u *Use) portions(intervals []record.Interval, pieces []Over) (ordinary spectrum, out []portion) {
	ordinary.bounded = true
	for _, v := range intervals {
		scale, _ := scaleOf(v, u.Basis)
		for _, s := range v.Segments() {
			from, to, h := float64(s.From/u.rated), float64(s.To/u.rated), float64(s.Hours)*scale
			if to <= 1 {
				ordinary.put(from, to, h)
				continue
			}
			p := portion{from: max(from, 1), to: to, low: h, usual: h, top: h, over: overOf(pieces, v, s)}
			if p.over.Once {
				p.usual, p.top = max(p.usual, 1/u.rate[usual]), max(p.top, 1/u.rate[low])
			}
			if from < 1 {
				p.low, p.usual, p.within, p.start = 0, h*(to-1)/(to-from), h, from
			}
			out = append(out, p)
		}
	}
	for _, x := range pieces {
		if x.Peak {
			out = append(out, u.peakPortion(x, out))
		}
	}
	return ordinary, out
}

// peakPortion is the one load cycle of a peak. Where hours over the rated load
// reach up to it, it may be one of theirs.
func (u *Use) peakPortion(x Over, others []portion) portion {
	at := float64(x.From / u.rated)
	p := portion{from: at, to: at, over: x, low: 1 / u.rate[high], usual: 1 / u.rate[usual], top: 1 / u.rate[low]}
	for _, o := range others {
		if o.over.Interval == x.Interval && !o.over.Peak && o.to >= at {
			p.low, p.usual = 0, 0
		}
	}
	return p
}

// overOf finds what is known of the cause of a segment.
func overOf(pieces []Over, v record.Interval, s record.Segment) Over {
	from := v.Bands[s.Band].From
	for _, x := range pieces {
		if !x.Peak && x.Interval == v.Number && x.From == from {
			return x
		}
	}
	return Over{Interval: v.Number, From: from, Verdict: Unsettled}
}

// mayBe reports whether a portion may belong to a group, and whether it does.
func (p *portion) mayBe(g Group) (may, does bool) {
	does = p.over.Verdict == g
	may = does || p.over.Verdict == Unsettled && p.over.open(g)
	return may, does
}

// open reports whether a cause is not ruled out; none is where nothing is known.
func (x *Over) open(g Group) bool {
	for _, o := range x.Open {
		if o == g {
			return true
		}
	}
	return len(x.Open) == 0
}

// usualShare is the share of a group with loads uniform in their bands and every
// assumption at its usual value.
func (u *Use) usualShare(ordinary spectrum, portions []portion, g Group) float64 {
	s, m := u.share.Value, u.slope()
	all := ordinary.sum(uniform, s, m)
	mine := 0.
	if g == Ordinary {
		mine = all
	}
	for _, p := range portions {
		over := p.usual * meanPower(p.from, p.to, s, m)
		within := 0.
		if p.within > 0 {
			within = (p.within - p.usual) * meanPower(p.start, 1, s, m)
		}
		all += over + within
		if p.over.Verdict == g {
			mine += over
		}
		if g == Ordinary {
			mine += within
		}
	}
	return part(mine, all-mine)
}

// extreme is the least or the most of a group's share under a self-weight share.
func (u *Use) extreme(ordinary spectrum, portions []portion, g Group, s float64, most bool) float64 {
	m := u.slope()
	edge := map[bool]placement{true: upperEdge, false: lowerEdge}
	var mine, rest float64
	if g == Ordinary {
		mine = ordinary.sum(edge[most], s, m)
	} else {
		rest = ordinary.sum(edge[!most], s, m)
	}
	for _, p := range portions {
		may, does := p.mayBe(g)
		least, greatest := p.bounds(u.rate[high], s, m)
		withinMost := p.within * power(1, m) // at the rated load
		withinLeast := p.within * power(StressRatio(p.start, s), m)
		switch {
		case g == Ordinary && most:
			if p.within > 0 {
				mine += withinMost
			} else {
				rest += least
			}
		case g == Ordinary:
			rest += greatest
		case most && may:
			mine += greatest
		case most: // the rest as little as can be
			if p.within > 0 {
				rest += min(withinLeast, greatest)
			} else {
				rest += least
			}
		case does && p.within == 0:
			mine += least
		case does: // none of it over the rated load
			rest += withinMost
		default:
			rest += max(greatest, withinMost)
		}
	}
	return part(mine, rest)
}

// bounds returns the least and the most of what a portion makes if it lies over
// the rated load. What may be a single load cycle is no more at the least; what
// is one for certain is no less either, though nothing moved.
func (p *portion) bounds(rate, s, m float64) (least, greatest float64) {
	h := p.low
	if p.over.Once && !p.over.Peak && p.within == 0 {
		h = min(h, 1/rate)
		if p.over.Verdict != Unsettled {
			h = 1 / rate
		}
	}
	return h * power(StressRatio(p.from, s), m), p.top * power(StressRatio(p.to, s), m)
}

// part returns mine of all; 0 where there is nothing.
func part(mine, rest float64) float64 {
	if mine+rest <= 0 {
		return 0
	}
	return mine / (mine + rest)
}
