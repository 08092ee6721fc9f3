package intake

import (
	"slices"
	"strings"

	"ratchetmark/internal/record"
	"ratchetmark/internal/wording"
)

// arrange puts rows that were read ahead to their end into the order in which
// they are read: blocks side by side one below the other, turned tables back.
func (s *sheet) arrange() {
	s.sideBySide()
	for from := 0; from < len(s.held); {
		to := s.block(from)
		if to > from {
			from = s.turnBack(from, to)
			continue
		}
		from++
	}
}

// Blocks of more rows or columns than this are not rearranged.
const maxArranged = 400

// block returns the end of the rows without a blank one that begin at from.
func (s *sheet) block(from int) int {
	to := from
	for to < len(s.held) && s.held[to].broken == nil && !blankRow(s.held[to].cells) {
		to++
	}
	return to
}

// widthOf returns how many cells of a row there are up to the last that is not blank.
func widthOf(cells []string) int {
	n := len(cells)
	for n > 0 && trim(cells[n-1]) == "" {
		n--
	}
	return n
}

// turnBack turns rows whose headings stand in the first column, one below the
// other, and returns where to go on.
func (s *sheet) turnBack(from, to int) int {
	for ; from < to; from++ {
		if end, heading := s.turned(from, to); end > from {
			s.turn(from, end, heading)
			return from + widthOf(s.held[from].cells)
		}
		if cells := s.held[from].cells; filled(cells) > 2 && !s.isLine(cells) {
			return to // an ordinary table, or nothing that is known
		}
	}
	return to
}

// turned reports whether a turned table begins at a row: where it ends, and the
// headings that its first column makes.
func (s *sheet) turned(from, to int) (end int, heading []string) {
	width := widthOf(s.held[from].cells)
	if width < 3 || width > maxArranged || s.guideFor(s.held[from].cells) != nil {
		return from, nil
	}
	for _, v := range s.held[from].cells[1:3] {
		if v = trim(v); len(v) > 3 && isWords(v) {
			return from, nil // an ordinary heading, most likely
		}
	}
	if l, _ := fit(s.candidates(s.held[from].cells)); l != nil {
		return from, nil
	}
	for end = from; end < to && end-from < maxArranged && widthOf(s.held[end].cells) <= width && s.held[end].cells != nil; end++ {
		cells := s.held[end].cells
		if trim(cells[0]) == "" || len(cells[0]) > maxHeading || s.isLine(cells) {
			break
		}
		heading = append(heading, trim(cells[0]))
	}
	if end-from < 3 {
		return from, nil
	}
	if !s.corner(heading, s.held[from].cells[1:width]) {
		return from, nil
	}
	l, cols := fit(s.candidates(heading))
	if l == nil || !slices.ContainsFunc(cols, func(c column) bool {
		return c.Field == "machine" || c.Field == "reading_at" || c.Field == "reading_date"
	}) {
		return from, nil // nothing tells what the columns are
	}
	return end, heading
}

// corner settles the cell in the corner of a turned table: above band labels and
// beside dates it heads the dates. It reports whether the first row can be one of values.
func (s *sheet) corner(heading, values []string) bool {
	dates := 0
	for _, v := range values {
		if v = trim(v); len(v) > 3 && isWords(v) {
			return false // a second heading: no turned table
		}
		if _, _, _, err := wording.Time(v, s.dialect.dates, s.dialect.zone); err == nil || ambiguous(err) {
			dates++
		}
	}
	fields, unit := wording.Fields(heading[0])
	if dates < len(values) || slices.ContainsFunc(fields, func(f wording.Field) bool { return f == "reading_at" || f == "reading_date" }) {
		f, _ := lineField(heading[0])
		return f != ""
	}
	heading[0] = "Date of reading"
	if !unit.IsLoad() && unit != wording.Percent {
		return true
	}
	for i := 1; i < len(heading); i++ { // "Band (kg)" in the corner says the unit of the labels
		if c := candidateOf(heading[i], s.dialect.decimal); c.label != nil && c.label.Unit == wording.NoUnit {
			heading[i] += " " + unit.String()
		}
	}
	return true
}

// turn turns the rows from one to another.
func (s *sheet) turn(from, end int, heading []string) {
	width := widthOf(s.held[from].cells)
	at := s.held[from].places[0]
	rows := make([]heldRow, width)
	for j := range rows {
		h := &rows[j]
		for k := from; k < end; k++ {
			old := &s.held[k]
			text, typed := "", false
			if j < len(old.cells) {
				text, typed = old.cells[j], j < len(old.typed) && old.typed[j]
			}
			if j == 0 {
				text = heading[k-from]
			}
			h.cells, h.typed = append(h.cells, text), append(h.typed, typed)
			h.places = append(h.places, old.places[min(j, len(old.places)-1)])
		}
	}
	s.held = slices.Concat(s.held[:from], rows, s.held[end:])
	s.g.find(nil, at, record.Finding{
		Code: "table-turned", Severity: record.Note, Where: "heading column",
		Message: "the headings stand below each other in the first column", Expected: "headings in one row",
		Effect: "none; each column is read as a row", Hint: "nothing, if it is read rightly",
	})
}

// sideBySide divides rows at a blank column where what stands on one side is
// names and values, or headed as the other side is.
func (s *sheet) sideBySide() {
	width := 0
	for i := range s.held {
		width = max(width, widthOf(s.held[i].cells))
	}
	if width < 5 || width > maxArranged || len(s.held) > maxArranged {
		return
	}
	for k := 2; k < width-2; k++ {
		if s.blankColumn(k) && s.apart(k) {
			s.divide(k)
			return
		}
	}
}

