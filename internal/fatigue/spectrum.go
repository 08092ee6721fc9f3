package fatigue

import (
	"sort"

	"ratchetmark/internal/assume"
	"ratchetmark/internal/record"
)

// placement says at which load of its segment each hour is put.
type placement int

const (
	lowerEdge placement = iota
	uniform
	upperEdge
)

// spectrum is hours over load ratios P/P_rated. Where it is not bounded, the
// upper edges of open segments are their lower ones and say nothing.
type spectrum struct {
	from, to, h []float64
	bounded     bool
}

func spectrumOf(segments []record.Segment, rated record.Kilogram, scale float64) spectrum {
	out := spectrum{bounded: true}
	out.add(segments, rated, scale)
	return out
}

// add adds segments; hours of the same loads are put together.
func (x *spectrum) add(segments []record.Segment, rated record.Kilogram, scale float64) {
	x.bounded = x.bounded || len(x.h) == 0
	for _, s := range segments {
		to := s.To
		if !s.Bounded {
			to, x.bounded = s.From, false
		}
		x.put(float64(s.From/rated), float64(to/rated), float64(s.Hours)*scale)
	}
}

func (x *spectrum) put(from, to, h float64) {
	for i := range x.h {
		if x.from[i] == from && x.to[i] == to {
			x.h[i] += h
			return
		}
	}
	x.from, x.to, x.h = append(x.from, from), append(x.to, to), append(x.h, h)
}

// join adds another spectrum.
func (x *spectrum) join(other spectrum) {
	for i, h := range other.h {
		x.put(other.from[i], other.to[i], h)
	}
	x.bounded = x.bounded && other.bounded
}

// sumOfHours returns all hours of weight.
func (x *spectrum) sumOfHours() float64 {
	var sum float64
	for _, h := range x.h {
		sum += h
	}
	return sum
}

// sum returns Σ h·(S/S_rated)^m with the hours placed as told, in hours.
// It is convex in s, as each term is.
func (x *spectrum) sum(at placement, s, m float64) float64 {
	var sum float64
	for i, h := range x.h {
		switch at {
		case lowerEdge:
			sum += h * power(StressRatio(x.from[i], s), m)
		case upperEdge:
			sum += h * power(StressRatio(x.to[i], s), m)
		case uniform:
			sum += h * meanPower(x.from[i], x.to[i], s, m)
		}
	}
	return sum
}

// least returns the least sum over the interval of the share.
func (x *spectrum) least(at placement, share assume.Assumption, m float64) float64 {
	edges := x.from
	if at != lowerEdge {
		edges = x.to
	}
	for _, p := range edges {
		if p > 1 {
			return leastConvex(func(s float64) float64 { return x.sum(at, s, m) }, share.Low, share.High)
		}
	}
	return x.sum(at, share.Low, m) // every term rises with the share
}

// most returns the greatest sum over the interval of the share.
func (x *spectrum) most(at placement, share assume.Assumption, m float64) float64 {
	return max(x.sum(at, share.Low, m), x.sum(at, share.High, m))
}

// first returns some of the hours of a spectrum: the first in order of load by
// lower edge, or by upper edge from the top.
func (x *spectrum) first(hours float64, at placement) spectrum {
	order := make([]int, len(x.h))
	for i := range order {
		order[i] = i
	}
	sort.SliceStable(order, func(a, b int) bool {
		i, j := order[a], order[b]
		if at == lowerEdge {
			return x.from[i] < x.from[j]
		}
		return x.to[i] > x.to[j]
	})
	out := spectrum{bounded: x.bounded}
	for _, i := range order {
		h := min(hours, x.h[i])
		if h <= 0 {
			break
		}
		out.put(x.from[i], x.to[i], h)
		hours -= h
	}
	return out
}

// leastConvex returns the least value of a convex function on [a, b], by
// golden-section search to well below the digits that are shown.
func leastConvex(f func(float64) float64, a, b float64) float64 {
	const ratio = 0.6180339887498949
	least := min(f(a), f(b))
	c, d := b-ratio*(b-a), a+ratio*(b-a)
	fc, fd := f(c), f(d)
	for range 60 {
		least = min(least, fc, fd)
		if fc < fd {
			b, d, fd = d, c, fc
			c = b - ratio*(b-a)
			fc = f(c)
		} else {
			a, c, fc = c, d, fd
			d = a + ratio*(b-a)
			fd = f(d)
		}
	}
	return least
}
