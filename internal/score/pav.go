package score

import (
	"math"
	"sort"
)

// LeastCllr returns the cost that the same likelihood ratios would have if they
// were replaced by the best figures in the same order: what they tell apart,
// without what they are off by. Cllr less LeastCllr is the loss through bad
// calibration. It is nil where either list is empty.
//
// Pool adjacent violators; Brümmer and du Preez 2006, section on minimum cost
// (memory).
func LeastCllr(first, second []float64) *float64 {
	if len(first) == 0 || len(second) == 0 {
		return nil
	}
	pools := pool(first, second)
	n, m := float64(len(first)), float64(len(second))
	var cost float64
	for _, p := range pools { // the likelihood ratio of a pool is (hits/n) / (misses/m)
		if p.hits > 0 {
			cost += p.hits / n * math.Log2(1+p.misses/m/(p.hits/n)) / 2
		}
		if p.misses > 0 {
			cost += p.misses / m * math.Log2(1+p.hits/n/(p.misses/m)) / 2
		}
	}
	return &cost
}

// run is a number of pieces that share one figure.
type run struct{ hits, misses float64 }

func (r run) share() float64 { return r.hits / (r.hits + r.misses) }

// pool sorts the pieces by ratio and joins neighbours until the share of hits
// rises all the way. Equal ratios are one run from the start.
func pool(first, second []float64) []run {
	type piece struct {
		x   float64
		hit bool
	}
	var pieces []piece
	for _, x := range first {
		pieces = append(pieces, piece{x, true})
	}
	for _, x := range second {
		pieces = append(pieces, piece{x, false})
	}
	sort.Slice(pieces, func(i, j int) bool { return pieces[i].x < pieces[j].x })
	var out []run
	for i := 0; i < len(pieces); {
		var r run
		for j := i; i < len(pieces) && pieces[i].x == pieces[j].x; i++ {
			if pieces[i].hit {
				r.hits++
			} else {
				r.misses++
			}
		}
		out = append(out, r)
		for n := len(out); n > 1 && out[n-2].share() >= out[n-1].share(); n = len(out) {
			out[n-2].hits += out[n-1].hits
			out[n-2].misses += out[n-1].misses
			out = out[:n-1]
		}
	}
	return out
}
