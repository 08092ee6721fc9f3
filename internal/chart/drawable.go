package chart

import (
	"math"
	"slices"
)

// What can be drawn: 0, and values from leastDrawn to mostDrawn. Beyond that a
// picture means nothing, but must not break.
const leastDrawn, mostDrawn = 1e-12, 1e12

// drawable returns the nearest value that can be drawn; 0 for what is not a number.
func drawable(x float64) float64 {
	if !(x >= leastDrawn) {
		return 0
	}
	return math.Min(x, mostDrawn)
}

// scalable returns an end of an axis that can be divided by and into steps.
func scalable(most float64) float64 {
	if most < leastDrawn {
		return 1
	}
	return most
}

// drawable returns a copy with every value such that it can be drawn.
func (r Ruler) drawable() Ruler {
	r.Rated, r.Peak = drawable(r.Rated), drawable(r.Peak)
	r.Window = [2]float64{drawable(r.Window[0]), drawable(r.Window[1])}
	r.Blocks, r.Marks, r.Steps = slices.Clone(r.Blocks), slices.Clone(r.Marks), slices.Clone(r.Steps)
	for i := range r.Steps {
		r.Steps[i].At = drawable(r.Steps[i].At)
	}
	for i := range r.Marks {
		r.Marks[i].At = drawable(r.Marks[i].At)
	}
	for i := range r.Blocks {
		b := &r.Blocks[i]
		b.From, b.To, b.Hours = drawable(b.From), drawable(b.To), drawable(b.Hours)
		b.Parts = slices.Clone(b.Parts)
		for j := range b.Parts {
			b.Parts[j].Hours = drawable(b.Parts[j].Hours)
		}
	}
	return r
}
