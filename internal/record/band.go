package record

import (
	"slices"
	"sort"
)

// Sorted returns the bands in order of load; the argument is left as it is.
func Sorted(bands []Band) []Band {
	out := slices.Clone(bands)
	if ascending(bands) {
		return out
	}
	sort.SliceStable(out, func(i, j int) bool { return out[i].From < out[j].From })
	return out
}

// ascending reports whether the bands are in order of load already.
func ascending(bands []Band) bool {
	for j := 1; j < len(bands); j++ {
		if !(bands[j-1].From <= bands[j].From) {
			return false
		}
	}
	return true
}

// meet reports whether each band begins where the one before it ends, as they
// do in nearly every record: none is then reversed, doubled or out of order, no
// two share a load, and there is no gap.
func meet(bands []Band) bool {
	for j := range bands {
		b := &bands[j]
		switch {
		case j+1 < len(bands) && (b.To == nil || *b.To != bands[j+1].From):
			return false
		case b.To != nil && !(*b.To > b.From):
			return false
		}
	}
	return true
}

// Total returns the hours in all bands together.
func Total(bands []Band) Hour {
	var sum Hour
	for _, b := range bands {
		sum += b.Hours
	}
	return sum
}

// Order returns the indices of the readings in order of time. Where a reading
// has no time, the order given is kept for all.
func Order(readings []Reading) []int {
	order := make([]int, len(readings))
	for i := range order {
		order[i] = i
	}
	if inOrder(readings) {
		return order
	}
	sort.SliceStable(order, func(i, j int) bool { return readings[order[i]].At.Before(readings[order[j]].At) })
	return order
}

// inOrder reports whether the order of time is the one given: the times ascend,
// or one is missing.
func inOrder(readings []Reading) bool {
	sorted := true
	for i := range readings {
		if readings[i].At.IsZero() {
			return true
		}
		sorted = sorted && (i == 0 || !readings[i].At.Before(readings[i-1].At))
	}
	return sorted
}

// inLoadOrder returns the bands in order of load, to be looked at only.
func inLoadOrder(bands []Band) []Band {
	if ascending(bands) {
		return bands
	}
	return Sorted(bands)
}

// usable reports whether a value can be counted with.
func usable[T ~float64](v, most T) bool { return Finite(v) && v >= 0 && v <= most }

// bandsUsable reports whether hours can be taken from the bands: every number
// within range, no band reversed, none sharing a load with another.
func bandsUsable(bands []Band) bool {
	apart := meet(bands)
	for j, b := range bands {
		if !usable(b.From, maxLoad) || !usable(b.Hours, maxHours) || (!b.Open() && !usable(*b.To, maxLoad)) || isReversed(b) {
			return false
		}
		if apart {
			continue
		}
		for _, a := range bands[:j] {
			if overlaps(a, b) {
				return false
			}
		}
	}
	return true
}

// Countable returns the bands if hours can be taken from them, none else.
func Countable(bands []Band) []Band {
	if !bandsUsable(bands) {
		return nil
	}
	return bands
}

// difference returns the hours each band gained, in order of load; ok is false
// where the two sets do not count the same loads or a counter fell.
func difference(before, after []Band) (gained []Band, ok bool) {
	if !sameEdges(before, after) {
		return nil, false
	}
	before, gained = Sorted(before), Sorted(after)
	for i := range gained {
		gained[i].Hours = gained[i].Hours.minus(before[i].Hours)
		if gained[i].Hours < 0 {
			return nil, false
		}
	}
	return gained, true
}
