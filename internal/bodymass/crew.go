package bodymass

import (
	"math"

	"ratchetmark/internal/assume"
	"ratchetmark/internal/record"
)

// Group is a number of people of a crew who are drawn from one distribution.
type Group struct {
	Who    Distribution
	People int
}

// Crew is the people on a platform, drawn one by one without regard to each
// other, and what they have with them, in kg.
type Crew struct {
	Groups []Group
	Worn   float64 // by each of them: clothing, harness
	Tools  float64 // tools and materials of all
}

// Chance is a probability that was integrated on a grid: the true value for
// these distributions is within Error of Value. That the distributions are
// not those of the people in question is not part of it.
type Chance struct {
	Value, Error float64
}

// The steps of the grid are of halfKg where their number allows it.
const (
	halfKg = 0.5
	fewest = 50
	most   = 1000
)

// Steepest is above the slope of the density of every table, in 1/kg² (0.00194
// computed); shifting keeps it, mixing cannot raise it.
const Steepest = 0.002

// Exceeds returns the probability that a crew with its tools is over a load in kg.
//
// P(S > L) = 1 - Σ w(k) F(L - k·h): the distribution F of the last person is
// exact, that of the others is put on a grid of step h, each cell's people half
// to either end. For each of them that is off by at most 5/24·h²·max|f'|: 1/8
// for the straight line within a cell, 1/12 for the first moment of the cell.
// Up to five people at usual loads that is under 0.001.
func (c Crew) Exceeds(load record.Kilogram) (Chance, *record.Finding) {
	n, f := c.check(load)
	if f != nil {
		return Chance{}, f
	}
	left := float64(load) - c.Tools - float64(n)*c.Worn
	if left <= 0 {
		return Chance{Value: 1}, nil
	}
	steps := int(min(max(math.Ceil(left/halfKg), fewest), most))
	h := left / float64(steps)
	over := min(max(1-c.within(h, steps), 0), 1)
	grid := float64(n-1) * 5.0 / 24 * h * h * Steepest
	return Chance{
		Value: over,
		Error: min(grid, max(over, c.anyone(left/float64(n)))) + 1e-9, // and what rounding may do
	}, nil
}

// anyone is at least the probability that all together are over n times a
// mass: at least one of them is then over it. Boole's inequality.
func (c Crew) anyone(kg float64) float64 {
	var sum float64
	for _, g := range c.Groups {
		if g.People > 0 {
			sum += float64(g.People) * (1 - g.Who.Below(kg))
		}
	}
	return sum
}

// within returns the probability that the masses of the people add up to at
// most h·steps.
func (c Crew) within(h float64, steps int) float64 {
	sum := []float64{1}
	var last []float64 // distribution of the one person who is kept exact
	for _, g := range c.Groups {
		if g.People == 0 {
			continue
		}
		people, below := g.People, g.Who.onGrid(h, steps)
		if last == nil {
			last, people = below, people-1
		}
		if people > 0 {
			sum = convolve(sum, power(halves(below), people, steps+1), steps+1)
		}
	}
	var within float64
	for k, w := range sum {
		within += w * last[steps-k]
	}
	return within
}

// onGrid returns the shares below 0, h, 2h … steps·h.
func (d Distribution) onGrid(h float64, steps int) []float64 {
	below := make([]float64, steps+1)
	for k := range below {
		below[k] = d.Below(float64(k) * h)
	}
	return below
}

// halves puts each cell's share half to either end. What is above the grid is
// over the load in any case.
func halves(below []float64) []float64 {
	w := make([]float64, len(below))
	for k := 1; k < len(below); k++ {
		half := (below[k] - below[k-1]) / 2
		w[k-1] += half
		w[k] += half
	}
	w[0] += below[0]
	return w
}

// power returns the distribution of the sum of m independent masses of one
// distribution, m at least 1, by squaring.
func power(w []float64, m, n int) []float64 {
	if m == 1 {
		return w
	}
	half := power(w, m/2, n)
	out := convolve(half, half, n)
	if m%2 == 1 {
		out = convolve(out, w, n)
	}
	return out
}

