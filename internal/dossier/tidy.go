package dossier

import (
	"strconv"

	"ratchetmark/internal/capacity"
	"ratchetmark/internal/fatigue"
	"ratchetmark/internal/record"
)

// tidy cuts a figure to nine significant digits. Processors differ in the last
// bits of a sum; what a dossier prints must not.
func tidy(x float64) float64 {
	t, err := strconv.ParseFloat(strconv.FormatFloat(x, 'g', 9, 64), 64)
	if err != nil {
		return x
	}
	return t
}

func tidyAll(xs ...*float64) {
	for _, x := range xs {
		if x != nil {
			*x = tidy(*x)
		}
	}
}

func tidyBounds(bs ...*record.Bounds) {
	for _, b := range bs {
		if b != nil {
			tidyAll(&b.Low, b.Estimate, b.High)
		}
	}
}

func tidyCapacity(r *capacity.Result) {
	tidyAll(&r.Spare, r.PeakPercent, &r.Counted)
	tidyBounds(r.MeanLoad)
	for i := range r.HoursOver {
		o := &r.HoursOver[i]
		tidyAll(&o.Low, o.Estimate, &o.High)
	}
}

func tidyExposure(r *fatigue.Result) {
	tidyBounds(&r.LoadCycles, &r.Relative, &r.FactorKp)
}
