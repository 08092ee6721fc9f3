package simulate

import "math"

// Draw draws n values of the i-th parameter of the table.
func Draw(i, n int) []float64 {
	d, out := newDraw(1, i, 0), make([]float64, n)
	for k := range out {
		out[k] = d.of(table[i])
	}
	return out
}

// Scene is a machine with a rated load of 200 kg, load sensing at 220 kg and
// bands 0, 100, 180, 250, 400 kg and up, and a cell without faults.
type Scene struct{ w *world }

// NewScene makes a scene with a cell that reads zero kg too much, times gain.
func NewScene(zero, gain, noise float64) Scene {
	m := machine{rated: 200, sensing: 220, edges: []float64{0, 100, 180, 250, 400}, open: true, step: 0.1, peakStep: 1, hold: 1, limit: math.Inf(1)}
	c := cell{zero: zero, gain: gain, noise: max(noise, 1e-9), faultGain: 1, from: math.Inf(1), to: math.Inf(1)}
	return Scene{&world{d: newDraw(1, 0, 0), m: m, cell: c, c: newCounters(m.count()), log: &log{}}}
}

// Run runs an episode; by is one of Causes.
func (s Scene) Run(by string, load, hours, moving float64) {
	for o, name := range Causes {
		if name == by {
			s.w.run(episode{load: load, hours: hours, moving: moving, by: origin(o)})
		}
	}
}

// State is what the counters of a scene show, and the truth.
type State struct {
	Powered, Moving, Peak, PeakTrue float64
	PeakBy                          string
	Bands                           []float64
	Over                            []Hours
	Alarms                          int
}

func (s Scene) State() State {
	c := s.w.c
	out := State{Powered: c.powered, Moving: c.moving, Peak: c.peak, PeakTrue: c.peakTrue, PeakBy: c.peakBy.name(), Bands: c.bands}
	for _, o := range c.over {
		out.Over = append(out.Over, hoursOf(o))
	}
	for _, e := range s.w.log.events {
		if e.kind == logAlarm {
			out.Alarms++
		}
	}
	return out
}

// StrapLoads draws n strap loads of hauliers.
func StrapLoads(n int) []float64 {
	d := newDraw(1, 0, 0)
	var out []float64
	for range n {
		out = append(out, newHauliers(d)[0].strapLoad(d))
	}
	return out
}

// Body returns the tabulated masses of men.
func Body() []float64 { return men()[:] }

// Highest is the highest of n noises of which a share u of series stays below.
func Highest(n, u float64) float64 { return highest(n, u) }

// Shown is an hour counter as a machine with these steps shows it.
func Shown(h, step float64, truncate bool) float64 {
	m := machine{step: step, truncate: truncate}
	return float64(m.shownHours(h))
}

// Walk returns what a cell of 200 kg reads for a load at some times, whose zero
// steps by step kg, walks by walk kg an hour and whose gain is off by gain from
// 100 to 200 h.
func Walk(load, step, walk, gain float64, times ...float64) []float64 {
	c := cell{gain: 1, from: 100, to: 200, faultZero: step, faultWalk: walk, faultGain: 1 + gain, mostWalked: 50}
	var out []float64
	for _, t := range times {
		out = append(out, c.read(load, t))
	}
	return out
}
