package dossier

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"ratchetmark/internal/cause"
	"ratchetmark/internal/record"
)

// sharedTexts returns what the record shows of all pieces in the same words.
func sharedTexts(all []*Exceedance) []string {
	var out []string
	for _, r := range all[0].Reasons {
		everywhere := !slices.ContainsFunc(all, func(x *Exceedance) bool {
			return !slices.ContainsFunc(x.Reasons, func(o Reason) bool { return o.ID == r.ID && o.Text == r.Text })
		})
		if everywhere {
			out = append(out, r.Text)
		}
	}
	return out
}

// SharedReasons says once what the record shows of all pieces that are told
// together, with how it pulls, and last what pulls in none; empty for one piece.
func SharedReasons(d *Dossier, t *Told) []string {
	var out, alike []string
	for _, text := range t.shared {
		if pulls := pullSpan(d.piecesOf(t.Pieces), text); pulls != "" {
			out = append(out, Capital(text)+": "+pulls+".")
		} else {
			alike = append(alike, text)
		}
	}
	if text := AlikeText(alike); text != "" {
		out = append(out, text)
	}
	return out
}

// pullSpan says how what all pieces show pulls in them; empty where it does in
// none.
func pullSpan(all []*Exceedance, text string) string {
	var parts []string
	least, most := map[cause.Cause]float64{}, map[cause.Cause]float64{}
	neither := false
	for _, x := range all {
		r := x.Reasons[slices.IndexFunc(x.Reasons, func(r Reason) bool { return r.Text == text })]
		pull, side := Pull(x, r), x.Leader
		if pull < 0 {
			pull, side = -pull, x.Ratio.Against
		}
		if pull < hardlyPulls {
			neither = true
			continue
		}
		if most[side] == 0 {
			least[side] = pull
		}
		least[side], most[side] = min(least[side], pull), max(most[side], pull)
	}
	for _, c := range cause.All {
		if most[c] == 0 {
			continue
		}
		r := ratioSpan{least: math.Pow(10, least[c]), most: math.Pow(10, most[c])}
		parts = append(parts, fmt.Sprintf("fits %s %s times better", Short(c), r.values()))
	}
	if neither && len(parts) > 0 {
		parts = append(parts, "in others both alike")
	}
	return list(parts, "and")
}

// Alternatives states the best other readings of pieces that are told together.
func Alternatives(d *Dossier, t *Told) string {
	all := d.piecesOf(t.Pieces)
	if len(all) == 1 {
		return Alternative(all[0])
	}
	var rivals []cause.Cause
	least, most, meaning := map[cause.Cause]float64{}, map[cause.Cause]float64{}, map[cause.Cause]string{}
	for _, x := range all {
		c := x.Ratio.Against
		w := x.Posterior.Get(c)
		if meaning[c] == "" {
			rivals = append(rivals, c)
			least[c], meaning[c] = w, wouldMean[x.What][c]
		}
		least[c], most[c] = min(least[c], w), max(most[c], w)
	}
	record.SortStable(rivals, func(a, b cause.Cause) int { return cmp.Compare(most[b], most[a]) })
	var parts []string
	for _, c := range rivals {
		parts = append(parts, fmt.Sprintf("%s (weight %s): %s", plainly(c), weightSpan(least[c], most[c]), meaning[c]))
	}
	return "The best other reading is " + strings.Join(parts, "; or ") + "."
}

func weightSpan(least, most float64) string {
	a, b := WeightText(least), WeightText(most)
	if a == b {
		return a
	}
	return strings.TrimSuffix(a, " %") + " to " + b
}

// TurnOvers says of pieces that are told together which assumptions turn how
// many of them over, and where.
func TurnOvers(d *Dossier, t *Told) string {
	all := d.piecesOf(t.Pieces)
	if len(all) == 1 {
		return TurnsOver(all[0])
	}
	flips := flipsOf(all)
	var parts []string
	for _, f := range flips {
		at := f.m.with(twoDigits(f.least))
		if high := f.m.with(twoDigits(f.most)); high != at {
			at = Grouped(twoDigits(f.least)) + " to " + high
		}
		parts = append(parts, fmt.Sprintf("%s, from about %s %s (%d of %d)", f.m.Name, at, f.m.side(), f.n, len(all)))
	}
	switch {
	case len(parts) > 0:
		return "What turns it over: " + strings.Join(parts, "; ") + "."
	case t.outcome == isNamed || t.outcome == isWeak:
		return "No assumption turns it over within its interval."
	case t.outcome == isTurned || t.outcome == isAlike:
		return noneAlone
	}
	return ""
}

// flip is an assumption that turns n pieces over, from the least to the most value.
type flip struct {
	m           Matter
	least, most float64
	n           int
}

// flipsOf gathers the assumptions that turn pieces over.
func flipsOf(all []*Exceedance) []flip {
	var out []flip
	for _, x := range all {
		for _, m := range x.Matters {
			if m.FlipsAt == nil || x.Ratio.Value < 1 || x.MayBeUnder {
				continue
			}
			k := slices.IndexFunc(out, func(f flip) bool { return f.m.Name == m.Name && f.m.side() == m.side() })
			if k < 0 {
				k = len(out)
				out = append(out, flip{m: m, least: math.Inf(1), most: math.Inf(-1)})
			}
			f := &out[k]
			f.least, f.most, f.n = min(f.least, *m.FlipsAt), max(f.most, *m.FlipsAt), f.n+1
		}
	}
	return out
}

// Own returns what the record shows of a piece beyond what is told of all pieces
// with it: what tells the leader from the best rival, and what fits both alike.
func Own(t *Told, x *Exceedance) (telling []Reason, alike []string) {
	all, same := Telling(x)
	for _, r := range all {
		if !slices.Contains(t.shared, r.Text) {
			telling = append(telling, r)
		}
	}
	for _, text := range same {
		if !slices.Contains(t.shared, text) {
			alike = append(alike, text)
		}
	}
	return telling, alike
}
