package cause

import "math"

// drift: the cell reads too high. Either it is faulty by an offset, or it is
// sound and off by no more than its tolerance, which matters where ordinary
// loads come close to the rated load.
//
// Ordinary loads are those that the machine's bands show up to the rated load,
// and where these show little, they lie about a share of it. A faulty cell reads
// them higher: the hours that were close to the rated load come to lie over it, and
// the band of the empty platform empties where the offset is wider than it. A
// wrong gain does nearly the same to loads close to the rated load, and is not
// told apart here.
type drift struct {
	p       *params
	m       platform
	l       *ladder
	offsets []latent  // in kg; the last is the tolerance
	shapes  []*curve  // over the rated load
	shares  []float64 // of the powered hours that come to lie over the rated load
	usual   float64
}

const (
	offsetSpread   = 0.7   // of ln offset; an assumption
	useSpread      = 0.18  // of ordinary loads, as a share of the rated load; an assumption
	driftSpread    = 2.2   // of ln hours: when within the interval it began, and what was lifted; an assumption
	tolerance      = 0.024 // of the rated load, standard deviation of a sound cell; an assumption
	byTolerance    = 0.23  // weight of a sound cell among those that read too high; an assumption
	closeLoads     = 0.28  // per 100 powered hours, loads that a sound cell reads over the rated load; an assumption
	closeHours     = 0.7   // share of the hours within two deviations of the rated load that a sound cell reads over it; an assumption
	briefTop       = 0.17  // share of highest loads that last under a step; an assumption
	gentleOverload = 0.015 // share of ordinary loads over the rated load; an assumption
)

func newDrift(p *params, m platform, l *ladder) model {
	d := &drift{m: m, l: l}
	return d.with(p, everything)
}

func (d *drift) with(p *params, differ parts) model {
	v := *d
	v.p = p
	if differ&hidden != 0 {
		v.readOffsets()
	}
	if differ&(hidden|loads) != 0 {
		v.layShapes()
	}
	if differ&(hidden|often) != 0 {
		v.usual = inUsual(&v)
	}
	return &v
}

func (d *drift) readOffsets() {
	d.offsets = make([]latent, 0, most)
	for _, offset := range spreadOf(lognormal{d.p[driftOffset] * d.m.rated, offsetSpread}) {
		d.offsets = append(d.offsets, latent{offset.value, (1 - byTolerance) * offset.weight})
	}
	d.offsets = append(d.offsets, latent{tolerance * d.m.rated, byTolerance})
}

func (d *drift) layShapes() {
	sound := soundLoads(d.m, d.l)
	if d.shapes != nil { // nothing that can differ bears on it
		sound = d.shapes[len(d.shapes)-1]
	}
	d.shapes, d.shares = make([]*curve, 0, most), make([]float64, 0, most)
	for i, offset := range d.offsets {
		if d.sound(i) {
			break
		}
		c := lay(d.l, d.shifted(offset.value))
		d.shapes, d.shares = append(d.shapes, c), append(d.shares, max(c.all, 1e-5))
	}
	d.shapes, d.shares = append(d.shapes, sound), append(d.shares, max(d.closeTo()*closeHours, 1e-5))
}

// shifted returns how the loads are distributed that a cell reads with an offset:
// ordinary loads, as the machine's bands show them, end at the rated load, but for
// a few.
func (d *drift) shifted(offset float64) func(i int) (over, density float64) {
	mean, spread := d.p[usualUse]*d.m.rated, useSpread*d.m.rated
	top := (d.m.rated - mean) / spread
	overTop := normalOver(top)
	return func(i int) (over, density float64) {
		x := d.l.kg[i] - offset
		z := (x - mean) / spread
		if x > d.m.rated {
			return gentleOverload * normalOver(z), gentleOverload * d.l.kg[i] * normalDensity(z) / spread
		}
		over, density = d.m.usage.over(x, normalOver(z)-overTop, normalDensity(z)/spread)
		return over + gentleOverload*overTop, d.l.kg[i] * density
	}
}

