package cause

// shock: driving over an edge, snagging, dropping onto the platform. The load
// goes over the rated load by an exponential excess, further where the platform
// snags; it lasts seconds, so that it leaves a peak and no countable hours.
type shock struct {
	p     *params
	rated float64
	l     *ladder
	shape *curve
	dwell dwell
	rates []latent
	usual float64
}

const (
	shockHabit  = 0.53 // of ln rate among sites; an assumption
	shockSpread = 0.55 // of ln dwell; an assumption
	snagFactor  = 4.6  // how much further a snag goes; an assumption
)

func newShock(p *params, m platform, l *ladder) model {
	return (&shock{rated: m.rated, l: l}).with(p, everything)
}

func (s *shock) with(p *params, differ parts) model {
	v := *s
	v.p = p
	if differ&loads != 0 {
		v.shape = lay(s.l, v.excess())
	}
	if differ&(often|hidden) != 0 {
		v.rates = spreadOf(lognormal{p[shockRate] / 100, shockHabit})
		v.usual = inUsual(&v)
	}
	if differ&lasting != 0 {
		v.dwell = dwellOf(0, part{1, lognormal{p[shockDwell] / 3600, shockSpread}})
	}
	return &v
}

// excess returns how many shocks are over a load, and their density there.
func (s *shock) excess() func(i int) (over, density float64) {
	scale, snag := s.p[shockExcess]*s.rated, s.p[shockSnag]
	return func(i int) (over, density float64) {
		y := max(0, s.l.kg[i]-s.rated)
		near, far := (1-snag)*exp(-y/scale), snag*exp(-y/(snagFactor*scale))
		return near + far, s.l.kg[i] * (near/scale + far/(snagFactor*scale))
	}
}

func (s *shock) latents() []latent  { return s.rates }
func (s *shock) curve(int) *curve   { return s.shape }
func (s *shock) highest(int) *curve { return s.shape }
func (s *shock) usually() float64   { return s.usual }

// occasions: a machine is shaken at work and on a truck.
func (s *shock) occasions(i int, o *opportunity) float64 { return s.rates[i].value * o.powered }

func (s *shock) counted(h float64, o *opportunity) counted { return s.dwell.counted(h, o.step) }

func (s *shock) hours(c *counted, mean, share []float64, o *opportunity, density, chance []float64) {
	for i := range density {
		mean := mean[i] * share[i]
		density[i], chance[i] = c.several(mean)
		if c.h <= (1+offStep)*o.step+1e-9 { // one step, that a shock or several happened to fill up
			density[i] += min(1, (1+mean)*c.mean/o.step)
		}
	}
}

func (s *shock) within(h float64, o *opportunity) float64 { return s.dwell.under(h + o.step/2) }
