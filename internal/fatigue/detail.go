package fatigue

import (
	"math"
	"sort"

	"ratchetmark/internal/assume"
	"ratchetmark/internal/endurance"
	"ratchetmark/internal/record"
)

// Detail is the damage of one detail by an S-N curve.
type Detail struct {
	Damage  record.Bounds `json:"damage"` // Miner's sum
	Terms   []DetailTerm  `json:"terms"`  // of the estimate
	Classed *endurance.History
}

// DetailTerm is what the hours of one band add to the estimate.
type DetailTerm struct {
	From      record.Kilogram `json:"from_kg"`
	To        record.Kilogram `json:"to_kg"`
	Range     float64         `json:"range_mpa"` // at the middle of the loads
	Cycles    float64         `json:"cycles"`
	Endurance *float64        `json:"endurance"` // at that range; nil: it does no damage
	Damage    float64         `json:"damage"`    // over all loads of the band
	Share     float64         `json:"share"`
}

// Detail returns Miner's sum for a stress range in MPa at rated load. The bounds
// put the hours at the edges, the rates at their ends and the self-weight share
// where the sum is least and most.
func (u *Use) Detail(atRated float64, d endurance.Design) Detail {
	acting := atRated * d.GammaFf
	each := u.set.Get(assume.StressCycles)
	total := func(at placement, s float64) float64 { return u.damage(at, s, acting, d.Curve) }
	shares := u.turns(acting, d.Curve)

	out := Detail{Terms: []DetailTerm{}, Damage: record.Bounds{Low: leastBetween(func(s float64) float64 { return total(lowerEdge, s) }, shares) * u.rate[low] * each.Low}}
	if !u.bounded || u.AtLeast {
		return out
	}
	n := u.rate[usual] * each.Value
	out.Damage.Estimate = record.Of(total(uniform, u.share.Value) * n)
	most := 0.
	for _, s := range shares {
		most = max(most, total(upperEdge, s))
	}
	out.Damage.High = record.Of(most * u.rate[high] * each.High)
	out.Terms = u.terms(acting, n, d.Curve)
	var rows []endurance.Term
	for _, t := range out.Terms {
		rows = append(rows, endurance.Term{Range: t.Range, Cycles: t.Cycles})
	}
	if d.Category > 0 {
		h := endurance.HistoryOf(rows, d.Category, d.GammaMf, d.Welded)
		out.Classed = &h
	}
	return out
}

// damage returns Σ h/N with the hours placed as told.
func (u *Use) damage(at placement, s, acting float64, c endurance.Curve) float64 {
	var sum float64
	for i, h := range u.h {
		from, to := acting*StressRatio(u.from[i], s), acting*StressRatio(u.to[i], s)
		switch at {
		case lowerEdge:
			sum += h * c.Damage(from)
		case upperEdge:
			sum += h * c.Damage(to)
		case uniform:
			sum += h * c.MeanDamage(from, to)
		}
	}
	return sum
}

func (u *Use) terms(acting, n float64, c endurance.Curve) []DetailTerm {
	out := []DetailTerm{}
	var sum float64
	for i, h := range u.h {
		if h <= 0 {
			continue
		}
		from, to := acting*StressRatio(u.from[i], u.share.Value), acting*StressRatio(u.to[i], u.share.Value)
		t := DetailTerm{
			From: record.Kilogram(u.from[i]) * u.rated, To: record.Kilogram(u.to[i]) * u.rated,
			Range: (from + to) / 2, Cycles: h * n, Damage: h * n * c.MeanDamage(from, to),
		}
		if endured, ok := c.Endurance(t.Range); ok {
			t.Endurance = &endured
		}
		sum += t.Damage
		out = append(out, t)
	}
	for i := range out {
		if sum > 0 {
			out[i].Share = out[i].Damage / sum
		}
	}
	sort.SliceStable(out, func(i, j int) bool { return out[i].From < out[j].From })
	return out
}

// turns returns the self-weight shares between which the damage, as a function
// of the share, is a sum of powers: the ends of the interval, and on both sides
// of every share at which a load edge meets a knee or the cut-off of the curve.
func (u *Use) turns(acting float64, c endurance.Curve) []float64 {
	lo, hi := u.share.Low, u.share.High
	out := []float64{lo, hi}
	const most = 2000 // edges times knees; beyond, the record is not one of a machine
	for _, p := range append(append([]float64{}, u.from...), u.to...) {
		for _, knee := range c.Knees() {
			s := (knee/acting - p) / (1 - p)
			if math.IsNaN(s) || s <= lo || s >= hi || len(out) > most {
				continue
			}
			const beside = 1e-12
			out = append(out, max(s-beside, lo), min(s+beside, hi))
		}
	}
	sort.SliceStable(out, func(i, j int) bool { return out[i] < out[j] })
	return out
}

// leastBetween returns the least value of a function that is convex between
// neighbouring points.
func leastBetween(f func(float64) float64, at []float64) float64 {
	least := math.Inf(1)
	for i, a := range at {
		least = min(least, f(a))
		if i > 0 && a-at[i-1] > 1e-9 {
			least = min(least, leastConvex(f, at[i-1], a))
		}
	}
	return least
}
