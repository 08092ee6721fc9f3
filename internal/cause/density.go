package cause

import "math"

// normalOver returns the probability that a standard normal variable is over z.
func normalOver(z float64) float64 { return 0.5 * math.Erfc(z/math.Sqrt2) }

// normalDensity is the density of a standard normal variable at z.
func normalDensity(z float64) float64 {
	return exp(-z*z/2) / math.Sqrt(2*math.Pi)
}

// lognormal is a variable whose logarithm is normal about ln(median).
type lognormal struct{ median, sigma float64 }

// density returns the density over ln x.
func (l lognormal) density(x float64) float64 {
	return normalDensity(ln(x/l.median)/l.sigma) / l.sigma
}

// over returns the probability of more than x.
func (l lognormal) over(x float64) float64 {
	if x <= 0 {
		return 1
	}
	return normalOver(ln(x/l.median) / l.sigma)
}

// under returns the probability of at most x.
func (l lognormal) under(x float64) float64 { return 1 - l.over(x) }

// mean returns exp(mu + sigma²/2).
func (l lognormal) mean() float64 { return l.median * math.Exp(l.sigma*l.sigma/2) }

// variance returns (exp(sigma²) - 1)·mean².
func (l lognormal) variance() float64 {
	m := l.mean()
	return math.Expm1(l.sigma*l.sigma) * m * m
}

// exgauss returns the probability that a normal variable plus an exponential
// one is over x, and its density there: the normal part of mean m and deviation
// s, the exponential of mean t, all over 0.
//
// P(X > x) = Q(z) + t·f(x), f(x) = exp(s²/2t² - (x-m)/t)·Q(s/t - z)/t, z = (x-m)/s.
func exgauss(x, m, s, t float64) (over, density float64) {
	z, r := (x-m)/s, s/t
	if e := r*r/2 - (x-m)/t; e < 600 { // beyond, Q vanishes faster than exp grows
		density = exp(e) * normalOver(r-z) / t
	}
	return min(1, normalOver(z)+t*density), density
}

// latent is a value that nobody records, as the habit of a crew, with its weight.
type latent struct{ value, weight float64 }

// fivePoint are the nodes and weights of Gauss and Hermite for a standard
// normal variable: Abramowitz and Stegun 1964, table 25.10, scaled by √2 and
// 1/√π (from memory).
var fivePoint = [5]latent{
	{-2.856970013872806, 0.011257411327721},
	{-1.355626179974266, 0.222075922005613},
	{0, 0.533333333333333},
	{1.355626179974266, 0.222075922005613},
	{2.856970013872806, 0.011257411327721},
}

// spreadOf returns five points of a lognormal variable.
func spreadOf(l lognormal) []latent {
	out := make([]latent, len(fivePoint))
	for i, p := range fivePoint {
		out[i] = latent{l.median * math.Exp(l.sigma*p.value), p.weight}
	}
	return out
}

// part is a share of occasions that last alike.
type part struct {
	share float64
	lognormal
}

// dwell is how long one occasion lasts: of a few sorts. alike is how much, in
// ln, the occasions of one crew have in common, which does not even out.
type dwell struct {
	parts          []part
	alike          float64
	mean, variance float64 // of one occasion
	asked, within  float64 // hours last asked for, and the probability of at most those
}

func dwellOf(alike float64, parts ...part) dwell {
	d := dwell{parts: parts, alike: alike}
	square := 0.0
	for _, p := range parts {
		m := p.mean()
		d.mean += p.share * m
		square += p.share * (p.variance() + m*m)
	}
	d.variance = square - d.mean*d.mean
	d.asked = math.NaN()
	return d
}

// under returns the probability that one occasion lasts at most h.
func (d *dwell) under(h float64) float64 {
	if h == d.asked { // half a step, for nearly every piece
		return d.within
	}
	d.asked, d.within = h, 0
	for _, p := range d.parts {
		d.within += p.share * p.under(h)
	}
	return d.within
}

// counted is what is known of the density of hours h, as counted in steps, before
// it is known how many occasions there were.
type counted struct {
	h, lnH         float64 // the hours, and their logarithm
	rounding       float64 // variance that the step adds to ln h
	one            float64 // density over ln h of one occasion
	mean, variance float64 // of one occasion
	alike          float64
}

// countedIn returns what hours tell that are counted in steps: a step is uniform,
// with a deviation of step/√12.
func countedIn(h, step float64) counted {
	s := step / math.Sqrt(12) / math.Max(h, step/10)
	return counted{h: h, lnH: ln(h), rounding: s * s}
}

func (d *dwell) counted(h, step float64) counted {
	c := countedIn(h, step)
	c.mean, c.variance, c.alike = d.mean, d.variance, d.alike
	for _, p := range d.parts {
		c.one += p.share * c.density(ln(p.median), p.sigma*p.sigma)
	}
	return c
}

// density returns the density over ln h, as counted, of a variable whose logarithm
// is normal, with a mean and a variance.
func (c *counted) density(mean, variance float64) float64 {
	variance += c.rounding
	z := c.lnH - mean
	return exp(-z*z/(2*variance)) / math.Sqrt(2*math.Pi*variance)
}

// several returns the density over ln h of the hours of one occasion or more,
// where mean are expected (Poisson) and there was one at least, and the chance
// that there was.
func (c *counted) several(mean float64) (density, some float64) {
	none, some := chances(mean)
	first := 1.0
	if mean > 1e-9 {
		first = mean * none / some
	}
	if first >= 0.9999 {
		return first * c.one, some
	}
	return first*c.one + (1-first)*c.density(c.sum(mean, none)), some
}

// sum returns the hours of several occasions, two at least, where mean are
// expected, none with the probability given: mean and variance of their
// logarithm, in the manner of Fenton, IRE Transactions on
// Communications Systems 8 (1960), 57-67 (from memory).
func (c *counted) sum(mean, none float64) (ofLn, variance float64) {
	count := 2.0
	if left := 1 - (1+mean)*none; left > 1e-12 {
		count = max(2, mean*(1-none)/left)
	}
	ofLn, variance = matched(count*c.mean, count*c.variance+mean*c.mean*c.mean)
	return ofLn, variance + c.alike*c.alike
}

// matched returns the mean and the variance of the logarithm of the lognormal
// variable with a mean and a variance, both over 0.
func matched(mean, variance float64) (ofLn, varianceOfLn float64) {
	varianceOfLn = ln1p(variance / (mean * mean))
	return ln(mean) - varianceOfLn/2, varianceOfLn
}

// some returns the probability of at least one occasion where mean are expected.
func some(mean float64) float64 {
	_, some := chances(mean)
	return some
}

// chances returns the probability of no occasion and that of at least one, where
// mean are expected: exp(-mean) and its complement. Where the complement would
// lose digits it is taken from its series, to a relative 2e-16.
func chances(mean float64) (none, some float64) {
	if mean < 0.01 {
		some = mean * (1 - mean/2*(1-mean/3*(1-mean/4*(1-mean/5*(1-mean/6)))))
		return 1 - some, some
	}
	none = exp(-mean)
	return none, 1 - none
}
