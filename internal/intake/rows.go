package intake

import (
	"fmt"
	"strings"
	"time"

	"ratchetmark/internal/record"
	"ratchetmark/internal/wording"
)

// row takes in one row of the table in hand.
func (s *sheet) row(cells []string) {
	s.units = false
	if s.isRemark(cells) {
		s.hearUnits(cells)
		s.noteOdd(cells)
		return
	}
	if len(cells) != s.width && !s.loosely && !s.widthFits(cells) {
		s.run++
		if s.g.spent(nil) {
			return
		}
		s.g.find(nil, s.place(0), record.Finding{
			Code: "row-ragged", Severity: record.Blocking,
			Where:   fmt.Sprintf("row in line %d", s.place(0).Line),
			Message: fmt.Sprintf("the row has %d cells", len(cells)), Expected: fmt.Sprintf("%d, as in the heading row", s.width),
			Effect: "the row is left out, and with it the hours of its band", Hint: "look for a missing or an extra mark between cells",
		})
		return
	}
	if s.total(cells) {
		if s.g.spent(nil) {
			return
		}
		s.g.find(nil, s.place(0), record.Finding{
			Code: "row-sums-up", Severity: record.Note, Where: "row of sums",
			Message: "the row sums up others: " + quoteStart(cells), Expected: "rows of machines, readings or bands",
			Effect: "it is left out", Hint: "give the machine another name if it is called so",
		})
		return
	}
	s.run = 0
	switch s.layout.name {
	case "custody":
		s.custodyRow(cells)
	case "events":
		s.eventRow(cells)
	case "daily use":
		s.dailyRow(cells)
	default:
		s.machineRow(cells)
	}
}

// widthFits reports whether a row has only blank cells beyond the heading.
func (s *sheet) widthFits(cells []string) bool {
	return len(cells) > s.width && blankRow(cells[s.width:])
}

// unitRow takes a row of nothing but units, below the heading.
func (s *sheet) unitRow(cells []string) bool {
	s.units = false
	found := 0 // cells with a unit
	for _, c := range cells {
		if c = strings.Trim(strings.TrimSpace(c), "[]()"); c == "" || c == "-" {
			continue
		}
		if !isUnit(c) {
			return false
		}
		found++
	}
	if found == 0 {
		return false
	}
	for i, c := range cells {
		if _, unit := wording.HeadingUnit("x [" + strings.Trim(strings.TrimSpace(c), "[]()") + "]"); i < len(s.cols) && unit != wording.NoUnit {
			s.cols[i].Unit = unit
			s.g.names(unit)
		}
	}
	return true
}

// isRemark reports whether a row has nothing but words in one cell: a remark
// below a table, not a row of it.
func (s *sheet) isRemark(cells []string) bool {
	if s.width < 3 || filledUpTo(2, cells) != 1 {
		return false
	}
	for i, c := range cells {
		if c = trim(c); c == "" {
			continue
		}
		if i < len(s.cols) && s.isKey(s.cols[i].Field) || startsNumber(c) || len(c) < 2 {
			return false
		}
		_, err := wording.Band(c, s.dialect.decimal, wording.NoUnit)
		return err != nil
	}
	return false
}

// filledUpTo returns how many cells of a row are not blank, at most so many.
func filledUpTo(most int, cells []string) (n int) {
	for _, c := range cells {
		if trim(c) != "" {
			if n++; n == most {
				return n
			}
		}
	}
	return n
}

// cell returns the cell of a row under a field; blank where there is none.
func (s *sheet) cell(cells []string, f wording.Field) *cell {
	for i := range s.cols {
		if s.cols[i].Field == f {
			c := s.cellAt(cells, i)
			return &c
		}
	}
	return &cell{s: s}
}

func (s *sheet) cellAt(cells []string, i int) cell {
	c := cell{s: s, i: i, unit: s.cols[i].Unit}
	if i < len(cells) {
		c.text = trim(cells[i])
		if u := s.cols[i].units; u > 0 && u < len(cells) && c.text != "" {
			c.text += " " + trim(cells[u])
		}
	}
	return c
}

// trim cuts blanks off, the usual cell having none.
func trim(s string) string {
	if s == "" || s[0] > ' ' && s[0] < 0x80 && s[len(s)-1] > ' ' && s[len(s)-1] < 0x80 {
		return s
	}
	return strings.TrimSpace(s)
}

