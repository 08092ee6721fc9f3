package cause

import (
	"math"
	"time"

	"ratchetmark/internal/record"
)

// soon is how long after the last reading a check that is asked for is made, in
// days; an assumption.
const soon = 7

// checkOutcomes: a check with a known mass shows the cell right, too high by
// little or by much, or too low; given what a zero check showed.
func checkOutcomes(f *facts, p *params, ms *[4]model) []outcome {
	b := bench{p, float64(f.h.Rated)}
	next := f.nextCheck()
	right := 3 * b.deviation()
	edges := []float64{math.Inf(-1), -right, right, 3 * right, math.Inf(1)}
	out := make([]outcome, len(edges)-1)
	var asks [4]ask
	for c, m := range ms {
		asks[c] = ask{facts: f, setting: &setting{p: p, model: m}, cause: c}
	}
	zero, there := f.checks.zero.seen(&asks[0]), next.present(p, &f.o)
	var like [most]float64
	for k := range out {
		s := lookAt(&asks[0], zero, &seenCheck{window{on: b.rated, from: edges[k], to: edges[k+1]}, there})
		for c, m := range ms {
			s.under(&asks[c], like[:len(m.latents())])
			for i, l := range m.latents() {
				out[k][c] += l.weight * like[i]
			}
		}
	}
	return whole(out)
}

// nextCheck is the check that can still be made: some days after the last reading.
func (f *facts) nextCheck() cellCheck {
	last := f.v.To
	for _, r := range f.h.Case.Readings {
		if r.At.After(last) {
			last = r.At
		}
	}
	if !f.v.To.IsZero() {
		at := last.Add(soon * 24 * time.Hour)
		if c, ok := f.place(record.LoadCheck{At: at}); ok {
			return c
		}
	}
	return cellCheck{days: soon, quiet: soon}
}

// tieDownOutcomes: the crew tells of a tie-down over the platform, or of none.
func tieDownOutcomes(_ *facts, p *params, ms *[4]model) []outcome {
	word := func(over bool) []tiedTrip {
		return []tiedTrip{{said: []record.TieDown{{Over: &over, How: record.ToldOf}}}}
	}
	out := make([]outcome, 2)
	for k, said := range [][]tiedTrip{word(true), word(false)} {
		anyway := saidAnyway(said, p)
		out[k] = outcome{anyway, 0, anyway, anyway}
		for _, h := range ms[iLashed].latents() {
			out[k][iLashed] += h.weight * saidWith(h.value, said, 1, p)
		}
	}
	return out
}

// otherTrips returns of how many trips of the interval nothing is said.
func (f *facts) otherTrips() int {
	if f.tied.one {
		return 0
	}
	return int(math.Round(f.o.trips)) - len(f.tied.trips)
}

// whole scales the outcomes under each cause so that they add up to 1: what is
// known already is given.
func whole(out []outcome) []outcome {
	var sum outcome
	for _, o := range out {
		for c := range o {
			sum[c] += o[c]
		}
	}
	for k := range out {
		for c := range sum {
			out[k][c] /= max(sum[c], 1e-300)
		}
	}
	return out
}
