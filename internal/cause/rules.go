package cause

import (
	"fmt"
	"time"

	"ratchetmark/internal/record"
)

// Thresholds of the rules. They are set where no doubt is left, not where one
// becomes likely; assumptions without a source.
const (
	countable  record.Hour   = 0.5 // hours that no number of shocks adds up to
	longEnough record.Hour   = 8   // moving hours in which a platform stands empty at some time
	trace      record.Hour   = 0.3 // hours that rounding of a counter cannot make
	looseEnds  time.Duration = 6 * time.Minute
)

// rule rules causes out. The order is the order in which reasons are shown.
type rule struct {
	id      string
	out     []Cause
	restsOn string
	applies func(f facts) (text string, ok bool)
}

var rules = []rule{
	{
		id: "in-transit", out: []Cause{Worked},
		restsOn: "the custody list is right, and in transit nobody worked from the platform and nothing was carried on it",
		applies: func(f facts) (string, bool) { return f.transitText, f.inTransit },
	},
	{
		id: "countable-hours", out: []Cause{Shock},
		restsOn: "a shock is over within seconds",
		applies: func(f facts) (string, bool) {
			if f.x.What != Band || f.x.Low < countable {
				return "", false
			}
			return fmt.Sprintf("%s h were counted; shocks do not add up to that", hours(f.x.Low)), true
		},
	},
	{
		id: "zero-right-afterwards", out: []Cause{Drift},
		restsOn: "a wrong zero stays until somebody corrects it, and nobody did before these hours were counted",
		applies: zeroRightAfterwards,
	},
	{
		id: "never-empty", out: []Cause{Worked, Lashed, Shock},
		restsOn: "the platform stood empty at some time in these hours, and nothing is mounted on it for good",
		applies: neverEmpty,
	},
}

// zeroRightAfterwards: in transit the platform is empty, so drift would need a
// zero wrong by at least the load read. Hours in the next interval, in a band
// wholly below that load, show a zero that was not that wrong.
func zeroRightAfterwards(f facts) (string, bool) {
	if !f.inTransit || f.workshopSince {
		return "", false
	}
	after := f.hoursBelow(f.at + 1)
	if after < trace {
		return "", false
	}
	return fmt.Sprintf("the lowest band gained %s h in the interval after, which a zero wrong by %s kg would not allow",
		hours(after), record.Number(f.x.From)), true
}

// neverEmpty: a machine that moved for hours and was never read below a load
// has a zero wrong by at least that load. Where taking it off leaves no more
// than the rated load, nothing went over.
func neverEmpty(f facts) (string, bool) {
	if f.loose || f.moving == nil || *f.moving < longEnough {
		return "", false
	}
	floor := f.lowestRead
	if floor <= 0 || f.otherHours < longEnough {
		return "", false
	}
	top, bounded := f.top()
	if !bounded || top-floor > f.rated {
		return "", false
	}
	return fmt.Sprintf("in %s moving hours the cell never read below %s kg, not even with the platform empty; less that, the load is at most %s kg",
		hours(*f.moving), record.Number(floor), record.Number(top-floor)), true
}

// hours writes hours for a reason.
func hours(h record.Hour) string { return record.Number(h) }
