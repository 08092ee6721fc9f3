package intake

import (
	"errors"
	"fmt"
	"strconv"
	"strings"
	"time"
	"unicode"
	"unicode/utf8"
)

// Visible returns s with every character that would not show, or would change
// how its neighbours show, replaced by its code: control characters, and the
// direction marks of Unicode Standard Annex 9. Bytes that are not UTF-8 are
// replaced as well.
func Visible(s string) (clean string, changed bool) {
	if !utf8.ValidString(s) {
		s, changed = strings.ToValidUTF8(s, "\ufffd"), true
	}
	if strings.IndexFunc(s, hidden) < 0 {
		return s, changed
	}
	var b strings.Builder
	for _, r := range s {
		if hidden(r) {
			fmt.Fprintf(&b, "[U+%04X]", r)
			continue
		}
		b.WriteRune(r)
	}
	return b.String(), true
}

// oneLine puts a text on one line: names and notes stand in headings and sentences.
func oneLine(s string) string {
	return strings.NewReplacer("\r\n", " ", "\n", " ", "\t", " ").Replace(s)
}

// clip cuts a text to the length that is kept.
func clip(s string) (clipped string, cut bool) {
	if len(s) <= maxText {
		return s, false
	}
	r := []rune(s)
	if len(r) <= maxText {
		return s, false
	}
	return string(r[:maxText]), true
}

func hidden(r rune) bool {
	if r == '\n' || r == '\t' {
		return false
	}
	return unicode.IsControl(r) || unicode.Is(unicode.Cf, r)
}

// ErrAmbiguous is returned for a number whose mark can be read two ways.
var ErrAmbiguous = errors.New("the mark may stand for thousands or for decimals")

// ParseNumber reads a number written by a person: a point or a comma for the
// decimals, no mark for thousands. A mark with exactly three digits after it
// and one to three before is not guessed at: [ErrAmbiguous].
func ParseNumber(s string) (float64, error) {
	s = strings.TrimSpace(strings.ReplaceAll(s, "\u00a0", " "))
	whole, fraction, exponent, ok := splitNumber(s)
	switch {
	case !ok:
		return 0, fmt.Errorf("%q is not a number", short(s))
	case len(fraction) == 3 && len(whole) <= 3 && whole[0] != '0' && exponent == "":
		return 0, ErrAmbiguous
	}
	x, err := strconv.ParseFloat(strings.Replace(s, ",", ".", 1), 64)
	if err != nil { // the form is right, so it is the size
		return 0, fmt.Errorf("%q is too large", short(s))
	}
	return x, nil
}

// splitNumber splits "[sign] digits [mark digits] [e digits]" into its digits.
func splitNumber(s string) (whole, fraction, exponent string, ok bool) {
	rest := strings.TrimLeft(s, "+-")
	if len(s)-len(rest) > 1 {
		return "", "", "", false
	}
	whole, rest = leadingDigits(rest)
	ok = whole != ""
	if rest != "" && (rest[0] == '.' || rest[0] == ',') {
		fraction, rest = leadingDigits(rest[1:])
		ok = ok && fraction != ""
	}
	if rest != "" && (rest[0] == 'e' || rest[0] == 'E') {
		if rest = rest[1:]; rest != "" && (rest[0] == '+' || rest[0] == '-') {
			rest = rest[1:]
		}
		exponent, rest = leadingDigits(rest)
		ok = ok && exponent != ""
	}
	return whole, fraction, exponent, ok && rest == ""
}

func leadingDigits(s string) (digits, rest string) {
	n := 0
	for n < len(s) && s[n] >= '0' && s[n] <= '9' {
		n++
	}
	return s[:n], s[n:]
}

// timeForms are the ways a time may be written, the most exact first. Without
// a zone it is taken as UTC.
var timeForms = []string{time.RFC3339, "2006-01-02T15:04:05", "2006-01-02T15:04", "2006-01-02 15:04:05", "2006-01-02 15:04", "2006-01-02"}

// ParseTime reads a time in one of the ISO 8601 forms.
func ParseTime(s string) (time.Time, error) {
	s = strings.TrimSpace(s)
	for _, form := range timeForms {
		if t, err := time.Parse(form, s); err == nil && writable(t) && writable(t.UTC()) {
			return t.UTC(), nil
		}
	}
	return time.Time{}, fmt.Errorf("%q is not a time", short(s))
}

// writable reports whether a time can be written to a case file again: RFC 3339
// knows the years 0 to 9999 and zones of less than a day.
func writable(t time.Time) bool {
	_, err := t.MarshalText()
	return err == nil
}

// plainNumber writes a number with a point and as many digits as it has.
func plainNumber(x float64) string { return strconv.FormatFloat(x, 'f', -1, 64) }
