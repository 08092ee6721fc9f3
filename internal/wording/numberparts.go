package wording

import "strings"

// parts is a number taken apart; its form is right but for the marks.
type parts struct {
	sign     string // "", "-"
	digits   string // digits and marks; spaces are ' ', apostrophes '\''
	exponent string // "", "e-5"
	points   int
	commas   int
	gaps     int // spaces and apostrophes
}

// split takes a number apart: sign, digits with marks between digits (a mark
// may stand first), exponent.
func split(s string) (p parts, ok bool) {
	s, p.sign = unsigned(s)
	if i := strings.IndexAny(s, "eE"); i >= 0 {
		if !isExponent(s[i+1:]) {
			return p, false
		}
		s, p.exponent = s[:i], "e"+s[i+1:]
	}
	if strings.IndexFunc(s, func(r rune) bool { return r > '~' }) >= 0 {
		s = strings.Map(plainGap, s)
	}
	for i := 0; i < len(s); i++ {
		switch c := s[i]; {
		case isDigit(c):
			continue
		case c == '.':
			p.points++
		case c == ',':
			p.commas++
		case c == ' ' || c == '\'':
			p.gaps++
		default:
			return p, false
		}
		if i+1 == len(s) || !isDigit(s[i+1]) {
			return p, false
		}
	}
	p.digits = s
	return p, s != "" && s[0] != ' ' && s[0] != '\''
}

func unsigned(s string) (rest, sign string) {
	switch {
	case strings.HasPrefix(s, "+"):
		return s[1:], ""
	case strings.HasPrefix(s, "-"):
		return s[1:], "-"
	case strings.HasPrefix(s, "\u2212"):
		return s[len("\u2212"):], "-"
	}
	return s, ""
}

func isExponent(s string) bool {
	if s != "" && (s[0] == '+' || s[0] == '-') {
		s = s[1:]
	}
	return s != "" && strings.Trim(s, "0123456789") == ""
}

// plainGap makes the spaces and the apostrophe of printed numbers plain ones.
func plainGap(r rune) rune {
	switch r {
	case '\u00a0', '\u202f', '\u2009':
		return ' '
	case '\u2019':
		return '\''
	}
	return r
}

// proves tells which mark stands before the decimals of this number, or that
// its one mark can be read two ways.
func (p parts) proves() (m Mark, ambiguous bool) {
	switch {
	case p.points == 0 && p.commas == 0:
		return Unknown, false
	case p.points > 0 && p.commas > 0: // the last one stands before decimals
		return Mark(p.digits[strings.LastIndexAny(p.digits, ".,")]), false
	case p.points > 1:
		return Comma, false
	case p.commas > 1:
		return Point, false
	}
	i := strings.IndexAny(p.digits, ".,")
	thousands := len(p.digits)-i-1 == 3 && i >= 1 && i <= 3 && p.digits[0] != '0'
	return Mark(p.digits[i]), thousands && p.exponent == ""
}

// text writes the number for strconv; ok is false where a mark stands in a
// place it cannot have.
func (p parts) text(decimal Mark) (text string, ok bool) {
	whole, fraction := p.digits, ""
	if decimal != Unknown {
		if i := strings.LastIndexByte(whole, byte(decimal)); i >= 0 {
			whole, fraction = whole[:i], whole[i:]
			if strings.Trim(fraction[1:], "0123456789") != "" {
				return "", false
			}
			fraction = "." + fraction[1:]
		}
	}
	whole, ok = ungrouped(whole, byte(decimal.other()))
	if whole == "" && fraction != "" {
		whole = "0"
	}
	return p.sign + whole + fraction + p.exponent, ok
}

// ungrouped drops the divider of thousands: one kind throughout, one to three
// digits that do not begin with 0 in front, three in every other group.
func ungrouped(s string, mark byte) (string, bool) {
	i := strings.IndexAny(s, ".,' ")
	if i < 0 {
		return s, true
	}
	divider := s[i : i+1]
	if (divider == "." || divider == ",") && divider[0] != mark {
		return "", false
	}
	groups := strings.Split(s, divider)
	for n, g := range groups {
		switch {
		case strings.Trim(g, "0123456789") != "":
			return "", false
		case n == 0 && (len(g) < 1 || len(g) > 3 || g[0] == '0'):
			return "", false
		case n > 0 && len(g) != 3:
			return "", false
		}
	}
	return strings.Join(groups, ""), true
}
