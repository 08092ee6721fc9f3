package intake

import "ratchetmark/internal/record"

// structure reads what is told of the structure; nil for null.
func (r *caseReader) structure(n node, at record.Path) *record.Structure {
	if isNull(n) {
		return nil
	}
	var s record.Structure
	r.object(n, at, members{
		"cycles_from":      func(n node, at record.Path) { s.CyclesFrom = r.text(n, at) },
		"load_cycles":      func(n node, at record.Path) { s.LoadCycles = number[float64](r, n, at) },
		"duty_record":      func(n node, at record.Path) { s.DutyRecord = r.text(n, at) },
		"stress_range_mpa": func(n node, at record.Path) { s.StressRange = number[float64](r, n, at) },
		"curve":            func(n node, at record.Path) { s.Curve = r.curve(n, at) },
		"maker_test_kg":    func(n node, at record.Path) { s.MakerTest = number[record.Kilogram](r, n, at) },
		"disposal":         func(n node, at record.Path) { s.Disposal = r.date(n, at) },
		"claim":            func(n node, at record.Path) { s.Claim = r.text(n, at) },
		"part":             func(n node, at record.Path) { s.Part = r.text(n, at) },
	})
	return &s
}

func (r *caseReader) curve(n node, at record.Path) *record.Curve {
	if isNull(n) {
		return nil
	}
	var c record.Curve
	r.object(n, at, members{
		"standard":              func(n node, at record.Path) { c.Standard = r.text(n, at) },
		"category":              func(n node, at record.Path) { c.Category = number[float64](r, n, at) },
		"stress":                func(n node, at record.Path) { c.Stress = r.text(n, at) },
		"concept":               func(n node, at record.Path) { c.Concept = r.text(n, at) },
		"consequence":           func(n node, at record.Path) { c.Consequence = r.text(n, at) },
		"gamma_mf":              func(n node, at record.Path) { c.GammaMf = number[float64](r, n, at) },
		"gamma_ff":              func(n node, at record.Path) { c.GammaFf = number[float64](r, n, at) },
		"welded":                func(n node, at record.Path) { c.Welded = r.told(n, at) },
		"slope":                 func(n node, at record.Path) { c.Slope = number[float64](r, n, at) },
		"range_or_amplitude_at": func(n node, at record.Path) { c.At = r.pair(n, at) },
		"below":                 func(n node, at record.Path) { c.Below = r.text(n, at) },
		"slope_below":           func(n node, at record.Path) { c.SlopeBelow = number[float64](r, n, at) },
	})
	return &c
}

// told reads true or false; nil for null and for what is neither.
func (r *caseReader) told(n node, at record.Path) *bool {
	if _, ok := n.value.(bool); !ok && isNull(n) {
		return nil
	} else if !ok {
		r.wrong(n, at, "true or false")
		return nil
	}
	return record.Of(r.truth(n, at))
}

// pair reads a list of two numbers; nil for what is none.
func (r *caseReader) pair(n node, at record.Path) *[2]*float64 {
	if isNull(n) {
		return nil
	}
	if n.shape != array || len(n.items) != 2 {
		r.wrong(n, at, "a list of two numbers")
		return nil
	}
	return &[2]*float64{number[float64](r, n.items[0], at), number[float64](r, n.items[1], at)}
}
