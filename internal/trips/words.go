package trips

import (
	"fmt"
	"math"
	"strings"
)

// Words writes a rate: "1 of 6 trips with readings raised the peak, which goes
// with 0 to 93 of 100 trips".
func (r Rate) Words() string {
	if r.Trips == 0 {
		return "no trip has readings before and after" + r.unread()
	}
	return fmt.Sprintf("%s raised the peak, which goes with %s of 100 trips", ofTrips(r.Raised, r.Trips), between(r.Low, r.High)) + r.unread()
}

func ofTrips(raised, trips int) string {
	count := fmt.Sprint(raised)
	if raised == 0 {
		count = "none"
	}
	if trips == 1 {
		return count + " of one trip with readings"
	}
	return fmt.Sprintf("%s of %d trips with readings", count, trips)
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

// between writes an interval in trips of a hundred.
func between(low, high float64) string {
	return fmt.Sprintf("%.0f to %.0f", math.Floor(100*low), math.Ceil(100*high))
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
