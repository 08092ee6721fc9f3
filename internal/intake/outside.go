package intake

import (
	"fmt"
	"slices"
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
	layout, cols := fit(s.candidates(cells))
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

// column says what cannot be used of a heading.
func (s *sheet) column(i int) {
	c := &s.cols[i]
	if c.Field != "" || c.heading == "" || c.used != "" || s.guide != nil && len(s.guide.Columns) > 0 {
		return
	}
	clean, _ := Visible(fmt.Sprintf("%q", short(c.heading)))
	f := record.Finding{
		Code: "column-unknown", Severity: record.Note, Where: "heading row",
		Message: "column " + clean + " is not known", Expected: "a heading that says what the column is, as in the template",
		Effect: "it is not used", Hint: "point out what it is if it was meant to count",
	}
	if c.strange != "" {
		s.g.find(nil, s.place(i), strangeUnitIn("column "+clean, c.strange))
		return
	}
	switch strings.ToLower(c.heading) {
	case "month", "monat", "mois", "mes", "mese", "week", "woche", "quarter", "quartal":
		f.Severity, f.Effect = record.Doubt, "it is not used; the readings have no time from it"
		f.Hint = "give the day of each reading; hours of single months must be added up to counters that run on"
	}
	if severity := unreadSeverity(c.heading); severity != record.Note && !c.twice && !c.twofold && !s.countsBeside(c.heading) && !s.partOfPeak(c.heading) {
		f.Severity, f.Code = severity, "column-unread"
		f.Message, f.Effect = "column "+clean+" may hold loads or hours, and is not known", "it is not used: loads over the rated load may be in it"
	}
	if near, ok := wording.Near(c.heading); ok && !c.twice && !c.twofold {
		f.Message += fmt.Sprintf(": perhaps %q is meant", near)
		f.Hint = fmt.Sprintf("write %q if it is, or point out what the column is", near)
	}
	if c.twofold {
		s.twofold(c, s.place(i))
		return
	}
	if c.twice {
		f = s.columnTwice(c, f, clean)
	}
	s.g.find(nil, s.place(i), f)
}

// twofold settles a column that may be the rated load or the peak by what the
// lines above say; where they say neither it is asked.
func (s *sheet) twofold(c *column, at record.Origin) {
	switch f := s.about.other(); {
	case f != "":
		c.Field = f
	default:
		s.askLoad(c.heading)
		s.g.find(nil, at, loadTwofold(c.heading))
	}
}

// loadTwofold is the finding for a load that may be the rated load or the peak.
func loadTwofold(name string) record.Finding {
	clean, _ := Visible(fmt.Sprintf("%q", short(name)))
	return record.Finding{
		Code: "load-twofold", Severity: record.Blocking, Where: "heading row",
		Message: clean + " may be the rated load or the highest load recorded", Expected: "a name that says which, such as rated load or peak",
		Effect: "it is not used; it is not guessed", Hint: "say which of the two it is",
	}
}

// weighty are words of headings over values that bear on loads; a column with
// one of them is not passed over lightly.
var weighty = []string{"overload", "over load", "over-load", "überlast", "ueberlast", "surcharge", "sobrecarga", "sovraccarico", "peak", "highest", "max", "spitze", "höchst", ">", "over ", "kg", "lb", "band ", "bin ", "klasse ", "class ", "minute", "minuten", "minuti", "minutos"}

// harmless are words of headings over loads that are no more than ordinary.
var harmless = []string{"current load", "average", "mean", "min load", "minimum", "aktuell", "mittel", "durchschnitt", "moyen", "actuel", "media", "promedio", "attuale", "empty", "tare"}

// partOfPeak reports whether a heading names the peak of a part of the time,
// beside that of all of it.
func (s *sheet) partOfPeak(heading string) bool {
	if !s.has("peak_kg") {
		return false
	}
	words := strings.Fields(strings.ToLower(heading))
	return slices.ContainsFunc(words, func(w string) bool {
		return slices.Contains([]string{"today", "yesterday", "month", "week", "shift", "heute", "monat", "woche", "schicht"}, w)
	})
}

// unreadSeverity tells how much it matters that a column is not used.
func unreadSeverity(heading string) record.Severity {
	text := strings.ToLower(heading)
	if text != "" && strings.Trim(text, "0123456789.,") == "" {
		return record.Blocking // an edge alone
	}
	for _, w := range harmless {
		if strings.Contains(text, w) {
			return record.Note
		}
	}
	for _, w := range weighty {
		if strings.Contains(text, w) {
			return record.Blocking
		}
	}
	return record.Note
}

// note keeps what a guide for this table would say.
func (s *sheet) note(cells []string) {
	if s.index >= len(s.g.sheets) {
		return
	}
	sh := &s.g.sheets[s.index]
	if sh.Read {
		return // the first table of a sheet is shown
	}
	sh.Read, sh.Layout, sh.Signature = true, s.layout.name, Signature(cells)
	sh.Guide = s.guideOf(cells)
	sh.Start = s.rowShown(cells)
	for _, c := range s.cols {
		if c.Field == "" && c.heading != "" {
			clean, _ := Visible(short(c.heading))
			sh.Left = append(sh.Left, clean)
		}
	}
}

// guideOf writes the columns as they are read as a guide.
func (s *sheet) guideOf(cells []string) Guide {
	g := Guide{Format: batch.GuideFormat}
	if s.guide != nil {
		g = *s.guide
	}
	g.Heading = visibleCells(cells)
	g.Columns = nil
	for _, c := range s.cols {
		out := c.Column
		if c.label != nil && out.From == nil && out.To == nil && c.label.Unit != wording.Percent && c.label.Unit != wording.NoUnit {
			out.From, out.To = c.label.From, c.label.To // other labels are read anew from the heading
		}
		g.Columns = append(g.Columns, out)
	}
	return g
}

func visibleCells(cells []string) []string {
	out := cloneCells(cells)
	for len(out) > 0 && out[len(out)-1] == "" {
		out = out[:len(out)-1]
	}
	return out
}

// rowShown returns where among the rows that are shown a row stands.
func (s *sheet) rowShown(cells []string) int {
	words := rowWords(s.place(0))
	return max(0, slices.IndexFunc(s.g.sheets[s.index].Rows, func(l batch.Line) bool { return l.Place == words }))
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

func (s *sheet) sayOdd() {
	message := "a line says nothing about a machine: "
	if s.odd > 1 {
		message = fmt.Sprintf("%d lines say nothing about a machine; the first: ", s.odd)
	}
	f := record.Finding{
		Code: "line-not-used", Severity: record.Note, Where: "beside the tables",
		Message: message + s.oddText, Expected: "a heading, rows under it, or a name and its value",
		Effect: "it is not used", Hint: "point out what it is if it was meant to count",
	}
	if s.lost() {
		f.Severity, f.Effect = record.Blocking, "they are not used, and what stands below them is not read"
	}
	s.g.find(nil, s.oddAt, f)
}

func (s *sheet) sayZone() {
	zone := s.dialect.zone.String()
	s.g.find(nil, s.dialect.bareAt, record.Finding{
		Code: "zone-assumed", Severity: record.Note, Where: "times",
		Message:  fmt.Sprintf("%s without a zone, the first one here", countOf(s.dialect.bare, "time", "times")),
		Expected: "times with their zone, as 2026-03-02T08:10:00Z",
		Effect:   "they are read as " + zone + "; a trip and a peak near its ends may be put apart wrongly", Hint: "say in which zone the machine's clock runs",
	})
}

func (s *sheet) sayNumbers() {
	s.g.find(nil, s.dialect.numbersAt, record.Finding{
		Code: "date-from-number", Severity: record.Doubt, Where: "times",
		Message: countOf(s.dialect.numbers, "time", "times") + " given as a number, the first one here", Expected: timeExpected,
		Effect: "a number of five digits is read as the days that a workbook counts, one of ten as seconds since 1970", Hint: "check a date against the machine's screen",
	})
}

func (s *sheet) sayUnit() {
	s.g.find(nil, s.dialect.unitlessAt, record.Finding{
		Code: "unit-assumed", Severity: record.Note, Where: "loads",
		Message: fmt.Sprintf("%s without a unit, the first one here", countOf(s.dialect.unitless, "load", "loads")), Expected: "kg, lb or t in the heading or the cell",
		Effect: "they are read as kg", Hint: "check the unit; point out the column's unit if it is another one",
	})
}

func countOf(n int, one, many string) string {
	if n == 1 {
		return "1 " + one
	}
	return fmt.Sprintf("%d %s", n, many)
}

// columns lays the columns out as a guide says.
func columnsOf(g *Guide, cells []string) (*layout, []column) {
	cols := make([]column, max(len(cells), len(g.Columns)))
	candidates := make([]candidate, len(cols))
	for i := range cols {
		if i < len(cells) {
			cols[i].heading = strings.TrimSpace(cells[i])
		}
		if i >= len(g.Columns) || g.Columns[i].Field == "" {
			continue
		}
		cols[i].Column = g.Columns[i]
		candidates[i].fields = []wording.Field{cols[i].Field}
		if cols[i].Field == bandHours {
			cols[i].label = &wording.Label{From: cols[i].From, To: cols[i].To, Unit: wording.Kilogram}
			if cols[i].From == nil && cols[i].To == nil {
				cols[i].label = candidateOf(cols[i].heading, markOf(g)).label
			}
			if cols[i].label == nil {
				cols[i].Field, candidates[i].fields = "", nil
			}
		}
	}
	for i := range layouts {
		if layouts[i].fits(candidates) {
			return &layouts[i], cols
		}
	}
	return nil, nil
}
