package cause

import (
	"math"
	"slices"
)

// Ask is a record that would help to settle a piece.
type Ask struct {
	Record string
	Why    string
	Bits   float64 // information that it is expected to give about the cause
}

// outcome is one thing that a record may turn out to say, with its probability
// under each cause.
type outcome [4]float64

// question is a record that could be asked for.
type question struct {
	record, why string
	missing     func(f *facts) bool // whether the case lacks it
	// outcomes returns what it may say, under the models and their parameters;
	// for each cause the probabilities add up to 1.
	outcomes func(f *facts, p *params) []outcome
}

// yesNo returns the two outcomes of a question, with the probability of yes.
func yesNo(worked, lashed, shock, drift float64) []outcome {
	return []outcome{{worked, lashed, shock, drift}, {1 - worked, 1 - lashed, 1 - shock, 1 - drift}}
}

// Chances that a check says what it says; assumptions.
const (
	stillWrong  = 0.8  // a drifted zero is still wrong when it is checked
	wrongAnyway = 0.05 // a zero is wrong without having caused the piece
	toldTrue    = 0.8  // the crew, or a photo, tells of a strap that was there
	toldAnyway  = 0.15 // there was a strap, on another trip
	shockOnRoad = 0.3  // of shocks over the rated load
	driftOnRoad = 0.1  // of drifted peaks
)

// questions is the table of records, in the order in which a depot can get them.
var questions = []question{
	{"a zero check with the platform empty, and a check with a known mass",
		"a cell that reads right has hardly drifted", func(*facts) bool { return true },
		func(_ *facts, _ *params) []outcome {
			return yesNo(wrongAnyway, wrongAnyway, wrongAnyway, stillWrong)
		}},
	{"custody: who had the machine when, and when it was on a truck",
		"tells trips from use", func(f *facts) bool {
			return len(f.h.Case.Custody) == 0 || f.custody.known && f.custody.unnamed > 0.1*f.custody.total
		}, custodyOutcomes},
	{"when the peak was set",
		"can be held against custody", func(f *facts) bool { return f.x.What == Peak && f.peakTime().IsZero() },
		func(f *facts, p *params) []outcome {
			if len(f.h.Case.Custody) == 0 { // a date alone tells less
				return blurred(momentOutcomes(p), 0.5)
			}
			return momentOutcomes(p)
		}},
	{"readings taken before loading and after unloading",
		"show whether it came with the trip", func(f *facts) bool {
			return !f.custody.known || f.custody.transit < mostlyTrip*f.custody.total && f.custody.trips > 0
		},
		func(f *facts, p *params) []outcome { return blurred(momentOutcomes(p), 0.7) }},
	{"the tie-down that was used: a photo, the delivery note, the crew's word",
		"shows whether a strap went over the platform, and how hard", func(*facts) bool { return true },
		func(_ *facts, _ *params) []outcome {
			return yesNo(toldAnyway, toldTrue, toldAnyway*1.5, toldAnyway)
		}},
	{"the machine's event list: overload alarms, power on and off",
		"tells where it sounded and where it was powered", func(f *facts) bool { return f.alarms == nil },
		alarmOutcomes},
	{"daily use: powered hours by day",
		"tells where the hours were counted", func(f *facts) bool { return f.power == nil && f.x.What == Band },
		func(_ *facts, p *params) []outcome {
			return []outcome{
				{0.1 * p[leftPowered], 0.85, 0.1, 0.1}, // only in transit
				{0.2, 0.1, 0.2, 0.2},                   // both
				{0.8 - 0.1*p[leftPowered], 0.05, 0.7, 0.7},
			}
		}},
	{"the counter of moving hours at both readings",
		"a machine that is tied down does not move", func(f *facts) bool { return f.moving == nil && f.x.What == Band },
		func(f *facts, _ *params) []outcome {
			tells := min(0.4, f.hours/max(f.o.powered, 0.1))
			return yesNo(0.7, 0.7-tells, 0.7, 0.7)
		}},
}

// custodyOutcomes: the interval turns out to hold a trip and little else, both,
// or no trip at all.
func custodyOutcomes(f *facts, p *params) []outcome {
	wrong := p[custodyWrong]
	if f.o.powered > usualInterval.powered { // so long an interval holds both
		return blurred([]outcome{{wrong, 0.2, 0.1, 0.1}, {0.8, 0.75, 0.8, 0.8}, {0.2 - wrong, 0.05, 0.1, 0.1}}, 0.7)
	}
	return []outcome{{wrong, 0.45, 0.15, 0.05}, {0.45, 0.5, 0.45, 0.45}, {0.55 - wrong, 0.05, 0.4, 0.5}}
}

func momentOutcomes(p *params) []outcome {
	return yesNo(p[custodyWrong], 1-p[custodyWrong]-beforeLeaving, shockOnRoad, driftOnRoad)
}

func alarmOutcomes(_ *facts, p *params) []outcome {
	a := p[alarmLogged]
	sounds := func(elsewhere, transit float64) (o [3]float64) {
		none := (1 - elsewhere) * (1 - transit)
		return [3]float64{elsewhere * (1 - transit/2), transit * (1 - elsewhere/2), none}
	}
	w, l := sounds(a, otherTransit), sounds(otherAlarm, lashedAlarm*a)
	s, d := sounds(shockAlarm, 0.15), sounds(a, 0.2)
	out := make([]outcome, 3)
	for k := range out {
		out[k] = outcome{w[k], l[k], s[k], d[k]}
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
func askFor(f *facts, posterior [4]float64, p *params) []Ask {
	var out []Ask
	for _, q := range questions {
		if !q.missing(f) {
			continue
		}
		if bits := information(posterior, q.outcomes(f, p)); bits >= leastBits {
			out = append(out, Ask{q.record, q.why, bits})
		}
	}
	slices.SortStableFunc(out, func(a, b Ask) int { return compare(b.Bits, a.Bits) })
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
