package simulate

import (
	"math"
	"strconv"

	"ratchetmark/internal/record"
)

// stay is a stretch of time in one pair of hands; times in h since the start.
type stay struct {
	holder   record.Holder
	who      string
	from, to float64
	haulier  int // of a trip
}

// newCalendar draws the stays of a life: yard, trip, hire, trip, yard and so
// on, at times the workshop. It may end in a hire.
func newCalendar(d draw, hauliers int) []stay {
	var out []stay
	t := 8.0
	add := func(holder record.Holder, who string, hours float64, haulier int) {
		to := math.Round((t+hours)*60) / 60
		out = append(out, stay{holder, who, t, to, haulier})
		t = to
	}
	trip := func() {
		at := d.IntN(hauliers)
		add(record.Transit, "haulier "+letter(at), max(d.of(tripHours), 0.3), at)
	}
	for trips := d.whole(tripCount); trips > 0; trips -= 2 {
		add(record.Depot, "depot yard", until(t+24*d.of(depotDays), d.of(departs))-t, 0)
		trip()
		add(record.Hire, "hirer "+letter(d.IntN(8)), until(t+24*d.of(hireDays), d.of(departs))-t, 0)
		if trips == 1 {
			return out
		}
		trip()
		if d.chance(toWorkshop) {
			add(record.Workshop, "workshop bay", 24*d.of(workshopFor), 0)
		}
	}
	add(record.Depot, "depot yard", 24*d.of(depotDays), 0)
	return out
}

// until is the first time at or after t that has a time of day.
func until(t, clock float64) float64 {
	at := math.Floor(t/24)*24 + clock
	if at < t {
		at += 24
	}
	return at
}

func letter(i int) string {
	if i < 26 {
		return string(rune('A' + i))
	}
	return strconv.Itoa(i)
}
