package cause

// most is the largest number of latent values of a model.
const most = 6

// perLatent is a figure for each latent value of a model.
type perLatent [most]float64

// ask is what an item is asked about: a piece, under one cause.
type ask struct {
	*facts
	p     *params
	cause int
	model model
	known
	share perLatent
}

// known is what items ask of a model about a piece again and again. It is copied
// often, and therefore holds no pointers.
type known struct {
	latents     int       // how many latent values the model has
	means       perLatent // occasions expected over the rated load
	somes       perLatent // chance of one at least
	counted     counted   // hours counted at such loads, or in the band of the peak
	brief, upTo float64   // chance that an occasion leaves no countable hours; and none but those
}

// know works out what items ask for, as far as it is of parts of the model that
// differ from what is known already.
func (e *ask) know(differ parts) {
	e.latents = len(e.model.latents())
	if differ&(often|hidden) != 0 {
		for i := range e.latents {
			e.means[i] = e.model.occasions(i, &e.o)
			if e.means[i] < 1e-9 {
				e.means[i] = 1e-9
			}
			e.somes[i] = some(e.means[i])
		}
	}
	if differ&lasting == 0 {
		return
	}
	switch {
	case e.x.What == Band:
		e.counted = e.model.counted(e.hours, &e.o)
	case e.inBand > 0:
		e.counted = e.model.counted(e.inBand, &e.o)
		e.upTo = e.model.within(e.inBand, &e.o)
	}
	e.brief = e.model.within(0, &e.o)
}

// weights returns the weights of the latent values before anything is known.
func (e *ask) weights() (weights perLatent) {
	for i, l := range e.model.latents() {
		weights[i] = l.weight
	}
	return weights
}

// mean returns the occasions that the interval is expected to hold over the
// rated load.
func (e *ask) mean(i int) float64 { return e.means[i] }

// some returns the chance of at least one of them.
func (e *ask) some(i int) float64 { return e.somes[i] }

// shares returns for each latent value the share of occasions between two loads,
// by their number. They hold until it is asked again.
func (e *ask) shares(from, to int) []float64 {
	out := e.share[:e.latents]
	last, share := e.model.curve(0), 0.0
	for i := range out {
		c := e.model.curve(i)
		if i == 0 || c != last { // most models have one curve for all
			last, share = c, c.share(from, to)
		}
		out[i] = share
	}
	return out
}
