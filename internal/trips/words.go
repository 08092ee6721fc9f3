package trips

import (
	"fmt"
	"math"
	"strings"
)

// Words writes a rate, with the trips that have no readings around them.
func (r Rate) Words() string { return r.Brief() + r.unread() }

// Brief writes a rate: "1 of 6 trips with readings raised the peak: between
// 0 and 93 of 100 such trips, by so few".
func (r Rate) Brief() string {
	raised := fmt.Sprintf("%d of %d trips with readings raised the peak", r.Raised, r.Trips)
	switch {
	case r.Trips == 0:
		return "no trip has readings before and after"
	case r.Trips == 1 && r.Raised == 1:
		raised = "the one trip with readings raised the peak"
	case r.Trips == 1:
		raised = "the one trip with readings did not raise the peak"
	case r.Raised == 0:
		raised = fmt.Sprintf("none of %d trips with readings raised the peak", r.Trips)
	}
	if r.Trips == 1 {
		return raised + "; one trip tells no rate"
	}
	return raised + ": between " + strings.Replace(r.Interval(), " to ", " and ", 1) + " of 100 such trips, by so few"
}

// Interval writes the interval of the rate, of a hundred trips.
func (r Rate) Interval() string {
	return fmt.Sprintf("%.0f to %.0f", math.Floor(100*r.Low), math.Ceil(100*r.High))
}

func (r Rate) unread() string {
	switch r.Unread {
	case 0:
		return ""
	case 1:
		return "; one further trip has no readings around it"
	}
	return fmt.Sprintf("; %d further trips have no readings around them", r.Unread)
}

// Compared says what two rates, before and after a day, tell of each other.
func Compared(before, after Rate) string {
	switch {
	case before.Trips == 0 || after.Trips == 0:
		return "nothing to compare: there are no trips with readings on both sides of the day"
	case before.Apart(after):
		return "the two ranges do not meet: the rate changed"
	}
	return "the two ranges meet: so few trips do not show whether the rate changed"
}

// Name names a group.
func (g Group) Name() string {
	name := g.Haulier
	if name == "" {
		name = "haulier not named"
	}
	if g.Crew != "" {
		name += ", " + g.Crew
	}
	return strings.TrimSpace(name)
}
