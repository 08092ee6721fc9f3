package intake

import (
	"fmt"
	"strings"

	"ratchetmark/internal/batch"
	"ratchetmark/internal/record"
	"ratchetmark/internal/wording"
)

// outside takes a row that is not under a heading: a heading, a line that names
// a value, the hours of one band, or words that say nothing.
func (s *sheet) outside(cells []string) {
	if s.heading(cells) || s.line(cells) {
		s.run = 0
		return
	}
	s.cols, s.layout = nil, nil
	s.missing(cells)
	s.hearUnits(cells)
	if !s.unread(cells) {
		s.noteOdd(cells)
	}
	if s.start == nil && filled(cells) > 1 {
		s.start = cloneCells(cells)
	}
}

// noteOdd counts a line that says nothing.
func (s *sheet) noteOdd(cells []string) {
	if s.odd == 0 {
		s.oddAt, s.oddText = s.place(0), quoteStart(cells)
	}
	s.odd++
	s.run++
}

// missing notes what a row lacks that is nearly a heading.
func (s *sheet) missing(cells []string) {
	if s.index >= len(s.g.sheets) || s.g.sheets[s.index].Lacks != "" {
		return
	}
	known, band, hours := 0, false, false
	for _, c := range s.candidates(cells) {
		if len(c.fields) > 0 {
			known++
		}
		band = band || c.can([]wording.Field{"band", "from_kg", "to_kg"})
		hours = hours || c.can([]wording.Field{"hours", "share"})
	}
	sh := &s.g.sheets[s.index]
	switch {
	case known < 2:
		return
	case !band && s.alarms():
		sh.Lacks = "it is a list of alarms or events, and nothing beside it tells the loads"
	case band && !hours:
		sh.Lacks = "the heading row has no column with the hours"
	case hours && !band:
		sh.Lacks = "the heading row has no column with the band"
	default:
		sh.Lacks = "the heading row has neither bands nor a peak"
	}
	sh.LacksAt = s.place(0)
	s.start = cloneCells(cells)
}

// alarms reports whether a column of the rows below holds alarms and nothing else.
func (s *sheet) alarms() bool {
	if s.heldAt+1 >= len(s.held) {
		return false
	}
	for i := range s.held[s.heldAt+1].cells {
		n := 0
		for j := s.heldAt + 1; j < min(len(s.held), s.heldAt+6); j++ {
			cells := s.held[j].cells
			if i >= len(cells) || startsOrBlank(cells[i]) {
				break
			}
			if _, ok := wording.EventKind(cells[i]); ok {
				n++
			}
		}
		if n > 0 && n == min(len(s.held), s.heldAt+6)-s.heldAt-1 {
			return true
		}
	}
	return false
}

func startsOrBlank(c string) bool { c = trim(c); return c == "" || startsNumber(c) }

func filled(cells []string) (n int) {
	for _, c := range cells {
		if strings.TrimSpace(c) != "" {
			n++
		}
	}
	return n
}

func cloneCells(cells []string) []string {
	out := make([]string, len(cells))
	for i, c := range cells {
		out[i] = strings.Clone(strings.TrimSpace(c))
	}
	return out
}

func quoteStart(cells []string) string {
	clean, _ := Visible(strings.Join(cells, ","))
	return fmt.Sprintf("%q", short(clean))
}

// guideFor returns the guide for tables that begin with this row; nil without one.
func (s *sheet) guideFor(cells []string) *Guide {
	if len(s.g.options.Guides) == 0 {
		return nil
	}
	g, ok := s.g.options.Guides[Signature(cells)]
	if !ok {
		return nil
	}
	return &g
}

// heading takes a row as the heading of a table; false where it is none.
func (s *sheet) heading(cells []string) bool {
	guide := s.guideFor(cells)
	if guide == nil && filled(cells) < 2 {
		return false
	}
	if guide == nil && s.above2 != nil && s.aboveAt == s.heldAt-1 && s.joinRows(s.above2, cells, 0) {
		s.above2 = nil
		return true
	}
	layout, cols := fit(s.bandsByValues(s.candidates(cells)))
	if guide != nil && len(guide.Columns) > 0 {
		layout, cols = columnsOf(guide, cells)
	}
	if layout == nil || guide == nil && s.alternates(cells) {
		return false
	}
	s.begin(cells, layout, cols, guide)
	if guide != nil && guide.Data {
		s.row(cells)
	}
	return true
}

