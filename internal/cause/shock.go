package cause

import "math"

// shock: driving over an edge, snagging, dropping onto the platform. The load
// goes over the rated load by an exponential excess, further where the platform
// snags; it lasts seconds, so that it leaves a peak and no countable hours.
type shock struct {
	p     *params
	shape *curve
	rates []latent
}

const (
	shockHabit  = 1.2 // of ln rate among sites; an assumption
	shockSpread = 1.0 // of ln dwell; an assumption
	snagFactor  = 3   // how much further a snag goes; an assumption
)

func newShock(p *params, m platform, loads []float64) *shock {
	s := &shock{p: p, rates: spreadOf(lognormal{p[shockRate] / 100, shockHabit})}
	scale := p[shockExcess] * m.rated
	snag := p[shockSnag]
	at := func(x float64) (near, far float64) {
		y := max(0, x-m.rated)
		return (1 - snag) * math.Exp(-y/scale), snag * math.Exp(-y/(snagFactor*scale))
	}
	s.shape = lay(loads, m.rated, func(x float64) float64 {
		near, far := at(x)
		return near + far
	}, func(x float64) float64 {
		near, far := at(x)
		return near/scale + far/(snagFactor*scale)
	})
	return s
}

func (s *shock) latents() []latent  { return s.rates }
func (s *shock) curve(int) *curve   { return s.shape }
func (s *shock) highest(int) *curve { return s.shape }

// occasions: a machine is shaken at work and on a truck.
func (s *shock) occasions(i int, o *opportunity) float64 { return s.rates[i].value * o.powered }

func (s *shock) dwell() dwell {
	return dwell{[]part{{1, lognormal{s.p[shockDwell] / 3600, shockSpread}}}, 0}
}

func (s *shock) hours(share func(int) float64, h float64, o *opportunity, density []float64) {
	d := s.dwell().counted(h, o.step)
	for i := range density {
		mean := s.occasions(i, o) * share(i)
		density[i] = d.several(mean)
		if h <= 1.01*o.step { // one step, that a shock or several happened to fill up
			density[i] += min(1, (1+mean)*d.mean/o.step)
		}
	}
}

func (s *shock) within(h float64, o *opportunity) float64 { return s.dwell().under(h + o.step/2) }
