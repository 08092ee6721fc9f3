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
	longEnough record.Hour   = 8   // moving hours in which a platform should stand empty at some time
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
		restsOn: "a shock is over within seconds; a platform that rests or hangs on something for longer is not counted as one",
		applies: func(f facts) (string, bool) {
			if f.x.What != Band || f.x.Low < countable {
				return "", false
			}
			return fmt.Sprintf("%s h were counted; shocks do not add up to that", hours(f.x.Low)), true
		},
	},
	{
		id: "zero-right-afterwards", out: []Cause{Drift},
		restsOn: "a wrong zero stays until somebody corrects it, nobody did before these hours were counted, and the cell has no fault that comes and goes; a wrong gain does not matter where the platform is empty",
		applies: zeroRightAfterwards,
	},
	{
		id:      "never-empty", // rules nothing out: a machine may move with somebody on it all the time
		restsOn: "nothing that can be checked without a zero check",
		applies: neverEmpty,
	},
}

// zeroRightAfterwards: in transit the platform is empty, so drift would need a
// zero wrong by at least the load read. Hours in the next interval, in a band
// wholly below that load, show a zero that was not that wrong; unless the hours
// of the interval itself put the zero in question.
func zeroRightAfterwards(f facts) (string, bool) {
	if _, inQuestion := neverEmpty(f); inQuestion || !f.inTransit || f.workshopSince {
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
// may have a zero wrong by that load. So may one that was never without
// somebody on it: the rule points at the zero check and rules nothing out.
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
	return fmt.Sprintf("in %s moving hours the cell never read below %s kg; if the platform stood empty at any time, its zero is wrong by at least that, and the load was at most %s kg",
		hours(*f.moving), record.Number(floor), record.Number(top-floor)), true
}

// hours writes hours for a reason.
func hours(h record.Hour) string { return record.Number(h) }
