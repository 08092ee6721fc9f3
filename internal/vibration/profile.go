package vibration

import "math"

// Point is a corner of a spectrum: straight lines in logarithms join them.
type Point struct{ Hz, Level float64 }

// Profile is a published spectrum of the vertical acceleration of a truck floor.
type Profile struct {
	ID, Name, Source string
	Points           []Point
	Published        float64 // overall level, g rms, as published; a check of the corners
	HoursPerMile     float64 // of the profile for a mile on the road; 0 where it lasts as long as the drive
}

// Profiles are the spectra in use. Their overall levels, integrated, agree with
// the published ones to their digits.
var Profiles = []Profile{
	{ID: "d4169-14", Name: "ASTM D4169 up to -14, level II", Source: "ASTM D4169, restated", Published: 0.52,
		Points: []Point{{1, .00005}, {4, .01}, {16, .01}, {40, .001}, {80, .001}, {200, .00001}}},
	{ID: "d4169-16", Name: "ASTM D4169-16, medium", Source: "ASTM D4169-16, restated", Published: 0.54,
		Points: []Point{{1, .00072}, {3, .018}, {4, .018}, {6, .00072}, {12, .00072}, {16, .0036}, {25, .0036}, {30, .00072}, {40, .0036}, {80, .0036}, {100, .00036}, {200, .000018}}},
	{ID: "810g", Name: "MIL-STD-810F/G common carrier, vertical", Source: "MIL-STD-810G, method 514.6, restated; 1 h for 1000 miles", Published: 1.04, HoursPerMile: 1. / 1000,
		Points: []Point{{10, .015}, {40, .015}, {500, .00015}}},
}

// Level returns the spectrum at a frequency; 0 outside of it.
func (p Profile) Level(hz float64) float64 {
	for i := 1; i < len(p.Points); i++ {
		a, b := p.Points[i-1], p.Points[i]
		if hz >= a.Hz && hz <= b.Hz {
			return a.Level * math.Pow(hz/a.Hz, slope(a, b))
		}
	}
	return 0
}

// slope is that of a line in logarithms.
func slope(a, b Point) float64 { return math.Log(b.Level/a.Level) / math.Log(b.Hz/a.Hz) }

// RMS returns the overall level in g: the root of the area, on each line
// ∫ f^n df = f^(n+1)/(n+1), and a logarithm for n = -1.
func (p Profile) RMS() float64 {
	var area float64
	for i := 1; i < len(p.Points); i++ {
		a, b := p.Points[i-1], p.Points[i]
		n := slope(a, b)
		if math.Abs(n+1) < 1e-9 {
			area += a.Level * a.Hz * math.Log(b.Hz/a.Hz)
			continue
		}
		area += (b.Level*b.Hz - a.Level*a.Hz) / (n + 1)
	}
	return math.Sqrt(area)
}
