package cause

import "math/bits"

// parts are the parts of a model that can differ apart from each other. Where an
// assumption moves, only the parts that it touches are made anew, and only the
// items that ask for one of them are asked again.
type parts uint8

const (
	often   parts = 1 << iota // how many occasions there are
	hidden                    // the latent values themselves, and their weights
	loads                     // how the loads are distributed
	lasting                   // how long an occasion lasts
	scaling                   // none of a model: how strong all items count together

	everything = often | hidden | loads | lasting
)

// asked is what an item reads: parts of the model of each cause, and parameters
// beside them.
type asked struct {
	parts  [4]parts // in the order of All
	params []param
}

// askedBy tells what each item reads, by its id. One that is not listed is taken
// to read everything.
var askedBy = map[string]asked{
	"occasion":   {parts: [4]parts{often, often, often, often}},
	"size":       {parts: [4]parts{often | loads, often | loads, often | loads, hidden | loads}},
	"hours":      {parts: [4]parts{often | loads | lasting, often | loads | lasting, often | loads | lasting, loads | lasting}},
	"neighbours": {parts: [4]parts{often | loads | lasting, often | loads | lasting, often | loads | lasting, loads | lasting}},
	"peak-place": {parts: [4]parts{often | loads, often | loads, often | loads, hidden}, params: []param{leftPowered, tensionKept}},
	"empty-band": {parts: [4]parts{iDrift: hidden}, params: []param{alwaysOccupied}},
	"movement":   {},
	"moment":     {params: []param{custodyWrong}},
	"power":      {params: []param{custodyWrong, leftPowered}},
	"alarms":     {params: []param{alarmLogged}},
	"afterwards": {parts: [4]parts{iDrift: hidden}},
	"pattern":    {},
	"haulier":    {parts: [4]parts{iLashed: hidden}, params: []param{lashedHabit}},
	"tie-down":   {parts: [4]parts{iLashed: often | hidden}, params: []param{lashedHabit, tieDownSeen, tieDownTold}},
	"zero-check": {parts: [4]parts{iDrift: hidden}, params: checkParams[:]},
	"known-mass": {parts: [4]parts{iDrift: hidden}, params: checkParams[:]},
}

// items is a set of rows of evidence, by their number.
type items uint64

func (s items) has(k int) bool { return s>>k&1 != 0 }

// first returns the lowest number in a set that holds one.
func (s items) first() int { return bits.TrailingZeros64(uint64(s)) }

// rest returns the set without its lowest number.
func (s items) rest() items { return s & (s - 1) }

// from returns what of the set is at a number or above.
func (s items) from(k int) items { return s >> k << k }

// again tells for each parameter which items differ under each cause as it moves.
var again = func() (out [paramCount][4]items) {
	for p := range out {
		for c := range All {
			for k := range evidence {
				if readsOf(evidence[k].id, c, param(p)) {
					out[p][c] |= 1 << k
				}
			}
		}
	}
	return out
}()

// readsOf reports whether what an item reads under a cause differs as a parameter
// moves.
func readsOf(id string, cause int, p param) bool {
	reads, listed := askedBy[id]
	if !listed {
		return true
	}
	for _, q := range reads.params {
		if q == p {
			return true
		}
	}
	return paramTable[p].touches[cause] && paramTable[p].parts&reads.parts[cause] != 0
}
