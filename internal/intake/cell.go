package intake

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"
	"time"

	"ratchetmark/internal/batch"
	"ratchetmark/internal/record"
	"ratchetmark/internal/wording"
)

// cell is one cell of a table as it is being read.
type cell struct {
	s       *sheet
	text    string
	i       int          // its place in the row
	unit    wording.Unit // of the heading
	read    wording.Unit // that was read with the number; none for a bare one
	percent bool         // the heading says percent
	kept    *keptCell    // of a cell kept beyond its row
}

// keptCell is what is known of a cell once its row is gone.
type keptCell struct {
	at    record.Origin
	head  string
	typed bool
}

// at returns where the cell stands.
func (c *cell) at() record.Origin {
	if c.kept != nil {
		return c.kept.at
	}
	return c.s.place(c.i)
}

// head returns the heading the cell stands under, or the name in its line.
func (c *cell) head() string {
	switch {
	case c.kept != nil:
		return c.kept.head
	case c.i < len(c.s.cols):
		return c.s.cols[c.i].heading
	}
	return ""
}

// typed reports whether the cell is a number by type, not by its writing.
func (c *cell) typed() bool {
	if c.kept != nil {
		return c.kept.typed
	}
	return c.s.isTyped(c.i)
}

func (s *sheet) isTyped(i int) bool { return s.typed != nil && s.typed(i) }

// errUnit is returned for a cell with a unit that its column cannot have.
var errUnit = errors.New("the unit does not fit")

// dimension is what a value measures.
type dimension int

const (
	count    dimension = iota // no unit
	load                      // kg
	duration                  // h
	portion                   // 0 to 1
)

var dimensionWords = []string{"a number such as 2", "a number of kg, lb or t", "a number of h, min or s, or h:mm", "a number of percent"}

// number reads a cell as a number in kg, h or as a share.
func (c *cell) number(of dimension) (float64, error) {
	text := c.text
	if of == count || c.unit == wording.NoUnit || c.unit == wording.Kilogram || c.unit == wording.Hour {
		if x, err := c.plain(text); err == nil {
			return x, nil
		} else if of == count || ambiguous(err) {
			return 0, err
		}
	}
	x, unit, err := wording.Quantity(text, c.mark(), c.unit)
	if err != nil {
		if y, unit2, err2 := wording.Quantity(text, wording.Unknown, c.unit); err2 == nil {
			x, unit, err = y, unit2, nil
		}
	}
	if err == nil {
		c.read = unit
		c.s.g.names(unit)
	}
	switch {
	case err != nil:
		return 0, err
	case !of.takes(unit):
		return 0, errUnit
	case math.IsInf(x, 0):
		return 0, errors.New("too large")
	}
	return x, nil
}

// takes reports whether a value of the dimension may have the unit.
func (d dimension) takes(u wording.Unit) bool {
	switch {
	case u == wording.NoUnit:
		return true
	case d == load:
		return u.IsLoad()
	case d == duration:
		return u.IsTime()
	case d == portion:
		return u == wording.Percent
	}
	return false
}

// plain reads a number without a unit. The mark that a number proves itself
// goes before the mark of the table.
func (c *cell) plain(text string) (float64, error) {
	mark := c.mark()
	x, err := wording.Number(text, mark)
	if err != nil && mark != wording.Unknown {
		if y, err := wording.Number(text, wording.Unknown); err == nil {
			return y, nil
		}
	}
	return x, err
}

func (c *cell) mark() wording.Mark {
	if c.typed() {
		return wording.Point
	}
	return c.s.dialect.decimal
}

// time reads a cell as a time.
func (c *cell) time() (time.Time, error) {
	d := &c.s.dialect
	t, zoned, clock, err := wording.Time(c.text, d.dates, d.zone)
	if err != nil && d.dates != wording.UnknownOrder && !ambiguous(err) {
		if again, z, hm, err2 := wording.Time(c.text, wording.UnknownOrder, d.zone); err2 == nil {
			t, zoned, clock, err = again, z, hm, nil
		}
	}
	if err != nil && !ambiguous(err) && !mayBeMeter(c.head()) {
		if again, days, ok := momentOfNumber(c.text, d.zone); ok {
			t, zoned, err = again, !days, nil
			clock = strings.Contains(c.text, ".")
			d.numbered(c)
		}
	}
	if err == nil && !zoned && clock {
		d.zoneless(c)
	}
	return t.UTC(), err
}