func (s *sheet) has(f wording.Field) bool {
	for i := range s.cols {
		if s.cols[i].Field == f {
			return true
		}
	}
	return false
}

// caseOf returns the case a row belongs to: of the machine it names, of the row
// above where the cell is blank, or of the lines above the table.
func (s *sheet) caseOf(cells []string) *tableCase {
	if s.plan.machine < 0 && s.only != nil && !s.about.named {
		s.g.last = s.only // the one machine that a table above names
		return s.only
	}
	if s.plan.machine < 0 {
		return s.about.caseOf(s)
	}
	if c := s.g.last; c != nil && s.hand && s.plan.machine < len(cells) {
		if text := trim(cells[s.plan.machine]); text != "" && text == c.out.Case.Machine.ID {
			return c
		}
	}
	id := s.cellAt(cells, s.plan.machine)
	if !id.blank() {
		return s.namedCase(&id)
	}
	if s.g.last != nil && s.hand {
		return s.g.last
	}
	if s.about.named {
		return s.about.caseOf(s)
	}
	s.g.find(nil, id.at(), record.Finding{
		Code: "machine-unnamed", Severity: record.Blocking, Where: "first row",
		Message: "the machine has no name", Expected: "a name in the first row",
		Effect: "the row is left out", Hint: "name the machine",
	})
	return nil
}

// namedCase returns the case of the machine that a cell names.
func (s *sheet) namedCase(id *cell) *tableCase {
	clean, changed := Visible(oneLine(id.text))
	clean, cut := clip(clean)
	clean = strings.Clone(clean)
	known := s.g.byID[foldID(clean)] != nil
	c := s.g.named(clean)
	if c == nil {
		s.g.stop(id.at(), "machines", maxMachines)
		return nil
	}
	switch {
	case !s.hand:
		s.only, s.first = c, c
	case s.first != c:
		s.only = nil
	}
	s.hand = true
	if changed && !known {
		s.g.find(c, id.at(), hiddenCharacters("machine/id"))
	}
	if cut && !known {
		s.g.find(c, id.at(), textCut("machine/id"))
	}
	if !s.about.named {
		s.about.tell(c)
	}
	return c
}

// machineRow takes a row about a machine, a reading, or one or all of its bands.
// What a row repeats of the row above is not read again.
func (s *sheet) machineRow(cells []string) {
	if s.repeats != nil && s.above.of(s) && s.repeats.Same() >= s.above.whole {
		s.above.row = s.rows
		s.hearAlarms(s.above.c, cells)
		s.bands(s.above.c, cells)
		return
	}
	c := s.caseOf(cells)
	if c == nil {
		return
	}
	if len(s.plan.bands) > 0 && s.countsLifts(cells) {
		return
	}
	s.hearAlarms(c, cells)
	same, again := c == s.above.c, true
	for _, i := range s.plan.ofMachine {
		if i < len(cells) && cells[i] != "" && !(same && s.above.said.has(i, cells[i])) {
			again = false
			v := s.cellAt(cells, i)
			c.machine(s.cols[i].Field, &v)
		}
	}
	if s.layout.name == "machines" || s.plan.label < 0 && s.plan.from < 0 && s.plan.to < 0 && s.nothingIn(cells) {
		return
	}
	r, _ := s.readingOf(c, cells)
	if r == nil {
		return
	}
	if len(r.Bands) > 0 && len(s.plan.bands) > 0 && c.readings[c.current].s == s {
		if s.rowTwice(c, r, cells) || !c.begin(record.Reading{At: r.At}, s.place(max(s.plan.at, s.plan.date, 0))) {
			return
		}
		r, _ = c.reading()
	}
	same = same && c.current == s.above.reading
	for _, i := range s.plan.ofReading {
		if i < len(cells) && cells[i] != "" && !(same && s.above.said.has(i, cells[i])) {
			again = false
			v := s.cellAt(cells, i)
			c.value(s.cols[i].Field, &v, r)
		}
	}
	if s.above.turn(c, s.plan.ofReading); !again {
		s.above.keep(cells, s.plan.repeats)
	}
	if s.plan.whole > 0 && c.lastFrom == s && s.dated(cells) != "" {
		s.above.row, s.above.whole = s.rows, s.plan.whole
	}
	s.bands(c, cells)
}

