package cause

import (
	"math"

	"ratchetmark/internal/record"
)

// Ask is a record that would help to settle a piece.
type Ask struct {
	Wants  Wants
	Record string
	Why    string
	Bits   float64 // information that it is expected to give about the cause
}

// Wants says which part of a case a record that is asked for would go into.
type Wants string

// The parts of a case that are lists beside the readings, and the readings.
const (
	WantsChecks   Wants = "checks"
	WantsTieDowns Wants = "tie_downs"
	WantsCustody  Wants = "custody"
	WantsEvents   Wants = "events"
	WantsDaily    Wants = "daily"
	WantsReadings Wants = "readings"
)

// outcome is one thing that a record may turn out to say, with its probability
// under each cause.
type outcome [4]float64

// question is a record that could be asked for.
type question struct {
	wants       Wants
	record, why string
	missing     func(f *facts) bool // whether the case lacks it
	// outcomes returns what it may say, under the models and their parameters;
	// for each cause the probabilities add up to 1.
	outcomes func(f *facts, p *params, ms *[4]model) []outcome
}

// yesNo returns the two outcomes of a question, with the probability of yes.
func yesNo(worked, lashed, shock, drift float64) []outcome {
	return []outcome{{worked, lashed, shock, drift}, {1 - worked, 1 - lashed, 1 - shock, 1 - drift}}
}

// questions is the table of records, in the order in which a depot can get them.
var questions = []question{
	{WantsChecks, "a zero check with the platform empty, and a check with a known mass",
		"a cell that reads right has hardly drifted", func(f *facts) bool { return f.checks.zero == nil && f.checks.mass == nil }, checkOutcomes},
	{WantsChecks, "a check with a known mass on the platform",
		"a wrong gain does not show with the platform empty", func(f *facts) bool { return f.checks.zero != nil && f.checks.mass == nil }, checkOutcomes},
	{WantsCustody, "custody: who had the machine when, and when it was on a truck",
		"tells trips from use", func(f *facts) bool {
			return len(f.h.Case.Custody) == 0 || f.custody.known && f.custody.unnamed > 0.1*f.custody.total
		}, custodyOutcomes},
	{WantsReadings, "when the peak was set",
		"can be held against custody", func(f *facts) bool { return f.x.What == Peak && f.peakTime().IsZero() }, momentOutcomes},
	{WantsReadings, "readings taken before loading and after unloading",
		"show whether it came with the trip", func(f *facts) bool {
			return !f.custody.known || f.custody.transit < mostlyTrip*f.custody.total && f.custody.trips > 0
		}, bracketOutcomes},
	{WantsTieDowns, "the tie-down that was used: a photo, the delivery note, the crew's word",
		"shows whether a strap went over the platform, and how hard", func(f *facts) bool { return f.tied == nil }, tieDownOutcomes},
	{WantsTieDowns, "the tie-down on the other trips: a photo, the delivery note, the crew's word",
		"shows whether a strap went over the platform, and how hard", func(f *facts) bool { return f.tied != nil && f.otherTrips() > 0 }, tieDownOutcomes},
	{WantsEvents, "the machine's event list: overload alarms, power on and off",
		"tells where it sounded and where it was powered", func(f *facts) bool { return f.alarms == nil && f.custody.known && !f.loose }, alarmOutcomes},
	{WantsDaily, "daily use: powered hours by day",
		"tells where the hours were counted", func(f *facts) bool { return f.power == nil && f.x.What == Band && f.hours > 0.2 }, powerOutcomes},
	{WantsReadings, "the counter of moving hours at both readings",
		"a machine that is tied down does not move", func(f *facts) bool {
			return f.moving == nil && f.x.What == Band && f.hours >= leastShare*f.o.powered
		}, movementOutcomes},
}

// custodyOutcomes: the interval turns out to be mostly a trip, to hold none, or
// both. How often it does depends on how long it is; each cause then had as much
// occasion as its model gives it.
func custodyOutcomes(f *facts, _ *params, ms *[4]model) []outcome {
	h := f.o.powered
	often := [3]float64{0.02, 0.25, 0.73}
	switch {
	case h < 10:
		often = [3]float64{0.35, 0.35, 0.3}
	case h < 100:
		often = [3]float64{0.05, 0.35, 0.6}
	}
	return occasions(ms, often, [3]opportunity{
		{powered: h, trips: 1, step: f.o.step},
		{powered: h, work: h, step: f.o.step},
		{powered: h, work: h, trips: 2 + h*0.02, step: f.o.step},
	})
}