// alternates reports whether a row is names and values by turns, and no heading:
// one of the values is a number, or the next row begins with a name as well.
func (s *sheet) alternates(cells []string) bool {
	n, valued := 0, false
	for i, c := range cells {
		if c = trim(c); c == "" || isWords(c) != (i%2 == 0) {
			return false
		}
		if i%2 > 0 && startsNumber(c) && candidateOf(c, s.dialect.decimal).label == nil {
			valued = true
		}
		n++
	}
	if n < 4 || n%2 > 0 {
		return false
	}
	if valued || s.heldAt+1 >= len(s.held) || len(s.held[s.heldAt+1].cells) == 0 {
		return valued
	}
	f, _ := lineField(trim(s.held[s.heldAt+1].cells[0]))
	return f != ""
}

// begin begins a table.
func (s *sheet) begin(cells []string, l *layout, cols []column, guide *Guide) {
	s.unheaded = false
	s.loose, s.asking = len(s.g.loose), len(s.g.questions)
	s.layout, s.cols, s.width, s.guide = l, cols, len(cells), guide
	s.units = true
	s.about.table()
	for i := range cols {
		if s.dialect.dates == wording.UnknownOrder {
			s.dialect.dates = wording.HeadingOrder(cols[i].heading)
		}
	}
	s.dialect.guided(guide)
	if guide != nil {
		s.sayGuideAt(s.place(0))
	}
	for i := range cols {
		s.unitColumn(i)
	}
	s.minutesBeside()
	s.alarmsColumn()
	if guide == nil || len(guide.Columns) == 0 {
		s.byValues()
	}
	for i := range cols {
		s.g.names(cols[i].Unit)
		s.column(i)
	}
	s.lay()
	s.note(cells)
}

// sayGuideAt notes that a table was read as a person pointed out.
func (s *sheet) sayGuideAt(at record.Origin) {
	s.g.guided[Signature(s.guide.Heading)] = true
	if s.toldGuide {
		return
	}
	s.toldGuide = true
	s.g.find(nil, at, record.Finding{
		Code: "guide-used", Severity: record.Note, Where: "heading row",
		Message: "the table is read with a guide made by hand", Expected: "a heading and values that say all by themselves",
		Effect: "the file alone does not give this result; with the guide it does", Hint: "hand over the guide with the file",
	})
}

// end closes the table.
func (s *sheet) end() {
	s.about.flush(s)
	switch {
	case s.odd > 0:
		s.sayOdd()
	case s.lost():
		s.g.find(nil, s.place(0), record.Finding{
			Code: "table-given-up", Severity: record.Blocking, Where: "the rows from here on",
			Message: fmt.Sprintf("%d rows in a row do not fit the heading", s.run), Expected: "rows with a cell for each heading",
			Effect: "what stands below is not read", Hint: "give the table a file of its own",
		})
	}
	if s.dialect.bare > 0 {
		s.sayZone()
	}
	s.sayMixed()
	if s.empty > 0 {
		s.sayEmpty()
	}
	if s.dialect.numbers > 0 {
		s.sayNumbers()
	}
	if s.dialect.unitless > 0 {
		s.sayUnit()
	}
	if s.index < len(s.g.sheets) {
		sh := &s.g.sheets[s.index]
		if !sh.Read && s.start == nil && s.asked {
			s.start = s.firstRow
			sh.Signature = Signature(s.start)
			sh.Guide = Guide{Format: batch.GuideFormat, Heading: visibleCells(s.start)}
		} else if !sh.Read && s.start != nil {
			sh.Signature = Signature(s.start)
			sh.Guide = Guide{Format: batch.GuideFormat, Heading: visibleCells(s.start), Columns: make([]Column, len(s.start))}
			for i, c := range s.candidates(s.start) {
				if len(c.fields) > 0 {
					sh.Guide.Columns[i] = Column{Field: c.fields[0], Unit: c.unit}
				}
			}
		}
	}
}
