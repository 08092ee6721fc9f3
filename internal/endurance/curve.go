package endurance

import "math"

// Curve is an S-N curve: straight legs in logarithms of range and cycles.
type Curve struct {
	legs   []leg   // by falling range
	cutoff float64 // least range that does damage, MPa; 0 where every range does
}

// leg is a straight part of a curve, N = n·(at/Δσ)^m, for ranges from its least
// range up to that of the leg before.
type leg struct{ least, m, at, n float64 }

// Endurance returns N for a stress range in MPa; ok is false where the curve
// has none: at no range, below the cut-off, or beyond what can be counted.
func (c Curve) Endurance(stressRange float64) (n float64, ok bool) {
	if !(stressRange > 0) || stressRange < c.cutoff {
		return 0, false
	}
	l := c.legs[len(c.legs)-1]
	for _, x := range c.legs {
		if stressRange >= x.least {
			l = x
			break
		}
	}
	n = l.n * math.Pow(l.at/stressRange, l.m)
	return n, n <= mostCycles
}

// mostCycles is where counting ends: above it a cycle does no damage that a sum
// in double precision would show.
const mostCycles = 1e30

// Damage returns 1/N, the damage of one cycle; 0 where there is no endurance.
// It never falls as the range rises.
func (c Curve) Damage(stressRange float64) float64 {
	n, ok := c.Endurance(stressRange)
	if !ok {
		return 0
	}
	return 1 / n
}

// Cutoff returns the least range that does damage, MPa; 0 where every range does.
func (c Curve) Cutoff() float64 { return c.cutoff }

// Knees returns the ranges, MPa, at which the slope changes or damage begins,
// by falling range.
func (c Curve) Knees() []float64 {
	var out []float64
	for _, l := range c.legs {
		if l.least > 0 {
			out = append(out, l.least)
		}
	}
	return out
}

// MeanDamage returns the mean damage of a cycle whose range is uniform between
// a and b: on each leg ∫Δσ^m dΔσ = Δσ^(m+1)/(m+1).
func (c Curve) MeanDamage(a, b float64) float64 {
	if b-a <= 1e-9*b { // the closed form would lose its digits
		return c.Damage((a + b) / 2)
	}
	var sum float64
	top := math.Inf(1)
	for _, l := range c.legs {
		low, high := max(a, l.least, c.cutoff), min(b, top)
		if high > low {
			sum += l.integral(low, high)
		}
		top = l.least
	}
	return sum / (b - a)
}

// integral returns ∫ dΔσ/N over a part of the leg.
func (l leg) integral(a, b float64) float64 {
	if b-a <= 1e-5*b {
		return (b - a) * math.Pow((a+b)/2/l.at, l.m) / l.n
	}
	up := func(x float64) float64 { return x * math.Pow(x/l.at, l.m) }
	return (up(b) - up(a)) / ((l.m + 1) * l.n)
}
