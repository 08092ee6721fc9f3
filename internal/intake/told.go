package intake

import "ratchetmark/internal/record"

func (r *caseReader) check(n node, at record.Path) (out record.LoadCheck) {
	r.object(n, at, members{
		"at":       func(n node, at record.Path) { out.At = orZero(r.time(n, at)) },
		"kind":     func(n node, at record.Path) { out.Kind = record.LoadKind(r.text(n, at)) },
		"shown_kg": func(n node, at record.Path) { out.Shown = number[record.Kilogram](r, n, at) },
		"mass_kg":  func(n node, at record.Path) { out.Mass = number[record.Kilogram](r, n, at) },
		"by":       func(n node, at record.Path) { out.By = r.text(n, at) },
		"note":     func(n node, at record.Path) { out.Note = r.text(n, at) },
	})
	return out
}

func (r *caseReader) tieDown(n node, at record.Path) (out record.TieDown) {
	r.object(n, at, members{
		"at":            func(n node, at record.Path) { out.At = orZero(r.time(n, at)) },
		"over_platform": func(n node, at record.Path) { out.Over = r.told(n, at) },
		"how":           func(n node, at record.Path) { out.How = record.Known(r.text(n, at)) },
		"note":          func(n node, at record.Path) { out.Note = r.text(n, at) },
	})
	return out
}
