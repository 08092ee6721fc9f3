package cause

import "ratchetmark/internal/lashing"

// lashed: a tie-down over the platform on some trips. One strap or two, with a
// short or a long lever or a chain; of its pull a share reaches the cell. The
// machine is switched off minutes after lashing, or stays powered all the trip.
type lashed struct {
	p       *params
	settled *curve // while hours are counted
	pulled  *curve // at the last pull
	habits  []latent
}

const (
	loadSpread    = 0.65 // of ln load: tension, angle, blocks and what reaches the cell differ from trip to trip; an assumption
	settledSpread = 0.75 // of ln load once it has settled; an assumption
	haulersDiffer = 0.4  // of ln powered time, among hauliers; an assumption
	offSpread     = 0.9  // of ln powered time where it is switched off; an assumption
	onSpread      = 0.9  // of ln powered time where it is not; an assumption
	settles       = 0.3  // share of tie-downs that settle into a lower band at once; an assumption
	alike         = 0.7  // how much alike the tie-downs of one machine are; an assumption
)

// strapTerm is one way of tying down: apparent loads are lognormal.
type strapTerm struct {
	weight float64
	load   float64 // kg, median
}

func newLashed(p *params, m platform, loads []float64) *lashed {
	l := &lashed{p: p, habits: habitsOf(p[lashedHabit])}
	straps := strapsOf(p)
	at := func(kept, spread float64) *curve {
		return lay(loads, m.rated, func(x float64) (over float64) {
			for _, s := range straps {
				over += s.weight * lognormal{kept * s.load, spread}.over(x)
			}
			return over
		}, func(x float64) (density float64) {
			for _, s := range straps {
				density += s.weight * lognormal{kept * s.load, spread}.density(x) / x
			}
			return density
		})
	}
	l.pulled, l.settled = at(1, loadSpread), at(p[tensionKept], settledSpread)
	return l
}

// habitsOf splits hauliers into those who never lash over the platform, do so
// on some trips, or on most; together they do it on a share of all trips.
func habitsOf(share float64) []latent {
	often, sometimes := 0.7*share, 1.3*share
	never := max(0, 1-often-sometimes)
	return []latent{{0.003, never}, {0.3, sometimes}, {0.85, often}}
}

func strapsOf(p *params) []strapTerm {
	var out []strapTerm
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

func (l *lashed) occasions(i int, o *opportunity) float64 { return l.habits[i].value * l.trips(o) }

// trips returns how many trips an interval is expected to hold.
func (l *lashed) trips(o *opportunity) float64 {
	unlisted := o.unlisted * l.p[tripRate] / 100
	wrong := l.p[custodyWrong] * (1 + o.powered*l.p[tripRate]/100) // readings are taken where a machine changes hands
	return o.trips + unlisted + wrong
}

// dwell is the powered time of one trip: switched off soon, or left on.
func (l *lashed) dwell(o *opportunity) dwell {
	trip := l.p[tripLength]
	if o.tripHours > 0 {
		trip = o.tripHours
	}
	left := l.p[leftPowered]
	return dwell{[]part{{1 - left, lognormal{l.p[offAfter], offSpread}}, {left, lognormal{trip, onSpread}}}, haulersDiffer}
}

func (l *lashed) hours(share func(int) float64, h float64, o *opportunity, density []float64) {
	d := l.dwell(o).counted(h, o.step)
	for i := range density {
		density[i] = d.several(l.occasions(i, o) * share(i))
	}
}

// within: the last pull of the ratchet goes higher than what stays, so that the
// hours may lie in a lower band than the peak.
func (l *lashed) within(h float64, o *opportunity) float64 {
	return settles + (1-settles)*l.dwell(o).under(h+o.step/2)
}
