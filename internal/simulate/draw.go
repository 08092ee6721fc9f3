package simulate

import (
	"math"
	"math/rand/v2"
)

// draw is one stream of chance. A life has three: what happens, what of it is
// written down, and what comes of asking afterwards.
type draw struct{ *rand.Rand }

func newDraw(seed uint64, life int, stream uint64) draw {
	return draw{rand.New(rand.NewPCG(seed, uint64(life)*4+stream))}
}

// of draws a value of a parameter.
func (d draw) of(p *Parameter) float64 {
	if p.Low == p.High {
		return p.Low
	}
	switch u := d.Float64(); p.Shape {
	case LogUniform:
		return p.Low * math.Pow(p.High/p.Low, u)
	case Triangular:
		return p.Low + (p.High-p.Low)*(u+d.Float64())/2
	default:
		return p.Low + (p.High-p.Low)*u
	}
}

// whole draws a whole number.
func (d draw) whole(p *Parameter) int { return int(d.of(p)) }

// chance draws whether something happens.
func (d draw) chance(p *Parameter) bool { return d.happens(d.of(p)) }

func (d draw) happens(p float64) bool { return d.Float64() < p }

// sign draws 1, or -1.
func (d draw) sign(up *Parameter) float64 {
	if d.chance(up) {
		return 1
	}
	return -1
}
