package intake

import "ratchetmark/internal/record"

// maxLashings is how many rows of lashings one machine may have.
const maxLashings = 40

// transport reads how a machine rides.
func (r *caseReader) transport(n node, at record.Path) *record.Transport {
	if isNull(n) {
		return nil
	}
	if n.shape != object {
		r.wrong(n, at, "an object")
		return nil
	}
	var t record.Transport
	figure := func(to **float64) func(node, record.Path) {
		return func(n node, at record.Path) { *to = number[float64](r, n, at) }
	}
	text := func(to *string) func(node, record.Path) {
		return func(n node, at record.Path) { *to = r.text(n, at) }
	}
	flag := func(to **bool) func(node, record.Path) {
		return func(n node, at record.Path) { *to = r.flag(n, at) }
	}
	r.object(n, at, members{
		"device": text(&t.Device), "route": text(&t.Route), "edge": text(&t.Edge), "rule": text(&t.Rule), "language": text(&t.Language),
		"angle_deg": figure(&t.Angle), "friction": figure(&t.Friction), "block_dan": figure(&t.Block),
		"gravity_height_m": figure(&t.Height), "track_m": figure(&t.Track), "length_m": figure(&t.Length),
		"blocked": flag(&t.Blocked), "lowered": flag(&t.Lowered),
		"straps":     func(n node, at record.Path) { t.Straps = r.whole(n, at) },
		"lashings":   func(n node, at record.Path) { t.Lashings = list(r, n, at, maxLashings, r.lashing) },
		"briefed_on": func(n node, at record.Path) { t.BriefedOn = r.date(n, at) },
	})
	return &t
}

func (r *caseReader) lashing(n node, at record.Path) (out record.Lashing) {
	r.object(n, at, members{
		"gear":      func(n node, at record.Path) { out.Gear = r.text(n, at) },
		"way":       func(n node, at record.Path) { out.Way = r.text(n, at) },
		"count":     func(n node, at record.Path) { out.Count = orZero(r.whole(n, at)) },
		"angle_deg": func(n node, at record.Path) { out.Angle = orZero(number[float64](r, n, at)) },
		"plan_deg":  func(n node, at record.Path) { out.Plan = orZero(number[float64](r, n, at)) },
	})
	return out
}

// flag reads true or false; nil for null and for what is neither.
func (r *caseReader) flag(n node, at record.Path) *bool {
	if isNull(n) {
		return nil
	}
	b, ok := n.value.(bool)
	if !ok {
		r.wrong(n, at, "true or false")
		return nil
	}
	return &b
}
