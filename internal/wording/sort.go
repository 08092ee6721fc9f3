package wording

import (
	"strings"

	"ratchetmark/internal/record"
)

// Kind reads the kind of a machine: "Scissor lift", "Scherenbühne", "nacelle
// ciseaux". ok is false where the words name no kind or more than one.
func Kind(s string) (record.Kind, bool) { return sorted(s, kindWords) }

// Holder reads in whose hands a machine was: "on hire", "Spedition", "almacén".
// ok is false where the words name none or more than one.
func Holder(s string) (record.Holder, bool) { return sorted(s, holderWords) }

// EventKind reads what a machine logged: "overload alarm", "Neigungsalarm",
// "power on". ok is false where the words name none or more than one, and where
// they say that an alarm ended.
func EventKind(s string) (record.EventKind, bool) {
	text := spaced(s)
	for word := range strings.FieldsSeq(endings) {
		if strings.Contains(text, " "+word+" ") {
			return "", false
		}
	}
	return sorted(s, eventWords)
}

// sorts are the words for one value: whole phrases that decide alone, and
// phrases or parts of words that decide if no other value has one. A part
// begins or ends with *, as in *scheren*.
type sorts[T ~string] struct {
	value T
	exact string // divided by semicolons
	parts string // divided by semicolons
}

// sorted finds the one value whose words a text has.
func sorted[T ~string](s string, table []sorts[T]) (value T, ok bool) {
	if len(s) > longestHeading {
		return "", false
	}
	text := spaced(s)
	for _, row := range table {
		for phrase := range strings.SplitSeq(row.exact, ";") {
			for _, spelling := range spellings(phrase) {
				if phrase != "" && text == spaced(spelling) {
					return row.value, true
				}
			}
		}
	}
	for _, row := range table {
		if !row.in(text) {
			continue
		}
		if ok && row.value != value {
			return "", false
		}
		value, ok = row.value, true
	}
	return value, ok
}

// in reports whether a text has one of the parts.
func (row sorts[T]) in(text string) bool {
	for part := range strings.SplitSeq(row.parts, ";") {
		for _, spelling := range spellings(part) {
			word := spaced(spelling)
			if strings.HasPrefix(part, "*") {
				word = word[1:]
			}
			if strings.HasSuffix(part, "*") {
				word = word[:len(word)-1]
			}
			if part != "" && strings.Contains(text, word) {
				return true
			}
		}
	}
	return false
}

// spaced writes the folded words of a text with one space between and around them.
func spaced(s string) string {
	words := strings.FieldsFunc(folded(s), func(r rune) bool {
		return r < 0x80 && !(r >= 'a' && r <= 'z' || r >= '0' && r <= '9')
	})
	return " " + strings.Join(words, " ") + " "
}
