package simulate

import "math"

// haulier is how one haulier carries the machine.
type haulier struct {
	rails    float64 // chance to lash over the rails
	on       float64 // chance to leave the power on
	offFirst float64 // chance to switch off before lashing
	tension  *Parameter
}

func newHauliers(d draw) []haulier {
	out := make([]haulier, d.whole(hauliers))
	for i := range out {
		h := haulier{on: d.of(staysOn), offFirst: d.of(firstOff), tension: shortDaN}
		if !d.chance(neverRails) {
			h.rails = 1
			if !d.chance(alwaysRails) {
				h.rails = d.of(railsAtTimes)
			}
		}
		if d.chance(longLever) {
			h.tension = longDaN
		} else if d.chance(chainBinder) {
			h.tension = chainDaN
		}
		out[i] = h
	}
	return out
}

// strapLoad draws what the straps over the platform add to the cell, in kg:
// V = n T sin α (1 + exp(-2αμ)), of which a share reaches the cell.
func (h haulier) strapLoad(d draw) float64 {
	alpha := d.of(strapAngle) * math.Pi / 180
	down := d.of(h.tension) * math.Sin(alpha) * (1 + math.Exp(-2*alpha*d.of(railFriction))) * float64(d.whole(strapCount))
	down *= d.of(cellShare)
	if d.chance(blockChance) {
		down *= 1 - d.of(blockTakes)
	}
	return down / 0.981 // daN to kg
}

// tied is how the machine was tied down on a trip: over the platform or not. A
// winch rope that rests on it is none.
type tied struct {
	stay
	over bool
}

// trip runs a stay on a vehicle: driven on, lashed, under way, driven off.
func (w *world) trip(s stay, h haulier) {
	d := w.d
	left := 0.0
	if d.chance(leftOn) {
		left = w.m.rated * d.of(leftMass)
	}
	w.driveOn(s, left)
	strap, over := 0.0, false
	switch {
	case d.chance(winchChance):
		strap = d.of(winchLoad)
	case d.happens(h.rails):
		strap = h.strapLoad(d)
		over = true
	}
	w.tied = append(w.tied, tied{s, over})
	onward, end := d.happens(h.on), s.to-0.25*(s.to-w.t)
	switch {
	case strap > 0 && d.happens(h.offFirst) && !onward:
		w.off()
	case strap > 0:
		w.lash(strap, left, onward, end)
	case onward:
		w.rideOn(episode{load: left, hours: end - w.t, by: worked})
	}
	w.wait(end)
	w.unload(s, strap, left)
}

// driveOn runs the machine onto the vehicle, with somebody on the platform.
func (w *world) driveOn(s stay, left float64) {
	d := w.d
	hours := min(d.of(driveOnFor), (s.to-w.t)/5)
	load := left + men()[d.IntN(len(masses{}))]
	w.run(episode{load: load, hours: hours, moving: 0.7, by: worked})
	if d.chance(loadAmp) {
		w.shock(load, s.to)
	}
}

// lash runs the time lashed with the power on: minutes, or until the end of
// the trip, with less and less tension.
func (w *world) lash(strap, left float64, onward bool, end float64) {
	d := w.d
	first := min(d.of(lashOnFor), end-w.t)
	w.run(episode{load: strap + left, sharp: strap*d.of(cinch) + left, hours: first, by: lashed})
	if !onward {
		w.off()
		return
	}
	const parts = 4
	lost, most, hours := 1-d.of(tensionLeft), d.of(sway), (end-w.t)/parts
	for i := range parts {
		now := strap * (1 - lost*(float64(i)+0.5)/parts)
		w.rideOn(episode{load: now + left, sharp: now*most + left, hours: hours, by: lashed})
	}
}

// rideOn runs a part of the way with the power on, and its jolts.
func (w *world) rideOn(e episode) {
	if e.hours <= 0.01 {
		return
	}
	if w.d.happens(w.m.joltRate * e.hours) {
		seconds := w.d.of(shockFor)
		jolt := (e.load + w.m.platform) * w.d.of(joltAmp)
		w.run(episode{load: e.load + jolt, hours: seconds / 3600, by: shock})
		e.hours -= seconds / 3600
	}
	w.run(e)
}

// unload runs the end of a trip: at times the power is on before the lashing
// is off.
func (w *world) unload(s stay, strap, left float64) {
	d := w.d
	if strap > 0 && d.chance(unlashOn) {
		w.run(episode{load: strap*d.of(tensionLeft) + left, hours: min(d.of(lashOnFor), (s.to-w.t)/3), by: lashed})
	}
	w.run(episode{load: left + men()[d.IntN(len(masses{}))], hours: min(d.of(driveOnFor), (s.to-w.t)/2), moving: 0.7, by: worked})
	w.wait(s.to)
}
