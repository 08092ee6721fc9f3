package endurance

import (
	"ratchetmark/internal/record"
)

// Row is a row of a spectrum: cycles of one stress range, in MPa, about a mean
// stress where a correction is wanted.
type Row struct {
	Range  *float64 `json:"range_mpa"`
	Cycles *float64 `json:"cycles"`
	Mean   *float64 `json:"mean_mpa"`
}

// Add adds a row of a spectrum to a sum by the design's curve and factors; a
// finding where it cannot be counted. The path is asked for then alone.
func (d Design) Add(s *Sum, row Row, at func() record.Path) *record.Finding {
	if row.Range == nil || row.Cycles == nil {
		return refuse(at(), "no range_mpa or no cycles", "both", "complete the row")
	}
	if f := checkRow(*row.Range, *row.Cycles, at); f != nil {
		return f
	}
	acting := *row.Range * d.GammaFf
	switch {
	case row.Mean != nil && d.correct == nil && *row.Mean != 0:
		return refuse(at(), "a mean stress, and no correction was asked for", "mean_stress of goodman or gerber in the curve", "leave mean_mpa out for a detail as welded")
	case d.correct != nil && row.Mean != nil:
		factor, ok := d.correct(*row.Mean)
		if !ok {
			return refuse(at(), "the mean stress reaches the ultimate strength", "a mean stress below it", "no fatigue curve covers that")
		}
		acting *= factor
	}
	if acting > ranges.Most {
		return refuse(at(), "the corrected stress range is beyond "+record.Number(ranges.Most)+" MPa", "less", "check range and mean stress")
	}
	var n *float64
	if endured, ok := d.Endurance(acting); ok {
		n = &endured
	}
	s.Add(*row.Range, *row.Cycles, n)
	return nil
}

func checkRow(stressRange, count float64, at func() record.Path) *record.Finding {
	if stressRange >= ranges.Least && stressRange <= ranges.Most && count >= cycles.Least && count <= cycles.Most {
		return nil
	}
	if f := ranges.Check(stressRange, at().At("range_mpa")); f != nil {
		return f
	}
	return cycles.Check(count, at().At("cycles"))
}

func refuse(at record.Path, message, expected, hint string) *record.Finding {
	return &record.Finding{
		Code: "row-refused", Severity: record.Blocking, Path: at, Where: at.Words(),
		Message: message, Expected: expected, Effect: "no damage is worked out", Hint: hint,
	}
}
