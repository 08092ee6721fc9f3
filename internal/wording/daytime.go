package wording

import (
	"strings"
	"time"
)

// daytime is a time of day; second is 60 in a leap second.
type daytime struct{ hour, minute, second, nanosecond int }

func (t daytime) duration() time.Duration {
	return time.Duration(t.hour)*time.Hour + time.Duration(t.minute)*time.Minute +
		time.Duration(t.second)*time.Second + time.Duration(t.nanosecond)
}

// clockWords stand before or behind a time of day and say nothing, folded.
const (
	wordsBefore = "um at a alle las ore as kl"
	wordsBehind = "uhr h hrs heures horas ore o'clock"
)

// Daytime reads a time of day on its own, for tables with date and time in two
// columns: "08:10", "8:10:30", "8.10 Uhr", "8:10 PM", "8h10", "8 Uhr", "8 PM".
// It is below 24 h. A full stop between hours and minutes is only read where a
// word says that it is a time of day.
func Daytime(s string) (time.Duration, error) {
	t, rest, ok := cutDaytime(folded(s))
	if !ok || rest != "" || t.second == 60 {
		return 0, unreadable(s, "is not a time of day", "a time of day from 00:00 to 23:59, or with AM or PM", "write it as 08:10")
	}
	return t.duration(), nil
}

// cutDaytime cuts a time of day off the front of a folded text: "08:10",
// "08:10:00.5", "8h10", "8.10 uhr", "8:10 pm", "8 uhr", "a las 8:10".
func cutDaytime(s string) (t daytime, rest string, ok bool) {
	spoken := false
	for {
		word, after := cutWord(s)
		if word == "" || !hasWord(wordsBefore, word) {
			break
		}
		s, spoken = strings.TrimLeft(after, " "), spoken || word == "ore"
	}
	if t.hour, s, ok = cutDigits(s, 1, 2); !ok {
		return t, s, false
	}
	mark := byte(0)
	s = hourMark(s)
	if len(s) > 1 && strings.IndexByte(":.h", s[0]) >= 0 && isDigit(s[1]) {
		mark = s[0]
		if s, ok = t.minutes(s[1:], mark); !ok {
			return t, s, false
		}
	}
	s, word, ok := t.behind(s)
	named := word || spoken || mark == ':' || mark == 'h'
	return t, s, ok && named && t.hour < 24
}

// hourMark closes the gap of "8 h 10".
func hourMark(s string) string {
	if after, ok := strings.CutPrefix(s, " h "); ok && after != "" && isDigit(after[0]) {
		return "h" + after
	}
	if after, ok := strings.CutPrefix(s, "h "); ok && after != "" && isDigit(after[0]) {
		return "h" + after
	}
	return s
}

// minutes reads the minutes, and seconds behind the same mark.
func (t *daytime) minutes(s string, mark byte) (rest string, ok bool) {
	if t.minute, s, ok = cutDigits(s, 2, 2); !ok || t.minute > 59 {
		return s, false
	}
	if mark == 'h' {
		return strings.TrimPrefix(strings.TrimPrefix(s, " "), "min"), true
	}
	if len(s) < 2 || s[0] != mark || !isDigit(s[1]) {
		return s, true
	}
	if t.second, s, ok = cutDigits(s[1:], 2, 2); !ok || t.second > 60 {
		return s, false
	}
	if len(s) > 1 && (s[0] == '.' || s[0] == ',') && isDigit(s[1]) {
		t.nanosecond, s = cutFraction(s[1:])
	}
	return s, true
}

// cutFraction cuts the decimals of a second; digits beyond the ninth are dropped.
func cutFraction(s string) (nanoseconds int, rest string) {
	digits, rest := leadingDigits(s)
	for i := range 9 {
		nanoseconds *= 10
		if i < len(digits) {
			nanoseconds += int(digits[i] - '0')
		}
	}
	return nanoseconds, rest
}

// behind reads what may follow: AM or PM, and words such as Uhr.
func (t *daytime) behind(s string) (rest string, word, ok bool) {
	after := strings.TrimPrefix(s, " ")
	for _, half := range halves {
		if tail, found := strings.CutPrefix(after, half.word); found && (tail == "" || !isLetter(tail[0])) {
			if t.hour < 1 || t.hour > 12 {
				return s, false, false
			}
			t.hour = t.hour%12 + half.add
			return tail, true, true
		}
	}
	next, tail := cutWord(after)
	if next != "" && hasWord(wordsBehind, next) {
		return tail, true, true
	}
	return s, false, true
}

// halves are the marks of a twelve-hour clock.
var halves = []struct {
	word string
	add  int
}{{"a.m.", 0}, {"p.m.", 12}, {"a. m.", 0}, {"p. m.", 12}, {"am", 0}, {"pm", 12}}
