package simulate

import (
	"math"
	"slices"
)

// counters are what the machine keeps, unrounded, and beside it the truth.
type counters struct {
	powered, moving float64
	bands           []float64          // h
	over            [][origins]float64 // hours over the rated load of each band, by cause
	peak            float64
	peakAt          float64
	peakTrue        float64 // true load when it was set
	peakBy          origin
}

func newCounters(bands int) counters {
	return counters{bands: make([]float64, bands), over: make([][origins]float64, bands), peakBy: drift}
}

func (c counters) clone() counters {
	c.bands, c.over = slices.Clone(c.bands), slices.Clone(c.over)
	return c
}

// episode is one stretch of load while the machine is powered.
type episode struct {
	load   float64 // true load, kg
	hours  float64
	moving float64 // share of it in movement, as far as load sensing lets
	by     origin
	goesOn bool    // moves on, whatever load sensing does
	sharp  float64 // load that it reaches for a moment, if above load, as while tightening a strap
}

// world is a machine in time.
type world struct {
	d    draw
	m    machine
	cell cell
	t    float64 // h
	c    counters

	plan  []float64 // times at which the counters are read, ascending
	shots []counters
	log   *log // nil when nothing is logged
	tied  []tied

	powered bool
	loud    bool // the alarm is on
}

// wait lets time pass with the power off.
func (w *world) wait(to float64) {
	if to <= w.t {
		return
	}
	w.off()
	w.shootUntil(to)
	w.t = to
}

// shootUntil reads the counters at every planned time up to t.
func (w *world) shootUntil(t float64) {
	for len(w.plan) > 0 && w.plan[0] <= t+1e-9 {
		w.shots = append(w.shots, w.c.clone())
		w.plan = w.plan[1:]
	}
}

func (w *world) on() {
	if !w.powered {
		w.powered = true
		w.note(logPowerOn, 0)
	}
}

func (w *world) off() {
	if w.powered {
		w.powered, w.loud = false, false
		w.note(logPowerOff, 0)
	}
}

// run counts an episode, cut where the counters are read and where a day ends.
func (w *world) run(e episode) {
	w.shootUntil(w.t)
	w.on()
	w.raise(e, w.d.Float64())
	end := w.t + e.hours
	for left := e.hours; left > 1e-9; {
		h := left
		if len(w.plan) > 0 && w.plan[0] > w.t {
			h = min(h, w.plan[0]-w.t)
		}
		if midnight := (math.Floor(w.t/24+1e-9) + 1) * 24; midnight-w.t > 1e-9 {
			h = min(h, midnight-w.t)
		}
		h = max(h, 1e-9)
		w.count(e, h)
		w.t += h
		left -= h
		w.shootUntil(w.t)
	}
	w.t = end // the same however it was cut
}

// count adds a part of an episode to the counters.
func (w *world) count(e episode, h float64) {
	reading := w.cell.read(e.load, w.t)
	moving := 0.0
	if reading <= w.m.sensing || e.goesOn {
		moving = e.moving * h
	}
	w.alarm(reading)
	w.c.powered += h
	w.c.moving += moving
	if w.log != nil {
		w.log.use(w.t, h, moving)
	}
	w.spread(e, reading, h)
}

// alarm notes when the reading rises above what load sensing acts at.
func (w *world) alarm(reading float64) {
	loud := reading > w.m.sensing
	if loud && !w.loud {
		w.note(logAlarm, reading)
	}
	w.loud = loud
}

// spread puts the hours into the bands that the reading and its noise reach.
func (w *world) spread(e episode, reading, h float64) {
	edges, sd := w.m.edges, w.cell.noise
	below := 0.0 // share of the time below the lower edge; readings below zero are zero
	if edges[0] > 0 {
		below = share(edges[0], reading, sd)
	}
	for i := range w.m.count() {
		upTo := 1.0
		from, to := w.m.limits(i)
		if !math.IsInf(to, 1) {
			upTo = share(to, reading, sd)
		}
		if upTo > below {
			w.c.bands[i] += (upTo - below) * h
			w.over(e, i, from, to, reading, h, below, upTo)
		}
		below = upTo
		if upTo >= 1 {
			break
		}
	}
}

// over keeps the hours over the rated load by cause: a true load over it by
// the episode's, a reading over it with the true load at or under it by the cell.
func (w *world) over(e episode, i int, from, to, reading, h, below, upTo float64) {
	rated := w.m.rated
	switch {
	case to <= rated && e.load <= rated:
	case e.load > rated:
		if to > rated {
			w.c.over[i][e.by] += (upTo - below) * h
		}
	case from >= rated:
		w.c.over[i][drift] += (upTo - below) * h
	default:
		w.c.over[i][drift] += max(upTo-max(below, share(rated, reading, w.cell.noise)), 0) * h
	}
}

// share is the share of the time that a noisy reading is below an edge.
func share(edge, reading, sd float64) float64 {
	switch z := (edge - reading) / sd; {
	case z > 4:
		return 1
	case z < -4:
		return 0
	default:
		return normalCDF(z)
	}
}

// raise lifts the peak where the load lasts long enough for the register. Of
// such series of noise a share u would lift it less.
func (w *world) raise(e episode, u float64) {
	seconds := e.hours * 3600
	if seconds < w.m.hold {
		return
	}
	load := max(e.load, e.sharp)
	reading := w.cell.read(load, w.t)
	if reading+4*w.cell.noise <= w.c.peak {
		return
	}
	reading += w.cell.noise * highest(seconds/max(w.m.hold, 0.5), u)
	if w.m.shownPeak(reading) <= w.m.shownPeak(w.c.peak) {
		return
	}
	w.c.peak, w.c.peakAt, w.c.peakTrue, w.c.peakBy = reading, w.t, load, e.by
	if load <= w.m.rated {
		w.c.peakBy = drift
	}
	w.note(logPeak, reading)
}