// closeTo returns the share of ordinary hours within two deviations of a sound
// cell of the rated load.
func (d *drift) closeTo() float64 {
	x := d.m.rated * (1 - 2*tolerance)
	mean, spread := d.p[usualUse]*d.m.rated, useSpread*d.m.rated
	over, _ := d.m.usage.over(x, normalOver((x-mean)/spread)-normalOver((d.m.rated-mean)/spread), 0)
	return over
}

func soundLoads(m platform, l *ladder) *curve {
	return lay(l, func(i int) (over, density float64) {
		over, density = soundOver(l.kg[i], m.rated)
		return over, l.kg[i] * density
	})
}

// soundOver is how far a sound cell reads a load over the rated load: the upper
// half of a normal distribution.
func soundOver(x, rated float64) (over, density float64) {
	s := tolerance * rated
	z := (x - rated) / s
	return 2 * normalOver(z), 2 * normalDensity(z) / s
}

// sound reports whether a latent value is that of a sound cell.
func (d *drift) sound(i int) bool { return i == len(d.offsets)-1 }

func (d *drift) latents() []latent    { return d.offsets }
func (d *drift) curve(i int) *curve   { return d.shapes[i] }
func (d *drift) highest(i int) *curve { return d.shapes[i] }
func (d *drift) usually() float64     { return d.usual }

func (d *drift) occasions(i int, o *opportunity) float64 {
	if d.sound(i) {
		return closeLoads / 100 * (o.powered + usualInterval.earlier)
	}
	return d.p[driftRate] / 1000 * (o.powered + o.earlier) // one that began earlier goes on
}

// expected returns the hours that come to lie over the rated load: a fault
// began half way through the interval, on average.
func (d *drift) expected(i int, o *opportunity) float64 { return o.powered * d.shares[i] * 0.5 }

func (d *drift) counted(h float64, o *opportunity) counted { return countedIn(h, o.step) }

func (d *drift) hours(c *counted, _, share []float64, o *opportunity, density, chance []float64) {
	for i := range density {
		expected := d.expected(i, o) * share[i]
		density[i], chance[i] = c.density(ln(max(expected, 1e-6)), driftSpread*driftSpread), some(expected/o.step)
	}
}

// within: what drifted stays for the rest of the interval, but the highest load
// of all is as brief as under any other cause.
func (d *drift) within(h float64, o *opportunity) float64 {
	return briefTop + (1-briefTop)*lognormal{max(o.powered*0.01, 1e-6), 2}.under(h+o.step/2)
}

// peakDensity returns the density, over ln load, of the highest load read: the
// highest ordinary load, a little under the rated load, and the offset on top.
func (d *drift) peakDensity(i int, peak, before float64) float64 {
	if d.sound(i) {
		_, density := soundOver(peak, d.m.rated)
		return peak * density
	}
	top, spread := d.highestOf(i, before)
	return peak * normalDensity((peak-top)/spread) / spread / math.Max(1e-2, normalOver((d.m.rated-top)/spread))
}

// peakUnder returns the probability that the highest load read is at most a load
// over the rated load.
func (d *drift) peakUnder(i int, load, before float64) float64 {
	if d.sound(i) {
		over, _ := soundOver(load, d.m.rated)
		return 1 - over
	}
	top, spread := d.highestOf(i, before)
	return 1 - normalOver((load-top)/spread)/math.Max(1e-2, normalOver((d.m.rated-top)/spread))
}

// highestOf returns mean and deviation of the highest load that a faulty cell
// reads, in kg.
func (d *drift) highestOf(i int, before float64) (mean, deviation float64) {
	top := 0.93 * d.m.rated
	if before > 0 && before <= 1.05*d.m.rated {
		top = before
	}
	return top + d.offsets[i].value, 0.1 * d.m.rated
}
