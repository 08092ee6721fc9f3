package cause

import (
	"math"

	"ratchetmark/internal/record"
)

// What a check of the cell is held against; assumptions.
const (
	driftLastSpread = 1.5  // of ln days: some drifts are found at once, others never
	movedOn         = 0.35 // deviation of what a check shows of a drift, of its size: it walks, or the gain is off
	wrongUp         = 0.7  // share of cells wrong by the way that read too much
)

// anyFault is how far a cell is off that is wrong without having caused the
// piece, of the rated load; an assumption.
var anyFault = spreadOf(lognormal{0.15, 1.1})

// window is what a check may show: by how many kg too much, from and to.
type window struct {
	on       float64 // kg on the platform
	from, to float64
}

// shownHalf is half the step in which loads are shown, kg; an assumption.
const shownHalf = 1

// windowOf returns what was shown in a check. A machine that shows no number
// below zero shows 0 for all of them.
func windowOf(k *record.LoadCheck) window {
	w := window{on: float64(k.On()), from: float64(k.Off()) - shownHalf, to: float64(k.Off()) + shownHalf}
	if k.Kind == record.ZeroCheck && *k.Shown == 0 {
		w.from = math.Inf(-1)
	}
	return w
}

// between returns the probability that a normal variable lies in the window.
func (w window) between(mean, deviation float64) float64 {
	a, b := (w.from-mean)/deviation, (w.to-mean)/deviation
	if a > 0 {
		return normalOver(a) - normalOver(b)
	}
	return normalOver(-b) - normalOver(-a)
}

// bench is what checks are held against: a machine and the parameters.
type bench struct {
	p     *params
	rated float64
}

// given returns how probable it is that checks show what they do, of a cell that
// reads an offset too much at the rated load: by its zero, at any load alike, or
// by its gain, in proportion to the load.
func (b bench) given(offset float64, shown []window) float64 {
	zero := b.along(offset, shown, func(window) float64 { return 1 })
	if offset == 0 || len(shown) == 1 && shown[0].on == b.rated { // by either alike
		return zero
	}
	gain := b.along(offset, shown, func(w window) float64 { return min(w.on/b.rated, 2) })
	return mixed(b.p[zeroShows], zero, gain)
}

// along returns how probable it is where a share of the offset shows in each
// check. Each scatters by itself; how far the offset has moved on meanwhile is
// the same for two of them, so that the second is taken given the first.
func (b bench) along(offset float64, shown []window, share func(window) float64) float64 {
	own := b.deviation()
	first := shown[0]
	mean, moved := offset*share(first), movedOn*offset*share(first)
	out := first.between(mean, math.Hypot(own, moved))
	if len(shown) > 1 {
		second := shown[1]
		also := movedOn * offset * share(second)
		all := own*own + moved*moved
		given := offset*share(second) + moved*also/all*(first.about(mean)-mean)
		out *= second.between(given, math.Sqrt(own*own+also*also*own*own/all))
	}
	return out
}

// deviation is how far what a check shows scatters about an offset, kg.
func (b bench) deviation() float64 { return math.Hypot(b.p[checkSpread], tolerance) * b.rated }

// about returns the middle of a window; of one that is open, the value in it that
// is nearest to the mean.
func (w window) about(mean float64) float64 {
	if math.IsInf(w.from, -1) || math.IsInf(w.to, 1) {
		return max(min(mean, w.to), w.from)
	}
	return (w.from + w.to) / 2
}

// anyway is how probable it is with a cell that has not caused the piece: right
// within its tolerance, or wrong by the way.
func (b bench) anyway(shown []window) float64 {
	wrong := 0.0
	for _, f := range anyFault {
		wrong += f.weight * (wrongUp*b.given(f.value*b.rated, shown) + (1-wrongUp)*b.given(-f.value*b.rated, shown))
	}
	return (1-b.p[cellWrong])*b.given(0, shown) + b.p[cellWrong]*wrong
}

// written returns how probable it is that something is written down of checks,
// given that they show it with a probability: some are written down as they ought
// to be, without a look.
func (b bench) written(shown float64, as []window) float64 {
	return b.p[checkTrue]*shown + (1-b.p[checkTrue])*b.given(0, as)
}

