package cause

// variation is one way in which assumptions differ from the usual.
type variation struct {
	values   params
	param    param      // the one that differs
	settings [4]setting // of each cause
	yields   [4]*yield  // of the models that differ
}

// vary lists the ways in which the assumptions can differ: each at the low and
// at the high end of its interval, the others at their usual values.
func (w *weigher) vary() {
	w.varied = make([]variation, 0, 2*paramCount)
	w.yields = make([]yield, 2*paramCount)
	for p := range paramCount {
		row := w.rows[p]
		for _, end := range []float64{row.Low, row.High} {
			if end != row.Value {
				w.varied = append(w.varied, variation{})
				w.with(&w.varied[len(w.varied)-1], p, end)
			}
		}
	}
}

// with makes a variation one in which an assumption has a value.
func (w *weigher) with(v *variation, p param, x float64) {
	v.values, v.param = w.values, p
	v.values[p] = x
	for c, touched := range paramTable[p].touches {
		s := &v.settings[c]
		*s = setting{p: &v.values, model: w.usual[c], yield: &w.piece.yields[c]}
		if touched {
			if v.yields[c] == nil {
				v.yields[c] = w.freshYield()
			}
			s.differ, s.yield = paramTable[p].parts, v.yields[c]
			s.model = s.model.with(s.p, s.differ)
		}
	}
}

// freshYield returns one that nothing is known of. They are made many at a time.
func (w *weigher) freshYield() *yield {
	if len(w.yields) == 0 {
		return new(yield)
	}
	y := &w.yields[0]
	w.yields = w.yields[1:]
	return y
}

// under weighs the piece at hand under a variation: what the items say together.
// What does not differ is taken from what was found with the usual values.
func (w *weigher) under(v *variation) [4]float64 {
	var changed items
	for c := range v.settings {
		if asked := again[v.param][c] & w.piece.applies; asked != 0 {
			changed = w.askAgain(v, c, asked, changed)
		}
	}
	sum := w.piece.sum
	for ; changed != 0; changed = changed.rest() {
		k := changed.first()
		if w.next[k] == w.piece.scores[k] {
			continue
		}
		capped := capItem(&w.next[k], evidence[k].cap)
		for c, x := range capped {
			sum[c] += x - w.piece.capped[k][c]
		}
	}
	return sum
}

// askAgain asks items again under one cause of a variation, and adds those to
// the changed ones whose score may differ. The latent values are weighed anew from
// the first of them on, or from the start where they differ themselves.
func (w *weigher) askAgain(v *variation, c int, asked, changed items) items {
	e := w.askOf(v, c)
	first := asked.first()
	weights := w.piece.before[first][c]
	if e.differ&hidden != 0 {
		first, weights = w.piece.applies.first(), e.weights()
	}
	for left := w.piece.applies.from(first); left != 0; left = left.rest() {
		k := left.first()
		if !asked.has(k) && evidence[k].plain[c] { // says what it said
			continue
		}
		if !changed.has(k) {
			changed |= 1 << k
			w.next[k] = w.piece.scores[k]
		}
		if asked.has(k) {
			w.next[k][c] = e.ask(k, &w.like, &weights)
		} else {
			w.next[k][c] = e.learn(k, &w.piece.likes[k][c], &weights)
		}
	}
	return changed
}

// askOf prepares to ask about the piece under one cause of a variation.
func (w *weigher) askOf(v *variation, c int) *ask {
	e, base := &w.asks[c], &w.piece.asks[c]
	if e.facts != base.facts { // pointers are written no more often than they differ: the collector watches
		e.facts, e.cause, e.usual = base.facts, c, base.yield
	}
	e.setting, e.known = &v.settings[c], base.known
	e.know()
	return e
}
