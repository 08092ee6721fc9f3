package cause

import (
	"math"

	"ratchetmark/internal/record"
)

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

// bestRival returns the best of the other causes.
func bestRival(sum [4]float64, c int) int {
	sum[c] = math.Inf(-1)
	first, _ := lead(sum)
	return first
}

// Matter is an assumption that matters to what is concluded of a piece.
type Matter struct {
	Name      string
	Unit      string
	Low, High float64 // its interval
	Usual     float64
	AtLow     float64 // likelihood ratio of the leader at its low end
	AtHigh    float64 // and at its high end
	FlipsAt   *float64
	FlipsTo   Cause
}

// moved is how far the assumptions move the likelihood ratio of the leader.
type moved struct {
	low, high float64 // ln ratio
	matters   []Matter
}

// swing is how an assumption moves the ratio, in ln.
type swing struct {
	atLow, atHigh float64
	most          float64 // how far it moves it
	flips         bool    // another leads at one end, or at both
	end           float64 // at the one where the leader falls further behind
	rival         int     // of the leader there
}

// swings works out how each assumption moves the ratio of a cause as it moves to
// the ends of its interval by itself.
func (w *weigher) swings(leader int, usual float64) (all [paramCount]swing) {
	for p := range all {
		all[p].atLow, all[p].atHigh = usual, usual
	}
	for i := range w.varied {
		v := &w.varied[i]
		if !w.bears(v.param) {
			continue
		}
		ratio, rival := ratioOf(w.under(v), &v.values, leader)
		s, end := &all[v.param], v.values[v.param]
		if end < w.values[v.param] {
			s.atLow = ratio
		} else {
			s.atHigh = ratio
		}
		if ratio < 0 && usual >= 0 && (!s.flips || ratio < usual-s.most) {
			s.flips, s.end, s.rival = true, end, rival
		}
		s.most = max(s.most, math.Abs(ratio-usual))
	}
	return all
}

// move works out the range of the ratio of a cause, and what moves it most. The
// moves add up as those of independent quantities do, by the root of the sum of
// their squares (JCGM 100:2008, 5.1.2, from memory; of whole intervals instead of
// deviations).
func (w *weigher) move(leader int, usual float64) moved {
	all := w.swings(leader, usual)
	var down, up float64
	for _, s := range all {
		below := max(0, usual-min(s.atLow, s.atHigh))
		above := max(0, max(s.atLow, s.atHigh)-usual)
		down, up = down+below*below, up+above*above
	}
	return moved{usual - math.Sqrt(down), usual + math.Sqrt(up), w.mostMoving(leader, usual, &all)}
}

// bears reports whether a parameter bears on the piece at hand.
func (w *weigher) bears(p param) bool {
	asked := again[p][0] | again[p][1] | again[p][2] | again[p][3]
	return paramTable[p].parts == scaling || asked&w.piece.applies != 0
}

// mostMatters is how many of the assumptions that matter are named.
const mostMatters = 3

// mostMoving returns the assumptions that move the ratio most, with the value
// at which one turns the leader over. What only scales it is left out.
func (w *weigher) mostMoving(leader int, usual float64, all *[paramCount]swing) []Matter {
	var out []Matter
	for range mostMatters {
		best := -1
		for p := range all {
			if all[p].most > noticeable && paramTable[p].parts != scaling && (best < 0 || ninth(all[p].most) > ninth(all[best].most)) {
				best = p
			}
		}
		if best < 0 {
			break
		}
		out = append(out, w.matter(param(best), leader, usual, &all[best]))
		all[best].most = 0
	}
	return out
}

// matter tells how an assumption moves the ratio of a cause.
func (w *weigher) matter(p param, leader int, usual float64, s *swing) Matter {
	row := w.rows[p]
	m := Matter{
		Name: row.Name, Unit: row.Unit, Low: row.Low, High: row.High, Usual: row.Value,
		AtLow: math.Exp(s.atLow), AtHigh: math.Exp(s.atHigh),
	}
	if s.flips {
		m.FlipsAt, m.FlipsTo = record.Of(w.flip(leader, p, s.end, usual, min(s.atLow, s.atHigh))), All[s.rival]
	}
	return m
}

// noticeable is how far, in ln, an assumption has to move the ratio to be named.
const noticeable = 0.2

// flip finds about where, between its usual value and an end where another
// leads, an assumption turns the leader over: by turns on the straight line between
// the nearest values on either side and half way between them. Another leads at the value returned, what lies beside the piece
// being as it usually is.
func (w *weigher) flip(leader int, p param, end, usual, atEnd float64) float64 {
	near, far := w.values[p], end
	v := &w.tried
	for step := range 4 {
		at := (near + far) / 2
		if step%2 == 0 {
			at = near + (far-near)*usual/(usual-atEnd)
		}
		w.with(v, p, at)
		if ratio, _ := ratioOf(w.under(v), &v.values, leader); ratio < 0 {
			far, atEnd = at, ratio
		} else {
			near, usual = at, ratio
		}
	}
	return far
}
