package cause

// What a piece shows is weighed jointly with what lies beside it in its interval:
// the other bands over the rated load, and the peak. Each of those can be of the
// cause of the piece, or of any other.

// How much alike the overloads of one crew are; the chances that an overload
// leaves hours in the next band as well, and in one further off; and the chance
// that a machine whose cell drifted only ever lifts one load. Assumptions.
const (
	alikeAtWork = 0.92
	nearbyWork  = 0.099
	furtherWork = 0.027
	onlyOneLoad = 0.5
)

func hasNeighbours(f *facts) bool { return len(f.neighbours) > 0 }

// neighbours: how probable it is that the other bands over the rated load gained
// what they did, if this piece is of one cause.
func neighbours(e *ask, like []float64) {
	nothingIn(e, like)
	for k, n := range e.facts.neighbours {
		if n.hours <= 0 {
			continue
		}
		b := e.band(n.span, n.hours)
		other := e.besides(e.made.bands[k]) + alsoIn(e.cause, n.next)*b.counted.one
		for i := range like {
			like[i] *= b.gained(i) + other
		}
	}
}

// gained is the density over ln h of the hours that a cause left in a band.
func (b *bandYield) gained(i int) float64 { return b.density[i] * b.chance[i] }

// alsoIn is the chance that an occasion of a cause leaves hours in another given
// band as well: one next to it, or further away.
func alsoIn(cause int, next bool) float64 {
	if next {
		return [4]float64{iLashed: nearby, iWorked: nearbyWork}[cause]
	}
	return [4]float64{iLashed: furtherOff, iWorked: furtherWork}[cause]
}

// nothingIn: how probable it is that the empty ones of the other bands over the
// rated load gained nothing.
func nothingIn(e *ask, like []float64) {
	var all perLatent
	none := true
	for _, n := range e.facts.neighbours {
		if n.hours > 0 {
			continue
		}
		none = false
		for i, share := range e.shares(n.from, n.to) {
			all[i] += share
		}
	}
	if none {
		fill(like, 1)
		return
	}
	d, drifted := e.model.(*drift)
	apart := e.apart()
	for i := range like {
		if drifted {
			like[i] = max(expNeg(d.expected(i, &e.o)*all[i]/e.o.step), onlyOneLoad)
		} else {
			like[i] = expNeg(e.mean(i) * all[i] * apart * (1 - e.yield.brief))
		}
	}
}

// apart is the share of the occasions of a cause in an interval whose load has
// nothing to do with that of the piece.
func (e *ask) apart() float64 { return 1 - [4]float64{iWorked: alikeAtWork, iLashed: alike}[e.cause] }

// made is what each cause can be expected to have left beside a piece, whatever
// the piece is of, by the usual values of the assumptions.
type made struct {
	bands [][4]float64 // densities over ln h of the hours of each neighbour
	peak  [4]float64   // density over ln load of the highest load
}

// besides is what all causes but the one at hand have made.
func (e *ask) besides(by [4]float64) float64 {
	return by[0] + by[1] + by[2] + by[3] - by[e.cause]
}

// readMade works out what each cause can be expected to have left beside a piece.
func (w *weigher) readMade(f *facts) {
	f.made = made{bands: make([][4]float64, len(f.neighbours))}
	for c, m := range w.usual {
		e := &w.asks[c]
		*e = ask{facts: f, setting: &setting{&w.values, m, everything, &w.piece.yields[c]}, cause: c}
		e.know()
		for k, n := range f.neighbours {
			if n.hours > 0 {
				f.made.bands[k][c] = e.leftIn(n)
			}
		}
		if f.peak >= 0 {
			f.made.peak[c] = e.leftAsPeak()
		}
	}
}

// leftIn is the density over ln h of the hours that a cause left in a band,
// whatever its latent value.
func (e *ask) leftIn(n neighbour) (sum float64) {
	b := e.band(n.span, n.hours)
	for i, l := range e.model.latents() {
		sum += l.weight * b.gained(i)
	}
	return sum
}

// leftAsPeak is the density over ln load of the highest load by a cause, where it
// had the occasion, whatever its latent value.
func (e *ask) leftAsPeak() (sum float64) {
	t := e.atTop()
	for i, l := range e.model.latents() {
		if e.cause == iDrift {
			sum += l.weight * e.some(i) * t.density[i]
		} else {
			sum += l.weight * e.mean(i) * t.density[i] * t.none[i]
		}
	}
	return sum
}

func hasPeakBeside(f *facts) bool {
	return f.x.What == Band && f.peak >= 0 && f.v.Withheld == "" && *f.v.Peak >= f.x.From
}

// peakBeside: how probable it is that the highest load of the interval lies where
// it does, in the band or above it, if the hours of the band are of one cause.
func peakBeside(e *ask, like []float64) {
	load, others, t := float64(*e.v.Peak), e.besides(e.made.peak), e.atTop()
	switch m := e.model.(type) {
	case *drift:
		for i := range like {
			like[i] = t.density[i] + m.peakUnder(i, load, e.past)*others
		}
	case *lashed:
		own, under := m.pullOf(e)
		for i := range like {
			like[i] = t.none[i] * (own + under*(e.mean(i)*t.density[i]+others))
		}
	default:
		in := e.x.To == nil || *e.v.Peak < *e.x.To
		for i := range like {
			like[i] = peakByMany(e, t, i, in, others)
		}
	}
}

// peakByMany is how probable a peak is, if the occasions of a cause know nothing
// of each other: in the band of the piece, where one of them lay for certain, or
// above it. In the band it is that one, or a further one, or another cause's, with
// that one under it.
func peakByMany(e *ask, t *topYield, i int, in bool, others float64) float64 {
	c, mean := e.model.highest(i), e.mean(i)*e.apart()
	none := expNeg(mean * c.over(e.peak))
	if !in {
		return none * (mean*t.density[i] + others)
	}
	share := max(c.share(e.from, e.to), 1e-9)
	return none * (t.density[i] + c.share(e.from, e.peak)*(mean*t.density[i]+others)) / share
}
