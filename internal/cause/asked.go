package cause

// most is the largest number of latent values of a model.
const most = 6

// perLatent is a figure for each latent value of a model.
type perLatent [most]float64

// ask is what an item is asked about: a piece, under one cause. What items ask of
// the model again and again is worked out once.
type ask struct {
	*facts
	p       *params
	cause   int
	model   model
	latents int // how many latent values the model has

	means, somes perLatent // occasions expected over the rated load, and chance of one at least
	counted      counted   // hours counted at such loads, or in the band of the peak
	brief        float64   // chance that an occasion leaves no countable hours
	upTo         float64   // chance that it lasts no longer than was counted in the band of the peak

	share perLatent
}

// know works out what items ask for, as far as it is of parts of the model that
// differ from what is known already.
func (e *ask) know(differ parts) {
	e.latents = len(e.model.latents())
	if differ&(often|hidden) != 0 {
		for i := range e.latents {
			e.means[i] = max(e.model.occasions(i, &e.o), 1e-9)
			e.somes[i] = some(e.means[i])
		}
	}
	if differ&lasting == 0 {
		return
	}
	e.brief = e.model.within(0, &e.o)
	switch {
	case e.x.What == Band:
		e.counted = e.model.counted(e.hours, &e.o)
	case e.inBand > 0:
		e.counted = e.model.counted(e.inBand, &e.o)
		e.upTo = e.model.within(e.inBand, &e.o)
	}
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
func (e *ask) shares(from, to, latents int) []float64 {
	out := e.share[:latents]
	for i := range out {
		out[i] = e.model.curve(i).share(from, to)
	}
	return out
}
