// Package bodymass tells what people weigh, and how probable it is that a crew
// with its tools is over a rated load.
//
// Published percentiles are interpolated: the logarithm of the mass is a
// monotone cubic (Fritsch and Carlson 1980) of the normal score of the share of
// people who are lighter. On these scales a lognormal distribution is a
// straight line, so that little is left to the interpolation. Beyond the 5th
// and the 95th percentile the line goes on straight: lognormal tails that join
// without a jump of density. The mean that follows is within a quarter of the
// standard error of the published one.
//
// The tails are those of the general population. People at work are fewer at
// both ends: of 44 495 men offshore the heaviest was of 158 kg.
package bodymass

import (
	"math"
	"sync"

	"ratchetmark/internal/assume"
	"ratchetmark/internal/monotone"
	"ratchetmark/internal/record"
)

// Distribution is how the masses of a group of people are distributed. The
// zero value is not usable.
type Distribution struct {
	parts []part
}

// part is a table, shifted by a mass, with its share of the whole.
type part struct {
	weight float64
	log    *monotone.Curve // ln of the mass in kg over the normal score
	shift  float64
}

// Men returns the distribution of the table for men.
func Men() Distribution { return men() }

// Women returns the distribution of the table for women.
func Women() Distribution { return women() }

var (
	men   = sync.OnceValue(func() Distribution { return menTable.distribution() })
	women = sync.OnceValue(func() Distribution { return womenTable.distribution() })
)

func (t Table) distribution() Distribution {
	var score, log []float64
	for i, p := range percents {
		score = append(score, normalScore(p/100))
		log = append(log, math.Log(t.Mass[i]))
	}
	c := monotone.New(score, log, false)
	return Distribution{[]part{{1, &c, 0}}}
}

// normalScore is the quantile of the standard normal distribution.
func normalScore(p float64) float64 { return math.Sqrt2 * math.Erfinv(2*p-1) }

// normalCDF is the share of the standard normal distribution below z.
func normalCDF(z float64) float64 { return math.Erfc(-z/math.Sqrt2) / 2 }

// Shifted returns the distribution with a mass from -60 to 60 kg added to
// everyone: what is worn, or the difference of another population's mean.
func (d Distribution) Shifted(kg float64) (Distribution, *record.Finding) {
	if f := shifts.Check(kg, "shift"); f != nil {
		return Distribution{}, f
	}
	out := Distribution{make([]part, len(d.parts))}
	for i, p := range d.parts {
		p.shift += kg
		out.parts[i] = p
	}
	return out, nil
}

// Mix returns a group of which a share from 0 to 1 is of d, the rest of other.
func (d Distribution) Mix(share float64, other Distribution) (Distribution, *record.Finding) {
	if f := assume.Shares.Check(share, "share"); f != nil {
		return Distribution{}, f
	}
	var out Distribution
	add := func(from Distribution, share float64) {
		for _, p := range from.parts {
			if p.weight *= share; p.weight > 0 {
				out.parts = append(out.parts, p)
			}
		}
	}
	add(d, share)
	add(other, 1-share)
	return out, nil
}

// Below returns the share of people lighter than a mass in kg.
func (d Distribution) Below(kg float64) float64 {
	var sum float64
	for _, p := range d.parts {
		if kg > p.shift {
			z, _ := p.score(math.Log(kg - p.shift))
			sum += p.weight * normalCDF(z)
		}
	}
	return sum
}

// Density returns the share of people per kg at a mass in kg.
func (d Distribution) Density(kg float64) float64 {
	var sum float64
	for _, p := range d.parts {
		if kg > p.shift {
			z, slope := p.score(math.Log(kg - p.shift))
			sum += p.weight * math.Exp(-z*z/2) / math.Sqrt(2*math.Pi) / (slope * (kg - p.shift))
		}
	}
	return sum
}

// score returns the normal score at a logarithm of a mass, and the slope of
// the logarithm over the score there.
func (p part) score(log float64) (z, slope float64) {
	first, last := p.log.Ends()
	if log < first.Y {
		return first.X + (log-first.Y)/first.Slope, first.Slope
	}
	if log > last.Y {
		return last.X + (log-last.Y)/last.Slope, last.Slope
	}
	z = p.log.Inverse(log)
	_, slope = p.log.At(z)
	return z, slope
}

// mass is the inverse of score for one part, in kg.
func (p part) mass(z float64) float64 {
	first, last := p.log.Ends()
	log, _ := p.log.At(z)
	switch {
	case z < first.X:
		log += first.Slope * (z - first.X)
	case z > last.X:
		log += last.Slope * (z - last.X)
	}
	return math.Exp(log) + p.shift
}

// Quantile returns the mass in kg than which a share p of people is lighter,
// for p from 1e-6 to 1 - 1e-6. Beyond the 5th and the 95th percentile it is
// that of the tails.
func (d Distribution) Quantile(p float64) (float64, *record.Finding) {
	if f := quantiles.Check(p, "share"); f != nil {
		return 0, f
	}
	if len(d.parts) == 0 {
		return 0, noMasses("share")
	}
	return d.quantile(p), nil
}

func (d Distribution) quantile(p float64) float64 {
	z := normalScore(p)
	low, high := d.parts[0].mass(z), d.parts[0].mass(z)
	for _, q := range d.parts[1:] {
		low, high = min(low, q.mass(z)), max(high, q.mass(z))
	}
	for range 60 { // a mixture lies between its parts
		if high-low < 1e-9 {
			break
		}
		if mid := (low + high) / 2; d.Below(mid) < p {
			low = mid
		} else {
			high = mid
		}
	}
	return (low + high) / 2
}

// Moments returns mean and standard deviation in kg, up to 500 kg by the
// trapezoid rule in steps of half a kg.
func (d Distribution) Moments() (mean, deviation float64) {
	const step, most = 0.5, 1000
	var square float64
	for i := range most { // E X = ∫ P(X > x) dx, E X² = ∫ 2x P(X > x) dx
		x := (float64(i) + 0.5) * step
		over := 1 - d.Below(x)
		mean += over * step
		square += 2 * x * over * step
	}
	return mean, math.Sqrt(max(square-mean*mean, 0))
}

// Point is a value on a grid of masses.
type Point struct{ Kg, Density float64 }

// Grid returns n + 1 points of the density from one mass in kg to a greater
// one, to be drawn; n from 1 to 2000.
func (d Distribution) Grid(from, to float64, n int) ([]Point, *record.Finding) {
	upwards := assume.AnyLoad
	upwards.Least = from
	for _, f := range []*record.Finding{
		assume.AnyLoad.Check(from, "from_kg"), upwards.Check(to, "to_kg"), gridSteps.Check(float64(n), "steps"),
	} {
		if f != nil {
			return nil, f
		}
	}
	out := make([]Point, 0, n+1)
	for i := 0; i <= n; i++ {
		x := from + (to-from)*float64(i)/float64(n)
		out = append(out, Point{x, d.Density(x)})
	}
	return out, nil
}

// Ranges of what is asked of a distribution.
var (
	shifts    = assume.Range{Name: "mass added to everyone", Unit: "kg", Least: -60, Most: 60, Hint: "check the mass and its unit"}
	quantiles = assume.Range{Name: "share of people", Least: 1e-6, Most: 1 - 1e-6, Hint: "enter a share as 0.95"}
	gridSteps = assume.Range{Name: "number of steps", Least: 1, Most: 2000, Hint: "draw with fewer steps"}
)
