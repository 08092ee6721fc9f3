package cause

import (
	"math"

	"ratchetmark/internal/assume"
	"ratchetmark/internal/record"
)

// most is the largest number of latent values of a model.
const most = 6

// models builds the model of each cause.
func models(p *params, m platform, loads []float64) [4]model {
	return [4]model{newWorked(p, m, loads), newLashed(p, m, loads), newShock(p, m, loads), newDrift(p, m, loads)}
}

// scores are the logarithms of the likelihood of each item under each cause;
// nil stands for an item that does not apply.
type scores [][4]float64

// weighItems asks every item about one piece, under the causes named.
func weighItems(f *facts, ms *[4]model, p *params, applies []bool, only touches, into scores) {
	for c := range ms {
		if only[c] {
			weighUnder(&ask{facts: f, p: p, cause: c, model: ms[c]}, applies, false, into)
		}
	}
}

// weighUnder asks items under one cause. With keep, those that know of no latent
// value keep the score that they have: nothing that they read differs.
func weighUnder(e *ask, applies []bool, keep bool, into scores) {
	var weights, likes [most]float64
	latents := e.model.latents()
	w, like := weights[:len(latents)], likes[:len(latents)]
	before := 0.0
	for i, l := range latents {
		w[i] = l.weight
		before += l.weight
	}
	for k := range evidence {
		if !applies[k] || keep && evidence[k].plain[e.cause] {
			continue
		}
		evidence[k].weigh(e, like)
		sum := 0.0
		for i := range w {
			w[i] *= proper(like[i])
			sum += w[i]
		}
		if least := before * 1e-12; sum < least { // hardly possible: what follows is weighed as if it were
			for i := range w {
				w[i] = least / float64(len(w))
			}
			sum = least
		}
		into[k][e.cause] = math.Log(sum / before)
		before = sum
		if before < 1e-200 { // keep the numbers in range
			for i := range w {
				w[i] /= before
			}
			before = 1
		}
	}
}

// proper returns a likelihood that can be reckoned with: figures beyond all
// machines may leave none.
func proper(x float64) float64 {
	if !(x > 1e-30) {
		return 1e-30
	}
	return min(x, 1e30)
}

// likelihoods adds the items up, each within its cap. What they say together is
// taken at a share of its strength, because the models are rough and the items
// have more in common than the models know; and no cause falls further behind
// than the chance that none of the models holds.
func likelihoods(s scores, applies []bool, p *params) [4]float64 {
	doubt := p[modelDoubt]
	var sum [4]float64
	for k := range s {
		if !applies[k] {
			continue
		}
		capped := capItem(s[k], evidence[k].cap)
		for c := range sum {
			sum[c] += capped[c]
		}
	}
	best := max(sum[0], sum[1], sum[2], sum[3])
	for c := range sum {
		sum[c] = (1-doubt)*math.Exp(p[reliance]*(sum[c]-best)) + doubt
	}
	return sum
}

// capItem returns an item's logarithms below the best cause, none further than
// the cap, which is in log10.
func capItem(logs [4]float64, limit float64) [4]float64 {
	best := max(logs[0], logs[1], logs[2], logs[3])
	for c := range logs {
		logs[c] = max(logs[c]-best, -limit*math.Ln10)
	}
	return logs
}

// weigher weighs the pieces of one history.
type weigher struct {
	h      record.History
	set    assume.Set
	prior  [4]float64
	values params
	rows   [paramCount]assume.Assumption
	m      platform
	loads  []float64
	usual  [4]model
	varied []variation
}

// variation is one way in which assumptions differ from the usual.
type variation struct {
	values  params
	touches touches // models that differ
	models  [4]model
	param   param // the only one that differs; paramCount for several
}

func newWeigher(h record.History, set assume.Set, pieces []Exceedance) *weigher {
	w := &weigher{h: h, set: set, prior: priorsOf(set), m: platformOf(h, set), loads: loadsOf(h, pieces)}
	w.values, w.rows = usualParams(set)
	w.usual = models(&w.values, w.m, w.loads)
	w.vary()
	return w
}
