package cause

import "math"

// ladder is the list of loads at which the curves of a history are asked for, by
// number: the rated load first, then those of the record in order, and last,
// where the rules know one, the end of the load-sensing window.
type ladder struct {
	kg, ln []float64
}

func ladderOf(loads []float64, m platform) *ladder {
	l := &ladder{kg: append(make([]float64, 0, len(loads)+1), loads...)}
	if !math.IsInf(m.windowTo, 1) {
		l.kg = append(l.kg, m.windowTo)
	}
	l.ln = make([]float64, len(l.kg))
	for i, x := range l.kg {
		l.ln[i] = ln(x)
	}
	return l
}

// last is the number of the last load.
func (l *ladder) last() int { return len(l.kg) - 1 }

// point is what a curve is at one load: the share of all loads over it, and the
// density of ln load. known is false where nobody has asked yet.
type point struct {
	over, density float64
	known         bool
}

// curve is how the loads of one cause are distributed over the rated load, at
// the loads of a ladder. What nobody asks for is not worked out.
type curve struct {
	all  float64 // share of all loads that lie over the rated load
	at   func(i int) (over, density float64)
	memo []point
}

// lay makes a curve of what a function tells of all loads, by their number on a
// ladder: the share over the load, and the density of ln load.
func lay(l *ladder, at func(i int) (over, density float64)) *curve {
	over, _ := at(0)
	return &curve{max(over, math.SmallestNonzeroFloat32), at, make([]point, len(l.kg))}
}

// point returns what the curve is at a load, scaled so that everything lies over
// the rated load.
func (c *curve) point(i int) *point {
	p := &c.memo[i]
	if !p.known {
		over, density := c.at(i)
		*p = point{min(1, max(0, over)/c.all), max(0, density/c.all), true}
	}
	return p
}

// over returns the share of the occasions that lie over a load, by its number.
func (c *curve) over(i int) float64 { return c.point(i).over }

// density returns the density of ln load at a load, by its number.
func (c *curve) density(i int) float64 { return c.point(i).density }

// share returns the share of occasions between two loads, by their number.
func (c *curve) share(from, to int) float64 {
	if to < 0 { // open upwards
		return c.over(from)
	}
	if between := c.over(from) - c.over(to); between > 0 {
		return between
	}
	return 0
}

// law is a distribution of loads with up to three parameters: what it is at a
// load x in kg.
type law func(of [3]float64, x, lnX float64) point

// term is one way in which loads come about, with its weight.
type term struct {
	weight float64
	of     [3]float64 // parameters of the law
}

// kind is what is known of the loads of a term.
type kind struct {
	of   [3]float64
	memo []point
}

// mixture is a distribution of several terms. The weights need not add up to 1.
type mixture struct {
	l     *ladder
	law   law
	terms []term
	kinds []*kind // of each term
}

// mix makes a mixture. Where another one, which may be nil, has a term with the
// same parameters, what is known of it is shared: most assumptions move few terms.
func mix(l *ladder, law law, terms []term, like *mixture) *mixture {
	m := &mixture{l, law, terms, make([]*kind, len(terms))}
	fresh := len(terms)
	for j := range terms {
		if m.kinds[j] = like.kindOf(&terms[j].of); m.kinds[j] != nil {
			fresh--
		}
	}
	kinds, memo := make([]kind, fresh), make([]point, fresh*len(l.kg))
	for j := range terms {
		if m.kinds[j] == nil {
			kinds[0] = kind{terms[j].of, memo[:len(l.kg)]}
			m.kinds[j], kinds, memo = &kinds[0], kinds[1:], memo[len(l.kg):]
		}
	}
	return m
}

// kindOf returns what is known of a term with these parameters; nil where nothing
// is.
func (m *mixture) kindOf(of *[3]float64) *kind {
	if m == nil {
		return nil
	}
	for _, k := range m.kinds {
		if k.of == *of {
			return k
		}
	}
	return nil
}

// at adds up what the kinds are at a load.
func (m *mixture) at(i int) (over, density float64) {
	for j, k := range m.kinds {
		p := &k.memo[i]
		if !p.known {
			*p = m.law(k.of, m.l.kg[i], m.l.ln[i])
			p.known = true
		}
		over, density = over+m.terms[j].weight*p.over, density+m.terms[j].weight*p.density
	}
	return over, density
}
