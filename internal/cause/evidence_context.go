package cause

import "math"

func hasEmpty(f *facts) bool { return f.empty != nil }

// Shares of the lowest band, from which it counts as emptied or as low.
const (
	emptied  = 0.02
	lowShare = 0.4 // of the usual share
	// usualEmpty is the share of the lowest band in machines of which nothing
	// else is known, shareSpread how the logit of the share scatters from one
	// interval to the next, and wideSpread among machines; assumptions.
	usualEmpty  = 0.51
	shareSpread = 1.6
	wideSpread  = 0.83
)

// shares sorts the share of the lowest band: emptied, low or as usual.
type shares struct {
	at        int     // which of them it is
	none, low float64 // probability of the first two where the zero is right
}

// sharesOf works out how probable each share is in a machine whose cell is right.
func sharesOf(e *emptyShare) shares {
	usual, spread := e.usual, shareSpread
	if usual < 0 {
		usual, spread = usualEmpty, wideSpread
	}
	usual = min(max(usual, 0.01), 0.98)
	under := func(share float64) float64 { return 1 - normalOver((logit(share)-logit(usual))/spread) }
	s := shares{at: 2, none: under(emptied)}
	s.low = max(under(max(lowShare*usual, emptied))-s.none, 1e-6)
	switch {
	case e.now < emptied:
		s.at = 0
	case e.now < lowShare*usual:
		s.at = 1
	}
	return s
}

// emptyBand: under drift by more than the lowest band is wide, that band
// empties; else its share is as in other intervals.
func emptyBand(e *ask, i int) float64 {
	s := &e.empty.shares
	if d, ok := e.model.(*drift); ok && d.offsets[i].value >= e.empty.edge {
		return [3]float64{0.5, 0.3, 0.2}[s.at] // it may have begun within the interval
	}
	none := s.none*(1-e.p[alwaysOccupied]) + e.p[alwaysOccupied]
	return [3]float64{none, s.low, max(1-none-s.low, 1e-6)}[s.at]
}

func logit(x float64) float64 { return math.Log(x / (1 - x)) }

// leastShare is the share of an interval's powered hours from which the piece
// shows in its moving hours.
const leastShare = 0.38

func hasMovement(f *facts) bool {
	return f.x.What == Band && f.moving != nil && f.v.Powered != nil && !f.loose && *f.v.Powered > 0 &&
		f.hours >= leastShare*float64(*f.v.Powered)
}

// Moving hours of ordinary use, as a share of the powered ones; assumptions.
const (
	usuallyMoving = 0.26
	movingSpread  = 2.5  // of the logit
	leastMoving   = 0.02 // density under which no share of moving hours falls
)

// movement: tied down, a machine does not move; overloaded in its window it
// does not either, but it moves in between.
func movement(e *ask) float64 {
	powered, moving := float64(*e.v.Powered), float64(*e.moving)
	expected := movingExpected(e.cause, powered, e.hours)
	share := min(max(moving/powered, 0.003), 0.99)
	d := normalDensity((logit(share) - logit(expected)) / movingSpread)
	if e.cause == iLashed && moving > powered-e.hours+3*e.o.step { // it cannot have stood still for all of them
		return leastMoving / 10
	}
	return max(d, leastMoving)
}

// movingExpected returns the share of the powered hours in which a machine is
// expected to move, where hours lay over the rated load.
func movingExpected(cause int, powered, hours float64) float64 {
	still := [4]float64{iWorked: 0.5, iLashed: 1}[cause]
	free := max(powered-still*hours, 0.02*powered)
	return min(max(usuallyMoving*free/powered, 0.003), 0.9)
}

// hasMoment: where custody has no trip, a tie-down means that custody is wrong,
// and the moment tells no more.
func hasMoment(f *facts) bool { return f.when != nil && (f.o.trips > 0 || f.when.transit > 0) }

// moment: tied down in transit, worked elsewhere; custody may be wrong.
func moment(e *ask) float64 {
	inTransit, w := momentInTransit(&e.o, e.p)[e.cause], &e.when.weighed
	return w.never*0.5 + w.transit*inTransit + w.elsewhere*(1-inTransit)
}

// momentInTransit returns how probable it is under each cause that a peak was
// set in transit.
func momentInTransit(o *opportunity, p *params) [4]float64 {
	onRoad := min(max((o.trips+0.02)*0.5/o.powered, 0.02), 0.5)
	return [4]float64{
		iWorked: p[custodyWrong], iLashed: 1 - p[custodyWrong] - beforeLeaving,
		iShock: min(0.7, 2*onRoad), iDrift: onRoad,
	}
}

// beforeLeaving is the share of tie-downs that set their peak before the
// custody of the trip begins; an assumption.
const beforeLeaving = 0.065

func hasPower(f *facts) bool {
	return f.power != nil && f.o.trips > 0 && f.x.What == Band && f.x.Low > 0 && f.v.Withheld == ""
}

