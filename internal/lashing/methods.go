package lashing

import (
	"math"

	"ratchetmark/internal/record"
)

// enough absorbs the last bits of a sum where a count is rounded up.
const enough = 1e-9

// overTop answers how many over-top lashings are needed, or whether there are
// enough: EN 12195-1:2010, 5.4.
func (w *worker) overTop() {
	mass := w.need(w.q.Mass, "mass_kg", masses)
	ft := w.need(w.q.Tension, "tension_dan", tensions)
	mu := w.need(w.q.Mu, "mu", mus)
	alpha := w.or(w.q.Angle, "angle_deg", overs, 90)
	k := w.or(w.q.K, "k", shares, 2)
	block := w.or(w.q.Block, "block_dan", blocks, 0)
	n := w.count(w.q.Lashings, "lashings", counts)
	if w.stuck() {
		return
	}
	fs := w.or(w.q.Fs, "fs", factors, w.rule.Safety(w.dir))
	w.add(highTension(ft, "tension_dan"))
	if w.q.LC != nil {
		lc := w.need(w.q.LC, "lc_dan", capacity)
		w.add(slack(ft, lc, "tension_dan"))
	}
	if w.stuck() {
		return
	}
	c, g := w.rule.Share(w.dir), Weight(record.Kilogram(mass))
	if w.dir != Forward {
		block = 0
	}
	required := math.Max(0, OverTopRequired(c, w.rule.Down, mu, g, fs)-block*fs)
	each := OverTopAdds(k, mu, alpha, ft)
	w.Needed = record.Of(int(math.Ceil(required/each - enough)))
	w.settle(required, n, each, func(available float64) float64 {
		return c*g - w.rule.Down*mu*g - block - available/fs
	}, c*g)
}

// direct answers which capacity each of the lashings has to have that act one
// way, a pair where the number is not given: EN 12195-1:2010, 5.5.
func (w *worker) direct() {
	mass := w.need(w.q.Mass, "mass_kg", masses)
	mu := w.need(w.q.Mu, "mu", mus)
	block := w.or(w.q.Block, "block_dan", blocks, 0)
	n := w.count(w.q.Lashings, "lashings", counts)
	if w.stuck() {
		return
	}
	c, g, fmu := w.rule.Share(w.dir), Weight(record.Kilogram(mass)), w.rule.FMu
	if w.dir != Forward {
		block = 0
	}
	required := math.Max(0, DirectRequired(c, w.rule.Down, fmu, mu, g)-block)
	pair := 2
	if n != nil {
		pair = *n
	}
	lc := 0.0
	if w.q.LC != nil {
		lc = w.need(w.q.LC, "lc_dan", capacity)
	}
	if w.q.Angle == nil || w.q.Bearing == nil { // the best that any angle gives
		if w.q.LC == nil {
			w.need(w.q.Angle, "angle_deg", directs)
			w.need(w.q.Bearing, "bearing_deg", bearings)
		}
		if w.stuck() {
			return
		}
		most := float64(pair) * lc * DirectMost(fmu, mu)
		w.Required, w.MostAvailable = tidied(required), tidied(most)
		if most < required {
			w.OK, w.Shortfall = record.Of(false), tidied(100*(required-most)/(c*g))
		}
		return
	}
	alpha, beta := w.need(w.q.Angle, "angle_deg", directs), w.need(w.q.Bearing, "bearing_deg", bearings)
	if w.stuck() {
		return
	}
	w.add(steepest(alpha, beta, "angle_deg"))
	adds := DirectAdds(fmu, mu, alpha, beta)
	w.NeededLC = tidied(required / (float64(pair) * adds))
	if w.q.LC == nil {
		w.Required = tidied(required)
		return
	}
	w.Needed = record.Of(int(math.Ceil(required/(lc*adds) - enough)))
	w.settle(required, n, lc*adds, func(available float64) float64 { return required - available }, c*g)
}

