package cause

import (
	"math"
	"strings"
	"testing"

	"ratchetmark/internal/record"
)

// dayTrip is one interval of fifty days with a single trip of four hours in it.
func dayTrip() *record.Case {
	c := trip()
	c.Readings = c.Readings[:2]
	c.Readings[0].At = at("2025-06-10 06:00")
	c.Readings[1] = reading("2025-08-01 06:00", 50, 700, 90, 60, 30.3, 0, 1)
	return c
}

// A day without a time of day tells as much as what of the interval's trips and of
// the rest lies in it: the day of the only trip speaks for it, however short it is.
func TestDayOfPeak(t *testing.T) {
	ahead := func(when string) float64 {
		c := dayTrip()
		c.Readings[1].PeakAt = record.Of(at(when))
		r := reason(piece(c, Peak, 1, 0), "moment")
		if r == nil {
			t.Fatalf("%s: got nothing about the moment", when)
		}
		return r.Log10[iLashed] - r.Log10[iWorked]
	}
	minute, day, hour, other := ahead("2025-06-11 08:00"), ahead("2025-06-11 00:00"), ahead("2025-06-11 15:00"), ahead("2025-07-11 00:00")
	if !(minute > day && day > 0.5 && hour < 0 && other < 0) {
		t.Errorf("got tie-down ahead of work by %.2f within the trip, %.2f on its day, %.2f after it, %.2f on another day, want the first two in order over 0.5, the rest under 0", minute, day, hour, other)
	}
	if math.Abs(hour-other) > 1e-9 {
		t.Errorf("got %.3f for an hour and %.3f for a day, want the same where both lie elsewhere", hour, other)
	}
}

// How a day that is divided weighs cannot be told where the interval has no
// beginning.
func TestDayOfPeakUndated(t *testing.T) {
	c := dayTrip()
	c.Machine.InService, c.Readings = nil, c.Readings[1:]
	for when, want := range map[string]bool{"2025-06-11 00:00": false, "2025-06-11 08:00": true, "2025-07-11 00:00": true} {
		c.Readings[0].PeakAt = record.Of(at(when))
		o := piece(c, Peak, 0, 0)
		f := factsOf(record.Lay(c), o.Exceedance, loadsOf(record.Lay(c), []Exceedance{o.Exceedance}), nil)
		if got := f.when != nil; got != want {
			t.Errorf("%s: got it weighed %v, want %v", when, got, want)
		}
	}
}

// Where custody misses a trip between two places, a tie-down can have made hours
// on it, and work need not have.
func TestShareOfMissedTrip(t *testing.T) {
	c := dayTrip()
	c.Custody[1].Holder = record.Depot
	s := piece(c, Band, 1, 310).Shares
	if s[iLashed].High < 1 || s[iWorked].Low > 0 {
		t.Errorf("got tie-down at most %v h and work at least %v h, want 1 and 0", s[iLashed].High, s[iWorked].Low)
	}
	c.Events = []record.Event{
		{At: at("2025-06-10 06:00"), Kind: record.PowerOn}, {At: at("2025-06-10 10:00"), Kind: record.PowerOff},
		{At: at("2025-06-11 09:30"), Kind: record.PowerOn}, {At: at("2025-06-11 10:40"), Kind: record.PowerOff},
		{At: at("2025-06-14 08:00"), Kind: record.PowerOn}, {At: at("2025-06-17 00:00"), Kind: record.PowerOff},
		{At: at("2025-07-31 08:00"), Kind: record.PowerOn}, {At: at("2025-07-31 08:30"), Kind: record.PowerOff},
	}
	o := piece(c, Band, 1, 310)
	if r := reason(o, "power"); r == nil || r.Log10[iLashed] < r.Log10[iWorked] {
		t.Errorf("got %+v, want power about the time of the missed trip not to speak against tie-down", r)
	}
	if o.Shares[iLashed].High < 1 {
		t.Errorf("got tie-down at most %v h by the event list, want 1", o.Shares[iLashed].High)
	}
}

// What is said of the moment is what custody says: a trip that it misses is not
// called transit, and a minute is not called a day.
func TestMomentWords(t *testing.T) {
	missed := func(c *record.Case) { c.Custody[1].Holder = record.Depot }
	for _, v := range []struct {
		when, want string
		change     func(c *record.Case)
	}{
		{"2025-06-11 08:00", "08:00 UTC, in transit", nil},
		{"2025-06-11 00:00", "the peak was set on 11 June 2025, a day that custody divides", nil},
		{"2025-07-11 08:00", "08:00 UTC, not in transit", nil},
		{"2025-06-11 10:20", "10:20 UTC, about when it must have been carried on a trip that custody does not name", missed},
	} {
		c := dayTrip()
		c.Readings[1].PeakAt = record.Of(at(v.when))
		if v.change != nil {
			v.change(c)
		}
		if r := reason(piece(c, Peak, 1, 0), "moment"); r == nil || !strings.HasSuffix(r.Text, v.want) {
			t.Errorf("%s: got %+v, want %q", v.when, r, v.want)
		}
	}
}
