package simulate

import (
	"slices"

	"ratchetmark/internal/record"
)

// What a piece is, as the result of an assessment names it.
const (
	Peak = "peak"
	Band = "band"
)

// Truth is what is known of one piece of a record that went over the rated
// load, or may have. Pieces are told apart by What, Interval and From: the peak
// of an interval, or the hours that one band gained in it.
type Truth struct {
	What     string          `json:"what"`
	Interval int             `json:"interval"` // as record.Lay numbers them
	From     record.Kilogram `json:"from_kg"`  // lower edge of the band; the peak as shown
	Cause    string          `json:"cause"`    // one of Causes, or None: of the load that set the peak, of most of the hours
	Share    float64         `json:"share"`    // of the hours that are of this cause; 1 for a peak, 0 with None
	Hours    *Hours          `json:"hours"`    // over the rated load, of a band; nil for a peak
	True     *float64        `json:"true_kg"`  // true load when the peak was set; nil for a band
}

// Key tells the pieces of one life apart.
type Key struct {
	What     string
	Interval int
	From     record.Kilogram
}

// Key returns which piece the truth is about.
func (t Truth) Key() Key { return Key{t.What, t.Interval, t.From} }

// Class returns the index of the cause among worked, lashed, shock and drift,
// the first four of Causes; -1 where it is none of them.
func (t Truth) Class() int {
	if i := slices.Index(Causes, t.Cause); i < int(other) {
		return i
	}
	return -1
}

// truths lists the pieces of a case with what is known of each. shots are the
// counters behind its readings.
func truths(c *record.Case, shots []counters) []Truth {
	h := record.Lay(c)
	out := []Truth{}
	for k, v := range h.Intervals {
		after := shots[v.After]
		if v.PeakRose && *v.Peak > h.Rated {
			out = append(out, Truth{What: Peak, Interval: v.Number, From: *v.Peak, Cause: after.peakBy.name(), Share: 1, True: record.Of(after.peakTrue)})
		}
		counted, before := v, v.Before
		if v.Withheld != "" {
			counted, before = h.Counters(k), -1
		}
		for _, s := range counted.Segments() {
			if _, _, high, _ := s.Over(h.Rated); high <= 0 {
				continue
			}
			hours := after.over[s.Band]
			if before >= 0 {
				for i := range hours {
					hours[i] = max(hours[i]-shots[before].over[s.Band][i], 0)
				}
			}
			t := Truth{What: Band, Interval: v.Number, From: counted.Bands[s.Band].From, Hours: record.Of(hoursOf(hours))}
			t.Cause, t.Share = t.Hours.Main()
			out = append(out, t)
		}
	}
	return out
}
