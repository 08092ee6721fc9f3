package wording

import (
	"strings"
	"time"
)

// Order is the order of day and month in a written date.
type Order byte

// The orders of a written date.
const (
	UnknownOrder Order = iota
	DayFirst
	MonthFirst
)

// String names the order.
func (o Order) String() string {
	switch o {
	case DayFirst:
		return "day first"
	case MonthFirst:
		return "month first"
	}
	return "not known"
}

// date is a day as written; yearDigits tells a year of two digits.
type date struct{ year, month, day, yearDigits int }

// The years that a reading can be from: load cells that keep hours per band
// are younger, and a later year is a typing error. An assumption, no source.
const (
	firstYear = 1970
	lastYear  = 2100
)

// exists reports whether the calendar has the day.
func (d date) exists() bool {
	return d.month >= 1 && d.month <= 12 && d.day >= 1 && d.day <= daysIn(d.year, d.month)
}

// daysIn is the number of days of a month of the Gregorian calendar (ISO
// 8601-1:2019, 4.2.1, from memory).
func daysIn(year, month int) int {
	switch month {
	case 2:
		if year%4 == 0 && (year%100 != 0 || year%400 == 0) {
			return 29
		}
		return 28
	case 4, 6, 9, 11:
		return 30
	}
	return 31
}

// writtenDate is the three numbers of a date and what stands between them.
type writtenDate struct {
	a, b, c string
	mark    byte // '-', '/', '.'; 0 for eight digits
}

// cutNumbers cuts a date of numbers off the front of a text.
func cutNumbers(s string) (w writtenDate, rest string, ok bool) {
	w.a, rest = leadingDigits(s)
	if len(w.a) == 8 {
		return writtenDate{a: w.a[:4], b: w.a[4:6], c: w.a[6:]}, rest, true
	}
	if w.a == "" || rest == "" || strings.IndexByte("-/.", rest[0]) < 0 {
		return w, s, false
	}
	w.mark = rest[0]
	w.b, rest = leadingDigits(afterMark(rest))
	if w.b == "" || len(w.b) > 2 || rest == "" || rest[0] != w.mark {
		return w, s, false
	}
	w.c, rest = leadingDigits(afterMark(rest))
	return w, rest, w.c != ""
}

// afterMark drops the mark, and a space that is written behind a full stop.
func afterMark(s string) string {
	if strings.HasPrefix(s, ". ") {
		return s[2:]
	}
	return s[1:]
}

// yearFirst reports whether the form is year, month, day.
func (w writtenDate) yearFirst() bool { return len(w.a) > 2 && len(w.c) <= 2 }

// order tells which order the date proves. Full stops are day first: common
// practice where dates are written with them, no source.
func (w writtenDate) order() (o Order, ambiguous bool) {
	if w.yearFirst() || len(w.a) > 2 || len(w.c) != 4 {
		return UnknownOrder, false
	}
	a, b := atoi(w.a), atoi(w.b)
	switch {
	case a < 1 || b < 1 || a > 31 || b > 31 || a > 12 && b > 12:
		return UnknownOrder, false
	case w.mark == '.':
		if b > 12 {
			return UnknownOrder, false
		}
		return DayFirst, false
	case a > 12:
		return DayFirst, false
	case b > 12:
		return MonthFirst, false
	}
	return UnknownOrder, a != b
}

// date puts the numbers in their places; ok is false where they can be placed
// in two ways.
func (w writtenDate) date(known Order) (d date, ok bool) {
	if w.yearFirst() {
		return date{atoi(w.a), atoi(w.b), atoi(w.c), len(w.a)}, true
	}
	proven, twoWays := w.order()
	if proven == UnknownOrder {
		proven = known
	}
	if w.mark == '.' {
		proven = DayFirst
	}
	d = date{year: atoi(w.c), month: atoi(w.b), day: atoi(w.a), yearDigits: len(w.c)}
	if proven == MonthFirst {
		d.month, d.day = d.day, d.month
	}
	return d, !twoWays || proven != UnknownOrder
}

// OrderOf tells which order a written date proves, and whether it can be read
// in two ways. A date that begins with the year, has the name of its month or
// the same number twice proves nothing and is not ambiguous; one with full
// stops is day first.
func OrderOf(s string) (o Order, ambiguous bool) {
	w, _, ok := cutNumbers(afterWeekday(folded(s)))
	if !ok {
		return UnknownOrder, false
	}
	o, ambiguous = w.order()
	if d, _ := w.date(o); o != UnknownOrder && !d.exists() {
		return UnknownOrder, false
	}
	return o, ambiguous
}

// at makes a moment of a day and a time of day.
func (d date) at(t daytime, zone *time.Location) time.Time {
	return time.Date(d.year, time.Month(d.month), d.day, t.hour, t.minute, t.second, t.nanosecond, zone)
}
