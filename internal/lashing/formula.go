package lashing

import (
	"math"

	"ratchetmark/internal/record"
)

// Weight returns the weight of a mass in daN.
func Weight(mass record.Kilogram) float64 { return float64(mass) * DaNPerKg }

func sin(deg float64) float64 { return math.Sin(deg * math.Pi / 180) }
func cos(deg float64) float64 { return math.Cos(deg * math.Pi / 180) }

// OverTopRequired returns the force in daN that over-top lashings have to add to
// friction: (c - mu·cz)·G·fs; 0 where friction alone holds. c and cz in g, G in daN.
//
// EN 12195-1:2010, 5.4 (from memory; agrees with the balances that GDV prints).
func OverTopRequired(c, cz, mu, g, fs float64) float64 {
	return math.Max(0, (c-mu*cz)*g*fs)
}

// OverTopAdds returns the force in daN that one over-top lashing adds, tensioned
// to ft daN: k·mu·sin alpha·FT, with k = 2 for a strap that pulls on both sides.
//
// EN 12195-1:2010, 5.4 (from memory); 240 daN and 120 daN in the GDV's examples.
func OverTopAdds(k, mu, alphaDeg, ft float64) float64 { return k * mu * sin(alphaDeg) * ft }

// DirectRequired returns the force in daN that direct lashings have to add to
// the friction that counts: (c - fmu·mu·cz)·G; 0 where friction alone holds.
//
// EN 12195-1:2010, 5.5, as read in the balance that GDV prints.
func DirectRequired(c, cz, fmu, mu, g float64) float64 { return math.Max(0, (c-fmu*mu*cz)*g) }

// DirectAdds returns the share of its capacity that a direct lashing adds: its
// part along the direction, and the friction of its part downwards,
// (X + fmu·mu·Z)/L = cos alpha·cos beta + fmu·mu·sin alpha. Alpha is the angle
// to the deck, beta that in plan to the direction; 0 where it does not act.
//
// EN 12195-1:2010, 5.5, as read in the balance that GDV prints.
func DirectAdds(fmu, mu, alphaDeg, betaDeg float64) float64 {
	along := cos(alphaDeg) * cos(betaDeg)
	if along <= 1e-9 {
		return 0
	}
	return along + fmu*mu*sin(alphaDeg)
}

// DirectMost returns the most that a direct lashing can add at any angle, as a
// share of its capacity: sqrt(1 + (fmu·mu)²), the maximum of [DirectAdds].
func DirectMost(fmu, mu float64) float64 { return math.Hypot(1, fmu*mu) }

// Tips returns the moment in daN·m that lashings have to hold against tipping
// over an edge: G·(c·h - cz·b), h the height of the centre of gravity and b its
// distance from the edge, in m; 0 where the machine stands by itself.
//
// EN 12195-1:2010, 5.2 (from memory).
func Tips(c, cz, g, height, edge float64) float64 { return math.Max(0, g*(c*height-cz*edge)) }
