package lashing

import (
	"math"

	"ratchetmark/internal/record"
)

// Match is a way in which straps over the rails would give a load.
type Match struct {
	Device   *Device
	Straps   int
	AngleDeg float64
	Tension  float64 // that each strap would need, daN, over the usual edge
}

// matched are the ways that are tried, the plainest first.
var matched = []struct {
	straps int
	angle  float64
}{{1, 60}, {1, 90}, {1, 45}, {2, 60}, {2, 90}, {2, 45}}

// Tension returns the tension in daN that each of so many straps over the rails
// needs for a load: the inverse of [Apparent] with a share of 1.
func Tension(load record.Kilogram, straps int, angleDeg, edgeMu float64) float64 {
	return float64(load) * DaNPerKg / (float64(straps) * PullDown(1, angleDeg, edgeMu))
}

// Matches returns, for each device that can give a load over the rails, the
// plainest way in which it does: straps and angle with a tension that it leaves.
// It says what would give such a load, not that anything did.
func Matches(load record.Kilogram, edgeMu float64) []Match {
	var out []Match
	if !record.Finite(load) || load <= 0 {
		return nil
	}
	for i := range Devices {
		d := &Devices[i]
		for _, way := range matched {
			if t := Tension(load, way.straps, way.angle, edgeMu); t >= d.Low && t <= d.High {
				out = append(out, Match{d, way.straps, way.angle, t})
				break
			}
		}
	}
	return out
}

// Likeliest returns the match with the fewest straps whose tension lies nearest
// to the usual one of its device; nil where none is.
func Likeliest(all []Match) *Match {
	var best *Match
	far := func(m *Match) float64 {
		return float64(m.Straps)*10 + math.Abs(math.Log(m.Tension/m.Device.Usual))
	}
	for i := range all {
		if best == nil || far(&all[i]) < far(best) {
			best = &all[i]
		}
	}
	return best
}
