package cause

import (
	"math"

	"ratchetmark/internal/lashing"
)

// lashed: a tie-down over the platform on some trips. One strap or two, with a
// short or a long lever or a chain; of its pull a share reaches the cell. The
// machine is switched off minutes after lashing, or stays powered all the trip,
// while the tension falls through one band after the other.
type lashed struct {
	p       *params
	l       *ladder
	straps  *mixture // at the last pull
	kept    *mixture // once settled
	settled *curve   // while hours are counted
	pulled  *curve   // at the last pull
	lasts   dwell    // on a trip of so many hours
	trip    float64
	habits  []latent
	usual   float64
}

const (
	loadSpread    = 0.65  // of ln load: tension, angle, blocks and what reaches the cell differ from trip to trip; an assumption
	settledSpread = 0.75  // of ln load once it has settled; an assumption
	haulersDiffer = 0.95  // of ln powered time, among hauliers; an assumption
	offSpread     = 0.96  // of ln powered time where it is switched off; an assumption
	partOfTrip    = 0.14  // share of a powered trip that a band gets while the tension falls through it; an assumption
	onSpread      = 1     // of ln powered time where it is not; an assumption
	settles       = 0.13  // share of tie-downs that settle into a lower band at once; an assumption
	misplaced     = 0.93  // trips next to an interval that lie in it, where an entry of custody is wrong; an assumption
	nearby        = 0.3   // chance that a tie-down fills another given band too, as it settles; an assumption
	furtherOff    = 0.079 // the same, where the band is further away; an assumption
	alike         = 0.75  // how much alike the tie-downs of one machine are; an assumption
)

// strapTerm is one way of tying down: apparent loads are lognormal.
type strapTerm struct {
	weight float64
	load   float64 // kg, median
}

func newLashed(p *params, l *ladder) model { return (&lashed{l: l}).with(p, everything) }

func (l *lashed) with(p *params, differ parts) model {
	v := *l
	v.p = p
	if differ&loads != 0 {
		v.straps = mix(l.l, strapLoad, strapLoads(p, 1, loadSpread), l.straps)
		v.kept = mix(l.l, strapLoad, strapLoads(p, p[tensionKept], settledSpread), l.kept)
		v.pulled, v.settled = lay(l.l, v.straps.at), lay(l.l, v.kept.at)
	}
	if differ&(often|hidden) != 0 {
		v.habits = habitsOf(p[lashedHabit])
		v.usual = inUsual(&v)
	}
	if differ&lasting != 0 {
		v.lasts = dwell{}
	}
	return &v
}

// strapLoads lists what the ways of tying down load, of which a share is kept.
func strapLoads(p *params, kept, spread float64) []term {
	out := make([]term, 0, 6)
	for _, s := range strapsOf(p) {
		out = append(out, term{s.weight, [3]float64{ln(kept * s.load), spread}})
	}
	return out
}

// strapLoad is the law of one way of tying down: lognormal, with the logarithm of
// its median and its spread.
func strapLoad(of [3]float64, _, lnX float64) point {
	z := (lnX - of[0]) / of[1]
	return point{over: normalOver(z), density: normalDensity(z) / of[1]}
}

// habitsOf splits hauliers into those who never lash over the platform, do so
// on some trips, or on most; together they do it on a share of all trips.
func habitsOf(share float64) []latent {
	often, sometimes := 0.7*share, 1.3*share
	never := max(0, 1-often-sometimes)
	return []latent{{0.003, never}, {0.3, sometimes}, {0.85, often}}
}

func strapsOf(p *params) []strapTerm {
	out := make([]strapTerm, 0, 6)
	for _, d := range []struct{ share, tension float64 }{
		{max(0, 1-p[longShare]-p[chainShare]), p[shortTension]}, {p[longShare], p[longTension]}, {p[chainShare], p[chainTension]},
	} {
		one := lashing.PullDown(d.tension, p[strapAngle], p[edgeFriction]) * p[cellShare] / lashing.DaNPerKg
		out = append(out,
			strapTerm{d.share * (1 - p[twoStraps]), one},
			strapTerm{d.share * p[twoStraps], 2 * one})
	}
	return out
}

func (l *lashed) latents() []latent  { return l.habits }
func (l *lashed) curve(int) *curve   { return l.settled }
func (l *lashed) highest(int) *curve { return l.pulled }
func (l *lashed) usually() float64   { return l.usual }

func (l *lashed) occasions(i int, o *opportunity) float64 { return l.habits[i].value * l.trips(o) }

// trips returns how many trips an interval is expected to hold.
func (l *lashed) trips(o *opportunity) float64 {
	unlisted := o.unlisted * l.p[tripRate] / 100
	return o.trips + unlisted + l.p[custodyWrong]*misplaced
}

// dwell is the powered time of one trip: switched off soon, or left on. It is
// kept for the pieces that follow, most of which are of the same interval.
func (l *lashed) dwell(o *opportunity) *dwell {
	trip := l.p[tripLength]
	if o.tripHours > 0 {
		trip = o.tripHours
	}
	if l.lasts.parts == nil || l.trip != trip {
		left := l.p[leftPowered]
		l.trip = trip
		l.lasts = dwellOf(haulersDiffer, part{1 - left, lognormal{l.p[offAfter], offSpread}}, part{left, lognormal{trip * partOfTrip, onSpread}})
	}
	return &l.lasts
}

func (l *lashed) counted(h float64, o *opportunity) counted { return l.dwell(o).counted(h, o.step) }

func (l *lashed) hours(c *counted, mean, share []float64, _ *opportunity, density, chance []float64) {
	for i := range density {
		density[i], chance[i] = c.several(mean[i] * share[i])
	}
}

// within: the last pull of the ratchet goes higher than what stays, so that the
// hours may lie in a lower band than the peak.
func (l *lashed) within(h float64, o *opportunity) float64 {
	return settles + (1-settles)*l.dwell(o).under(h+o.step/2)
}

// lastPull is, for a tie-down that left hours in a band and kept a share of its
// tension, the density over ln load of its last pull at the highest load, and the
// probability of one below it. It is kept with a piece: few assumptions bear on it.
type lastPull struct{ kept, own, under float64 }

// pullOf returns how a tie-down that left the hours of the piece was last pulled:
// one switched off soon, or one that was not.
func (l *lashed) pullOf(e *ask) (own, under float64) {
	left := l.p[leftPowered]
	for i, k := range []struct{ share, kept, spread float64 }{{1 - left, 0.92, 0.1}, {left, l.p[tensionKept], 0.4}} {
		last := &e.pulls[i]
		if last.kept != k.kept {
			*last = e.pulledWith(k.kept, k.spread)
		}
		own, under = own+k.share*last.own, under+k.share*last.under
	}
	return own, under
}

// pulledWith works out the last pull where a share of the tension is kept, with
// some spread.
func (e *ask) pulledWith(kept, spread float64) lastPull {
	low, wide := float64(max(e.x.From, e.h.Rated)), math.Log(1.5)
	if e.x.To != nil {
		wide = math.Log(max(float64(*e.x.To)/low, 1.001))
	}
	load := float64(*e.v.Peak)
	d := lognormal{low * math.Exp(wide/2) / kept, math.Sqrt(spread*spread + wide*wide/12)}
	return lastPull{kept, d.density(load), d.under(load)}
}
