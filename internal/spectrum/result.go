package spectrum

import (
	"slices"

	"ratchetmark/internal/endurance"
	"ratchetmark/internal/record"
)

// Result is the damage of a spectrum. Damage is nil where a finding withholds it.
type Result struct {
	Damage   *float64           `json:"damage"`
	Terms    []endurance.Term   `json:"terms"`
	Curve    *Used              `json:"curve"`
	History  *endurance.History `json:"stress_history,omitempty"` // of EN 13001-3-1
	Findings []record.Finding   `json:"findings"`
	Note     string             `json:"note"`
}

// Used is the curve that was used, as far as it has figures.
type Used struct {
	Standard string    `json:"standard,omitempty"`
	Category float64   `json:"category,omitempty"`
	GammaMf  float64   `json:"gamma_mf"`
	GammaFf  float64   `json:"gamma_ff"`
	Knees    []float64 `json:"knees_mpa"`
	Cutoff   *float64  `json:"cutoff_mpa"` // nil: every range does damage
}

const note = "Miner's sum is an index: it knows no sequence of loads, no corrosion, no earlier damage, and says nothing about how long a detail will last."

// close fills in the result.
func (r *reading) close() {
	r.out.Note, r.out.Terms = note, []endurance.Term{}
	if record.Blocks(r.out.Findings) {
		return
	}
	r.tooFew()
	r.sum.Close()
	r.out.Damage = &r.sum.Damage
	if r.sum.Terms != nil {
		r.out.Terms = r.sum.Terms
	}
	d := r.design
	r.out.Curve = &Used{Standard: r.spec.Standard, Category: d.Category, GammaMf: d.GammaMf, GammaFf: d.GammaFf, Knees: d.Knees()}
	if r.out.Curve.Knees == nil {
		r.out.Curve.Knees = []float64{}
	}
	if c := d.Cutoff(); c > 0 {
		r.out.Curve.Cutoff = &c
	}
	if r.spec.Standard == endurance.StandardEN13001 {
		h := endurance.HistoryOf(acting(r.out.Terms, d.GammaFf), d.Category, d.GammaMf, d.Welded)
		r.out.History = &h
	}
}

// tooFew notes ranges that endure fewer cycles than the curves of the standard
// are drawn for.
func (r *reading) tooFew() {
	const least = 1e4 // EN 1993-1-9:2005, figures 7.1 and 7.2, from memory
	if r.spec.Standard != endurance.StandardEN1993 {
		return
	}
	for i, t := range r.sum.Terms {
		if t.Endurance == nil || *t.Endurance >= least {
			continue
		}
		at := record.Path("spectrum").At(i + 1)
		r.find(record.Finding{
			Code: "endurance-short", Severity: record.Doubt, Path: at, Where: at.Words(),
			Message:  "the range endures fewer than 10 000 cycles",
			Expected: "ranges for which the curve is drawn, from 10 000 cycles on (EN 1993-1-9:2005, figure 7.1, from memory)",
			Effect:   "the line is carried on beyond the curve", Hint: "check the stress range; so high a range is a matter for a static check first",
		})
		return
	}
}

// acting returns the terms with the ranges that are held against the curve.
func acting(terms []endurance.Term, gammaFf float64) []endurance.Term {
	out := slices.Clone(terms)
	for i := range out {
		out[i].Range *= gammaFf
	}
	return out
}
