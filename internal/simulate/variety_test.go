package simulate_test

import (
	"slices"
	"testing"

	"ratchetmark/internal/record"
	"ratchetmark/internal/simulate"
)

// traits are what records differ by. Each must occur, and none always: else
// something in the table of parameters has no effect.
var traits = map[string]func(c *record.Case) bool{
	"boom":              func(c *record.Case) bool { return c.Machine.Kind == record.Boom },
	"scissor":           func(c *record.Case) bool { return c.Machine.Kind == record.Scissor },
	"mast":              func(c *record.Case) bool { return c.Machine.Kind == record.Mast },
	"persons not known": func(c *record.Case) bool { return c.Machine.Persons == nil },
	"rated under the rule": func(c *record.Case) bool {
		p := c.Machine.Persons
		return p != nil && *c.Machine.RatedLoad < record.Kilogram(*p*80+40)
	},
	"load sensing not known": func(c *record.Case) bool { return c.Machine.LoadSensing == nil },
	"closed last band":       anyBands(func(b []record.Band, _ record.Kilogram) bool { return !b[len(b)-1].Open() }),
	"first band above zero":  anyBands(func(b []record.Band, _ record.Kilogram) bool { return b[0].From > 0 }),
	"edge at the rated load": anyBands(func(b []record.Band, r record.Kilogram) bool {
		return slices.ContainsFunc(b, func(b record.Band) bool { return b.From == r })
	}),
	"band straddles": anyBands(func(b []record.Band, r record.Kilogram) bool {
		return slices.ContainsFunc(b, func(b record.Band) bool { return b.From < r && (b.Open() || *b.To > r) })
	}),
	"up to four bands":     anyBands(func(b []record.Band, _ record.Kilogram) bool { return len(b) <= 4 }),
	"eight bands and more": anyBands(func(b []record.Band, _ record.Kilogram) bool { return len(b) >= 8 }),
	"hours in minutes": anyBands(func(b []record.Band, _ record.Kilogram) bool {
		return slices.ContainsFunc(b, func(b record.Band) bool { h := float64(b.Hours) * 10; return h-float64(int(h+0.5)) > 0.01 })
	}),
	"a reading without bands":  anyReading(func(r *record.Reading) bool { return r.Bands == nil }),
	"a reading without a peak": anyReading(func(r *record.Reading) bool { return r.Peak == nil }),
	"moving hours":             anyReading(func(r *record.Reading) bool { return r.Moving != nil }),
	"time of the peak":         anyReading(func(r *record.Reading) bool { return r.PeakAt != nil }),
	"over thirty readings":     func(c *record.Case) bool { return len(c.Readings) > 30 },
	"in the workshop":          anyCustody(func(u record.Custody) bool { return u.Holder == record.Workshop }),
	"custody by day":           anyCustody(func(u record.Custody) bool { return u.From.Hour() == 0 && u.From.Minute() == 0 }),
	"custody contradicts":      found("custody-overlap"),
	"peak cleared or capped":   found("peak-below-occupied-band"),
	"peak fell":                found("peak-fell"),
	"peak above all bands":     found("peak-above-all-bands"),
	"overload alarms":          logged(record.OverloadAlarm),
	"tilt alarms":              logged(record.TiltAlarm),
	"power on":                 logged(record.PowerOn),
	"power off":                logged(record.PowerOff),
	"rises of the peak":        logged(record.PeakRise),
	"custody with a gap":       hasGap,
	"days without use": func(c *record.Case) bool {
		return slices.ContainsFunc(c.Daily, func(d record.Daily) bool { return d.Powered != nil && *d.Powered == 0 })
	},
	"a day of fourteen hours": func(c *record.Case) bool {
		return slices.ContainsFunc(c.Daily, func(d record.Daily) bool { return d.Powered != nil && *d.Powered > 14 })
	},
}

func anyBands(f func([]record.Band, record.Kilogram) bool) func(*record.Case) bool {
	return func(c *record.Case) bool {
		return slices.ContainsFunc(c.Readings, func(r record.Reading) bool { return len(r.Bands) > 0 && f(r.Bands, *c.Machine.RatedLoad) })
	}
}

func anyReading(f func(*record.Reading) bool) func(*record.Case) bool {
	return func(c *record.Case) bool {
		return slices.ContainsFunc(c.Readings, func(r record.Reading) bool { return f(&r) })
	}
}

func anyCustody(f func(record.Custody) bool) func(*record.Case) bool {
	return func(c *record.Case) bool { return slices.ContainsFunc(c.Custody, f) }
}

func logged(kind record.EventKind) func(*record.Case) bool {
	return func(c *record.Case) bool {
		return slices.ContainsFunc(c.Events, func(e record.Event) bool { return e.Kind == kind })
	}
}

func found(code string) func(*record.Case) bool {
	return func(c *record.Case) bool {
		return slices.ContainsFunc(record.Check(c), func(f record.Finding) bool { return f.Code == code })
	}
}

func hasGap(c *record.Case) bool {
	for i := 1; i < len(c.Custody); i++ {
		if c.Custody[i].From.After(c.Custody[i-1].To) {
			return true
		}
	}
	return false
}

func TestVariety(t *testing.T) {
	const lives = 1000
	g, count := simulate.New(8), map[string]int{}
	for i := range lives {
		l := g.With(i, simulate.WithEvents)
		for name, has := range traits {
			if has(&l.Case) {
				count[name]++
			}
		}
	}
	for name := range traits {
		if n := count[name]; n < 3 || n > lives*97/100 {
			t.Errorf("%s: got it in %d of %d lives, want it in some and not in all", name, n, lives)
		}
		t.Logf("%s: %d", name, count[name])
	}
}
