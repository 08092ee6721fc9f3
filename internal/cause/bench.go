package cause

import (
	"math"

	"ratchetmark/internal/record"
)

// window is what a check may show: by how many kg too much, from and to.
type window struct {
	on       float64 // kg on the platform
	from, to float64
}

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

// whatever is how probable it is that checks show what they do whether or not the
// cell has caused a piece: of a right cell, and of any.
type whatever struct{ right, any float64 }

// looks are the checks that were looked at, and the parameters that they were held
// against: most pieces of a machine see the same.
type looks struct {
	spread, shows, wrong float64
	first, second        window
	number               int
}

// whatever works out once for a machine what checks show of cells that have not
// caused a piece.
func (s *intervals) whatever(b bench, shown []window) whatever {
	key := looks{b.p[checkSpread], b.p[zeroShows], b.p[cellWrong], shown[0], shown[len(shown)-1], len(shown)}
	w, known := s.looks[key]
	if !known {
		w = whatever{b.given(0, shown), b.anyway(shown)}
		s.looks[key] = w
	}
	return w
}
