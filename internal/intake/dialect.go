package intake

import (
	"math"
	"strconv"
	"strings"
	"time"

	"ratchetmark/internal/record"
	"ratchetmark/internal/wording"
)

// dialect is how the values of one table are written.
type dialect struct {
	decimal wording.Mark
	dates   wording.Order
	zone    *time.Location

	bare   int           // times read that name no zone
	bareAt record.Origin // the first of them

	numbers   int           // times given as a number
	numbersAt record.Origin // the first of them

	unitless   int // loads read without a unit anywhere
	unitlessAt record.Origin
}

// zoneless counts a time without a zone, to be said once.
func (d *dialect) zoneless(c *cell) {
	if d.bare == 0 {
		d.bareAt = c.at()
	}
	d.bare++
}

// numbered counts a time given as a number, to be said once.
func (d *dialect) numbered(c *cell) {
	if d.numbers == 0 {
		d.numbersAt = c.at()
	}
	d.numbers++
}

// Times given as a number: days since 30 December 1899, as workbooks count them
// (ECMA-376 part 1, 18.17.4.1, from memory), or seconds since 1970. Of the years
// 2000 to 2099, so that no other number is taken for one.
const (
	firstDay, lastDay       = 36526, 73050
	firstSecond, lastSecond = 946684800, 4102444799
)

// momentOfNumber reads a time that is given as a number, of days in the zone of
// the table or of seconds.
func momentOfNumber(text string, zone *time.Location) (t time.Time, days, ok bool) {
	x, err := strconv.ParseFloat(text, 64)
	whole, _, _ := strings.Cut(text, ".")
	switch {
	case err != nil || strings.Trim(text, "0123456789.") != "":
	case len(whole) == 5 && x >= firstDay && x <= lastDay:
		seconds := math.Round((x - math.Floor(x)) * 24 * 60 * 60)
		return time.Date(1899, 12, 30+int(x), 0, 0, int(seconds), 0, zone), true, true
	case whole == text && x >= firstSecond && x <= lastSecond:
		return time.Unix(int64(x), 0).UTC(), false, true
	}
	return time.Time{}, false, false
}

// survey gathers what the writing of values proves about a table. A mark or an
// order is taken as the table's own where some values prove it and none proves
// the other: one export writes all its numbers alike.
type survey struct {
	points, commas      int
	dayFirst, monFirst  int
	twoMarks, twoOrders int // values that can be read two ways
}

// look takes in one cell. A number by type proves nothing about writing.
func (s *survey) look(text string, typed bool) {
	if typed || len(text) < 3 || len(text) > 40 {
		return
	}
	switch c := text[0]; {
	case c >= '0' && c <= '9', c == '-', c == '+':
	default:
		return
	}
	switch order, two := wording.OrderOf(text); {
	case order == wording.DayFirst:
		s.dayFirst++
		return
	case order == wording.MonthFirst:
		s.monFirst++
		return
	case two:
		s.twoOrders++
		return
	}
	switch mark, two := wording.MarkOf(amount(text)); {
	case mark == wording.Point:
		s.points++
	case mark == wording.Comma:
		s.commas++
	case two:
		s.twoMarks++
	}
}

// amount cuts a unit off a quantity: what is left of "12,5 kg" is "12,5".
func amount(text string) string {
	end := len(text)
	for end > 0 && (text[end-1] < '0' || text[end-1] > '9') {
		end--
	}
	return text[:end]
}

// settled reports whether further rows can hardly change what was found.
func (s *survey) settled() bool {
	marks := s.twoMarks == 0 || s.points > 0 != (s.commas > 0)
	orders := s.twoOrders == 0 || s.dayFirst > 0 != (s.monFirst > 0)
	return marks && orders
}

// dialect returns what is proven; a guide goes before.
func (s *survey) dialect(guide *Guide) dialect {
	d := dialect{zone: time.UTC}
	switch {
	case s.points > 0 && s.commas == 0:
		d.decimal = wording.Point
	case s.commas > 0 && s.points == 0:
		d.decimal = wording.Comma
	}
	switch {
	case s.dayFirst > 0 && s.monFirst == 0:
		d.dates = wording.DayFirst
	case s.monFirst > 0 && s.dayFirst == 0:
		d.dates = wording.MonthFirst
	}
	d.guided(guide)
	return d
}

// guided takes over what a guide says.
func (d *dialect) guided(guide *Guide) {
	if guide == nil {
		return
	}
	if m := markOf(guide); m != wording.Unknown {
		d.decimal = m
	}
	if o := orderOf(guide); o != wording.UnknownOrder {
		d.dates = o
	}
	if zone, err := zoneOf(guide); err == nil && guide.Zone != "" {
		d.zone = zone
	}
}
