// Package cause lists what went over the rated load and says what can have
// caused it. It names a cause only where every other one is ruled out by a
// rule that follows from the record; each rule states what it rests on.
// Everything else is undecided, with the records that would settle it.
//
// No rule here can end with "worked" or "drift": a histogram alone never rules
// out a wrong gain of the load cell, nor a load that never left the platform.
// No row of the table rules lashed out, so neither can be what is left; and
// where the zero of the cell is in question, drift is not ruled out either.
package cause

import (
	"slices"

	"ratchetmark/internal/record"
)

// Cause is a way a load over the rated load comes to be recorded.
type Cause string

// The causes, and the outcome when the record does not tell them apart.
const (
	Worked    Cause = "worked" // people, tools, material
	Lashed    Cause = "lashed" // tied down over the platform
	Shock     Cause = "shock"  // driving, snagging, dropping
	Drift     Cause = "drift"  // zero or gain of the load cell
	Undecided Cause = "undecided"
)

// All lists the causes in the order in which they are always shown.
var All = []Cause{Worked, Lashed, Shock, Drift}

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

// Reason is a rule that applies to an exceedance: what it rules out, and what
// that rests on.
type Reason struct {
	ID      string
	Text    string
	RestsOn string
	Rules   []Cause // the causes it rules out
}

// Opinion is what the record supports about the cause of one exceedance.
type Opinion struct {
	Exceedance
	Reasons []Reason
	Open    []Cause // not ruled out, in the order of All
	Verdict Cause
	AskFor  []Ask // what would settle it, best first; empty with a verdict
}

// Weigh applies every rule to every exceedance of the history.
func Weigh(h record.History) []Opinion {
	var out []Opinion
	for _, x := range List(h) {
		out = append(out, weigh(h, x))
	}
	return out
}

func weigh(h record.History, x Exceedance) Opinion {
	o := Opinion{Exceedance: x, Open: slices.Clone(All), Verdict: Undecided}
	f := factsOf(h, x)
	for _, r := range rules {
		text, applies := r.applies(f)
		if !applies {
			continue
		}
		o.Reasons = append(o.Reasons, Reason{ID: r.id, Text: text, RestsOn: r.restsOn, Rules: r.out})
		o.Open = slices.DeleteFunc(o.Open, func(c Cause) bool { return slices.Contains(r.out, c) })
	}
	switch len(o.Open) {
	case 1:
		o.Verdict = o.Open[0]
	case 0: // the rules contradict each other: the record does, too
		o.Open = slices.Clone(All)
		fallthrough
	default:
		o.AskFor = askFor(f, o.Open)
	}
	return o
}
