package simulate

import (
	"math"
	"slices"

	"ratchetmark/internal/record"
)

// machine is what a machine is, in kg.
type machine struct {
	kind     record.Kind
	persons  int
	rated    float64
	sensing  float64 // infinite where nothing acts
	acts     float64 // what the plate says, whether it works or not
	platform float64 // mass of the platform itself

	edges []float64 // ascending; the last is the upper edge of the last band unless open
	open  bool

	step     float64 // of the hour counters, h
	truncate bool
	peakStep float64 // kg
	hold     float64 // s, the least time that sets the peak
	limit    float64 // the most the peak register shows
	joltRate float64
}

func newMachine(d draw) machine {
	m := machine{platform: d.of(platformMass), step: 0.1, peakStep: 1, limit: math.Inf(1), joltRate: d.of(joltRate)}
	m.plate(d)
	m.acts = math.Ceil(m.rated * d.of(sensingAt))
	m.sensing = m.acts
	if d.chance(sensingFails) {
		m.sensing = math.Inf(1)
	}
	if d.chance(minuteClock) {
		m.step = 1.0 / 60
	}
	m.truncate = d.chance(truncates)
	if d.chance(coarsePeak) {
		m.peakStep = 5
	}
	m.hold = d.of(peakHold)
	if d.chance(peakCap) {
		m.limit = math.Round(m.rated * d.of(peakLimit))
	}
	m.bands(d)
	return m
}

// plate draws kind, persons and rated load.
func (m *machine) plate(d draw) {
	most, spare := 3, 180.0
	m.kind = record.Boom
	if !d.chance(boomShare) {
		m.kind, most, spare = record.Mast, 2, 80
		if d.chance(scissorShare) {
			m.kind, most, spare = record.Scissor, 4, 400
		}
	}
	m.persons = 1 + d.IntN(most)
	m.rated = float64(m.persons)*80 + 40 + spare*d.of(spareLoad)
	if d.chance(oddPlate) {
		m.rated = d.of(oddRated)
	}
	grain := []float64{1, 5, 10}[d.IntN(3)]
	m.rated = math.Round(m.rated/grain) * grain
}

// bands draws the edges of the bands.
func (m *machine) bands(d draw) {
	n := d.whole(bandCount)
	m.open = d.chance(openTop)
	atRated := d.chance(edgeAtRated)
	grain := []float64{1, 5, 10}[d.IntN(3)]
	top := m.rated * d.of(topEdge)
	widths, sum := make([]float64, n), 0.0
	for i := range widths {
		widths[i] = d.of(edgeSpread)
		sum += widths[i]
	}
	edge := 0.0
	if d.chance(lowStart) {
		edge = 5 + 5*float64(d.IntN(4))
	}
	m.edges = []float64{edge}
	for _, w := range widths {
		edge += top * w / sum
		m.edges = append(m.edges, math.Round(edge/grain)*grain)
	}
	if atRated {
		m.snapToRated()
	}
	slices.Sort(m.edges)
	m.edges = slices.Compact(m.edges)
}

// snapToRated moves the edge nearest to the rated load onto it.
func (m *machine) snapToRated() {
	near := 1
	for i := range m.edges[1:] {
		if math.Abs(m.edges[i+1]-m.rated) < math.Abs(m.edges[near]-m.rated) {
			near = i + 1
		}
	}
	m.edges[near] = m.rated
}

// count is the number of bands.
func (m *machine) count() int {
	if m.open {
		return len(m.edges)
	}
	return len(m.edges) - 1
}

// limits returns the edges of band i; the upper is infinite where it is open.
func (m *machine) limits(i int) (from, to float64) {
	if i+1 == len(m.edges) {
		return m.edges[i], math.Inf(1)
	}
	return m.edges[i], m.edges[i+1]
}

// shownHours is an hour counter as the machine shows it.
func (m *machine) shownHours(h float64) record.Hour {
	steps := h / m.step
	if m.truncate {
		steps = math.Floor(steps + 1e-9)
	} else {
		steps = math.Round(steps)
	}
	return record.Hour(math.Round(steps*m.step*1e4) / 1e4)
}

// shownPeak is the peak as the machine shows it.
func (m *machine) shownPeak(kg float64) record.Kilogram {
	return record.Kilogram(math.Round(min(kg, m.limit)/m.peakStep) * m.peakStep)
}