func (s *sheet) blankColumn(k int) bool {
	for i := range s.held {
		if k < len(s.held[i].cells) && trim(s.held[i].cells[k]) != "" {
			return false
		}
	}
	return true
}

// apart reports whether what stands left and right of a column are two things.
func (s *sheet) apart(k int) bool {
	left, right := s.sideOf(k, false), s.sideOf(k, true)
	if len(left) < 2 || len(right) < 2 {
		return false
	}
	if s.allLines(left) || s.allLines(right) {
		return true
	}
	for _, a := range left[0] {
		for _, b := range right[0] {
			if a = trim(a); a != "" && isWords(a) && strings.EqualFold(a, trim(b)) {
				return true
			}
		}
	}
	return false
}

// sideOf returns the cells left or right of a column, of rows that have any there.
func (s *sheet) sideOf(k int, right bool) (out [][]string) {
	for i := range s.held {
		cells := s.held[i].cells
		switch {
		case right && k < len(cells):
			cells = cells[k:]
		case right:
			cells = nil
		default:
			cells = cells[:min(k, len(cells))]
		}
		if !blankRow(cells) {
			out = append(out, cells)
		}
	}
	return out
}

func (s *sheet) allLines(rows [][]string) bool {
	return !slices.ContainsFunc(rows, func(cells []string) bool { return !s.isLine(cells) })
}

// divide puts what stands right of a column below what stands left of it; names
// and values come first.
func (s *sheet) divide(k int) {
	side := func(right bool) (out []heldRow) {
		for i := range s.held {
			h := s.held[i]
			from, to := 0, min(k, len(h.cells))
			if right {
				from, to = min(k+1, len(h.cells)), len(h.cells)
			}
			part := heldRow{cells: h.cells[from:to], places: h.places[from:], broken: h.broken}
			if from < len(h.typed) {
				part.typed = h.typed[from:min(to, len(h.typed))]
			}
			out = append(out, part)
		}
		return out
	}
	first, second := side(false), side(true)
	if s.allLines(s.sideOf(k, true)) && !s.allLines(s.sideOf(k, false)) {
		first, second = second, first
	}
	blank := heldRow{places: s.held[0].places[:1]}
	s.held = slices.Concat(first, []heldRow{blank}, second)
}

// secondRow takes a second row of headings, below one that stands over several
// columns: what is known more narrowly counts.
func (s *sheet) secondRow(cells []string) bool {
	if s.guide != nil || filled(cells) < 2 || slices.ContainsFunc(cells, isPlainNumber) {
		return false
	}
	top := make([]string, len(s.cols))
	for i := range top {
		top[i] = s.cols[i].heading
	}
	return s.joinRows(top, cells, known(s.cols))
}

// isPlainNumber reports whether a cell is nothing but a number, as no heading is.
func isPlainNumber(c string) bool {
	c = trim(c)
	return c != "" && strings.Trim(c, "0123456789.,") == "" && startsNumber(c)
}

// joinRows begins a table with two rows of headings, where together they name
// at least so many columns.
func (s *sheet) joinRows(top, cells []string, least int) bool {
	heading, named := s.joined(top, cells)
	if named == 0 {
		return false
	}
	l, cols := fit(s.candidates(heading))
	if l == nil || known(cols) < least {
		return false
	}
	s.g.loose, s.g.questions = s.g.loose[:min(s.loose, len(s.g.loose))], s.g.questions[:min(s.asking, len(s.g.questions))]
	if s.index < len(s.g.sheets) {
		s.g.sheets[s.index].Read, s.g.sheets[s.index].Left = false, nil
	}
	s.begin(cells, l, cols, nil)
	s.width = len(heading)
	return true
}

// joined joins two rows of headings, and counts how many of the second are known;
// none where the second is a row of values.
func (s *sheet) joined(above, cells []string) (heading []string, named int) {
	heading = make([]string, max(len(above), len(cells)))
	over := "" // the heading that stands over several columns
	for i := range heading {
		top, below := "", ""
		if i < len(above) {
			top = trim(above[i])
		}
		if i < len(cells) {
			below = strings.Trim(trim(cells[i]), "-–")
		}
		if top != "" {
			over = top
		}
		switch c := candidateOf(below, s.dialect.decimal); {
		case below == "":
			heading[i] = top
		case c.label != nil:
			named++
			heading[i] = s.bandUnder(over, below)
		case isUnit(strings.Trim(below, "[]()")):
			heading[i] = top + " [" + strings.Trim(below, "[]()") + "]"
		case startsNumber(below):
			return nil, 0
		case isWords(over + " " + below):
			named++
			heading[i] = over + " " + below
		default:
			heading[i] = below
		}
	}
	return heading, named
}

// bandUnder writes a band as its heading above says: with the unit of the hours,
// or with what is counted in place of hours.
func (s *sheet) bandUnder(over, band string) string {
	text := strings.ToLower(over)
	if slices.ContainsFunc(countWords, func(w string) bool { return strings.Contains(text, w) }) {
		return band + " " + over
	}
	if unit := timeInBrackets(over); unit != wording.NoUnit && !inBrackets(band) {
		return band + " [" + unit.String() + "]"
	}
	return band
}

func timeInBrackets(heading string) wording.Unit {
	if _, unit := wording.HeadingUnit(heading); heading != "" && inBrackets(heading) && (unit.IsTime() || unit == wording.Percent) {
		return unit
	}
	return wording.NoUnit
}

func known(cols []column) (n int) {
	for _, c := range cols {
		if c.Field != "" {
			n++
		}
	}
	return n
}
