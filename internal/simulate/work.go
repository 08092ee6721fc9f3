package simulate

// hire runs a stay with a hirer, day by day.
func (w *world) hire(s stay) {
	h := newHirer(w.d)
	for day := dayOf(s.from); day*24 < s.to; day++ {
		if !w.d.happens(h.used) {
			continue
		}
		w.day(&h, max(day*24+w.d.of(dayBegins), s.from), min(s.to, day*24+23.5))
		if end := min(day*24+30, s.to); w.d.chance(overnight) && w.t < end && w.t >= day*24 {
			w.run(episode{load: w.m.rated * w.d.of(nightLoad), hours: end - w.t, by: worked})
		}
	}
	w.wait(s.to)
}

func dayOf(t float64) float64 { return float64(int(t / 24)) }

// day runs the work of one day from a time of day to, at most, another.
func (w *world) day(h *hirer, from, to float64) {
	left := w.d.of(dayHours)
	if from < w.t || from >= to {
		return
	}
	w.wait(from)
	if w.d.chance(snowChance) {
		w.run(episode{load: w.m.rated * w.d.of(snowLoad), hours: min(w.d.of(snowFor), to-w.t), by: other})
	}
	if w.d.happens(h.tilts) {
		w.note(logTilt, 0)
	}
	for left > 0.02 && to-w.t > 0.02 {
		hours := min(w.d.of(sessionFor), left, to-w.t)
		left -= hours
		w.stretch(h, hours, to)
	}
	w.off()
}

// stretch runs one stretch at about one load, and what comes between.
func (w *world) stretch(h *hirer, hours, to float64) {
	d := w.d
	if w.fault(h, to) {
		return
	}
	e := episode{hours: hours, by: worked}
	if !d.happens(h.idle) {
		e.load, e.moving = h.ordinary(w), h.moving
	}
	if d.happens(h.overs * hours) {
		w.overload(h, e.load, to)
		e.hours = min(e.hours, to-w.t)
	}
	if d.happens(h.shocks * hours) {
		w.shock(e.load, to)
		e.hours = min(e.hours, to-w.t)
	}
	if e.hours > 0 {
		w.run(e)
	}
}

// overload runs one occasion of too much on the platform, or what was meant to
// be: whether it is over the rated load depends on the machine.
func (w *world) overload(h *hirer, static, to float64) {
	d := w.d
	e := episode{by: worked, moving: h.moving, goesOn: d.chance(overMoving)}
	switch {
	case d.chance(overCrowd):
		e.load = h.people(d, w.m.persons+d.whole(crowdMore)) + h.tools
		e.hours = d.of(overFor)
	case d.chance(overLean):
		e.load = static + d.of(leanPull)
		e.hours, e.moving = d.of(leanFor), 0
	default:
		e.load = h.people(d, 1) + h.tools + w.m.rated*d.of(overMaterial)
		e.hours = d.of(overFor)
	}
	if e.hours = min(e.hours, to-w.t); e.hours > 0 {
		w.run(e)
	}
}

// shock runs a blow on what is on the platform, or a snag.
func (w *world) shock(static, to float64) {
	d := w.d
	e := episode{by: shock, load: static * d.of(shockAmp), hours: d.of(shockFor) / 3600}
	if d.chance(snagShare) {
		e.load, e.hours = static+w.m.rated*d.of(snagPull), d.of(snagFor)/3600
	}
	if e.hours < to-w.t {
		w.run(e)
	}
}

// fault lets a blow be seen that comes with the step of the zero: the first
// time the machine works once the fault has begun.
func (w *world) fault(h *hirer, to float64) bool {
	if !w.cell.blow || w.t < w.cell.from || w.t > w.cell.to {
		return false
	}
	w.cell.blow = false
	w.shock(h.ordinary(w), to)
	return true
}

// yard runs a stay in the yard: handled on its first day.
func (w *world) yard(s stay) {
	if hours := min(w.d.of(yardUse), s.to-s.from-0.02); hours > 0 {
		w.run(episode{load: men()[w.d.IntN(len(masses{}))], hours: hours, moving: 0.5, by: worked})
	}
	w.wait(s.to)
}

// workshop runs a stay in the workshop: at times under test weights; the peak
// may be cleared.
func (w *world) workshop(s stay) {
	d := w.d
	w.run(episode{load: 0, hours: 0.1, by: worked})
	if d.chance(testWeights) {
		for _, share := range []float64{1.1, 1.25} {
			w.run(episode{load: w.m.rated * share, hours: min(d.of(testFor), (s.to-w.t)/2), by: other})
		}
	}
	if d.chance(peakReset) {
		w.c.peak, w.c.peakTrue, w.c.peakBy, w.c.peakAt = 0, 0, drift, w.t
	}
	w.wait(s.to)
}
