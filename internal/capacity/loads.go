package capacity

import (
	"encoding/json"
	"math"
	"slices"

	"ratchetmark/internal/assume"
	"ratchetmark/internal/monotone"
	"ratchetmark/internal/record"
)

// Loads are the hours of a record over the loads they were spent at, as far as
// the bands tell: exact bounds, and two estimates for what lies within a band.
//
// Uniform takes the loads within a band as uniform. Of all distributions with
// the hours of the bands it has the greatest entropy: it adds nothing to the
// record (Jaynes, Physical Review 106 (1957), 620-630, from memory).
//
// Smooth lays a monotone cubic through the hours below each band edge, which
// are known exactly. Its density does not jump at the edges, which real loads
// know nothing of, and dies out at the highest load.
type Loads struct {
	segments []record.Segment
	smooth   []smooth // one for each interval
	hours    float64
}

// smooth is the hours below a load within one interval.
type smooth struct {
	below  *monotone.Curve
	top    float64 // last point
	hours  float64 // up to the top; at it lie those of a band whose lower edge is the peak
	beyond float64 // hours above the top, nothing says where
}

// NewLoads lays out the hours of intervals that share no hours, as those of
// [record.History.Life]. Each interval keeps its own ceiling.
func NewLoads(intervals []record.Interval) Loads {
	var l Loads
	for _, v := range intervals {
		segments := v.Segments()
		if len(segments) == 0 {
			continue
		}
		l.add(segments)
		l.smooth = append(l.smooth, newSmooth(segments))
	}
	for _, s := range l.segments {
		l.hours += float64(s.Hours)
	}
	return l
}

// add takes in segments. The hours of those with the same loads are one: the
// intervals mostly have the same bands.
func (l *Loads) add(segments []record.Segment) {
	for _, s := range segments {
		i := slices.IndexFunc(l.segments, func(have record.Segment) bool {
			return have.From == s.From && have.To == s.To && have.Bounded == s.Bounded
		})
		if i < 0 {
			l.segments = append(l.segments, s)
			continue
		}
		l.segments[i].Hours += s.Hours
	}
}

// Hours returns all hours that are counted.
func (l Loads) Hours() float64 { return l.hours }

// newSmooth lays a curve through the hours below the edges of segments, which
// are in order of load and do not overlap.
func newSmooth(segments []record.Segment) smooth {
	var m smooth
	var x, y []float64
	point := func(at float64) {
		if n := len(x); n == 0 || at > x[n-1] {
			x, y = append(x, at), append(y, m.hours)
		}
	}
	for _, s := range segments {
		point(float64(s.From))
		if !s.Bounded {
			m.beyond = float64(s.Hours)
			break
		}
		m.hours += float64(s.Hours)
		point(float64(s.To))
	}
	m.top = x[len(x)-1]
	if len(x) > 1 {
		c := monotone.New(x, y, m.beyond == 0)
		m.below = &c
	}
	return m
}

// over returns the hours over a load that is not above the lower edge of an
// open band.
func (m smooth) over(load float64) float64 {
	switch {
	case load >= m.top:
		return m.beyond
	case m.below == nil:
		return m.beyond + m.hours
	}
	y, _ := m.below.At(load)
	return m.beyond + m.hours - y
}

// Exceeding is how many hours were spent over a load. An estimate is nil where
// the load lies in a band open upwards that no peak closes.
type Exceeding struct {
	Load    record.Kilogram
	Low     float64
	Uniform *float64
	Smooth  *float64
	High    float64

	// Unbounded: hours are missing from the record, and nothing bounds the
	// figure from above. High and the estimates are then null in JSON.
	Unbounded bool
}

// MarshalJSON writes what is not known as null.
func (e Exceeding) MarshalJSON() ([]byte, error) {
	out := struct {
		Load    record.Kilogram `json:"load_kg"`
		Low     float64         `json:"low_h"`
		Uniform *float64        `json:"uniform_h"`
		Smooth  *float64        `json:"smooth_h"`
		High    *float64        `json:"high_h"`
	}{e.Load, e.Low, e.Uniform, e.Smooth, &e.High}
	if e.Unbounded {
		out.Uniform, out.Smooth, out.High = nil, nil, nil
	}
	return json.Marshal(out)
}

// Estimate returns the two estimates in order, least first; ok is false where
// there are none.
func (e Exceeding) Estimate() (least, most float64, ok bool) {
	if e.Uniform == nil || e.Smooth == nil {
		return 0, 0, false
	}
	return min(*e.Uniform, *e.Smooth), max(*e.Uniform, *e.Smooth), true
}

// Over bounds the hours spent over any load in kg, as [record.Segment.Over]
// splits each band. Some placement of the hours attains each bound.
func (l Loads) Over(load record.Kilogram) (Exceeding, *record.Finding) {
	if f := assume.AnyLoad.Check(float64(load), "load_kg"); f != nil {
		return Exceeding{}, f
	}
	e := Exceeding{Load: load}
	for _, s := range l.segments {
		low, _, high, _ := s.Over(load)
		e.Low += float64(low)
		e.High += float64(high)
	}
	if uniform, smooth, known := l.estimates(load); known {
		e.Uniform, e.Smooth = e.settle(uniform), e.settle(smooth)
	}
	return e, nil
}

// estimates returns both estimates of the hours over a load; known is false
// where it lies in an open band.
func (l Loads) estimates(load record.Kilogram) (uniform, smooth float64, known bool) {
	known = true
	for _, s := range l.segments {
		_, mid, _, ok := s.Over(load)
		uniform += float64(mid)
		known = known && ok
	}
	for _, m := range l.smooth {
		smooth += m.over(float64(load))
	}
	return uniform, smooth, known
}

// settle keeps the last bits of a sum from leaving the bounds.
func (e Exceeding) settle(x float64) *float64 {
	const bits = 1e-12
	if in := min(max(x, e.Low), e.High); math.Abs(in-x) <= bits*(1+e.High) {
		return &in
	}
	return &x
}

// MostApart returns the most hours by which the two estimates differ, and the
// load where they do, to a 32nd of a band. In one band they differ by at most
// 0.385 of its hours, that is 2/(3·√3): the most that a cubic within Fritsch
// and Carlson's limits can leave its chord.
func (l Loads) MostApart() (at record.Kilogram, hours float64) {
	for _, s := range l.segments {
		if !s.Bounded {
			continue
		}
		for i := 1; i < 32; i++ {
			load := s.From + (s.To-s.From)*record.Kilogram(i)/32
			uniform, smooth, known := l.estimates(load)
			if apart := math.Abs(uniform - smooth); known && apart > hours {
				at, hours = load, apart
			}
		}
	}
	return at, hours
}
