package intake

import (
	"fmt"
	"slices"
	"strings"

	"ratchetmark/internal/record"
)

// openWords is what a row said in the columns that are not known.
type openWords struct {
	c     *tableCase
	words string
}

// rowsOfCounts are words at rows that count something other than hours.
var rowsOfCounts = []string{"lifts", "cycles", "count", "counts", "starts", "number of lifts", "hübe", "zyklen", "anzahl", "lastspiele", "levées", "nombre", "ciclos", "cicli", "numero", "número"}

// countsLifts reports whether a row counts lifts or the like in the columns of
// the bands, as a word in a column that is not known says; it is left out.
func (s *sheet) countsLifts(cells []string) bool {
	for _, i := range s.plan.open {
		if i >= len(cells) || !slices.Contains(rowsOfCounts, strings.ToLower(trim(cells[i]))) {
			continue
		}
		if !s.saidCounts {
			s.saidCounts = true
			s.g.find(nil, s.place(i), record.Finding{
				Code: "row-counts", Severity: record.Note, Where: "rows",
				Message: "the row counts something other than hours: " + quoteStart(cells), Expected: "hours",
				Effect: "it is not used", Hint: "nothing, if it is so",
			})
		}
		return true
	}
	return false
}

// explained notes rows of one machine without a date that differ in a column that
// is not known: they may be hours in one and lifts in the next.
func (s *sheet) explained(c *tableCase, cells []string) {
	if len(s.plan.open) == 0 {
		return
	}
	var words []string
	at := -1
	for _, i := range s.plan.open {
		if i < len(cells) {
			if t := trim(cells[i]); t != "" && !startsNumber(t) {
				words = append(words, t)
				at = i
			}
		}
	}
	said := openWords{c, strings.Join(words, "\x1f")}
	before := s.openWords
	s.openWords = said
	if at < 0 || before.c != c || before.words == said.words || c.unexplained {
		return
	}
	c.unexplained = true
	heading, _ := Visible(fmt.Sprintf("%q", short(s.cols[at].heading)))
	s.g.find(c, s.place(at), record.Finding{
		Code: "rows-unexplained", Severity: record.Blocking, Path: "readings",
		Message: "rows of one machine, without a date, that differ in column " + heading, Expected: "a date with each reading, and rows of readings alone",
		Effect: "the bands of these rows are left out: they may count something else than hours", Hint: "say what the column is, or leave out what are no readings",
	})
}

// dropUnexplained leaves out the bands of readings without a time whose rows differ
// in a way that is not known.
func (c *tableCase) dropUnexplained() {
	if !c.unexplained {
		return
	}
	for i := range c.readings {
		if c.out.Case.Readings[i].At.IsZero() {
			c.readings[i].spoilt = true
		}
	}
}
