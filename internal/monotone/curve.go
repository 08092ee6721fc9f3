// Package monotone interpolates points that rise without leaving their values.
package monotone

import "math"

// Curve is a rising piecewise cubic through points: between two points it
// never leaves their values, and its slope does not jump.
//
// Fritsch and Carlson, Monotone piecewise cubic interpolation, SIAM Journal on
// Numerical Analysis 17 (1980), 238-246 (from memory).
type Curve struct {
	x, y, slope []float64
}

// New lays a curve through points: x strictly rising, y not falling, at
// least two. The slopes begin as those of parabolas through three points.
// flatEnd makes the curve arrive level at its last point.
func New(x, y []float64, flatEnd bool) Curve {
	c := Curve{x: x, y: y, slope: make([]float64, len(x))}
	last := len(x) - 1
	for i := 1; i < last; i++ {
		h, k := x[i]-x[i-1], x[i+1]-x[i]
		c.slope[i] = (k*c.secant(i-1) + h*c.secant(i)) / (h + k)
	}
	c.slope[0], c.slope[last] = c.secant(0), c.secant(last-1)
	if last > 1 {
		c.slope[0] = endSlope(x[1]-x[0], x[2]-x[1], c.secant(0), c.secant(1))
		c.slope[last] = endSlope(x[last]-x[last-1], x[last-1]-x[last-2], c.secant(last-1), c.secant(last-2))
	}
	if flatEnd {
		c.slope[last] = 0
	}
	c.limit()
	return c
}

// secant returns the slope of the straight line between points i and i+1.
func (c Curve) secant(i int) float64 { return (c.y[i+1] - c.y[i]) / (c.x[i+1] - c.x[i]) }

// endSlope is the slope at the end of a parabola through three points; never falling.
func endSlope(h, k, nearest, next float64) float64 {
	return max(((2*h+k)*nearest-h*next)/(h+k), 0)
}

// limit brings each pair of slopes into the circle of radius 3 secants in
// which the cubic is monotone. Fritsch and Carlson 1980, section 4.
func (c Curve) limit() {
	for i := range len(c.x) - 1 {
		d := c.secant(i)
		if d <= 0 {
			c.slope[i], c.slope[i+1] = 0, 0
			continue
		}
		if r := math.Hypot(c.slope[i]/d, c.slope[i+1]/d); r > 3 {
			c.slope[i] *= 3 / r
			c.slope[i+1] *= 3 / r
		}
	}
}

// End is an end of a curve with its slope there.
type End struct{ X, Y, Slope float64 }

// Ends returns the ends of the curve.
func (c Curve) Ends() (first, last End) {
	n := len(c.x) - 1
	return End{c.x[0], c.y[0], c.slope[0]}, End{c.x[n], c.y[n], c.slope[n]}
}

// At returns value and slope at x, which is brought between the first and the
// last point.
func (c Curve) At(x float64) (y, slope float64) {
	i := below(c.x, x)
	h := c.x[i+1] - c.x[i]
	return c.hermite(i, min(max((x-c.x[i])/h, 0), 1))
}

// hermite is the cubic of piece i at t from 0 to 1: value and slope.
func (c Curve) hermite(i int, t float64) (y, slope float64) {
	h := c.x[i+1] - c.x[i]
	a, b, d := c.slope[i]*h, c.slope[i+1]*h, c.y[i+1]-c.y[i]
	y = c.y[i] + t*(a+t*(3*d-2*a-b+t*(a+b-2*d)))
	return y, (a + t*(2*(3*d-2*a-b)+t*3*(a+b-2*d))) / h
}

// Inverse returns an x at which the curve has the value y, which is brought
// between the first and last value. Newton's steps, halving where one would
// leave the piece.
func (c Curve) Inverse(y float64) float64 {
	i := below(c.y, y)
	rise := c.y[i+1] - c.y[i]
	if rise <= 0 {
		return c.x[i]
	}
	low, high := 0.0, 1.0
	t := min(max((y-c.y[i])/rise, 0), 1)
	h := c.x[i+1] - c.x[i]
	for range 60 {
		at, slope := c.hermite(i, t)
		off := at - y
		if math.Abs(off) <= 1e-13*rise {
			break
		}
		if off < 0 {
			low = t
		} else {
			high = t
		}
		next := t - off/(slope*h)
		if !(next > low && next < high) {
			next = (low + high) / 2
		}
		t = next
	}
	return c.x[i] + t*h
}

// below returns the piece whose first point is the last not above v.
func below(points []float64, v float64) int {
	i := 0
	for i < len(points)-2 && points[i+1] <= v {
		i++
	}
	return i
}
