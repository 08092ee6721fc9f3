package vibration

import (
	"math"
	"sort"
)

// Mode is a single mode of a structure: frequency in Hz above 0, damping as a
// share of critical, above 0 and below 1.
type Mode struct{ Hz, Damping float64 }

// Gain returns the square of how much of the floor's acceleration the mass
// takes on at a frequency: (1+(2ζr)²)/((1-r²)²+(2ζr)²) with r = f/f_n. (the
// absolute transmissibility of a base-excited oscillator; Harris, Shock and
// Vibration Handbook, from memory)
func (m Mode) Gain(hz float64) float64 {
	r := hz / m.Hz
	damped := 4 * m.Damping * m.Damping * r * r
	return (1 + damped) / ((1-r*r)*(1-r*r) + damped)
}

// Moments are ∫ f^n G df for n = 0, 1, 2 and 4.
type Moments [4]float64

// MomentsOf adds up spectral lines: frequency in Hz with variance.
func MomentsOf(lines []Point) Moments {
	var m Moments
	for _, l := range lines {
		m.add(l.Hz, l.Level)
	}
	return m
}

func (m *Moments) add(hz, area float64) {
	m[0] += area
	m[1] += hz * area
	m[2] += hz * hz * area
	m[3] += hz * hz * hz * hz * area
}

// gauss are the points and weights of Gauss-Legendre integration of order 8 on
// [-1, 1], the positive half.
var gauss = [4][2]float64{
	{0.1834346424956498, 0.3626837833783620}, {0.5255324099163290, 0.3137066458778873},
	{0.7966664774136267, 0.2223810344533745}, {0.9602898564975363, 0.1012285362903763},
}

// Response returns the moments of the acceleration of the mass, in g, under a
// profile. The integral is cut at the corners of the profile and about the peak
// of the mode.
func Response(p Profile, mode Mode) Moments {
	first, last := p.Points[0].Hz, p.Points[len(p.Points)-1].Hz
	var cuts []float64
	for _, c := range p.Points {
		cuts = append(cuts, c.Hz)
	}
	for _, k := range []float64{0.5, 1, 2, 4, 8, 16, 32, 64, 128} {
		for _, at := range []float64{mode.Hz / (1 + k*mode.Damping), mode.Hz * (1 + k*mode.Damping)} {
			if at > first && at < last {
				cuts = append(cuts, at)
			}
		}
	}
	if mode.Hz > first && mode.Hz < last {
		cuts = append(cuts, mode.Hz)
	}
	sort.SliceStable(cuts, func(i, j int) bool { return cuts[i] < cuts[j] })
	var m Moments
	for i := 1; i < len(cuts); i++ {
		a, b := math.Log(cuts[i-1]), math.Log(cuts[i])
		if b-a < 1e-12 {
			continue
		}
		for _, g := range gauss {
			for _, sign := range []float64{-1, 1} {
				hz := math.Exp((a+b)/2 + sign*g[0]*(b-a)/2)
				m.add(hz, g[1]*(b-a)/2*hz*p.Level(hz)*mode.Gain(hz))
			}
		}
	}
	return m
}