// present is the chance that a fault with which the piece came about is there at
// the check, or was already.
func (c *cellCheck) present(p *params, o *opportunity) float64 {
	here := lognormal{p[driftLasts], driftLastSpread}.over(c.quiet) * (1 - c.workshop*(1-p[driftKept]))
	if c.before {
		here *= (o.earlier + c.passed*o.powered) / max(o.earlier+o.powered, 1e-9)
	}
	return here
}

// shownIn is what one check or two show, with how probable that is of a cell that
// has not caused the piece.
type shownIn struct {
	bench
	as           []window // all of them, the one with the platform empty first
	one          []window // that at which the fault is likelier there
	always, once float64  // chance that the fault is there at all of them, and at that one only
	anyway, rest float64  // of all, and of what is not one
}

// lookAt prepares checks to be weighed. One that is missing is nil.
func lookAt(e *ask, zero, mass *seenCheck) shownIn {
	s := shownIn{bench: bench{e.p, float64(e.h.Rated)}, rest: 1}
	if zero == nil {
		zero, mass = mass, nil
	}
	if mass == nil {
		s.as = []window{zero.window}
		s.always = zero.present
		s.anyway = s.bench.anyway(s.as)
		return s
	}
	s.as = []window{zero.window, mass.window}
	s.always, s.once = min(zero.present, mass.present), math.Abs(zero.present-mass.present)
	s.anyway = s.bench.anyway(s.as)
	if s.once > 0 {
		other := s.as[1:]
		if s.one = s.as[:1]; mass.present > zero.present {
			s.one, other = other, s.one
		}
		s.rest = s.bench.anyway(other)
	}
	return s
}

// under works out how probable the checks are under a cause, for each of its
// latent values.
func (s *shownIn) under(e *ask, like []float64) {
	d, ok := e.model.(*drift)
	if !ok {
		fill(like, s.written(s.anyway, s.as))
		return
	}
	for i := range like {
		offset := d.offsets[i].value
		if d.sound(i) { // off by a part of what the piece went over by
			over := float64(max(e.x.From, e.h.Rated)) - s.rated
			offset = min(over, 2*tolerance*s.rated) / 2
		}
		shown := s.always*s.given(offset, s.as) + (1-s.always-s.once)*s.anyway
		if s.once > 0 {
			shown += s.once * s.given(offset, s.one) * s.rest
		}
		like[i] = s.written(shown, s.as)
	}
}

// seenCheck is a check with what it shows and the chance that the fault is there.
type seenCheck struct {
	window
	present float64
}

func (c *cellCheck) seen(e *ask) *seenCheck {
	if c == nil {
		return nil
	}
	return &seenCheck{windowOf(&c.LoadCheck), c.present(e.p, &e.o)}
}

// mixed returns share·a + (1-share)·b.
func mixed(share, a, b float64) float64 { return share*a + (1-share)*b }

func hasZeroCheck(f *facts) bool { return f.checks.zero != nil }

func hasMassCheck(f *facts) bool { return f.checks.mass != nil }

// checkParams are the assumptions that checks are read by.
var checkParams = [...]param{checkSpread, checkTrue, zeroShows, driftLasts, driftKept, cellWrong}

// looked is what checks show of a piece under the values of those that were
// asked about last: most assumptions that move leave it as it is.
type looked struct {
	by    [len(checkParams)]float64
	shown shownIn
	known bool
}

// look returns what the zero check shows alone, or all checks.
func (e *ask) look(all bool) *shownIn {
	l := &e.checks.zeroShown
	if all {
		l = &e.checks.allShown
	}
	var by [len(checkParams)]float64
	for i, p := range checkParams {
		by[i] = e.p[p]
	}
	if !l.known || l.by != by {
		zero, mass := e.checks.zero.seen(e), e.checks.mass.seen(e)
		if !all {
			mass = nil
		}
		*l = looked{by, lookAt(e, zero, mass), true}
	}
	return &l.shown
}

// zeroCheck: a cell that reads right with the platform empty has hardly drifted,
// the less the further it would have to be off.
func zeroCheck(e *ask, like []float64) { e.look(false).under(e, like) }

// massCheck: a known mass shows a wrong gain as well; given the zero check.
func massCheck(e *ask, like []float64) {
	e.look(true).under(e, like)
	if e.checks.zero == nil {
		return
	}
	var first [most]float64
	e.look(false).under(e, first[:len(like)])
	for i := range like {
		like[i] /= max(first[i], 1e-30)
	}
}
