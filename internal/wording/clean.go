package wording

import (
	"strings"
	"unicode"
	"unicode/utf8"
)

// isSpace reports whether a character only divides: the spaces of Unicode, of
// which U+00A0, U+202F and U+2009 stand in numbers and before units.
func isSpace(r rune) bool { return r == ' ' || r == '\u00a0' || unicode.IsSpace(r) }

// isDash reports whether a character is a hyphen, a dash or a minus sign.
func isDash(r rune) bool {
	return r == '-' || r >= '\u2010' && r <= '\u2015' || r == '\u2212'
}

func isDigit(c byte) bool { return c >= '0' && c <= '9' }

func isLetter(c byte) bool { return c >= 'a' && c <= 'z' }

// folds maps letters to the form in which words are compared: without case,
// accents and ligatures. The letters are those of the five languages.
var folds = map[rune]string{
	'à': "a", 'á': "a", 'â': "a", 'ä': "a", 'ã': "a", 'å': "a", 'ª': "a",
	'è': "e", 'é': "e", 'ê': "e", 'ë': "e", 'ì': "i", 'í': "i", 'î': "i", 'ï': "i",
	'ò': "o", 'ó': "o", 'ô': "o", 'ö': "o", 'õ': "o", 'ù': "u", 'ú': "u", 'û': "u", 'ü': "u",
	'ç': "c", 'ñ': "n", 'ÿ': "y", 'ß': "ss", 'ẞ': "ss", 'œ': "oe", 'æ': "ae",
	'’': "'", '‘': "'", '´': "'", '`': "'", 'º': "°", '…': "...",
}

// folded writes a text in lower case ASCII as far as its letters go: accents
// dropped, spaces made one, every dash a hyphen, the ends trimmed. A character
// it does not know stays. Combining accents are dropped as well.
func folded(s string) string {
	if s = strings.TrimFunc(s, isSpace); isPlain(s) {
		return s
	}
	var b strings.Builder
	b.Grow(len(s))
	gap := false
	for _, r := range s {
		if isSpace(r) {
			gap = true
			continue
		}
		if gap {
			b.WriteByte(' ')
			gap = false
		}
		writeFolded(&b, r)
	}
	return b.String()
}

func writeFolded(b *strings.Builder, r rune) {
	switch {
	case r >= 'A' && r <= 'Z':
		b.WriteByte(byte(r) + 'a' - 'A')
	case r < utf8.RuneSelf:
		b.WriteByte(byte(r))
	case isDash(r):
		b.WriteByte('-')
	case unicode.Is(unicode.Mn, r): // a combining accent
	default:
		r = unicode.ToLower(r)
		if to, ok := folds[r]; ok {
			b.WriteString(to)
			return
		}
		b.WriteRune(r)
	}
}

// isPlain reports whether folding would change nothing.
func isPlain(s string) bool {
	for i := 0; i < len(s); i++ {
		c := s[i]
		if c >= utf8.RuneSelf || c < ' ' || c >= 'A' && c <= 'Z' || c == ' ' && i > 0 && s[i-1] == ' ' {
			return false
		}
	}
	return true
}

// trimmed returns the text without the spaces around it; a text that has none
// costs two comparisons.
func trimmed(s string) string {
	if s == "" || s[0] > ' ' && s[0] < utf8.RuneSelf && s[len(s)-1] > ' ' && s[len(s)-1] < utf8.RuneSelf {
		return s
	}
	return strings.TrimFunc(s, isSpace)
}
