package record_test

import (
	"testing"
	"time"

	"ratchetmark/internal/record"
)

// Checks that can be used come in order of time, with what the cell was off by.
func TestUsableChecks(t *testing.T) {
	c := sound()
	c.Checks = append(c.Checks,
		record.LoadCheck{At: at("2026-02-10 12:00"), Kind: record.ZeroCheck, Shown: kg(46)},
		record.LoadCheck{At: at("2026-02-11 12:00"), Kind: record.MassCheck, Shown: kg(46)},
		record.LoadCheck{Kind: record.ZeroCheck, Shown: kg(46)},
		record.LoadCheck{At: at("2026-02-11 12:00"), Kind: "guess", Shown: kg(46)},
		record.LoadCheck{At: at("2026-02-11 12:00"), Kind: record.ZeroCheck},
	)
	got := c.UsableChecks()
	if len(got) != 3 {
		t.Fatalf("got %d checks, want the three that say what was shown, with what, and when", len(got))
	}
	for i, want := range []record.Kilogram{46, -2, 1} {
		equal(t, "off", got[i].Off(), want)
	}
}

// A tie-down is of the nearest trip, at most a day away.
func TestTied(t *testing.T) {
	c := sound()
	c.Custody = append(c.Custody, record.Custody{From: at("2026-04-01 09:00"), To: at("2026-04-01 12:00"), Holder: record.Transit})
	for _, v := range []struct {
		at   string
		trip int
	}{
		{"2026-02-02 07:00", 1}, {"2026-02-02 08:30", 1}, {"2026-02-01 07:00", 1}, {"2026-02-03 09:00", 1},
		{"2026-02-01 06:59", -1}, {"2026-02-03 09:01", -1}, {"2026-04-02 11:00", 3},
	} {
		c.TieDowns = []record.TieDown{{At: at(v.at), Over: record.Of(true), How: record.ToldOf}, {At: at(v.at), How: record.Seen}}
		got := c.Tied()
		if len(got) != 1 || got[0].Trip != v.trip {
			t.Errorf("%s: got %+v, want one on trip %d", v.at, got, v.trip)
		}
	}
	c.Custody[1].Holder = "garage"
	c.TieDowns = []record.TieDown{{At: at("2026-02-02 08:30"), Over: record.Of(true), How: record.Papers}}
	if got := c.Tied(); len(got) != 1 || got[0].Trip != -1 {
		t.Errorf("got %+v, want one without a trip", got)
	}
	c.Readings[0].At, c.Readings[1].At = time.Time{}, time.Time{} // nobody can say that it is far off
	c.TieDowns[0].At = at("2099-02-02 08:30")
	if got := c.Tied(); len(got) != 1 {
		t.Errorf("got %+v, want it kept where no reading has a date", got)
	}
}
