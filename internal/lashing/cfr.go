package lashing

import (
	"math"

	"ratchetmark/internal/record"
)

const kgPerPound = 0.45359237

// HeavyFrom is the mass in lb from which a machine on wheels or tracks needs at
// least four tie-downs (49 CFR 393.130, restated).
const HeavyFrom = 10_000

// Aggregate is the count of 49 CFR 393.106(d): the working load limits of all
// tie-downs together make at least half the weight. All in lb.
type Aggregate struct {
	Required float64 // half the weight
	Counted  float64 // a direct tie-down counts with half of its limit
	Number   int     // of tie-downs there are
	Least    int     // that the rule asks for
}

// Count returns the aggregate of tie-downs with their limits in lb; direct ones
// run from the vehicle to the machine, the others from side to side over it.
//
// 49 CFR 393.106(d), 393.110(b) to (c), 393.130 (restated; 393.110 from memory).
func Count(mass record.Kilogram, direct, over []float64, lengthM float64, blocked bool) Aggregate {
	pounds := float64(mass) / kgPerPound
	a := Aggregate{Required: pounds / 2, Number: len(direct) + len(over), Least: leastNumber(pounds, lengthM, blocked)}
	for _, wll := range direct {
		a.Counted += wll / 2
	}
	for _, wll := range over {
		a.Counted += wll
	}
	return a
}

// Holds reports whether both counts are met.
func (a Aggregate) Holds() bool { return a.Counted >= a.Required-1e-9 && a.Number >= a.Least }

// Needed returns how many tie-downs of one limit in lb the rule asks for.
func (a Aggregate) Needed(wll float64, direct bool) int {
	if direct {
		wll /= 2
	}
	return max(a.Least, int(math.Ceil(a.Required/wll-1e-9)))
}

// leastNumber returns the number of tie-downs by weight and length: for heavy
// machines four (393.130); else by length (393.110, from memory): one up to
// 5 ft and 1100 lb, two up to 10 ft, one more for each further 10 ft or part of
// it; one for each 10 ft where the load is blocked forward. An unknown length
// (0) counts as up to 10 ft.
func leastNumber(pounds, lengthM float64, blocked bool) int {
	const foot = 0.3048
	feet := lengthM / foot
	number := 2
	switch {
	case blocked:
		number = max(1, int(math.Ceil(feet/10-1e-9)))
	case feet > 0 && feet <= 5 && pounds <= 1100:
		number = 1
	case feet > 10:
		number = 2 + int(math.Ceil((feet-10)/10-1e-9))
	}
	if pounds >= HeavyFrom {
		number = max(number, 4)
	}
	return number
}
