package cause

import (
	"math"

	"ratchetmark/internal/assume"
	"ratchetmark/internal/record"
)

// models builds the model of each cause.
func models(p *params, m platform, loads []float64) [4]model {
	l := ladderOf(loads, m)
	return [4]model{newWorked(p, m, l), newLashed(p, l), newShock(p, m, l), newDrift(p, m, l)}
}

// scores are the logarithms of the likelihood of each item under each cause; 0
// for an item that does not apply.
type scores [][4]float64

// weighing is what was found of one piece with the usual values: what a
// variation starts from.
type weighing struct {
	f       *facts
	applies items
	asks    [4]ask
	scores  scores
	likes   [][4]perLatent // likelihoods by item and cause
	before  [][4]perLatent // weights of the latent values before an item
}

func newWeighing() *weighing {
	n := len(evidence)
	return &weighing{scores: make(scores, n), likes: make([][4]perLatent, n), before: make([][4]perLatent, n)}
}

// weigh asks every item that applies about a piece.
func (w *weighing) weigh(f *facts, ms *[4]model, p *params) {
	w.f, w.applies = f, 0
	clear(w.scores)
	for k := range evidence {
		if evidence[k].applies(f) {
			w.applies |= 1 << k
		}
	}
	for c := range ms {
		w.asks[c] = ask{facts: f, p: p, cause: c, model: ms[c]}
		w.under(&w.asks[c])
	}
}

// under asks every item that applies under one cause.
func (w *weighing) under(e *ask) {
	c := e.cause
	e.know(whole)
	weights := e.weights()
	for left := w.applies; left != 0; left = left.rest() {
		k := left.first()
		w.before[k][c] = weights
		like := w.likes[k][c][:e.latents]
		evidence[k].weigh(e, like)
		w.scores[k][c] = learn(weights[:e.latents], like)
	}
}

// learn weighs latent values by the likelihoods of an item, and returns the
// logarithm of the likelihood of all of them together. Weights add up to 1,
// before and after.
func learn(weights, like []float64) float64 {
	sum := 0.0
	for i := range weights {
		weights[i] *= proper(like[i])
		sum += weights[i]
	}
	if sum < leastLikely { // hardly possible: what follows is weighed as if it were
		for i := range weights {
			weights[i] = 1 / float64(len(weights))
		}
		return math.Log(leastLikely)
	}
	scale := 1 / sum
	for i := range weights {
		weights[i] *= scale
	}
	return math.Log(sum)
}

// leastLikely is what no item finds less likely.
const leastLikely = 1e-12

// proper returns a likelihood that can be reckoned with: figures beyond all
// machines may leave none.
func proper(x float64) float64 {
	if !(x > 1e-30) {
		return 1e-30
	}
	return min(x, 1e30)
}

// together adds the items up, each within its cap.
func together(s scores, applies items) (sum [4]float64) {
	for left := applies; left != 0; left = left.rest() {
		k := left.first()
		capped := capItem(&s[k], evidence[k].cap)
		for c := range sum {
			sum[c] += capped[c]
		}
	}
	return sum
}

// likelihood returns how likely a cause is against one that lies further up by
// some logarithm of the items together. What they say together is taken at a
// share of its strength, because the models are rough and the items have more in
// common than the models know; and no cause falls further behind than the chance
// that none of the models holds.
func (p *params) likelihood(behind float64) float64 {
	doubt := p[modelDoubt]
	return (1-doubt)*math.Exp(-p[reliance]*behind) + doubt
}

// likelihoods returns how likely each cause is against the best of them.
func likelihoods(sum [4]float64, p *params) (like [4]float64) {
	best := max(sum[0], sum[1], sum[2], sum[3])
	for c := range sum {
		like[c] = p.likelihood(best - sum[c])
	}
	return like
}

// ratioOf returns ln of the likelihood of a cause over that of its best rival.
// One of the two is the best of all, and its likelihood is 1.
func ratioOf(sum [4]float64, p *params, c int) (ln float64, rival int) {
	rival = bestRival(sum, c)
	ahead := sum[c] - sum[rival]
	if ahead < 0 {
		return math.Log(p.likelihood(-ahead)), rival
	}
	return -math.Log(p.likelihood(ahead)), rival
}

// capItem returns an item's logarithms below the best cause, none further than
// the cap, which is in log10.
func capItem(logs *[4]float64, limit float64) (capped [4]float64) {
	best := max(logs[0], logs[1], logs[2], logs[3])
	for c := range logs {
		capped[c] = max(logs[c]-best, -limit*math.Ln10)
	}
	return capped
}

// weigher weighs the pieces of one history.
type weigher struct {
	h      record.History
	seen   *intervals
	set    assume.Set
	prior  [4]float64
	values params
	rows   [paramCount]assume.Assumption
	m      platform
	loads  []float64
	usual  [4]model
	varied []variation
	tried  variation // one at hand, between two of these
	piece  *weighing // the piece at hand
	next   scores    // its scores under the variation at hand
	ask    ask       // of that variation
	like   perLatent // of an item of it
}

func newWeigher(h record.History, set assume.Set, pieces []Exceedance) *weigher {
	w := &weigher{h: h, seen: readIntervals(h), set: set, prior: priorsOf(set), m: platformOf(h, set), loads: loadsOf(h, pieces)}
	w.values, w.rows = usualParams(set)
	w.usual = models(&w.values, w.m, w.loads)
	w.piece, w.next = newWeighing(), make(scores, len(evidence))
	w.vary()
	return w
}