// convolve returns the distribution of the sum of two independent masses, of
// which no more than n steps are wanted.
func convolve(a, b []float64, n int) []float64 {
	out := make([]float64, min(len(a)+len(b)-1, n))
	for i, x := range a {
		if x < 1e-15 {
			continue
		}
		for j, y := range b[:min(len(b), len(out)-i)] {
			out[i+j] += x * y
		}
	}
	return out
}

// Overload is the probability that a crew is over a percentage of the rated load.
type Overload struct {
	Percent float64
	Load    record.Kilogram
	Chance  Chance
}

// Overloads returns the probabilities that a crew is over percentages of a
// rated load, as 100 and 120.
func (c Crew) Overloads(rated record.Kilogram, percents ...float64) ([]Overload, *record.Finding) {
	if f := assume.RatedLoads.Check(float64(rated), "machine/rated_load_kg"); f != nil {
		return nil, f
	}
	var out []Overload
	for _, p := range percents {
		if f := assume.AnyPercent.Check(p, "percent"); f != nil {
			return nil, f
		}
		load := rated * record.Kilogram(p) / 100
		chance, f := c.Exceeds(load)
		if f != nil {
			return nil, f
		}
		out = append(out, Overload{p, load, chance})
	}
	return out, nil
}

// Quantile returns the load in kg that a crew with its tools stays under with
// a probability from 0.001 to 0.999.
func (c Crew) Quantile(p float64) (record.Kilogram, *record.Finding) {
	n, f := c.check(0)
	if f == nil {
		f = chances.Check(p, "share")
	}
	if f != nil {
		return 0, f
	}
	low := c.Tools + float64(n)*c.Worn
	high := low
	for _, g := range c.Groups { // each below his or her own share of the chance: so are all together
		high += float64(g.People) * g.Who.quantile(1-(1-p)/float64(n))
	}
	for range 24 {
		mid := (low + high) / 2
		if chance, _ := c.Exceeds(record.Kilogram(mid)); 1-chance.Value < p {
			low = mid
		} else {
			high = mid
		}
	}
	return record.Kilogram((low + high) / 2), nil
}

var (
	chances   = assume.Range{Name: "probability", Least: 0.001, Most: 0.999, Hint: "enter a probability as 0.95"}
	crewTools = assume.Range{Name: "mass of tools and materials", Unit: "kg", Most: 5000, Hint: "check the mass and its unit"}
	crewWorn  = assume.Range{Name: "mass of what each person wears", Unit: "kg", Most: 50, Hint: "check the mass and its unit"}
)

// check refuses a crew that gives no sensible figure, and counts the people.
func (c Crew) check(load record.Kilogram) (people int, f *record.Finding) {
	at := record.Path("crew")
	for i, g := range c.Groups {
		if f := members.Check(float64(g.People), at.At("group").At(i+1)); f != nil {
			return 0, f
		}
		if len(g.Who.parts) == 0 {
			return 0, noMasses(at.At("group").At(i + 1))
		}
		people += g.People
	}
	for _, f := range []*record.Finding{
		assume.PersonCount.Check(float64(people), at.At("persons")),
		crewWorn.Check(c.Worn, at.At("worn_kg")), crewTools.Check(c.Tools, at.At("tools_kg")),
		assume.AnyLoad.Check(float64(load), "load_kg"),
	} {
		if f != nil {
			return 0, f
		}
	}
	return people, nil
}

var members = assume.Range{Name: "number of people of a group", Most: assume.PersonCount.Most, Hint: "enter how many there are"}

func noMasses(at record.Path) *record.Finding {
	return &record.Finding{
		Code: "no-masses", Severity: record.Blocking, Path: at, Where: at.Words(),
		Message: "nothing says what these people weigh", Expected: "one of the populations or a mixture of them",
		Effect: "nothing is worked out from it", Hint: "choose a population",
	}
}
