package cause

import "math"

// worked: people, tools and material. On each lift the platform holds as many
// persons as the plate allows, or one or two more, or one less with heavy
// material; what lies over the rated load is an occasion. Masses of persons
// add up to nearly normal, tools and material are exponential. How often that
// happens goes with the plate: a rated load that hardly holds the persons on it is
// exceeded more often. On a trip, whoever drives the machine from its platform can
// be over a rated load of one person.
//
// Above the load-sensing window nothing moves any more: only a share of such
// lifts goes on, at a standstill or at ground level.
type worked struct {
	p     *params
	m     platform
	l     *ladder
	crews *mixture
	shape *curve
	dwell dwell
	rates []latent
	usual float64
	tight float64 // how much more often a crew is over this rated load than over most
	alone float64 // chance that one person is over the rated load
}

const (
	habitSpread  = 1.1   // of ln rate among crews: some never, some every day; an assumption
	workedSpread = 1.6   // of ln dwell; an assumption
	atOnce       = 0.037 // h, until the platform is unloaded when the alarm sounds; an assumption
	crewsDiffer  = 0.95  // of ln dwell, among crews; an assumption
	personSpread = 21    // kg, of body mass: computed from NHANES 2015-16 records
	oftenOver    = 0.12  // share of lifts over the rated load, where the plate fits; an assumption
	byPlate      = 0.8   // exponent by which overloads go with that share; an assumption
	handlings    = 6     // times a trip that somebody drives the machine from its platform; an assumption
	lighter      = 0.4   // share of lifts with one person less than the plate; an assumption
)

func newWorked(p *params, m platform, l *ladder) model {
	return (&worked{m: m, l: l}).with(p, everything)
}

func (w *worked) with(p *params, differ parts) model {
	v := *w
	v.p = p
	if differ&loads != 0 {
		v.crews = mix(w.l, crewLoad, crewsOf(p, w.m.persons, w.m.rated), w.crews)
		v.shape = lay(w.l, v.lifts())
		v.alone, _ = exgauss(w.m.rated, p[realPerson], personSpread, 1)
	}
	if differ&(often|hidden) != 0 {
		v.rates = spreadOf(lognormal{p[workedRate] / 100, habitSpread})
		v.tight = 1 // the plate of a machine is something to be known of it
		v.usual = inUsual(&v)
	}
	v.tight = min(max(math.Pow(v.shape.all/oftenOver, byPlate), 0.05), 8)
	if differ&lasting != 0 {
		v.readDwell()
	}
	return &v
}

// crewsOf lists the make-ups of the platform: persons with a normal mass, and an
// exponential mass of material.
func crewsOf(p *params, persons int, rated float64) []term {
	light, heavy := p[lightTools], p[lightTools]+p[heavyMass]*rated
	crew := func(weight float64, n int, material float64) term {
		return term{weight, [3]float64{float64(n) * p[realPerson], personSpread * math.Sqrt(float64(n)), material}}
	}
	out := append(make([]term, 0, 7),
		crew(1-lighter, persons, light),
		crew(p[heavyMaterial]*(1-lighter), persons, heavy),
		crew(p[extraPerson], persons+1, light),
		crew(p[extraPerson]*p[heavyMaterial], persons+1, heavy),
		crew(p[extraPerson]*p[extraPerson]*2, persons+2, light))
	if persons > 1 {
		out = append(out, crew(lighter, persons-1, light), crew(p[heavyMaterial]*lighter, persons-1, heavy))
	}
	return out
}

// crewLoad is the law of one make-up: mean and deviation of the mass of its
// persons, and mean of the material.
func crewLoad(of [3]float64, x, _ float64) point {
	over, density := exgauss(x, of[0], of[1], of[2])
	return point{over: over, density: x * density}
}

// lifts returns how many lifts are over a load, and their density there.
func (w *worked) lifts() func(i int) (over, density float64) {
	crews, share := w.crews, w.p[aboveWindow]
	if math.IsInf(w.m.windowTo, 1) {
		return crews.at
	}
	atWindow, _ := crews.at(w.l.last())
	return func(i int) (over, density float64) {
		over, density = crews.at(i)
		if w.l.kg[i] >= w.m.windowTo {
			return share * over, share * density
		}
		return over - (1-share)*atWindow, density
	}
}

func (w *worked) latents() []latent  { return w.rates }
func (w *worked) curve(int) *curve   { return w.shape }
func (w *worked) highest(int) *curve { return w.shape }
func (w *worked) usually() float64   { return w.usual }

func (w *worked) occasions(i int, o *opportunity) float64 {
	return w.tight*w.rates[i].value*(o.work+w.p[custodyWrong]*o.powered) + handlings*o.trips*w.alone
}

// readDwell: most occasions end as soon as the alarm sounds; others go on until
// the work is done.
func (w *worked) readDwell() {
	brief := w.p[workedBrief]
	w.dwell = dwellOf(crewsDiffer, part{brief, lognormal{atOnce, workedSpread}}, part{1 - brief, lognormal{w.p[workedDwell], workedSpread}})
}

func (w *worked) counted(h float64, o *opportunity) counted { return w.dwell.counted(h, o.step) }

func (w *worked) hours(c *counted, mean, share []float64, _ *opportunity, density, chance []float64) {
	for i := range density {
		density[i], chance[i] = c.several(mean[i] * share[i])
	}
}

func (w *worked) within(h float64, o *opportunity) float64 { return w.dwell.under(h + o.step/2) }
