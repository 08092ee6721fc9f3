package wording

import "strconv"

// Mark is the mark that stands before decimals. The zero value is not known.
type Mark byte

// The marks before decimals.
const (
	Unknown Mark = 0
	Point   Mark = '.'
	Comma   Mark = ','
)

// String names the mark.
func (m Mark) String() string {
	switch m {
	case Point:
		return "point"
	case Comma:
		return "comma"
	}
	return "not known"
}

// other returns the mark that then divides thousands.
func (m Mark) other() Mark {
	switch m {
	case Point:
		return Comma
	case Comma:
		return Point
	}
	return Unknown
}

const (
	numberExpected = "a number such as 12.5 or 12,5"
	numberHint     = "write digits with one mark before the decimals and none for thousands"
	markHint       = "say whether point or comma stands before decimals, or write the number without a mark for thousands"
)

// Number reads a number written by a person: a sign (+, -, U+2212), digits, a
// mark before the decimals, an exponent. Thousands may be divided by the other
// mark, a space (also U+00A0, U+202F, U+2009) or an apostrophe (' or U+2019),
// in groups of three throughout. The groups and marks are those of Unicode
// CLDR for the five languages and Switzerland (from memory).
//
// Without a known mark, a text that has one mark, three digits after it and
// one to three before it that do not begin with 0 is [ErrAmbiguous], unless it
// has an exponent, which nobody writes behind thousands. The result is finite;
// a number nearer to zero than float64 reaches is 0, one beyond it an error.
func Number(s string, decimal Mark) (float64, error) {
	if x, ok := plain(s, decimal); ok {
		return x, nil
	}
	p, ok := split(trimmed(s))
	if !ok {
		return 0, unreadable(s, "is not a number", numberExpected, numberHint)
	}
	mark, twoWays := p.proves()
	if twoWays && decimal == Unknown {
		return 0, ambiguous(s, "a mark that can only stand before decimals or only divide thousands", markHint)
	}
	if decimal == Unknown {
		decimal = mark
	}
	text, ok := p.text(decimal)
	if !ok {
		return 0, unreadable(s, "has marks where a number has none", numberExpected+", thousands in groups of three, decimals behind a "+decimal.String(), numberHint)
	}
	x, err := strconv.ParseFloat(text, 64)
	if err != nil { // the form is right, so it is the size
		return 0, unreadable(s, "is too large", "a number below 1.8e308", "correct the digits or the exponent")
	}
	return x + 0, nil // no minus before a zero
}

// MarkOf tells which mark a written number proves: [Point] or [Comma], or
// [Unknown] when it has no mark, can be read two ways, which ambiguous reports,
// or is not a number. "1,234,567" proves a point: its commas divide thousands.
func MarkOf(s string) (m Mark, ambiguous bool) {
	p, ok := split(trimmed(s))
	if !ok {
		return Unknown, false
	}
	m, ambiguous = p.proves()
	if ambiguous {
		return Unknown, true
	}
	if _, ok := p.text(m); !ok {
		return Unknown, false
	}
	return m, false
}

// powers are the powers of ten by which a short number is divided exactly.
var powers = [...]float64{1, 1e1, 1e2, 1e3, 1e4, 1e5, 1e6, 1e7, 1e8, 1e9, 1e10, 1e11, 1e12, 1e13, 1e14, 1e15}

// plain reads the usual case: up to 15 digits with at most one mark that can
// only stand before decimals. Digits and power are exact in float64, so that
// one division rounds correctly (Clinger 1990, from memory).
func plain(s string, decimal Mark) (float64, bool) {
	if len(s) == 0 || len(s) > 16 {
		return 0, false
	}
	var digits int64
	at := -1
	for i := 0; i < len(s); i++ {
		c := s[i]
		switch {
		case isDigit(c):
			digits = digits*10 + int64(c-'0')
		case (c == '.' || c == ',') && at < 0:
			at = i
		default:
			return 0, false
		}
	}
	if at < 0 {
		return float64(digits), len(s) <= 15
	}
	after := len(s) - at - 1
	switch {
	case at == 0 || after == 0:
		return 0, false
	case decimal == Mark(s[at]):
	case decimal != Unknown || after == 3 && at <= 3 && s[0] != '0':
		return 0, false
	}
	return float64(digits) / powers[after], true
}
