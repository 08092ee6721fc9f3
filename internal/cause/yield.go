package cause

// yield is what a model gives in the interval at hand. It is worked out for one
// piece and kept for those that follow, most of which are of the same interval:
// what is a band to one piece is a neighbour to the others.
type yield struct {
	model        model
	o            opportunity
	means, somes perLatent // occasions expected over the rated load, and the chance of one at least
	brief        float64   // chance that an occasion leaves no countable hours
	bands        []bandYield
	few          [2]bandYield // room for as many as most machines have
	top          topYield
}

// bandYield is what a model gives in a band over the rated load.
type bandYield struct {
	span
	counted counted
	density perLatent // over ln h of its hours, given an occasion there
	chance  perLatent // of an occasion there
}

// topYield is what a model gives about the highest load of an interval.
type topYield struct {
	of      int       // number of the interval, from 1
	none    perLatent // chance of no occasion over that load
	density perLatent // over ln load there: of one occasion, under drift of the highest load
}

// settle makes a yield one of the model and the interval at hand, unless it is.
func (e *ask) settle() {
	y := e.yield
	if y.model == e.model && y.o == e.o {
		return
	}
	if y.bands == nil {
		y.bands = y.few[:0]
	}
	y.model, y.o, y.bands, y.top.of = e.model, e.o, y.bands[:0], 0
	if e.differ&(often|hidden) != 0 {
		for i := range e.latents {
			y.means[i] = max(e.model.occasions(i, &e.o), 1e-9)
			y.somes[i] = some(y.means[i])
		}
	} else {
		y.means, y.somes = e.usual.means, e.usual.somes
	}
	if e.differ&lasting != 0 {
		y.brief = e.model.within(0, &e.o)
	} else {
		y.brief = e.usual.brief
	}
}

// band returns what the model gives in a band with hours. It holds until another
// band is asked for.
func (e *ask) band(s span, h float64) *bandYield {
	y := e.yield
	if b := y.bandOf(s, h); b != nil {
		return b
	}
	y.bands = append(y.bands, bandYield{span: s, counted: e.countedOf(s, h)})
	b := &y.bands[len(y.bands)-1]
	e.model.hours(&b.counted, y.means[:e.latents], e.shares(s.from, s.to), &e.o, b.density[:e.latents], b.chance[:e.latents])
	return b
}

// bandOf returns what is known of a band with hours; nil where nothing is.
func (y *yield) bandOf(s span, h float64) *bandYield {
	for i := range y.bands {
		if b := &y.bands[i]; b.span == s && b.counted.h == h {
			return b
		}
	}
	return nil
}

// countedOf returns what is known of hours before the number of occasions is: where
// it does not differ, what it is by the usual values.
func (e *ask) countedOf(s span, h float64) counted {
	if e.differ&lasting == 0 {
		if b := e.usual.bandOf(s, h); b != nil {
			return b.counted
		}
	}
	return e.model.counted(h, &e.o)
}

// atTop returns what the model gives about the highest load of the interval.
func (e *ask) atTop() *topYield {
	t := &e.yield.top
	if t.of == e.x.at+1 {
		return t
	}
	t.of = e.x.at + 1
	d, drifted := e.model.(*drift)
	for i := range e.latents {
		if drifted {
			t.density[i] = d.peakDensity(i, float64(*e.v.Peak), e.past)
			continue
		}
		c := e.model.highest(i)
		t.none[i], t.density[i] = expNeg(e.mean(i)*c.over(e.peak)), c.density(e.peak)
	}
	return t
}
