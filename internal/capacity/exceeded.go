package capacity

import (
	"math"
	"slices"
	"sort"

	"ratchetmark/internal/assume"
	"ratchetmark/internal/record"
)

// Exceeded is the load that was exceeded for a share of the hours, in kg. High
// is nil where it lies in a band open upwards that no peak closes, and so are
// the estimates.
type Exceeded struct {
	Share   float64  `json:"share"`
	Low     float64  `json:"low_kg"`
	Uniform *float64 `json:"uniform_kg"`
	Smooth  *float64 `json:"smooth_kg"`
	High    *float64 `json:"high_kg"`
}

// ExceededFor returns the load that was exceeded for a share of the hours, 0.05
// for 5 %. Low puts all hours at the lower edges, high at the upper ones. A
// share of 0 asks for the highest load, and 1 for the lowest.
func (l Loads) ExceededFor(share float64) (Exceeded, *record.Finding) {
	if f := assume.Shares.Check(share, "share"); f != nil {
		return Exceeded{}, f
	}
	if l.hours <= 0 {
		return Exceeded{}, &record.Finding{
			Code: "no-hours", Severity: record.Blocking, Path: "readings", Where: record.Path("readings").Words(),
			Message: "no hours in bands that can be counted with", Expected: "at least one band with hours",
			Effect: "no load can be named that was exceeded for a share of them", Hint: "read the bands off the machine again",
		}
	}
	e := Exceeded{Share: share}
	hours := share * l.hours
	e.Low, _ = l.atEdge(hours, lower)
	if high, ok := l.atEdge(hours, upper); ok {
		e.High = record.Of(high)
		e.Uniform = record.Of(l.solve(hours, e.Low, high, func(uniform, _ float64) float64 { return uniform }))
		e.Smooth = record.Of(l.solve(hours, e.Low, high, func(_, smooth float64) float64 { return smooth }))
	}
	return e, nil
}

// upper is the upper edge of a segment; above every load where nothing bounds it.
func upper(s record.Segment) float64 {
	if !s.Bounded {
		return math.Inf(1)
	}
	return float64(s.To)
}

func lower(s record.Segment) float64 { return float64(s.From) }

// atEdge returns the load down from which the given hours lie when each
// segment's hours lie at one edge; ok is false where that edge is not bounded.
func (l Loads) atEdge(hours float64, edge func(record.Segment) float64) (load float64, ok bool) {
	order := slices.Clone(l.segments)
	sort.SliceStable(order, func(i, j int) bool { return edge(order[i]) > edge(order[j]) })
	for _, s := range order {
		load = edge(s)
		if hours -= float64(s.Hours); hours < 1e-9*l.hours { // all but rounding
			break
		}
	}
	return load, !math.IsInf(load, 1)
}

// solve finds by halving the load over which one estimate has the given hours.
// Where an open band leaves no estimate the load lies below that band.
func (l Loads) solve(hours, low, high float64, pick func(uniform, smooth float64) float64) float64 {
	for i := 0; i < 50 && high-low > 1e-10*high; i++ {
		mid := (low + high) / 2
		if uniform, smooth, known := l.estimates(record.Kilogram(mid)); !known || pick(uniform, smooth) < hours {
			high = mid
		} else {
			low = mid
		}
	}
	return (low + high) / 2
}
