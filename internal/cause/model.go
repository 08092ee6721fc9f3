package cause

import "math"

// model tells what the counters of a machine would show if one cause were at
// work. What nobody records, as the habit of a crew, is a latent value: there
// are a few, each with a weight, and everything is worked out for each.
//
// Occasions come one by one and do not know of each other (Poisson); given the
// latent value, occasions at different loads are independent.
type model interface {
	// latents returns the latent values with their weights, which add up to 1.
	latents() []latent
	// curve returns how loads are distributed over the rated load while hours are
	// counted, and highest how the highest loads are.
	curve(latent int) *curve
	highest(latent int) *curve
	// occasions returns how many occasions over the rated load an interval is
	// expected to hold.
	occasions(latent int, o *opportunity) float64
	// hours works out, for each latent value, the density over ln h of the hours
	// counted in a share of the loads over the rated load, given that there was an
	// occasion there.
	hours(share func(latent int) float64, h float64, o *opportunity, density []float64)
	// within returns the probability that one occasion lasts at most h hours.
	within(h float64, o *opportunity) float64
}

// curve is how the loads of one cause are distributed over the rated load, at
// the loads that a history asks for. What nobody asks for is not worked out.
type curve struct {
	loads           []float64
	all             float64                 // over the rated load
	overOf          func(x float64) float64 // share of all loads over a load
	densityOf       func(x float64) float64 // of the load, in kg
	memoOver, memoD []float64               // worked out; below zero where not yet
}

// over returns the share of the occasions that lie over a load, by its number.
func (c *curve) over(i int) float64 {
	if c.memoOver[i] < 0 {
		c.memoOver[i] = min(1, max(0, c.overOf(c.loads[i]))/c.all)
	}
	return c.memoOver[i]
}

// density returns the density of ln load at a load, by its number.
func (c *curve) density(i int) float64 {
	if c.memoD[i] < 0 {
		c.memoD[i] = max(0, c.loads[i]*c.densityOf(c.loads[i])/c.all)
	}
	return c.memoD[i]
}

// share returns the share of occasions between two loads, by their number.
func (c *curve) share(from, to int) float64 {
	if to < 0 { // open upwards
		return c.over(from)
	}
	return max(0, c.over(from)-c.over(to))
}

// lay makes a curve at loads in kg: over and density of the load, in kg, are
// scaled so that everything lies over the rated load.
func lay(loads []float64, rated float64, over, density func(x float64) float64) *curve {
	memo := make([]float64, 2*len(loads))
	for i := range memo {
		memo[i] = -1
	}
	return &curve{loads, max(over(rated), math.SmallestNonzeroFloat32), over, density, memo[:len(loads)], memo[len(loads):]}
}

// opportunity is what an interval gave occasion for.
type opportunity struct {
	powered   float64 // powered hours in it
	work      float64 // of which somebody could work from the platform
	trips     float64 // by custody
	unlisted  float64 // powered hours for which no custody tells trips
	tripHours float64 // length of a trip by custody; 0 where none tells
	earlier   float64 // powered hours before it in which a fault of the cell can have begun
	step      float64 // in which the hours are counted
}

// usualInterval is the interval that rates are held against: of it nothing is
// known but its powered hours.
var usualInterval = opportunity{powered: 200, work: 200, unlisted: 200, earlier: 150, step: 0.1}
