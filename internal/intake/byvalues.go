package intake

import (
	"slices"
	"strings"

	"ratchetmark/internal/record"
	"ratchetmark/internal/wording"
)

// byValues settles what the headings of the table in hand leave open by the
// values in the rows below that were read ahead.
func (s *sheet) byValues() {
	for i := range s.cols {
		if !s.cols[i].twice {
			continue
		}
		switch {
		case s.means(i, "hours"):
			s.hoursTwice(i)
		case s.means(i, "band"):
			s.bandTwice(i)
		default:
			s.otherUnit(i)
		}
	}
	if s.layout.name == "custody" && !s.has("holder") {
		s.holderColumn()
	}
}

// bandsByValues takes a column under a heading that is not known for that of the
// bands where every cell below is one, and the row heads hours and no bands.
func (s *sheet) bandsByValues(candidates []candidate) []candidate {
	hours, band, open := false, false, -1
	for i, c := range candidates {
		hours = hours || c.can([]wording.Field{"hours", "share"})
		band = band || c.label != nil || c.can([]wording.Field{"band", "from_kg", "to_kg"})
		if len(c.fields) == 0 && c.text != "" && open < 0 && s.allBands(i, len(candidates)) {
			open = i
		}
	}
	if hours && !band && open >= 0 {
		candidates[open].fields = []wording.Field{"band"}
	}
	return candidates
}

// allBands reports whether the cells of a column below the row in hand are bands
// of loads, two or more, with their unit.
func (s *sheet) allBands(i, width int) bool {
	n := 0
	for j := s.heldAt + 1; j < len(s.held) && n < sampleRows; j++ {
		cells := s.held[j].cells
		if len(cells) != width || i >= len(cells) || trim(cells[i]) == "" {
			break
		}
		if label, err := rowLabel(trim(cells[i]), s.dialect.decimal, wording.NoUnit); err != nil || !label.Unit.IsLoad() {
			return false // bands of something else, maybe
		}
		n++
	}
	return n > 1
}

// sampleRows is how many rows below a heading are looked at.
const sampleRows = 40

// sample returns the cells of a column in the rows below the one in hand.
func (s *sheet) sample(i int) (out []string) {
	for j := s.heldAt + 1; j < len(s.held) && len(out) < sampleRows; j++ {
		h := &s.held[j]
		if h.broken != nil || len(h.cells) != len(s.cols) && !s.loosely || i >= len(h.cells) || blankRow(h.cells) {
			break
		}
		out = append(out, trim(h.cells[i]))
	}
	return out
}

func (s *sheet) means(i int, f wording.Field) bool { return slices.Contains(s.cols[i].can, f) }

// columnOf returns the column that is a field; -1 for none.
func (s *sheet) columnOf(f wording.Field) int {
	return slices.IndexFunc(s.cols, func(c column) bool { return c.Field == f })
}

// hoursTwice tells the hours of a band from the hour meter where both are
// headed alike: the meter stays the same over the bands of a reading.
func (s *sheet) hoursTwice(i int) {
	first := s.columnOf("hours")
	if first < 0 {
		return
	}
	here, there := unchanged(s.sample(i)), unchanged(s.sample(first))
	switch {
	case here == there:
		s.cols[first].Field, s.cols[first].used = "", "one of two"
		return
	case here < there:
		s.cols[i].Field, s.cols[i].Unit = "hours", s.cols[i].inHeading
		s.cols[first].Field = ""
		i, first = first, i
	}
	s.cols[i].twice, s.cols[first].twice = false, false
	s.cols[i].used = "hour meter"
	if s.means(i, "powered_h") && !s.has("powered_h") {
		s.cols[i].Field, s.cols[i].Unit = "powered_h", s.cols[i].inHeading
	}
}

// unchanged counts the cells that are the same as the one above.
func unchanged(cells []string) (n int) {
	for i := 1; i < len(cells); i++ {
		if cells[i] == cells[i-1] {
			n++
		}
	}
	return n
}

// bandTwice tells the limits of the bands from their numbers.
func (s *sheet) bandTwice(i int) {
	first := s.columnOf("band")
	if first < 0 {
		return
	}
	switch here, there := s.bandsIn(i), s.bandsIn(first); {
	case here == there:
		s.otherUnit(i)
		return
	case here < there:
		return
	}
	s.cols[i].Field, s.cols[i].Unit, s.cols[i].twice = "band", s.cols[i].inHeading, false
	s.cols[first].Field, s.cols[first].used = "", "numbers of the bands"
}

func (s *sheet) bandsIn(i int) (n int) {
	for _, c := range s.sample(i) {
		if _, err := wording.Band(c, s.dialect.decimal, wording.NoUnit); err == nil {
			n++
		}
	}
	return n
}

