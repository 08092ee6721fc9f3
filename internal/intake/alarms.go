package intake

import (
	"slices"

	"ratchetmark/internal/record"
)

// hearAlarms counts the alarms that a row counts.
func (s *sheet) hearAlarms(c *tableCase, cells []string) {
	if i := s.plan.alarms; i >= 0 {
		v := s.cellAt(cells, i)
		c.countAlarms(&v)
	}
}

// countAlarms takes a number of alarms of overload.
func (c *tableCase) countAlarms(v *cell) {
	if v.blank() {
		return
	}
	x, err := v.number(count)
	if err != nil { // what it says is not known
		x = 1
	}
	if x > c.alarms {
		c.alarms, c.alarmsAt = x, v.at()
	}
}

// weighAlarms holds alarms of overload that were counted against the loads: where
// none went over, the loads do not tell all.
func (c *tableCase) weighAlarms() {
	rated := c.out.Case.Machine.RatedLoad
	if c.alarms == 0 || rated == nil {
		return
	}
	f := record.Finding{
		Code: "alarms-counted", Severity: record.Note, Path: "readings",
		Message: "alarms of overload were counted: " + record.Number(c.alarms), Expected: "an event with its time for each alarm",
		Effect: "none; without their times they are not matched to loads", Hint: "export the list of alarms as well",
	}
	over := slices.ContainsFunc(c.out.Case.Readings, func(r record.Reading) bool {
		return r.Peak != nil && *r.Peak > *rated ||
			slices.ContainsFunc(r.Bands, func(b record.Band) bool { return b.Hours > 0 && (b.To == nil || *b.To > *rated) })
	})
	if !over {
		f.Severity, f.Effect = record.Blocking, "no load over the rated load was read: that there was none cannot be said"
	}
	c.g.find(c, c.alarmsAt, f)
}
