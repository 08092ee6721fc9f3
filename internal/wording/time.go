package wording

import (
	"strconv"
	"strings"
	"time"
)

const (
	timeExpected = "a date such as 2026-03-02, 02.03.2026 or 2 Mar 2026, with or without a time such as 08:10"
	timeHint     = "write it as 2026-03-02 08:10"
	orderHint    = "say whether day or month comes first, or write the date as 2026-03-02"
)

// Time reads a date with or without a time of day.
//
// Forms: ISO 8601 (with T or a space, fractions, Z or an offset, basic form),
// year first with strokes, day first with full stops, day or month first with
// strokes or hyphens, and names of months in five languages. What is allowed
// between 1970 and 2100 is read; a year of two digits is refused, never
// guessed. A date that day and month can change places in is [ErrAmbiguous]
// with [UnknownOrder].
//
// zone is used where none is written (nil: UTC); t stays in it, so that its
// date is the one written. zoned reports whether the text had a zone, clock
// whether it had a time of day. The result can be written as RFC 3339. A local
// time that a change of clocks skips or repeats is read as [time.Date] does. A
// leap second is the second after it (RFC 3339, 5.8 has two).
func Time(s string, order Order, zone *time.Location) (t time.Time, zoned, clock bool, err error) {
	if t, ok := isoUTC(s); ok {
		return t, true, true, nil
	}
	if zone == nil {
		zone = time.UTC
	}
	if len(s) > longestTime {
		return time.Time{}, false, false, unreadable(s, "is not a time", timeExpected, timeHint)
	}
	text := folded(s)
	d, rest, err := cutDate(s, text, order)
	if err != nil {
		return time.Time{}, false, false, err
	}
	if err := d.check(s); err != nil {
		return time.Time{}, false, false, err
	}
	var of daytime
	rest = strings.TrimLeft(rest, " ,")
	if rest != "" {
		if of, rest, clock = cutClock(rest); !clock {
			return time.Time{}, false, false, unreadable(s, "has no time of day behind its date", timeExpected, timeHint)
		}
		if zone, zoned, err = cutZone(s, rest, zone); err != nil {
			return time.Time{}, false, false, err
		}
	}
	if t, err = moment(s, d, of, zone); err != nil {
		return time.Time{}, false, false, err
	}
	return t, zoned, clock, nil
}

// longestTime is the size in bytes beyond which a text is no time.
const longestTime = 120

// isoUTC reads "2026-03-02T08:10:00Z", the form that records are full of.
func isoUTC(s string) (time.Time, bool) {
	if len(s) != 20 || s[4] != '-' || s[7] != '-' || s[10] != 'T' || s[13] != ':' || s[16] != ':' || s[19] != 'Z' {
		return time.Time{}, false
	}
	year, month, day := pair(s, 0)*100+pair(s, 2), pair(s, 5), pair(s, 8)
	hour, minute, second := pair(s, 11), pair(s, 14), pair(s, 17)
	if month < 1 || day < 1 || hour < 0 || minute < 0 || second < 0 || pair(s, 2) < 0 ||
		year < firstYear || year > lastYear || month > 12 || day > daysIn(year, month) || hour > 23 || minute > 59 || second > 59 {
		return time.Time{}, false
	}
	return time.Date(year, time.Month(month), day, hour, minute, second, 0, time.UTC), true
}

// pair reads two digits; it is far below zero where one is none.
func pair(s string, i int) int {
	a, b := s[i]-'0', s[i+1]-'0'
	if a > 9 || b > 9 {
		return -1 << 20
	}
	return int(a)*10 + int(b)
}

// cutDate cuts the date off the front of a folded text.
func cutDate(s, text string, order Order) (d date, rest string, err error) {
	if w, rest, ok := cutNumbers(afterWeekday(text)); ok {
		d, ok := w.date(order)
		if !ok {
			return d, rest, ambiguous(s, "a date in which day and month cannot change places", orderHint)
		}
		return d, rest, nil
	}
	if d, rest, ok := spokenDate(text); ok {
		return d, rest, nil
	}
	return d, "", unreadable(s, "is not a time", timeExpected, timeHint)
}

// check says what is wrong with a day that cannot be one of a record.
func (d date) check(s string) error {
	year := strconv.Itoa(firstYear) + " to " + strconv.Itoa(lastYear)
	switch {
	case d.yearDigits == 2:
		return unreadable(s, "has a year of two digits", "a year of four digits", "write the year in full")
	case d.yearDigits != 4:
		return unreadable(s, "is not a time", timeExpected, timeHint)
	case d.year < firstYear || d.year > lastYear:
		return unreadable(s, "is outside the years "+year, "a year from "+year, "correct the year")
	case !d.exists():
		return unreadable(s, "is a day that the calendar does not have", timeExpected, "correct day and month; with full stops the day comes first")
	}
	return nil
}
