package cause

import (
	"math"

	"ratchetmark/internal/record"
)

// vary lists the ways in which the assumptions can differ: each at the low and
// at the high end of its interval, the others at their usual values.
func (w *weigher) vary() {
	for p := range paramCount {
		row := w.rows[p]
		for _, end := range []float64{row.Low, row.High} {
			if end != row.Value {
				w.varied = append(w.varied, w.with(p, end))
			}
		}
	}
}

// with returns the models with one assumption set to a value.
func (w *weigher) with(p param, x float64) variation {
	v := variation{values: w.values, touches: paramTable[p].touches, models: w.usual, param: p}
	v.values[p] = x
	build := [4]func() model{
		func() model { return newWorked(&v.values, w.m, w.loads) },
		func() model { return newLashed(&v.values, w.m, w.loads) },
		func() model { return newShock(&v.values, w.m, w.loads) },
		func() model { return newDrift(&v.values, w.m, w.loads) },
	}
	for c := range build {
		if v.touches[c] {
			v.models[c] = build[c]()
		}
	}
	return v
}

// likelihoods weighs a piece under a variation. What does not differ is taken
// from the usual scores.
func (v *variation) likelihoods(f *facts, base, next scores, applies []bool) [4]float64 {
	copy(next, base)
	everywhere := v.touches == ofAll
	if also := paramTable[v.param].also; also != "" {
		everywhere = appliesTo(also, applies)
	}
	for c := range v.models {
		if v.touches[c] || everywhere {
			weighUnder(&ask{facts: f, p: &v.values, cause: c, model: v.models[c]}, applies, !everywhere, next)
		}
	}
	return likelihoods(next, applies, &v.values)
}

// Ratio is a likelihood ratio with its range as the assumptions move.
type Ratio struct {
	Value, Low, High float64
	Against          Cause
}

// lead returns the cause with the greatest weight and its best rival.
func lead(weight [4]float64) (first, second int) {
	second = 1
	for c := range weight {
		if weight[c] > weight[first] {
			first = c
		}
	}
	if first == second {
		second = 0
	}
	for c := range weight {
		if c != first && weight[c] > weight[second] {
			second = c
		}
	}
	return first, second
}

// bestRival returns the most likely of the other causes.
func bestRival(like [4]float64, c int) int {
	like[c] = -1
	first, _ := lead(like)
	return first
}

// logRatio returns ln of the likelihood of a cause over that of its best rival.
func logRatio(like [4]float64, c int) float64 {
	return math.Log(like[c] / like[bestRival(like, c)])
}

// Matter is an assumption that matters to what is concluded of a piece.
type Matter struct {
	Name       string
	Unit       string
	Low, High  float64 // its interval
	Usual      float64
	AtLow      float64 // likelihood ratio of the leader at its low end
	AtHigh     float64 // and at its high end
	FlipsAt    *float64
	FlipsTo    Cause
	decibans   float64 // how far it moves the ratio, for ordering
	flipsIndex int
}

// moved is how the assumptions move the likelihood ratio of the leader.
type moved struct {
	low, high float64 // ln ratio
	matters   []Matter
}

// mostMatters is how many of the assumptions that matter are named.
const mostMatters = 3

// move works out how far the likelihood ratio of a cause moves as each
// assumption moves to the ends of its interval by itself. The moves add up as
// those of independent quantities do, by the root of the sum of their squares
// (JCGM 100:2008, 5.1.2, from memory; of whole intervals instead of deviations).
func (w *weigher) move(f *facts, base scores, applies []bool, leader int, usual float64) moved {
	var down, up float64
	var byParam [paramCount]Matter
	next := make(scores, len(base))
	for i := range w.varied {
		v := &w.varied[i]
		if only := paramTable[v.param].only; only != "" && !appliesTo(only, applies) {
			continue
		}
		like := v.likelihoods(f, base, next, applies)
		ratio := logRatio(like, leader)
		m := &byParam[v.param]
		if m.Name == "" {
			row := w.rows[v.param]
			*m = Matter{Name: row.Name, Unit: row.Unit, Low: row.Low, High: row.High, Usual: row.Value, AtLow: usual, AtHigh: usual, flipsIndex: -1}
		}
		if v.values[v.param] < w.values[v.param] {
			m.AtLow = ratio
		} else {
			m.AtHigh = ratio
		}
		if ratio < 0 && usual >= 0 && (m.flipsIndex < 0 || ratio < usual-m.decibans) {
			m.flipsIndex, m.FlipsTo = i, All[bestRival(like, leader)]
		}
		m.decibans = max(m.decibans, math.Abs(ratio-usual))
	}
	for p := range byParam {
		m := &byParam[p]
		if m.Name == "" {
			continue
		}
		below := max(0, usual-min(m.AtLow, m.AtHigh))
		above := max(0, max(m.AtLow, m.AtHigh)-usual)
		down, up = down+below*below, up+above*above
	}
	out := moved{low: usual - math.Sqrt(down), high: usual + math.Sqrt(up)}
	out.matters = w.mostMoving(f, base, applies, leader, usual, byParam[:])
	return out
}

// appliesTo reports whether an item applies, or one of a group.
func appliesTo(id string, applies []bool) bool {
	for k := range evidence {
		if applies[k] && (evidence[k].id == id || evidence[k].group == id) {
			return true
		}
	}
	return false
}

// mostMoving returns the assumptions that move the ratio most, with the value
// at which one turns the leader over. What only scales it is left out.
func (w *weigher) mostMoving(f *facts, base scores, applies []bool, leader int, usual float64, all []Matter) []Matter {
	var out []Matter
	for range mostMatters {
		best := -1
		for p := range all {
			if all[p].decibans > noticeable && (paramTable[p].touches != (touches{}) || paramTable[p].only != "") && (best < 0 || all[p].decibans > all[best].decibans) {
				best = p
			}
		}
		if best < 0 {
			break
		}
		m := all[best]
		if m.flipsIndex >= 0 {
			m.FlipsAt = record.Of(w.flip(f, base, applies, leader, param(best), w.varied[m.flipsIndex].values[best], usual, min(m.AtLow, m.AtHigh)))
		}
		m.AtLow, m.AtHigh = math.Exp(m.AtLow), math.Exp(m.AtHigh)
		out = append(out, m)
		all[best].decibans = 0
	}
	return out
}

// noticeable is how far, in ln, an assumption has to move the ratio to be named.
const noticeable = 0.2

// flip finds about where, between its usual value and an end where another
// leads, an assumption turns the leader over: twice by the straight line between
// the nearest values on either side. Another leads at the value returned.
func (w *weigher) flip(f *facts, base scores, applies []bool, leader int, p param, end, usual, atEnd float64) float64 {
	near, far := w.values[p], end
	next := make(scores, len(base))
	for range 2 {
		at := near + (far-near)*usual/(usual-atEnd)
		v := w.with(p, at)
		if ratio := logRatio(v.likelihoods(f, base, next, applies), leader); ratio < 0 {
			far, atEnd = at, ratio
		} else {
			near, usual = at, ratio
		}
	}
	return far
}
