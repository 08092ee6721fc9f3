package simulate

import (
	"math"
	"slices"

	"ratchetmark/internal/record"
)

// plan draws when the counters are read: times in h since the start, ascending
// and at least ten minutes apart, the last at the end of the life.
func plan(d draw, a Availability, stays []stay) []float64 {
	end := stays[len(stays)-1].to
	var times []float64
	switch a {
	case PeakAndBands:
	case TwoReadings:
		times = []float64{end * (0.05 + 0.9*d.Float64())}
	default:
		times = planCustody(d, stays)
	}
	for i, t := range times {
		times[i] = math.Round(t*60) / 60
	}
	slices.Sort(times)
	return append(spaced(times, end), end)
}

// spaced leaves out times that are too close to the one before or to the end.
func spaced(times []float64, end float64) []float64 {
	const apart = 1.0 / 6
	var out []float64
	last := 0.0
	for _, t := range times {
		if t-last >= apart && end-t >= apart {
			out = append(out, t)
			last = t
		}
	}
	return out
}

// planCustody draws readings before and after every trip, or on leaving and
// entering the yard, or at fixed periods; some are missing, some late.
func planCustody(d draw, stays []stay) []float64 {
	missing, late := d.of(readMissing), d.of(readLate)
	every := 0.0
	trips := d.chance(readTrips)
	if !trips && !d.chance(readYard) {
		every = 24 * d.of(readEvery)
	}
	var out []float64
	keep := func(t float64) {
		if d.happens(late) {
			t += d.of(lateBy)
		}
		if !d.happens(missing) {
			out = append(out, t)
		}
	}
	if every > 0 {
		for t := until(every, 8); t < stays[len(stays)-1].to; t += every {
			keep(t)
		}
		return out
	}
	for i, s := range stays[1:] {
		yard := s.holder == record.Depot || stays[i].holder == record.Depot
		if (trips && (s.holder == record.Transit || stays[i].holder == record.Transit)) || yard {
			keep(s.from)
		}
	}
	return out
}

// writer turns what happened into a case, with what is missing or wrong in it.
type writer struct {
	d         draw
	m         *machine
	available Availability
	start     startOf
}

// reading is the counters as they are read.
func (w *writer) reading(t float64, c *counters, meters meters) record.Reading {
	r := record.Reading{At: w.start.at(t), Peak: record.Of(w.m.shownPeak(c.peak))}
	for i, h := range c.bands {
		from, to := w.m.limits(i)
		b := record.Band{From: record.Kilogram(from), Hours: w.m.shownHours(h)}
		if !math.IsInf(to, 1) {
			b.To = record.Of(record.Kilogram(to))
		}
		r.Bands = append(r.Bands, b)
	}
	if meters.powered {
		r.Powered = record.Of(w.m.shownHours(c.powered))
	}
	if meters.moving {
		r.Moving = record.Of(w.m.shownHours(c.moving))
	}
	if meters.peakAt && c.peak > 0 {
		r.PeakAt = record.Of(w.start.at(c.peakAt))
	}
	if w.available.custody() {
		switch {
		case w.d.chance(noBands):
			r.Bands, r.Powered, r.Moving = nil, nil, nil
		case w.d.chance(noPeak):
			r.Peak, r.PeakAt = nil, nil
		}
	}
	return r
}

// meters are what a machine counts besides bands and peak.
type meters struct{ powered, moving, peakAt bool }

func newMeters(d draw, a Availability) meters {
	m := meters{d.chance(poweredMeter), d.chance(movingMeter), d.chance(peakClock)}
	if a == PeakAndBands {
		return meters{}
	}
	return m
}
