package wording

import "strings"

// clock reads a duration as h:mm, h:mm:ss or h:mm:ss.s, in hours. Hours may
// exceed 24; minutes and seconds are below 60 and have two digits.
func clock(s string) (hours float64, ok bool) {
	s, sign := unsigned(s)
	h, s, ok := cutDigits(s, 1, 7)
	if !ok || !strings.HasPrefix(s, ":") {
		return 0, false
	}
	m, s, ok := cutDigits(s[1:], 2, 2)
	if !ok || m > 59 {
		return 0, false
	}
	seconds := 0.0
	if strings.HasPrefix(s, ":") {
		if seconds, s, ok = cutSeconds(s[1:]); !ok {
			return 0, false
		}
	}
	if s != "" && s != " h" && s != "h" {
		return 0, false
	}
	hours = (float64(h*3600+m*60) + seconds) / 3600
	if sign == "-" && hours != 0 {
		hours = -hours
	}
	return hours, true
}

// cutSeconds cuts two digits below 60, with decimals behind a point or a comma.
func cutSeconds(s string) (seconds float64, rest string, ok bool) {
	n, rest, ok := cutDigits(s, 2, 2)
	if !ok || n > 59 {
		return 0, s, false
	}
	if len(rest) > 1 && (rest[0] == '.' || rest[0] == ',') && isDigit(rest[1]) {
		i := 1
		for i < len(rest) && isDigit(rest[i]) {
			i++
		}
		part, err := Number("0."+rest[1:i], Point)
		return float64(n) + part, rest[i:], err == nil
	}
	return float64(n), rest, true
}

// hoursAndMinutes reads "1 h 30 min", "1h30m", "2h30", "1 hour 5 minutes",
// "1 h 5 min 30 s" and "5 min 30 s", in hours.
func hoursAndMinutes(s string) (hours float64, ok bool) {
	seconds, last, pieces := 0, NoUnit, 0
	for s != "" {
		n, rest, ok := cutDigits(s, 1, 7)
		if !ok {
			return 0, false
		}
		word, rest := cutWord(strings.TrimLeft(rest, " "))
		u, ok := pieceUnit(word, last, rest == "")
		if !ok || u <= last || last != NoUnit && n > 59 {
			return 0, false
		}
		seconds += n * map[Unit]int{Hour: 3600, Minute: 60, Second: 1}[u]
		last = u
		pieces++
		s = strings.TrimLeft(rest, " ,")
	}
	return float64(seconds) / 3600, pieces > 1
}

// dayWords are words and symbols for days in a duration, folded. From memory.
const dayWords = "d day days tag tage j jour jours dia dias g giorno giorni"

// daysAndHours reads "4d 05:30", "2 days 3 h", "1 d 2 h 30 min", in hours; below
// a day behind the days.
func daysAndHours(s string) (hours float64, ok bool) {
	days, rest, ok := cutDigits(s, 1, 5)
	if !ok {
		return 0, false
	}
	word, rest := cutWord(strings.TrimLeft(rest, " "))
	if rest = strings.TrimLeft(rest, " ,"); !hasWord(dayWords, word) || rest == "" {
		return 0, false
	}
	h, ok := clock(rest)
	if !ok {
		h, ok = hoursAndMinutes(rest)
	}
	if n, unit, whole := cutDigits(rest, 1, 2); !ok && whole {
		if u, _, known := unitOf(strings.TrimLeft(unit, " ")); known && u == Hour {
			h, ok = float64(n), true
		}
	}
	return float64(days)*24 + h, ok && h >= 0 && h < 24
}

// pieceUnit is the unit of one piece of a duration: hours, then minutes (m
// will do, and nothing at the end), then seconds.
func pieceUnit(word string, last Unit, end bool) (Unit, bool) {
	if last == Hour && (word == "m" || word == "" && end) {
		return Minute, true
	}
	u, _, ok := unitOf(word)
	return u, ok && (u == Hour || u == Minute || u == Second)
}

// cutDigits cuts a number of least to most digits off the front.
func cutDigits(s string, least, most int) (n int, rest string, ok bool) {
	i := 0
	for i < len(s) && isDigit(s[i]) {
		if i == most {
			return 0, s, false
		}
		n = n*10 + int(s[i]-'0')
		i++
	}
	return n, s[i:], i >= least
}

// cutWord cuts the letters, with a full stop behind them, off the front.
func cutWord(s string) (word, rest string) {
	i := 0
	for i < len(s) && isLetter(s[i]) {
		i++
	}
	if word, rest = s[:i], s[i:]; word != "" {
		rest = strings.TrimPrefix(rest, ".")
	}
	return word, rest
}