// otherUnit prefers the column in kg where the same load stands in two units.
func (s *sheet) otherUnit(i int) {
	c := &s.cols[i]
	first := slices.IndexFunc(s.cols[:i], func(o column) bool { return o.Field != "" && slices.Contains(c.can, o.Field) })
	if first < 0 || !s.cols[first].Unit.IsLoad() || !c.inHeading.IsLoad() || s.cols[first].Unit == c.inHeading {
		return
	}
	o := &s.cols[first]
	if !s.agree(first, o.Unit, i, c.inHeading) {
		return
	}
	if c.inHeading == wording.Kilogram {
		c.Field, c.Unit, o.Field = o.Field, c.inHeading, ""
		c.twice, o.used = false, "the same in another unit"
		return
	}
	c.twice, c.used = false, "the same in another unit"
}

// agree reports whether two columns hold the same loads, but for rounding.
func (s *sheet) agree(a int, ofA wording.Unit, b int, ofB wording.Unit) bool {
	left, right := s.sample(a), s.sample(b)
	for k := range min(len(left), len(right)) {
		x, _, err := wording.Quantity(left[k], s.dialect.decimal, ofA)
		y, _, err2 := wording.Quantity(right[k], s.dialect.decimal, ofB)
		if err == nil && err2 == nil && max(x, y)-min(x, y) > 0.02*max(x, y) {
			return false
		}
	}
	return true
}

// unitHeadings are headings of a column that holds the units of the one before it.
var unitHeadings = []string{"unit", "units", "uom", "einheit", "einheiten", "unité", "unidad", "unità"}

// unitColumn gives the column before one of units those units.
func (s *sheet) unitColumn(i int) {
	if i == 0 || s.cols[i].Field != "" || !slices.Contains(unitHeadings, strings.ToLower(s.cols[i].heading)) {
		return
	}
	before := &s.cols[i-1]
	if before.Field == "" || !measures([]wording.Field{before.Field}) || before.Unit != wording.NoUnit && before.Unit != wording.Hour {
		return
	}
	for _, c := range s.sample(i) {
		if c != "" && !isUnit(c) {
			return // a unit of the fleet, most likely
		}
	}
	before.units, before.Unit, s.cols[i].used = i, wording.NoUnit, "units"
}

// holderColumn finds the column of a custody list that says in whose hands the
// machine was, whatever it is called.
func (s *sheet) holderColumn() {
	for i := range s.cols {
		if s.cols[i].Field != "" || s.cols[i].used != "" {
			continue
		}
		known, cells := 0, s.sample(i)
		for _, c := range cells {
			if _, ok := wording.Holder(c); ok && !denies(c) {
				known++
			}
		}
		if known > 0 && known == len(cells) {
			s.cols[i].Field, s.cols[i].twice = "holder", false
			return
		}
	}
}

// columnTwice is the finding for a column that means what another means.
func (s *sheet) columnTwice(c *column, f record.Finding, clean string) record.Finding {
	f.Code, f.Severity = "column-twice", record.Doubt
	f.Message, f.Expected = "column "+clean+" means the same as one before it", "each column once"
	f.Effect, f.Hint = "the first of the two is used", "remove the wrong one"
	switch {
	case slices.Contains(c.can, "hours"):
		f.Severity = record.Blocking
		f.Message = "column " + clean + " holds hours as one before it does, and its values do not tell which are those of the band"
		f.Effect = "neither is used"
		f.Hint = "name the hours in the band and the hour meter apart, or point them out"
	case slices.ContainsFunc(c.can, func(f wording.Field) bool {
		return f == "machine" || f == "holder" || f == "who" || f == "note" || f == "kind"
	}):
		f.Severity = record.Note
		f.Hint = "nothing, if the first is the one to go by"
	}
	return f
}

// minutesColumn returns the column with the minutes beside the hours of a band;
// -1 for none.
func (s *sheet) minutesColumn() int {
	for i := range s.cols {
		if s.cols[i].used == "minutes" {
			return i
		}
	}
	return -1
}

// minutesBeside finds a column of minutes, below 60 throughout, right of the hours.
func (s *sheet) minutesBeside() {
	i := s.columnOf("hours") + 1
	if i == 0 || i >= len(s.cols) || s.cols[i].Field != "" || !slices.Contains(bareMinutes[:6], strings.ToLower(s.cols[i].heading)) {
		return
	}
	cells := s.sample(i)
	for _, c := range cells {
		if len(c) > 2 || strings.Trim(c, "0123456789") != "" || len(c) == 2 && c[0] > '5' {
			return
		}
	}
	if len(cells) > 0 {
		s.cols[i].used = "minutes"
	}
}

// alarmWords are words by which a column counts alarms of overload.
var alarmWords = []string{"alarm", "event", "count", "number of", "anzahl", "nombre", "numero", "número", "allarm", "trips", "warning", "warnung", "ereignis"}

// alarmsColumn finds the column that counts alarms of overload.
func (s *sheet) alarmsColumn() {
	for i := range s.cols {
		c := &s.cols[i]
		text := strings.ToLower(c.heading)
		if c.Field != "" || c.used != "" || !slices.ContainsFunc(overloadWords, func(w string) bool { return strings.Contains(text, w) }) {
			continue
		}
		if slices.ContainsFunc(alarmWords, func(w string) bool { return strings.Contains(text, w) }) {
			c.used = alarmsUsed
			return
		}
	}
}

const alarmsUsed = "alarms of overload"
