package cause

import "math"

// What a check of the cell is held against; assumptions.
const (
	driftLastSpread = 1.5  // of ln days: some drifts are found at once, others never
	movedOn         = 0.35 // deviation of what a check shows of a drift, of its size: it walks, or the gain is off
	wrongUp         = 0.7  // share of cells wrong by the way that read too much
)

// anyFault is how far a cell is off that is wrong without having caused the
// piece, of the rated load; an assumption.
var anyFault = spreadOf(lognormal{0.15, 1.1})

// shownHalf is half the step in which loads are shown, kg; an assumption.
const shownHalf = 1

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
	right        float64  // how probable they are of a right cell
	anyway, rest float64  // and of any: all of them, and what is not one
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
		s.hold(e)
		return s
	}
	s.as = []window{zero.window, mass.window}
	s.always, s.once = min(zero.present, mass.present), math.Abs(zero.present-mass.present)
	s.hold(e)
	if s.once > 0 {
		other := s.as[1:]
		if s.one = s.as[:1]; mass.present > zero.present {
			s.one, other = other, s.one
		}
		s.rest = e.s.whatever(s.bench, other).any
	}
	return s
}

// hold holds all checks against cells that have not caused the piece.
func (s *shownIn) hold(e *ask) {
	w := e.s.whatever(s.bench, s.as)
	s.right, s.anyway = w.right, w.any
}

// written returns how probable it is that the checks are written down, given that
// they show it with a probability: some are written down as they ought to be,
// without a look.
func (s *shownIn) written(shown float64) float64 {
	return mixed(s.p[checkTrue], shown, s.right)
}

// under works out how probable the checks are under a cause, for each of its
// latent values.
func (s *shownIn) under(e *ask, like []float64) {
	d, ok := e.model.(*drift)
	if !ok {
		fill(like, s.written(s.anyway))
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
		like[i] = s.written(shown)
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
