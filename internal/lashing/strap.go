// Package lashing works out what a tie-down does: to the load cell of the
// platform it runs over, and for the machine it shall hold.
package lashing

import "math"

// DaNPerKg is the weight of a kilogram in daN, as the source of the lashing
// rules takes it: g = 9.81 m/s².
const DaNPerKg = 0.981

// EdgeLoss returns the share of a strap's tension that is left behind an edge:
// exp(-2·alpha·mu), alpha in degrees to the deck on either side (0 to 90), mu
// the friction of the edge (0 to 1).
//
// GDV, German insurers' handbook on securing cargo in road transport (read).
func EdgeLoss(alphaDeg, mu float64) float64 {
	if alphaDeg == 0 { // nothing bends, whatever the friction
		return 1
	}
	return math.Exp(-2 * alphaDeg * math.Pi / 180 * mu)
}

// PullDown returns the force in daN with which one strap over an object, tensioned
// to tension daN on one side, pulls it down: T·sin alpha·(1 + exp(-2·alpha·mu)).
// Computed from [EdgeLoss]; between 1 and 2 times T·sin alpha.
func PullDown(tension, alphaDeg, mu float64) float64 {
	return tension * math.Sin(alphaDeg*math.Pi/180) * (1 + EdgeLoss(alphaDeg, mu))
}
