package cause

import "ratchetmark/internal/record"

// What says what kind of piece went over.
type What string

// The kinds of piece.
const (
	Peak What = "peak"
	Band What = "band"
)

// Exceedance is one piece of a record that went over the rated load.
type Exceedance struct {
	What     What
	Interval int // number of the interval
	From     record.Kilogram
	To       *record.Kilogram
	Peak     *record.Kilogram
	Low      record.Hour // hours over the rated load, at least
	High     record.Hour // and at most
	Estimate record.Hour // with loads uniform within the band; High where nothing supports one

	at      int // index of the interval in the history
	segment record.Segment
}

// List returns every exceedance of a history that has a rated load, by
// interval: the peak first, then the bands in order of load. Where the change
// of an interval is withheld, the hours that stand in the bands at its end are
// listed as what it can hold at most: between none of them and all.
func List(h record.History) []Exceedance {
	var out []Exceedance
	for i, v := range h.Intervals {
		if v.PeakRose && *v.Peak > h.Rated {
			out = append(out, Exceedance{What: Peak, Interval: v.Number, From: *v.Peak, Peak: v.Peak, at: i})
		}
		counted := v
		if v.Withheld != "" {
			counted = h.Counters(i)
		}
		for _, s := range counted.Segments() {
			low, estimate, high, known := s.Over(h.Rated)
			if high <= 0 {
				continue
			}
			if !known {
				estimate = high
			}
			if v.Withheld != "" {
				low = 0
			}
			b := counted.Bands[s.Band]
			out = append(out, Exceedance{What: Band, Interval: v.Number, From: b.From, To: b.To, Low: low, High: high, Estimate: estimate, at: i, segment: s})
		}
	}
	return out
}
