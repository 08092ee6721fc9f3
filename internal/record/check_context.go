package record

import (
	"fmt"
	"slices"
	"time"
)

var contextRules = []Rule{
	{
		ID: "custody-reversed", Severity: Doubt,
		Asks:   "does every custody entry end after it begins",
		Effect: "this entry is not used",
		Hint:   "correct the two times",
		find: eachCustody(func(c *Case, i int, hit bandHit) {
			if u := c.Custody[i]; !u.dated() {
				hit("from "+clockOrNone(u.From)+" to "+clockOrNone(u.To), "an end after the beginning")
			}
		}),
	},
	{
		ID: "custody-overlap", Severity: Doubt,
		Asks:   "is the machine in one pair of hands at a time",
		Effect: "where two entries claim the machine, neither is used to say who had it",
		Hint:   "correct the times of one of the two",
		find: eachCustody(func(c *Case, i int, hit bandHit) {
			for j := range i {
				a, b := c.Custody[j], c.Custody[i]
				if a.dated() && b.dated() && a.From.Before(b.To) && b.From.Before(a.To) && !sharesDay(a, b) {
					hit(fmt.Sprintf("overlaps custody entry %d (%s to %s)", j+1, clock(a.From), clock(a.To)), "entries that do not overlap")
					return
				}
			}
		}),
	},
	{
		ID: "holder-unknown", Severity: Doubt,
		Asks:   "is every holder one that is told apart",
		Effect: "this entry is not used",
		Hint:   "write hire, transit, depot or workshop",
		find: eachCustody(func(c *Case, i int, hit bandHit) {
			if h := c.Custody[i].Holder; !slices.Contains(Holders, h) {
				hit(fmt.Sprintf("holder %q", h), "hire, transit, depot or workshop")
			}
		}),
	},
	{
		ID: "event-unknown", Severity: Note,
		Asks:   "is every event of a kind that is told apart",
		Effect: "this event is kept but not used",
		Hint:   "write overload_alarm, tilt_alarm, power_on, power_off or peak_rise",
		find: func(c *Case, hit func(Path, string, string)) {
			for i, e := range c.Events {
				if !slices.Contains(EventKinds, e.Kind) {
					hit(Path("events").At(i+1).At("kind"), fmt.Sprintf("event %q", e.Kind), "a kind of event that is known")
				}
			}
		},
	},
	{
		ID: "day-too-long", Severity: Doubt,
		Asks:   "does no day have more than 24 powered hours",
		Effect: "this day is not used",
		Hint:   "look for a lost decimal mark or a week entered as a day",
		find: func(c *Case, hit func(Path, string, string)) {
			for i, d := range c.Daily {
				if d.Powered != nil && *d.Powered > 24 || d.Moving != nil && *d.Moving > 24 {
					hit(Path("daily").At(i+1), "more than 24 h on "+d.Date.String(), "at most 24 h")
				}
			}
		},
	},
}

// sharesDay reports whether two entries given by the day overlap on the day on
// which the machine changed hands, and no longer: neither says who had it then.
func sharesDay(a, b Custody) bool {
	if b.From.Before(a.From) {
		a, b = b, a
	}
	whole := func(t time.Time) bool { return t.Equal(t.Truncate(24 * time.Hour)) }
	return whole(a.To) && whole(b.From) && b.To.After(a.To) && a.To.Sub(b.From) == 24*time.Hour
}

func eachCustody(f func(c *Case, i int, hit bandHit)) func(*Case, func(Path, string, string)) {
	return func(c *Case, hit func(Path, string, string)) {
		for i := range c.Custody {
			f(c, i, func(message, expected string) { hit(Path("custody").At(i+1), message, expected) })
		}
	}
}

// clockOrNone writes a time, or says that there is none.
func clockOrNone(t time.Time) string {
	if t.IsZero() {
		return "no time"
	}
	return clock(t)
}
