package intake

import (
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
	if strings.IndexAny(s, "\n\t") < 0 {
		return s
	}
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

// writable reports whether a time can be written to a case file again: RFC 3339
// knows the years 0 to 9999 and zones of less than a day.
func writable(t time.Time) bool {
	_, err := t.MarshalText()
	return err == nil
}

// plainNumber writes a number with a point and as many digits as it has.
func plainNumber(x float64) string { return strconv.FormatFloat(x, 'f', -1, 64) }
