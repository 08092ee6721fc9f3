package wording

import "strings"

const (
	quantityExpected = "a number, with kg, lb, t, kN, daN, h, min, s, h:mm or % if the heading has no unit"
	unitHint         = "write the unit as kg, lb, t (1000 kg), h, min, s or %"
)

// Quantity reads a cell with a number and perhaps a unit: "230 kg", "510lb",
// "0,5 t", "12:30", "45 min", "1 h 30 min", "2h30", "12,5 %". The value is in
// kg, in h, a share of 1, or the number itself where neither cell nor heading
// has a unit. unit is the one that was written, else usual, that of the
// heading: whether it suits the heading is for the caller to see.
//
// h:mm is hours and minutes. Under a heading in minutes or seconds, "12:30" can
// be minutes and seconds as well: [ErrAmbiguous]. Under a heading in h:mm a
// number without a unit is refused, unless it is zero.
func Quantity(s string, decimal Mark, usual Unit) (value float64, unit Unit, err error) {
	if x, ok := plain(s, decimal); ok && usual != Clock {
		return scaled(s, x, usual)
	}
	text := trimmed(s)
	number, rest := leadingNumber(text)
	if rest == "" {
		return bare(text, decimal, usual)
	}
	if number == "" {
		return prefixed(text, decimal)
	}
	rest = folded(rest)
	if rest == "#" { // the mark of pounds behind a number, in the United States
		rest = "lb"
	}
	if u, _, ok := unitOf(rest); ok && u != Clock {
		x, err := Number(number, decimal)
		if err != nil {
			return 0, NoUnit, err
		}
		return scaled(s, x, u)
	}
	if h, ok := clock(folded(text)); ok {
		return clocked(text, h, usual)
	}
	if h, ok := hoursAndMinutes(folded(text)); ok {
		return h, Hour, nil
	}
	if h, ok := daysAndHours(folded(text)); ok {
		return h, Hour, nil
	}
	if _, err := Number(number, decimal); err != nil {
		return 0, NoUnit, err
	}
	return 0, NoUnit, unreadable(s, "has a unit that is not known", quantityExpected, unitHint)
}

// bare reads a cell without a unit of its own.
func bare(text string, decimal Mark, usual Unit) (float64, Unit, error) {
	x, err := Number(text, decimal)
	switch {
	case err != nil:
		return 0, NoUnit, err
	case usual == Clock && x != 0:
		return 0, NoUnit, unreadable(text, "is a plain number under a heading in h:mm", "hours and minutes as 12:30", "write 12:30, or add h to the number")
	}
	return scaled(text, x, usual)
}

// prefixed reads a unit that stands before the number: "kg 230".
func prefixed(text string, decimal Mark) (float64, Unit, error) {
	f := folded(text)
	i := strings.IndexAny(f, "0123456789+-")
	if i > 0 {
		if u, _, ok := unitOf(strings.TrimRight(f[:i], " ")); ok && u != Clock && u != Percent {
			x, err := Number(f[i:], decimal)
			if err != nil {
				return 0, NoUnit, err
			}
			return scaled(text, x, u)
		}
	}
	return 0, NoUnit, unreadable(text, "is not a number", quantityExpected, unitHint)
}

// scaled turns a number of a unit into kg, h or a share; it stays finite.
func scaled(text string, x float64, u Unit) (float64, Unit, error) {
	v := u.In(x)
	if v > largest || v < -largest {
		return 0, NoUnit, unreadable(text, "is too large", "a number below 1.8e308", "correct the digits or the exponent")
	}
	return v, u, nil
}

const largest = 1.7976931348623157e308 // the largest finite float64

func clocked(text string, h float64, usual Unit) (float64, Unit, error) {
	if (usual == Minute || usual == Second) && strings.Count(text, ":") == 1 {
		return 0, NoUnit, ambiguous(text, "hours, minutes and seconds, or a number of "+usual.String(), "write h:mm:ss, or a number with its unit")
	}
	return h, Clock, nil
}

// leadingNumber splits a text into what may be a number and the rest, both
// without spaces around them.
func leadingNumber(s string) (number, rest string) {
	end := 0
	for i, r := range s {
		switch {
		case r >= '0' && r <= '9':
			end = i + 1
		case i > 0 && (r == 'e' || r == 'E') && isDigit(s[i-1]) && startsExponent(s[i+1:]):
		case isSpace(r) || r == '.' || r == ',' || r == '\'' || r == '\u2019' || r == '+' || r == '-' || r == '\u2212':
		default:
			return s[:end], strings.TrimLeftFunc(s[end:], isSpace)
		}
	}
	if end == 0 {
		return "", s
	}
	return s[:end], s[end:]
}

func startsExponent(s string) bool {
	if s != "" && (s[0] == '+' || s[0] == '-') {
		s = s[1:]
	}
	return s != "" && isDigit(s[0])
}