// settle fills in what a number of lashings holds, each so much; lack tells what
// is missing of all that is asked for, friction included.
func (w *worker) settle(required float64, n *int, each float64, lack func(available float64) float64, all float64) {
	w.Required = tidied(required)
	if n == nil {
		return
	}
	available := float64(*n) * each
	w.Available = tidied(available)
	w.OK = record.Of(available >= required*(1-enough))
	w.Shortfall = tidied(math.Max(0, 100*lack(available)/all))
}

// platform answers what straps over the platform make the cell read.
func (w *worker) platform() {
	tension := w.need(w.q.Tension, "tension_dan", overMost)
	n := w.count(record.Of(w.or(w.q.Straps, "straps", straps, 1)), "straps", straps)
	alpha := w.or(w.q.Angle, "angle_deg", flats, 90)
	mu := w.or(w.q.EdgeMu, "edge_mu", edgeMus, EdgeOf("").Usual)
	if w.stuck() {
		return
	}
	w.add(highTension(tension, "tension_dan"))
	r := OverPlatform(tension, *n, alpha, mu)
	left := r.After(Settled)
	w.Apparent, w.Settled = r.tidy(), left.tidy()
	w.Source, w.Status = "pull down by one strap over an edge, after the GDV handbook", "computed"
	w.Notes = []string{
		"Straps over rails or floor, without a block under the platform: all of the pull goes through the cell.",
		"Low: nothing of the tension gets past the edge; high: all of it; estimate: by the friction of the edge.",
		"No strap over the platform: hold the machine at the tie-down points its maker names.",
	}
}

// aggregate answers 49 CFR 393.106(d): whether the working load limits make half
// the weight, or how many tie-downs of the one limit given are needed.
func (w *worker) aggregate() {
	mass := w.need(w.q.Mass, "mass_kg", masses)
	length := w.or(w.q.Length, "length_m", lengths, 0)
	n := w.count(w.q.Lashings, "lashings", counts)
	if len(w.q.WLL) == 0 || len(w.q.WLL) > 40 {
		w.Findings = append(w.Findings, record.Finding{Code: "value-missing", Severity: record.Blocking, Path: "wll_lb", Where: "wll_lb",
			Message: "the working load limits are missing, or more than 40", Expected: "a list in lb, one for each tie-down", Effect: "nothing is worked out", Hint: wlls.Hint})
	}
	for i, x := range w.q.WLL {
		w.add(wlls.check(x, record.Path("wll_lb").At(i+1)))
	}
	if w.stuck() {
		return
	}
	all := w.q.WLL
	if n != nil && len(all) == 1 { // so many of one limit
		for len(all) < *n {
			all = append(all, all[0])
		}
	}
	blocked := w.q.Blocked != nil && *w.q.Blocked
	direct := w.Method == MethodDirect
	a := Count(record.Kilogram(mass), all, nil, length, blocked)
	if !direct {
		a = Count(record.Kilogram(mass), nil, all, length, blocked)
	}
	w.RequiredLb = tidied(a.Required)
	w.Required = tidied(a.Required * DaNPerPound)
	w.Source, w.Status = "49 CFR, 393.106(d), 393.110, 393.130", "read in a restatement of the named source; 393.110 from memory"
	w.Notes = append(w.Notes, "Counted is the aggregate of working load limits and the number of tie-downs; the performance of 393.102 is not checked by it.")
	weakest := all[0]
	for _, x := range all {
		weakest = min(weakest, x)
	}
	w.Needed = record.Of(a.Needed(weakest, direct))
	if n == nil && len(w.q.WLL) == 1 {
		return
	}
	w.CountedLb, w.Available = tidied(a.Counted), tidied(a.Counted*DaNPerPound)
	w.OK = record.Of(a.Holds())
	w.Shortfall = tidied(math.Max(0, 100*(1-a.Counted/a.Required)))
}

// tidied cuts a figure to a hundredth: beyond that nothing here is known.
func tidied(x float64) *float64 { return record.Of(math.Round(x*100) / 100) }

func (r Reading) tidy() *Reading {
	cut := func(x record.Kilogram) record.Kilogram { return record.Kilogram(*tidied(float64(x))) }
	return &Reading{cut(r.Low), cut(r.Estimate), cut(r.High)}
}
