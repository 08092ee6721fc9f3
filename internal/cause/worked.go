package cause

import "math"

// worked: people, tools and material. On each lift the platform holds as many
// persons as the plate allows, or one or two more, or one less with heavy
// material; what lies over the rated load is an occasion. Masses of persons
// add up to nearly normal, tools and material are exponential.
//
// Above the load-sensing window nothing moves any more: only a share of such
// lifts goes on, at a standstill or at ground level.
type worked struct {
	p     *params
	shape *curve
	rates []latent
}

const (
	habitSpread  = 1.5   // of ln rate among crews: some never, some every day; an assumption
	workedSpread = 1.1   // of ln dwell; an assumption
	atOnce       = 0.012 // h, until the platform is unloaded when the alarm sounds; an assumption
	crewsDiffer  = 0.7   // of ln dwell, among crews; an assumption
	personSpread = 21    // kg, of body mass: computed from NHANES 2015-16 records
	lighter      = 0.3   // share of lifts with one person less than the plate; an assumption
)

func newWorked(p *params, m platform, loads []float64) *worked {
	w := &worked{p: p, rates: spreadOf(lognormal{p[workedRate] / 100, habitSpread})}
	crews := crewsOf(p, m.persons, m.rated)
	atWindow := 0.0
	if !math.IsInf(m.windowTo, 1) {
		atWindow, _ = crewsAt(crews, m.windowTo)
	}
	w.shape = lay(loads, m.rated, func(x float64) float64 {
		over, _ := crewsAt(crews, x)
		if x >= m.windowTo {
			return p[aboveWindow] * over
		}
		return over - (1-p[aboveWindow])*atWindow
	}, func(x float64) float64 {
		_, density := crewsAt(crews, x)
		if x >= m.windowTo {
			return p[aboveWindow] * density
		}
		return density
	})
	return w
}

// crewTerm is one make-up of the platform: persons with a normal mass, and an
// exponential mass of material.
type crewTerm struct{ weight, mean, spread, material float64 }

func crewsOf(p *params, persons int, rated float64) []crewTerm {
	term := func(weight float64, n int, material float64) crewTerm {
		return crewTerm{weight, float64(n) * p[realPerson], personSpread * math.Sqrt(float64(n)), material}
	}
	heavy := p[lightTools] + p[heavyMass]*rated
	out := []crewTerm{
		term(1-lighter, persons, p[lightTools]),
		term(p[heavyMaterial]*(1-lighter), persons, heavy),
		term(p[extraPerson], persons+1, p[lightTools]),
		term(p[extraPerson]*p[heavyMaterial], persons+1, heavy),
		term(p[extraPerson]*p[extraPerson]*2, persons+2, p[lightTools]),
	}
	if persons > 1 {
		out = append(out, term(lighter, persons-1, p[lightTools]), term(p[heavyMaterial]*lighter, persons-1, heavy))
	}
	return out
}

// crewsAt returns how many lifts are over a load, and their density there.
func crewsAt(crews []crewTerm, x float64) (over, density float64) {
	for _, c := range crews {
		o, d := exgauss(x, c.mean, c.spread, c.material)
		over, density = over+c.weight*o, density+c.weight*d
	}
	return over, density
}

func (w *worked) latents() []latent  { return w.rates }
func (w *worked) curve(int) *curve   { return w.shape }
func (w *worked) highest(int) *curve { return w.shape }

func (w *worked) occasions(i int, o *opportunity) float64 {
	return w.rates[i].value * (o.work + w.p[custodyWrong]*o.powered)
}

// dwell: most occasions end as soon as the alarm sounds; others go on until the
// work is done.
func (w *worked) dwell() dwell {
	brief := w.p[workedBrief]
	return dwell{[]part{{brief, lognormal{atOnce, workedSpread}}, {1 - brief, lognormal{w.p[workedDwell], workedSpread}}}, crewsDiffer}
}

func (w *worked) hours(share func(int) float64, h float64, o *opportunity, density []float64) {
	d := w.dwell().counted(h, o.step)
	for i := range density {
		density[i] = d.several(w.occasions(i, o) * share(i))
	}
}

func (w *worked) within(h float64, o *opportunity) float64 { return w.dwell().under(h + o.step/2) }
