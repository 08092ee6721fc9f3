package cause

import (
	"slices"

	"ratchetmark/internal/record"
)

// intervals is what the pieces of a history read of its intervals again and
// again, worked out once. It is for one goroutine at a time.
type intervals struct {
	h      record.History
	step   float64 // in which the machine counts hours
	each   []interval
	events []record.Event // in order of time
	looks  map[looks]whatever
}

// interval is what is read of one of them.
type interval struct {
	low, high float64 // hours over the rated load
	went      bool    // something went over it
	told      bool    // whether it did is known
	cover     cover
	covered   bool // cover is known
}

func readIntervals(h record.History) *intervals {
	s := &intervals{h: h, step: stepOf(h.Case), each: make([]interval, len(h.Intervals)), looks: map[looks]whatever{}}
	inTime := func(a, b record.Event) int { return a.At.Compare(b.At) }
	if s.events = h.Case.Events; !slices.IsSortedFunc(s.events, inTime) {
		s.events = slices.Clone(s.events)
		record.SortStable(s.events, inTime)
	}
	for i, v := range h.Intervals {
		e := &s.each[i]
		e.low, e.high = overHours(v, h.Rated)
		e.went, e.told = wentBy(v, h.Rated, e.low, e.high)
	}
	return s
}

// cover returns how the time of an interval divides by custody.
func (s *intervals) cover(i int) *cover {
	e := &s.each[i]
	if v := &s.h.Intervals[i]; !e.covered {
		e.cover, e.covered = coverOf(s.h.Case, v.From, v.To), true
	}
	return &e.cover
}