// bands takes the bands of a row, of the reading in hand.
func (s *sheet) bands(c *tableCase, cells []string) {
	r, at := c.reading()
	switch s.layout.name {
	case "one row for each band":
		s.bandRow(c, r, at, cells)
	case "one column for each band":
		s.wideRow(c, r, at, cells)
	}
}

// bandCells are the cells of a row that make one band.
type bandCells struct{ label, from, to, hours cell }

// bandRow takes the band of a row.
func (s *sheet) bandRow(c *tableCase, r *record.Reading, at record.Path, cells []string) {
	var b bandCells
	blank := max(s.plan.from, s.plan.label, 0)
	if s.plan.meter {
		c.readings[c.current].meter = true
	}
	s.lift(&b.label, cells, s.plan.label, blank)
	s.lift(&b.from, cells, s.plan.from, blank)
	s.lift(&b.to, cells, s.plan.to, blank)
	s.lift(&b.hours, cells, s.plan.hours, blank)
	if i := s.plan.minutes; i >= 0 && i < len(cells) && trim(cells[i]) != "" && b.hours.text != "" {
		b.hours.text += " h " + trim(cells[i]) + " min"
	}
	if b.hours.text == "" && s.plan.share >= 0 {
		b.hours = s.cellAt(cells, s.plan.share)
		b.hours.percent = b.hours.unit == wording.Percent
		b.hours.unit = wording.Percent
	}
	c.band(s, r, at, &b)
}

// lift puts a cell of a row where it is looked at; where there is no such
// column, a blank one in the place of another.
func (s *sheet) lift(to *cell, cells []string, i, blank int) {
	to.s, to.i = s, blank
	if i < 0 {
		return
	}
	to.i, to.unit = i, s.cols[i].Unit
	if i < len(cells) {
		to.text = trim(cells[i])
		if u := s.cols[i].units; u > 0 && u < len(cells) && to.text != "" {
			to.text += " " + trim(cells[u])
		}
	}
}

// wideRow takes the bands of a row that has a column for each.
func (s *sheet) wideRow(c *tableCase, r *record.Reading, at record.Path, cells []string) {
	for _, i := range s.plan.bands {
		col := &s.cols[i]
		hours := s.cellAt(cells, i)
		hours.percent = hours.unit == wording.Percent && !col.bareShare
		c.addBand(s, r, at, col.label, &cell{s: s, i: i, text: col.heading}, &hours)
	}
}

// readingOf returns the reading a row belongs to.
func (s *sheet) readingOf(c *tableCase, cells []string) (*record.Reading, record.Path) {
	if s.plan.clock < 0 && c.lastFrom == s && c.current >= 0 && s.dated(cells) == string(c.lastText) {
		return c.reading()
	}
	date, clock := cell{s: s}, cell{s: s}
	for _, i := range [2]int{s.plan.at, s.plan.date} {
		if i >= 0 && date.blank() {
			date = s.cellAt(cells, i)
		}
	}
	if s.plan.clock >= 0 {
		clock = s.cellAt(cells, s.plan.clock)
	}
	dated := s.plan.at >= 0 || s.plan.date >= 0
	wide := s.layout.name != "one row for each band"
	switch {
	case !date.blank():
		if !c.at(&date, &clock) {
			return nil, ""
		}
	case !dated && (!wide || len(s.about.reading) > 0 && s.about.r == 0):
		return s.about.readingOf(s, c)
	case wide || c.current < 0:
		s.explained(c, cells)
		if !c.begin(record.Reading{}, s.place(0)) {
			return nil, ""
		}
	}
	return c.reading()
}

// dated returns the text of the time in a row.
func (s *sheet) dated(cells []string) string {
	for _, i := range [2]int{s.plan.at, s.plan.date} {
		if i >= 0 && i < len(cells) {
			if v := (cell{text: trim(cells[i])}); !v.blank() {
				return v.text
			}
		}
	}
	return ""
}

// moment reads a time from one cell, or from a date and a time of day.
func moment(date, clock *cell) (time.Time, error) {
	t, err := date.time()
	if err != nil || clock.text == "" {
		return t, err
	}
	d, err := wording.Daytime(clock.text)
	if err == nil {
		date.s.dialect.zoneless(date)
	}
	return t.Add(d), err
}