// mayBeMeter reports whether a heading, as "Reading", can stand over an hour meter.
func mayBeMeter(heading string) bool {
	fields, _ := wording.Fields(heading)
	return slices.ContainsFunc(fields, func(f wording.Field) bool { return f == "powered_h" || f == "hours" }) ||
		!slices.ContainsFunc(fields, func(f wording.Field) bool {
			return strings.HasSuffix(string(f), "_date") || strings.HasSuffix(string(f), "_at") || f == "in_service"
		}) ||
		slices.Contains([]string{"reading", "readout", "ablesung", "stand vom"}, strings.ToLower(heading))
}

// shown quotes a cell for a message.
func (c *cell) shown() string {
	clean, _ := Visible(fmt.Sprintf("%q", short(c.text)))
	return clean
}

// twoWays notes a value that can be read two ways and asks about its column.
func (c *cell) twoWays(to *tableCase, at record.Path, kind batch.QuestionKind) {
	c.s.ask(kind, c.head(), c.text)
	f := record.Finding{
		Code: "number-ambiguous", Severity: record.Blocking, Path: at,
		Message: c.shown() + " can be read two ways", Expected: "no mark for thousands, and not exactly three decimals",
		Effect: "the value is taken as missing; it is not guessed", Hint: "say which mark stands before the decimals, or write the value without a mark for thousands",
	}
	if kind == batch.AskDates {
		f.Code, f.Expected = "date-ambiguous", "a date such as 2026-03-02"
		f.Hint = "say whether the day or the month stands first, or write the date with the year first"
	}
	c.s.g.find(to, c.at(), f)
}

// unreadable notes a value that is not what its column asks for.
func (c *cell) unreadable(to *tableCase, at record.Path, expected string) {
	f := unreadable(at, c.shown(), expected)
	if strings.HasSuffix(string(at), "/peak_kg") {
		f.Severity, f.Effect = record.Blocking, "the peak is taken as missing: it may lie over the rated load"
	}
	c.s.g.find(to, c.at(), f)
}

// blank reports whether there is nothing in the cell: a dash stands for nothing as well.
func (c *cell) blank() bool { return c.text == "" || isDash(c.text) }

func isDash(s string) bool {
	switch s {
	case "-", "–", "—", "n/a", "N/A", "null", "NULL":
		return true
	}
	return false
}

// once reads a number cell into a value that is not set yet. A blank cell
// leaves it; a different second value is noted and the first stays. It reports
// whether the cell could be read.
func once[T ~float64](c *tableCase, from *cell, of dimension, at record.Path, to **T) bool {
	if from.blank() {
		return true
	}
	x, err := from.number(of)
	if err != nil && of == load {
		if alone, _, ok := from.loadWithRemark(); ok {
			bare := *from
			bare.text = alone
			x, err = bare.number(of)
			from.read = bare.read
		}
	}
	switch {
	case ambiguous(err) && strings.Contains(from.text, ":"):
		from.unreadable(c, at, "h:mm:ss, or a number with its unit")
		return false
	case ambiguous(err):
		from.twoWays(c, at, batch.AskDecimal)
		return false
	case err != nil:
		from.unreadable(c, at, dimensionWords[of])
		return false
	case *to == nil:
		*to = record.Of(T(x))
		c.out.Origins[at] = from.at()
	case **to != T(x):
		from.differs(c, at, record.Number(x), record.Number(**to))
	}
	return true
}

func (c *cell) differs(to *tableCase, at record.Path, here, above string) {
	c.s.g.find(to, c.at(), record.Finding{
		Code: "value-differs", Severity: record.Doubt, Path: at,
		Message: here + " here, " + above + " in a row above", Expected: "one value for the machine or the reading",
		Effect: "the first value is used", Hint: "correct one of the two",
	})
}

// whole reads a number of persons.
func whole(c *tableCase, from *cell, at record.Path, to **int) {
	var now *float64
	if *to != nil {
		now = record.Of(float64(**to))
	}
	once(c, from, count, at, &now)
	switch {
	case now == nil:
	case *now != float64(int32(*now)):
		from.unreadable(c, at, "a whole number")
	default:
		*to = record.Of(int(*now))
	}
}

// text returns a cell as a name or note that can be shown.
func (c *cell) label(to *tableCase, at record.Path) string {
	text, changed := Visible(oneLine(strings.TrimSpace(c.text)))
	if changed {
		c.s.g.find(to, c.at(), hiddenCharacters(at))
	}
	text, cut := clip(text)
	if cut {
		c.s.g.find(to, c.at(), textCut(at))
	}
	return strings.Clone(text) // its row is not to be held for it
}

// ambiguous reports whether a value could not be read because it can be read two ways.
func ambiguous(err error) bool { return errors.Is(err, wording.ErrAmbiguous) }
