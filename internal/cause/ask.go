package cause

import (
	"math"
	"slices"
	"sort"
)

// Ask is a record that would help to settle an exceedance.
type Ask struct {
	Record string
	Why    string
	Bits   float64 // information it gives, with equal weight on every open cause
}

// question is a record that could be asked for: the causes it tells from the rest.
type question struct {
	record, why string
	tells       []Cause
	missing     func(f facts) bool // whether the case lacks it
}

const checkOfZero = "zero check with the platform empty, and with a known mass on it"

func always(facts) bool { return true }

// questions is the table of records, in the order in which a depot can get them.
var questions = []question{
	{checkOfZero,
		"shows whether the cell reads what is there", []Cause{Drift}, always},
	{"complete custody: who had the machine when, and when it was on a truck",
		"tells use from transport", []Cause{Lashed, Shock}, func(f facts) bool { return f.custodyUnknown }},
	{"readings taken before loading and after unloading",
		"shows whether the hours and the peak came with the trip", []Cause{Lashed, Shock}, func(f facts) bool { return !f.inTransit && !f.custodyUnknown }},
	{"the tie-down that was used: photo, delivery note, the crew's word",
		"shows whether a strap went over the platform", []Cause{Lashed}, always},
	{"the machine's own event list: alarms, power on and off",
		"tells loading, which sounds alarms, from a power-on in transit", []Cause{Worked, Lashed}, func(f facts) bool { return len(f.h.Case.Events) == 0 }},
	{"the counter of moving hours at both readings",
		"shows whether the machine moved; a lashed one does not", []Cause{Lashed}, func(f facts) bool { return f.moving == nil }},
	{"when the peak was set",
		"can be held against custody", []Cause{Lashed, Shock}, func(f facts) bool { return f.x.What == Peak && f.peakTime().IsZero() }},
}

// askFor ranks the missing records by the information they can give about
// which of the open causes it was; records that tell nothing are left out.
func askFor(f facts, open []Cause) []Ask {
	var out []Ask
	for _, q := range questions {
		if !q.missing(f) {
			continue
		}
		told := 0
		for _, c := range open {
			if slices.Contains(q.tells, c) {
				told++
			}
		}
		if bits := entropy(float64(told) / float64(len(open))); bits > 0 {
			out = append(out, Ask{q.record, q.why, bits})
		}
	}
	sort.SliceStable(out, func(i, j int) bool { return out[i].Bits > out[j].Bits })
	if _, never := neverEmpty(f); never { // the zero check comes first where the zero is in question
		sort.SliceStable(out, func(i, j int) bool { return out[i].Record == checkOfZero && out[j].Record != checkOfZero })
	}
	return out
}

// entropy returns the information, in bits, of an answer that is yes with
// probability p in [0, 1]: -p·log2 p - (1-p)·log2(1-p) (Shannon 1948, theorem 2).
func entropy(p float64) float64 {
	if p <= 0 || p >= 1 {
		return 0
	}
	return -p*math.Log2(p) - (1-p)*math.Log2(1-p)
}
