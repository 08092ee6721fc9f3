package cause

// most is the largest number of latent values of a model.
const most = 6

// perLatent is a figure for each latent value of a model.
type perLatent [most]float64

// ask is what an item is asked about: a piece, under one cause.
type ask struct {
	*facts
	*setting
	cause int
	usual *yield // of the model by the usual values
	known
	share perLatent
}

// setting is under what an item is asked: values of the assumptions, with the model
// of a cause by them.
type setting struct {
	p      *params
	model  model
	differ parts  // of the model, from that by the usual values
	yield  *yield // of the model
}

// known is what items ask of a model about a piece again and again.
type known struct {
	latents int     // how many latent values the model has
	upTo    float64 // chance that an occasion leaves no more hours than are in the band of the peak
}

// know works out what items ask for, as far as it is of parts of the model that
// differ from what is known already.
func (e *ask) know() {
	e.latents = len(e.model.latents())
	e.settle()
	if e.differ&lasting != 0 && e.x.What == Peak && e.inBand > 0 {
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
func (e *ask) mean(i int) float64 { return e.yield.means[i] }

// some returns the chance of at least one of them.
func (e *ask) some(i int) float64 { return e.yield.somes[i] }

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