// power: hours can only have been counted where the machine was powered.
func power(e *ask) float64 {
	slack := 2*e.o.step + 0.05*e.hours
	road := e.power.transit + e.power.unnamed
	doubt := e.p[custodyWrong] + 0.05
	chance := 1.0
	if e.power.transit+slack >= e.hours { // powered in transit for as long, by chance
		chance = e.p[leftPowered]
	}
	if e.cause == iLashed {
		return either(road > 0 && road+slack >= e.hours, 1, doubt)
	}
	return chance * either(e.power.elsewhere+slack >= e.hours, 1, doubt)
}

func hasAlarms(f *facts) bool { return f.alarms != nil }

// Chances of overload alarms that have nothing to do with the piece, and of
// those that another cause sounds; assumptions.
const (
	otherAlarm   = 0.17
	otherTransit = 0.14
	shockAlarm   = 0.22
	lashedAlarm  = 0.56 // of the logged ones: a machine switched off sounds none
)

// alarmsOf: an overload sounds where it happens.
func alarmsOf(e *ask) float64 {
	a := e.alarms
	elsewhere, transit := alarmChances(e.cause, e.p)
	not := func(chance float64) float64 { return either(a.whole, 1-chance, 1) }
	if e.facts.o.trips == 0 || a.unnamed > 0 && a.transit+a.elsewhere == 0 { // where it sounded tells nothing
		if a.all() == 0 {
			return not(elsewhere) * not(transit)
		}
		return max(elsewhere, transit)
	}
	return either(a.elsewhere > 0, elsewhere, not(elsewhere)) * either(a.transit > 0, transit, not(transit))
}

// alarmChances returns how probable it is under a cause that an alarm is listed
// elsewhere, and in transit.
func alarmChances(cause int, p *params) (elsewhere, transit float64) {
	logged := p[alarmLogged]
	return [4]float64{iWorked: logged, iLashed: otherAlarm, iShock: shockAlarm, iDrift: logged}[cause],
		[4]float64{iWorked: otherTransit, iLashed: lashedAlarm * logged, iShock: 0.15, iDrift: 0.2}[cause]
}

func hasAfter(f *facts) bool { return f.after != nil }

// Chances that the interval after goes over again; assumptions.
const (
	overAgain      = 0.47
	driftsOn       = 0.67
	driftsOnAnyway = 0.4 // after a workshop
)

// after: a drift stays until somebody corrects it.
func after(e *ask, i int) float64 {
	again := overAgain
	if e.cause == iDrift {
		again = either(e.after.workshop, driftsOnAnyway, driftsOn)
	}
	l := either(e.after.over > 0, again, 1-again)
	if d, ok := e.model.(*drift); ok && e.empty != nil && d.offsets[i].value >= e.empty.edge && !e.after.workshop && e.after.lowest > emptied*e.after.hours {
		l *= 0.1
	}
	return l
}

func hasPattern(f *facts) bool { return f.pattern != nil }

// goesWithTrips is the chance that what goes over in a machine's other
// intervals goes with its trips, if it was a tie-down in this one; an assumption.
const goesWithTrips = 0.13

// patternOf: tie-down goes with trips; the rest does not. Each share is unknown
// (Beta(1,2)), and small without trips under tie-down (Beta(0.5,3)).
func patternOf(e *ask) float64 {
	if e.cause == iLashed {
		return e.pattern.lashed
	}
	return e.pattern.otherwise
}

// weigh works out how probable the pattern is.
func (p *pattern) weigh() {
	p.otherwise = betaBinomial(p.tripOver+p.restOver, p.tripNot+p.restNot, 1, 2)
	withTrips := betaBinomial(p.tripOver, p.tripNot, 1, 2) * betaBinomial(p.restOver, p.restNot, 0.5, 3)
	p.lashed = goesWithTrips*withTrips + (1-goesWithTrips)*p.otherwise
}

// betaBinomial returns B(a+yes, b+no)/B(a, b): the chance of one sequence.
func betaBinomial(yes, no int, a, b float64) float64 {
	lbeta := func(x, y float64) float64 {
		lx, _ := math.Lgamma(x)
		ly, _ := math.Lgamma(y)
		lxy, _ := math.Lgamma(x + y)
		return lx + ly - lxy
	}
	return math.Exp(lbeta(a+float64(yes), b+float64(no)) - lbeta(a, b))
}

func hasHaulier(f *facts) bool { return f.haulier != nil }

// haulier: what other machines show of a haulier tells the habit.
func haulier(e *ask, i int) float64 {
	chance := func(p float64) float64 {
		return math.Pow(p, float64(e.facts.haulier.Over)) * math.Pow(1-p, float64(e.facts.haulier.Not))
	}
	if l, ok := e.model.(*lashed); ok {
		return chance(min(0.9, l.habits[i].value+0.05)) // something may go over by another cause
	}
	all := 0.0
	for _, h := range habitsOf(e.p[lashedHabit]) {
		all += h.weight * chance(min(0.9, h.value+0.05))
	}
	return all
}

func either(ok bool, yes, no float64) float64 {
	if ok {
		return yes
	}
	return no
}
