package wording

import "strings"

// months are the names and abbreviations of the months, folded: English,
// German (with Jänner), French, Spanish, Italian; January first. From memory,
// after the wide and abbreviated names of Unicode CLDR.
var months = [12]string{
	"january jan januar jaenner janner jaen janvier janv enero ene gennaio gen genn",
	"february feb febr februar feber fevrier fevr fev febrero febbraio febb",
	"march mar maerz marz mrz maer mars marzo",
	"april apr avril avr abril abr aprile",
	"may mai mayo maggio mag magg",
	"june jun juni juin junio giugno giu",
	"july jul juli juillet juil julio luglio lug",
	"august aug aout aou agosto ago agto",
	"september sep sept septembre septiembre setiembre settembre set sett",
	"october oct oktober okt octobre octubre ottobre ott",
	"november nov novembre noviembre",
	"december dec dezember dez decembre diciembre dic dicembre",
}

// weekdays are dropped from a date: the day of the month says more.
const weekdays = "monday mon tuesday tue tues wednesday wed thursday thu thur thurs friday fri saturday sat sunday sun " +
	"montag mo dienstag di mittwoch mi donnerstag do freitag fr samstag sa sonnabend sonntag so " +
	"lundi lun mardi mar mercredi mer jeudi jeu vendredi ven samedi sam dimanche dim " +
	"lunes martes miercoles mie jueves jue viernes vie sabado sab domingo dom " +
	"lunedi martedi mercoledi giovedi gio venerdi domenica"

// dateWords stand between day, month and year and say nothing.
const dateWords = "de del of den the le el il al the"

// ordinals follow the number of a day: 2nd, 1er, 1º.
const ordinals = "st nd rd th er re o a"

// monthOf finds the month that a folded word names, 1 to 12.
func monthOf(word string) (month int, ok bool) {
	for i, names := range months {
		if hasWord(names, word) {
			return i + 1, true
		}
	}
	return 0, false
}

// spokenDate reads a date with the name of its month off the front of a folded
// text: "mon, 2 mar 2026", "2. marz 2026", "march 2nd, 2026", "2 de marzo de
// 2026", "2026-mar-02".
func spokenDate(s string) (d date, rest string, ok bool) {
	s = afterWeekday(s)
	var numbers []string
	place := 0 // how many numbers stand before the month
	for d.month == 0 || len(numbers) < 2 {
		s = strings.TrimLeft(s, " .,-/")
		if s == "" {
			return d, s, false
		}
		if digits, after := leadingDigits(s); digits != "" {
			numbers, s = append(numbers, digits), after
			if word, after := cutWord(s); hasWord(ordinals, word) {
				s = after
			}
			s = strings.TrimPrefix(s, "°")
			if len(numbers) > 2 {
				return d, s, false
			}
			continue
		}
		word, after := cutWord(s)
		month, isMonth := monthOf(word)
		switch {
		case word == "":
			return d, s, false
		case isMonth && d.month == 0:
			d.month, place = month, len(numbers)
		case !hasWord(dateWords, word):
			return d, s, false
		}
		s = after
	}
	return d.withSpoken(numbers, place), s, place < 2
}

// withSpoken puts the two numbers of a spoken date in their places.
func (d date) withSpoken(numbers []string, place int) date {
	day, year := numbers[0], numbers[1]
	if place == 1 && len(day) == 4 { // 2026-Mar-02
		day, year = year, day
	}
	d.day, d.year, d.yearDigits = atoi(day), atoi(year), len(year)
	return d
}

// afterWeekday drops the name of a day of the week. "mar" is one only if the
// name of a month follows.
func afterWeekday(s string) string {
	word, rest := cutWord(s)
	if !hasWord(weekdays, word) {
		return s
	}
	rest = strings.TrimLeft(rest, " ,")
	if _, isMonth := monthOf(word); isMonth {
		for after := rest; after != ""; {
			var next string
			if next, after = cutWord(strings.TrimLeft(after, "0123456789 .,-/")); next == "" {
				return s
			}
			if _, ok := monthOf(next); ok {
				return rest
			}
		}
		return s
	}
	return rest
}

func leadingDigits(s string) (digits, rest string) {
	n := 0
	for n < len(s) && isDigit(s[n]) {
		n++
	}
	return s[:n], s[n:]
}

// atoi reads up to eight digits; more give a number that fits nothing.
func atoi(digits string) int {
	if len(digits) > 8 {
		return 1e9
	}
	n := 0
	for i := range len(digits) {
		n = n*10 + int(digits[i]-'0')
	}
	return n
}
