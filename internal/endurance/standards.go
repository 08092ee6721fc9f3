package endurance

import "math"

// Categories are the detail categories of EN 1993-1-9, the stress range in MPa
// at two million cycles. (EN 1993-1-9:2005, 7.1 and figures 7.1, 7.2, restated)
var Categories = []float64{160, 140, 125, 112, 100, 90, 80, 71, 63, 56, 50, 45, 40, 36}

// Where the curve of a category is fixed, and where it bends and ends, in cycles.
// (EN 1993-1-9:2005, 7.1, restated)
const (
	atCategory = 2e6
	atKnee     = 5e6
	atCutoff   = 1e8
)

// EN1993Normal is the curve for normal stress of a detail category, divided by
// gammaMf: slope 3 to 5 million cycles, slope 5 to 100 million, nothing below.
// The knees are exact roots: the printed 0.737 and 0.549 leave a jump of 0.1 %.
// (EN 1993-1-9:2005, 7.1 (2) and (3), restated)
func EN1993Normal(category, gammaMf float64) Curve {
	c := category / gammaMf
	knee := c * math.Cbrt(atCategory/atKnee)
	cutoff := knee * math.Pow(atKnee/atCutoff, 1./5)
	return Curve{legs: []leg{{knee, 3, c, atCategory}, {cutoff, 5, knee, atKnee}}, cutoff: cutoff}
}

// EN1993Shear is the curve for shear stress: slope 5 to 100 million cycles.
// (EN 1993-1-9:2005, 7.1 (2), restated)
func EN1993Shear(category, gammaMf float64) Curve {
	c := category / gammaMf
	cutoff := c * math.Pow(atCategory/atCutoff, 1./5)
	return Curve{legs: []leg{{cutoff, 5, c, atCategory}}, cutoff: cutoff}
}

// EN13001 is the curve behind the limit ranges of EN 13001-3-1: one slope
// through the notch class at two million cycles, no cut-off. Its Miner sum is
// the stress history parameter times (Δσ_max/Δσ_c)^m. (EN 13001-3-1, restated)
func EN13001(category, gammaMf float64, welded bool) Curve {
	return Curve{legs: []leg{{0, slopeEN13001(welded), category / gammaMf, atCategory}}}
}

// slopeEN13001 is 3 for welded details and 5 for others. (EN 13001-3-1, restated)
func slopeEN13001(welded bool) float64 {
	if welded {
		return 3
	}
	return 5
}

// IIW is the curve of an IIW fatigue class for variable amplitude: slope 3 to
// ten million cycles, slope 5 from there, no cut-off. (IIW-1823, from memory)
func IIW(class, gammaM float64) Curve {
	const atKnee = 1e7
	c := class / gammaM
	knee := c * math.Cbrt(atCategory/atKnee)
	return Curve{legs: []leg{{knee, 3, c, atCategory}, {0, 5, knee, atKnee}}}
}

// OneSlope is a curve of one slope m through a point, with no cut-off: Miner's
// rule in its elementary form.
func OneSlope(m, at, n float64) Curve { return Curve{legs: []leg{{0, m, at, n}}} }

// TwoSlopes is a curve of slope m above a point and slope below under it.
func TwoSlopes(m, at, n, below float64) Curve {
	return Curve{legs: []leg{{at, m, at, n}, {0, below, at, n}}}
}

// Limited is a curve of slope m down to a point, and nothing below it: Miner's
// rule in its original form.
func Limited(m, at, n float64) Curve {
	return Curve{legs: []leg{{at, m, at, n}}, cutoff: at}
}
