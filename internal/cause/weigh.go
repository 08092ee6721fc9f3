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

// scores are the logarithms of the likelihood of each item under each cause, by
// the item's number. Those of an item that does not apply mean nothing.
type scores [][4]float64

// weighing is what was found of one piece with the usual values: what a
// variation starts from.
type weighing struct {
	f       *facts
	applies items
	asks    [4]ask
	base    [4]setting
	yields  [4]yield
	scores  scores
	likes   [][4]perLatent // likelihoods by item and cause
	before  [][4]perLatent // weights of the latent values before an item
	capped  scores         // below the best cause, each within the cap of its item
	sum     [4]float64     // of those
}

func newWeighing() *weighing {
	n := len(evidence)
	return &weighing{scores: make(scores, n), likes: make([][4]perLatent, n), before: make([][4]perLatent, n), capped: make(scores, n)}
}

// weigh asks every item that applies about a piece.
func (w *weighing) weigh(f *facts, ms *[4]model, p *params) {
	w.f, w.applies, w.sum = f, 0, [4]float64{}
	for k := range evidence {
		if evidence[k].applies(f) {
			w.applies |= 1 << k
		}
	}
	for c := range ms {
		w.base[c] = setting{p: p, model: ms[c], differ: everything, yield: &w.yields[c]}
		w.asks[c] = ask{facts: f, setting: &w.base[c], cause: c}
		w.under(&w.asks[c])
	}
	for left := w.applies; left != 0; left = left.rest() {
		k := left.first()
		w.capped[k] = capItem(&w.scores[k], evidence[k].cap)
		for c, x := range w.capped[k] {
			w.sum[c] += x
		}
	}
}

// under asks every item that applies under one cause.
func (w *weighing) under(e *ask) {
	c := e.cause
	e.know()
	weights := e.weights()
	for left := w.applies; left != 0; left = left.rest() {
		k := left.first()
		w.before[k][c] = weights
		w.scores[k][c] = e.ask(k, &w.likes[k][c], &weights)
	}
}

// ask asks an item, which changes the weights of the latent values, and returns
// the logarithm of its likelihood.
func (e *ask) ask(k int, like, weights *perLatent) float64 {
	evidence[k].weigh(e, like[:e.latents])
	return e.learn(k, like, weights)
}

// learn weighs latent values by the likelihoods of an item, and returns the
// logarithm of the likelihood of all of them together. Weights add up to 1,
// before and after.
func (e *ask) learn(k int, likes, weightsOf *perLatent) float64 {
	if evidence[k].plain[e.cause] { // none of them gains on another
		return ln(max(proper(likes[0]), leastLikely))
	}
	weights, like := weightsOf[:e.latents], likes[:e.latents]
	sum := 0.0
	for i := range weights {
		weights[i] *= proper(like[i])
		sum += weights[i]
	}
	if sum < leastLikely { // hardly possible: what follows is weighed as if it were
		for i := range weights {
			weights[i] = 1 / float64(len(weights))
		}
		return ln(leastLikely)
	}
	scale := 1 / sum
	for i := range weights {
		weights[i] *= scale
	}
	return ln(sum)
}

// leastLikely is what no item finds less likely.
const leastLikely = 1e-12

// proper returns a likelihood that can be reckoned with: figures beyond all
// machines may leave none.
func proper(x float64) float64 {
	switch {
	case !(x > 1e-30):
		return 1e-30
	case x > 1e30:
		return 1e30
	}
	return x
}

// likelihood returns how likely a cause is against one that lies further up by
// some logarithm of the items together. What they say together is taken at a
// share of its strength, because the models are rough and the items have more in
// common than the models know; and no cause falls further behind than the chance
// that none of the models holds.
func (p *params) likelihood(behind float64) float64 {
	doubt := p[modelDoubt]
	return (1-doubt)*exp(-p[reliance]*behind) + doubt
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
func ratioOf(sum [4]float64, p *params, c int) (logarithm float64, rival int) {
	rival = bestRival(sum, c)
	ahead := sum[c] - sum[rival]
	if ahead < 0 {
		return ln(p.likelihood(-ahead)), rival
	}
	return -ln(p.likelihood(ahead)), rival
}

// capItem returns an item's logarithms below the best cause, none further than
// the cap, which is in log10.
func capItem(logs *[4]float64, limit float64) (capped [4]float64) {
	best := logs[0]
	for _, x := range logs[1:] {
		if x > best {
			best = x
		}
	}
	least := -limit * math.Ln10
	for c, x := range logs {
		if x -= best; x < least {
			x = least
		}
		capped[c] = x
	}
	return capped
}

// weigher weighs the pieces of one history.
type weigher struct {
	seen   *intervals
	prior  [4]float64
	values params
	rows   [paramCount]assume.Assumption
	m      platform
	loads  []float64
	usual  [4]model
	varied []variation
	tried  variation // one at hand, between two of these
	piece  *weighing // the piece at hand
	next   scores    // of items that were asked again under the variation at hand
	asks   [4]ask    // of that variation
	yields []yield   // that no variation has yet
	like   perLatent // of one of its items
}

func newWeigher(h record.History, set assume.Set, pieces []Exceedance) *weigher {
	w := &weigher{seen: readIntervals(h), prior: priorsOf(set), m: platformOf(h, set), loads: loadsOf(h, pieces)}
	w.values, w.rows = usualParams(set)
	w.usual = models(&w.values, w.m, w.loads)
	w.piece, w.next = newWeighing(), make(scores, len(evidence))
	w.vary()
	return w
}

// read returns what the evidence reads of the history about a piece.
func (w *weigher) read(x Exceedance, habits Habits) facts {
	f := w.seen.factsOf(x, w.loads, habits)
	w.readMade(&f)
	return f
}
