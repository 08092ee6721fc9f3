package wording

import (
	"errors"
	"strconv"
)

// ErrAmbiguous says that a text can be read in two ways. The errors returned
// wrap it: compare with [errors.Is].
var ErrAmbiguous = errors.New("can be read two ways")

// Unreadable is the error of every function of this package: what was found,
// what would have been read, what to do.
type Unreadable struct {
	Text      string // the text, clipped
	Fault     string // what is wrong with it, to be read after the text
	Expected  string
	Hint      string
	Ambiguous bool // there are two readings; errors.Is(err, ErrAmbiguous)
}

// Error says what was found: `"12 parsec" has a unit that is not known`. The
// text is quoted, so that nothing in it can hide or break the line.
func (e *Unreadable) Error() string { return strconv.Quote(e.Text) + " " + e.Fault }

// Is makes errors.Is(err, ErrAmbiguous) hold for a text with two readings.
func (e *Unreadable) Is(target error) bool { return e.Ambiguous && target == ErrAmbiguous }

// quoted is how many characters of a text an error repeats.
const quoted = 60

func unreadable(text, fault, expected, hint string) *Unreadable {
	return &Unreadable{Text: clip(text), Fault: fault, Expected: expected, Hint: hint}
}

func ambiguous(text, expected, hint string) *Unreadable {
	return &Unreadable{Text: clip(text), Fault: ErrAmbiguous.Error(), Expected: expected, Hint: hint, Ambiguous: true}
}

func clip(s string) string {
	n := 0
	for i := range s {
		if n == quoted {
			return s[:i] + "…"
		}
		n++
	}
	return s
}
