package dossier

import (
	"math"
	"strconv"

	"ratchetmark/internal/record"
)

// Kg writes a load in kg, whole where it is not small.
func Kg(x float64) string { return digits(x, 0) + " kg" }

// H writes hours to a tenth, and shorter ones to a hundredth.
func H(x float64) string {
	if x > 0 && x < 0.005 {
		return "under 0.01 h"
	}
	if x != 0 && math.Abs(x) < 0.1 {
		return digits(x, 2) + " h"
	}
	return digits(x, 1) + " h"
}

// Percent writes a share in percent with two significant digits below ten and
// none after the point above.
func Percent(x float64) string {
	p := 100 * x
	switch {
	case p == 0:
		return "0 %"
	case p < 0.01:
		return "under 0.01 %"
	case p < 1:
		return digits(p, 2) + " %"
	case p < 10:
		return digits(p, 1) + " %"
	}
	return digits(p, 0) + " %"
}

// Count writes a whole number with spaces between thousands.
func Count(x float64) string {
	s := strconv.FormatFloat(math.Round(x), 'f', 0, 64)
	for i := len(s) - 3; i > 0 && s[i-1] != '-'; i -= 3 {
		s = s[:i] + " " + s[i:]
	}
	return s
}

// Plain writes a number as short as it is, for values that a person set.
func Plain(x float64) string {
	if x == math.Trunc(x) && math.Abs(x) < 1e12 {
		return strconv.FormatFloat(x, 'f', 0, 64)
	}
	return strconv.FormatFloat(x, 'g', 10, 64)
}

// Grouped writes a number as [Plain] does, with spaces between thousands from
// ten thousand up.
func Grouped(x float64) string {
	if x >= 10_000 && x == math.Trunc(x) {
		return Count(x)
	}
	return Plain(x)
}

// digits writes x with n digits after the point, halves rounded up.
func digits(x float64, n int) string {
	scale := math.Pow(10, float64(n))
	s := strconv.FormatFloat(math.Round(x*scale)/scale, 'f', n, 64)
	if s == "-0" || s == "-0.0" {
		return s[1:]
	}
	return s
}

// HoursBetween writes hours between two bounds: "1.9 h", "between 0.0 h and 3.2 h".
func HoursBetween(low, high float64) string {
	l, h := H(low), H(high)
	switch {
	case l == h:
		return h
	case low == 0:
		return "up to " + h
	}
	return "between " + l[:len(l)-2] + " and " + h
}

// PercentBounds writes bounds of a share in percent: "2.1 % to 14 %, about 5.4 %".
func PercentBounds(b record.Bounds) string { return boundsText(b, Percent) }

// CountBounds writes bounds of a count.
func CountBounds(b record.Bounds) string { return boundsText(b, Count) }

// FactorBounds writes bounds of a small factor.
func FactorBounds(b record.Bounds) string { return boundsText(b, FactorText) }

// FactorText writes a small factor with three digits.
func FactorText(x float64) string { return strconv.FormatFloat(x, 'g', 3, 64) }

// KgBounds writes bounds of a load.
func KgBounds(b record.Bounds) string { return boundsText(b, Kg) }

func boundsText(b record.Bounds, write func(float64) string) string {
	if b.High == nil {
		return "at least " + write(b.Low) + ", not bounded above"
	}
	low, high := write(b.Low), write(*b.High)
	if low == high {
		return high
	}
	text := low + " to " + high
	if b.Estimate != nil {
		text += ", about " + write(*b.Estimate)
	}
	return text
}

// BandText names a band by its edges.
func BandText(from record.Kilogram, to *record.Kilogram) string {
	if to == nil {
		return "from " + Kg(float64(from)) + " up"
	}
	return digits(float64(from), 0) + " to " + Kg(float64(*to))
}

func numberPair(a, b int) string { return strconv.Itoa(a) + " and " + strconv.Itoa(b) }
