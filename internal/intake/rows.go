package intake

import (
	"fmt"
	"slices"
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
		s.g.find(nil, s.place(0), record.Finding{
			Code: "row-ragged", Severity: record.Blocking,
			Where:   fmt.Sprintf("row in line %d", s.place(0).Line),
			Message: fmt.Sprintf("the row has %d cells", len(cells)), Expected: fmt.Sprintf("%d, as in the heading row", s.width),
			Effect: "the row is left out, and with it the hours of its band", Hint: "look for a missing or an extra mark between cells",
		})
		return
	}
	if s.total(cells) {
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

// sums are words for a row that adds up those above it.
var sums = []string{"total", "totals", "sum", "all", "summe", "gesamt", "gesamtsumme", "somme", "totale", "suma", "somma", "Σ", "grand total", "subtotal",
	"average", "mean", "median", "max", "min", "maximum", "minimum", "mittel", "mittelwert", "durchschnitt", "moyenne", "media", "promedio"}

// total reports whether a row only adds up those above it: it is left out.
func (s *sheet) total(cells []string) bool {
	for _, i := range s.plan.sums {
		if i < len(cells) && cells[i] != "" && !startsNumber(cells[i]) && isSum(cells[i]) && (s.cols[i].Field != "" || !s.bandIn(cells)) {
			return true
		}
	}
	return false
}

// bandIn reports whether a row names a band: "min" beside one is a unit.
func (s *sheet) bandIn(cells []string) bool {
	for _, i := range [3]int{s.plan.label, s.plan.from, s.plan.to} {
		if i >= 0 && i < len(cells) && trim(cells[i]) != "" && !isSum(cells[i]) {
			return true
		}
	}
	return false
}

// isSum reports whether a cell says that its row sums others up.
func isSum(text string) bool {
	text = strings.ToLower(strings.TrimRight(strings.TrimSpace(text), ":"))
	if rest, ok := strings.CutPrefix(text, "total "); ok {
		_, err := wording.Band(rest, wording.Unknown, wording.NoUnit)
		return err != nil // "total over 250 kg" is no sum of all
	}
	return slices.Contains(sums, text)
}

// isRemark reports whether a row has nothing but words in one cell: a remark
// below a table, not a row of it.
func (s *sheet) isRemark(cells []string) bool {
	if s.width < 3 || filled(cells) != 1 {
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
	id := s.cellAt(cells, s.plan.machine)
	if c := s.g.last; c != nil && s.hand && id.text == c.out.Case.Machine.ID && id.text != "" {
		return c
	}
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
	c := s.caseOf(cells)
	if c == nil {
		return
	}
	if len(s.plan.bands) > 0 && s.countsLifts(cells) {
		return
	}
	if i := s.plan.alarms; i >= 0 {
		v := s.cellAt(cells, i)
		c.countAlarms(&v)
	}
	same := c == s.above.c
	for _, i := range s.plan.ofMachine {
		if i < len(cells) && cells[i] != "" && !(same && s.above.has(i, cells[i])) {
			v := s.cellAt(cells, i)
			c.machine(s.cols[i].Field, &v)
		}
	}
	if s.layout.name == "machines" || s.plan.label < 0 && s.plan.from < 0 && s.plan.to < 0 && s.nothingIn(cells) {
		return
	}
	r, at := s.readingOf(c, cells)
	if r == nil {
		return
	}
	if len(r.Bands) > 0 && len(s.plan.bands) > 0 && c.readings[c.current].s == s {
		if s.rowTwice(c, r, cells) || !c.begin(record.Reading{At: r.At}, s.place(max(s.plan.at, s.plan.date, 0))) {
			return
		}
		r, at = c.reading()
	}
	same = same && c.current == s.above.reading
	for _, i := range s.plan.ofReading {
		if i < len(cells) && cells[i] != "" && !(same && s.above.has(i, cells[i])) {
			v := s.cellAt(cells, i)
			c.value(s.cols[i].Field, &v, r, at)
		}
	}
	s.above.keep(c, c.current, cells, s.plan.repeats)
	switch s.layout.name {
	case "one row for each band":
		s.bandRow(c, r, at, cells)
	case "one column for each band":
		s.wideRow(c, r, at, cells)
	}
}

// above is what the row above said, to skip what a row repeats.
type above struct {
	c       *tableCase
	reading int
	cells   []string // by column
}

func (a *above) has(i int, text string) bool { return i < len(a.cells) && a.cells[i] == text }

func (a *above) keep(c *tableCase, reading int, cells []string, columns []int) {
	a.c, a.reading = c, reading
	for _, i := range columns {
		if i >= len(cells) || cells[i] == "" {
			continue
		}
		for len(a.cells) <= i {
			a.cells = append(a.cells, "")
		}
		a.cells[i] = cells[i]
	}
}

// bandCells are the cells of a row that make one band.
type bandCells struct{ label, from, to, hours cell }

// bandRow takes the band of a row.
func (s *sheet) bandRow(c *tableCase, r *record.Reading, at record.Path, cells []string) {
	blank := cell{s: s, i: max(s.plan.from, s.plan.label, 0)}
	b := bandCells{blank, blank, blank, blank}
	set := func(to *cell, i int) {
		if i >= 0 {
			*to = s.cellAt(cells, i)
		}
	}
	if s.plan.meter {
		c.readings[c.current].meter = true
	}
	set(&b.label, s.plan.label)
	set(&b.from, s.plan.from)
	set(&b.to, s.plan.to)
	set(&b.hours, s.plan.hours)
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
