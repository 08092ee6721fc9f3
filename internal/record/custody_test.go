package record_test

import (
	"testing"
	"time"

	"ratchetmark/internal/record"
)

// who is a custody entry from one hour of a day to another.
func who(holder record.Holder, from, to int) record.Custody {
	day := at("2026-02-02 00:00")
	return record.Custody{From: day.Add(time.Duration(from) * time.Hour), To: day.Add(time.Duration(to) * time.Hour), Holder: holder}
}

func TestCover(t *testing.T) {
	day := at("2026-02-02 00:00")
	noStart := who(record.Hire, 0, 20)
	noStart.From = time.Time{}
	noEnd := who(record.Hire, 0, 20)
	noEnd.To = time.Time{}
	for _, v := range []struct {
		name                   string
		custody                []record.Custody
		hire, transit, unknown int // hours of 6 to 18
	}{
		{"nobody", nil, 0, 0, 12},
		{"whole", []record.Custody{who(record.Hire, 0, 24)}, 12, 0, 0},
		{"exact", []record.Custody{who(record.Hire, 6, 18)}, 12, 0, 0},
		{"two hands", []record.Custody{who(record.Hire, 0, 10), who(record.Transit, 10, 13)}, 4, 3, 5},
		{"same hands twice", []record.Custody{who(record.Hire, 6, 8), who(record.Hire, 9, 10)}, 3, 0, 9},
		{"before and after", []record.Custody{who(record.Hire, 0, 6), who(record.Transit, 18, 20)}, 0, 0, 12},
		{"contested", []record.Custody{who(record.Hire, 6, 12), who(record.Transit, 11, 14), who(record.Hire, 15, 18)}, 3, 0, 9},
		{"touching is not contested", []record.Custody{who(record.Hire, 6, 12), who(record.Transit, 12, 18)}, 6, 6, 0},
		{"reversed", []record.Custody{who(record.Hire, 12, 6)}, 0, 0, 12},
		{"no beginning", []record.Custody{noStart, who(record.Transit, 6, 9)}, 0, 3, 9},
		{"no end", []record.Custody{noEnd, who(record.Transit, 6, 9)}, 0, 3, 9},
		{"a holder that is not told apart", []record.Custody{who("garage", 6, 18)}, 0, 0, 12},
	} {
		c := &record.Case{Custody: v.custody}
		held, unknown := c.Cover(day.Add(6*time.Hour), day.Add(18*time.Hour))
		got := [3]time.Duration{held[record.Hire], held[record.Transit], unknown}
		want := [3]time.Duration{time.Duration(v.hire) * time.Hour, time.Duration(v.transit) * time.Hour, time.Duration(v.unknown) * time.Hour}
		equal(t, v.name, got, want)
	}
}

func TestCoverOfNoTime(t *testing.T) {
	c := &record.Case{Custody: []record.Custody{who(record.Hire, 0, 24)}}
	noon := at("2026-02-02 12:00")
	for name, span := range map[string][2]time.Time{
		"no beginning": {{}, noon}, "no end": {noon, {}}, "no length": {noon, noon}, "backwards": {noon, noon.Add(-time.Hour)},
	} {
		held, unknown := c.Cover(span[0], span[1])
		if len(held) != 0 || unknown != 0 {
			t.Errorf("%s: got %v and %v unknown, want nothing", name, held, unknown)
		}
	}
}

func TestHolderAt(t *testing.T) {
	c := &record.Case{Custody: []record.Custody{
		who(record.Hire, 0, 6), who(record.Transit, 6, 8), who("garage", 9, 10),
		who(record.Depot, 12, 15), who(record.Workshop, 14, 16),
		{To: at("2026-02-03 12:00"), Holder: record.Hire},
	}}
	for clock, want := range map[string]record.Holder{
		"05:59": record.Hire, "06:00": record.Transit, "07:59": record.Transit, "08:00": "",
		"09:30": "",                           // not a holder that is told apart
		"12:30": "", "14:30": "", "15:30": "", // contested as a whole
		"20:00": "", // an entry without a beginning
	} {
		got := record.Holder("")
		if u := c.HolderAt(at("2026-02-02 " + clock)); u != nil {
			got = u.Holder
		}
		equal(t, clock, got, want)
	}
}
