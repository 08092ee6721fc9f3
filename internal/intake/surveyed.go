package intake

import (
	"strings"

	"ratchetmark/internal/record"
	"ratchetmark/internal/wording"
)

// settleDialect takes over what the values that were read ahead prove. Where
// some can be read two ways, and a mark is proven, it must be proven by values
// that are numbers: a machine called 1.234.567 proves nothing.
func (s *sheet) settleDialect(found survey) {
	if found.twoMarks > 0 && (found.points > 0) != (found.commas > 0) {
		known := s.surveyKnown()
		found.points, found.commas = known.points, known.commas
	}
	for i := range s.held {
		if h := &s.held[i]; h.broken == nil && !blankRow(h.cells) {
			s.firstRow = h.cells
			break
		}
	}
	guide := s.guideFor(s.firstRow)
	if guide != nil && len(guide.Columns) > 0 {
		guide = nil // one for a table
	}
	s.guide = guide
	s.dialect = found.dialect(guide)
	if guide != nil {
		s.sayGuideAt(s.held[0].places[0])
	}
}

// surveyKnown surveys the values that are known to be loads, times or numbers.
func (s *sheet) surveyKnown() (found survey) {
	var cols []column
	gap := true
	for i := range s.held {
		h := &s.held[i]
		if h.broken != nil {
			continue
		}
		if blankRow(h.cells) {
			gap = true
			continue
		}
		if gap || cols == nil {
			if l, heading := s.headingOf(h.cells); l != nil {
				cols, gap = heading, false
				continue
			}
		}
		gap = false
		s.surveyRow(&found, h, cols)
	}
	return found
}

// headingOf returns the columns of a row that is a heading; nil for another.
func (s *sheet) headingOf(cells []string) (*layout, []column) {
	if g := s.guideFor(cells); g != nil && len(g.Columns) > 0 {
		return columnsOf(g, cells)
	}
	return fit(s.candidates(cells))
}

func (s *sheet) surveyRow(found *survey, h *heldRow, cols []column) {
	if cols == nil {
		parts, at := s.parts(h.cells)
		for i := 0; i+1 < len(parts); i += 2 {
			if f, _ := lineField(parts[i]); f == "machine" || f == "kind" || f == "persons" {
				continue
			}
			found.look(parts[i+1], at[i+1] < len(h.typed) && h.typed[at[i+1]] && len(h.cells) > 1)
		}
		return
	}
	for i, c := range h.cells {
		if i < len(cols) && measures([]wording.Field{cols[i].Field}) {
			found.look(strings.TrimSpace(c), h.typed[i])
		}
	}
}

// sayMixed notes that dates of a table are in both orders.
func (s *sheet) sayMixed() {
	if s.mixedAt.Line == 0 || s.dialect.dates != wording.UnknownOrder {
		return
	}
	s.g.find(nil, s.mixedAt, record.Finding{
		Code: "dates-mixed", Severity: record.Doubt, Where: "times",
		Message: "some dates have the day first and some the month", Expected: "one order of day and month",
		Effect: "each is read as it can only be; one that can be read both ways is asked about", Hint: "write the dates with the year first",
	})
}
