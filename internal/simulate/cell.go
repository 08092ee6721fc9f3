package simulate

import "math"

// cell is the load cell: what it reads for a true load. It may go wrong once in
// a life, for a time.
type cell struct {
	zero, gain float64 // when sound: kg, and a factor
	noise      float64 // standard deviation, kg

	from, to   float64 // time of the fault, h; from is infinite when there is none
	faultZero  float64 // kg, at once
	faultWalk  float64 // kg per h
	faultGain  float64 // factor
	mostWalked float64 // kg
	blow       bool    // the step comes with a blow that the cell sees
}

// newCell draws a cell for a life of some hours.
func newCell(d draw, rated, life float64) cell {
	c := cell{zero: rated * d.of(cellZero), gain: 1 + d.of(cellGain), noise: rated * d.of(cellNoise), faultGain: 1, from: math.Inf(1), to: math.Inf(1)}
	if !d.chance(faultChance) {
		return c
	}
	c.from = life * d.Float64()
	c.to = c.from + 24*d.of(faultLasts)
	sign := d.sign(faultUp)
	switch {
	case d.chance(faultStep):
		c.faultZero = sign * rated * d.of(stepSize)
		c.blow = d.chance(faultImpact)
	case d.chance(faultWalk):
		c.faultWalk = sign * rated * d.of(walkRate) / 2400
		c.mostWalked = rated
	default:
		c.faultGain = 1 + sign*d.of(gainFault)
	}
	return c
}

// read returns what the cell reads at a time for a true load, noise aside.
func (c *cell) read(load, t float64) float64 {
	zero, gain := c.zero, c.gain
	if t >= c.from && t < c.to {
		walked := c.faultWalk * (t - c.from)
		zero += c.faultZero + max(min(walked, c.mostWalked), -c.mostWalked)
		gain *= c.faultGain
	}
	return max(load*gain+zero, 0)
}

// normalCDF is the share of the standard normal distribution below z.
func normalCDF(z float64) float64 { return math.Erfc(-z/math.Sqrt2) / 2 }

// highest is the highest of n independent noises, in standard deviations, of
// which a share u of such series stays below; cells are limited to four.
func highest(n, u float64) float64 {
	p := math.Pow(u, 1/max(n, 1))
	return max(min(math.Sqrt2*math.Erfinv(2*p-1), 4), -4)
}