// bracketOutcomes: it turns out to have come with the trip, or with the rest.
func bracketOutcomes(f *facts, _ *params, ms *[4]model) []outcome {
	trips := max(1, f.o.trips)
	onRoad := min(0.5*trips, 0.5*f.o.powered)
	rest := f.o.powered - onRoad
	road := opportunity{powered: onRoad, trips: trips, step: f.o.step}
	other := opportunity{powered: rest, work: rest, step: f.o.step}
	return occasions(ms, [3]float64{0.5, 0.5, 0}, [3]opportunity{road, other, other})
}

// occasions returns how probable it is under each cause that something went over
// in each of three kinds of interval.
func occasions(ms *[4]model, often [3]float64, kinds [3]opportunity) []outcome {
	out := make([]outcome, len(kinds))
	for c, m := range ms {
		sum := 0.0
		for k := range kinds {
			for i, l := range m.latents() {
				out[k][c] += often[k] * l.weight * some(m.occasions(i, &kinds[k]))
			}
			sum += out[k][c]
		}
		for k := range out {
			out[k][c] /= max(sum, 1e-300)
		}
	}
	return out
}

// momentOutcomes: it turns out to have been set in transit, or elsewhere; without
// custody nobody can say which.
func momentOutcomes(f *facts, p *params, _ *[4]model) []outcome {
	inTransit := momentInTransit(&f.o, p)
	out := yesNo(inTransit[iWorked], inTransit[iLashed], inTransit[iShock], inTransit[iDrift])
	if len(f.h.Case.Custody) == 0 {
		return blurred(out, 0.5)
	}
	return out
}

// alarmOutcomes: it sounded elsewhere, in transit, or not at all.
func alarmOutcomes(_ *facts, p *params, _ *[4]model) []outcome {
	out := make([]outcome, 3)
	for c := range All {
		elsewhere, transit := alarmChances(c, p)
		out[2][c] = (1 - elsewhere) * (1 - transit)
		out[0][c] = elsewhere * (1 - transit/2)
		out[1][c] = transit * (1 - elsewhere/2)
	}
	return out
}

// powerOutcomes: the hours fit what it was powered in transit only, elsewhere
// only, or both.
func powerOutcomes(_ *facts, p *params, _ *[4]model) []outcome {
	doubt := p[custodyWrong] + 0.05
	work := outcome{doubt * p[leftPowered], (1 - doubt) * (1 - p[leftPowered]), 0, 0}
	work[2] = 1 - work[0] - work[1]
	lashed := [3]float64{(1 - doubt) * 0.6, doubt, 1 - (1-doubt)*0.6 - doubt}
	out := make([]outcome, 3)
	for k := range out {
		out[k] = outcome{work[k], lashed[k], work[k], work[k]}
	}
	return out
}

// movementOutcomes sorts the share of moving hours: under 5 %, to 20 %, more.
func movementOutcomes(f *facts, _ *params, _ *[4]model) []outcome {
	out := make([]outcome, 3)
	for c := range All {
		expected := movingExpected(c, f.o.powered, f.hours)
		under := func(share float64) float64 { return 1 - normalOver((logit(share)-logit(expected))/movingSpread) }
		out[0][c], out[1][c], out[2][c] = under(0.05), under(0.2)-under(0.05), 1-under(0.2)
	}
	return out
}

// blurred returns outcomes that tell less: with the complement of sharp they say
// the same under every cause.
func blurred(outs []outcome, sharp float64) []outcome {
	for k, o := range outs {
		mean := (o[0] + o[1] + o[2] + o[3]) / 4
		for c := range o {
			outs[k][c] = sharp*o[c] + (1-sharp)*mean
		}
	}
	return outs
}

// leastBits is what a record has to be expected to tell to be asked for.
const leastBits = 0.01

// askFor ranks the missing records by the information, in bits, that each is
// expected to give about the cause: the mutual information of cause and outcome
// (Lindley, Annals of Mathematical Statistics 27 (1956), 986-1005, from memory).
func askFor(f *facts, posterior [4]float64, p *params, ms *[4]model) []Ask {
	var out []Ask
	for _, q := range questions {
		if !q.missing(f) {
			continue
		}
		if bits := information(posterior, q.outcomes(f, p, ms)); bits >= leastBits {
			out = append(out, Ask{q.wants, q.record, q.why, bits})
		}
	}
	record.SortStable(out, func(a, b Ask) int { return compare(ninth(b.Bits), ninth(a.Bits)) })
	return out
}

// information returns sum p(c)·p(o|c)·log2(p(o|c)/p(o)), in bits.
func information(prior [4]float64, outs []outcome) float64 {
	bits := 0.0
	for _, o := range outs {
		all := 0.0
		for c := range prior {
			all += prior[c] * o[c]
		}
		for c := range prior {
			if j := prior[c] * o[c]; j > 0 {
				bits += j * math.Log2(o[c]/all)
			}
		}
	}
	return math.Max(0, bits)
}
