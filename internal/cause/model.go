package cause

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
	// usually returns the probability of an occasion in the usual interval.
	usually() float64
	// counted works out of hours counted in an interval what does not depend on how
	// many occasions there were.
	counted(h float64, o *opportunity) counted
	// hours works out, for each latent value with the occasions expected over the
	// rated load, the density over ln h of the hours counted in a share of the loads
	// there, given an occasion among them, and the chance that there was one.
	hours(c *counted, mean, share []float64, o *opportunity, density, chance []float64)
	// within returns the probability that one occasion lasts at most h hours.
	within(h float64, o *opportunity) float64
	// with returns the model with other values of the parameters. Parts that do not
	// differ stay those of this model.
	with(p *params, differ parts) model
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
var usualInterval = opportunity{powered: 100, work: 60, unlisted: 100, earlier: 150, step: 0.1}

// inUsual returns the probability of an occasion in the usual interval.
func inUsual(m model) float64 {
	sum := 0.0
	for i, l := range m.latents() {
		sum += l.weight * some(m.occasions(i, &usualInterval))
	}
	return sum
}
