package table

import (
	"fmt"
	"math"
	"strconv"
	"time"
)

// epoch is the day from which a workbook counts (ECMA-376 part 1, 18.17.4.1).
type epoch int

const (
	epoch1900 epoch = iota
	epoch1904
)

const daySeconds = 24 * 60 * 60

// The days that are dates, in days since the epoch; a number beyond is no date.
const (
	lastDay1900 = 2958465 // 9999-12-31
	lastDay1904 = 2957003
	leapDay1900 = 60 // 29 February 1900, which there was not; days before it count from one day later
)

// clockDays is where a number shown as a time of day is taken for the time of a
// day that the format hides, not for hours in sum: 10 000 days are over 27 years
// of work, or the year 1927.
const clockDays = 10000

// show writes a number as its cell means it: a plain number in Go's shortest
// form, "12.5 %", a date in ISO 8601, or "h:mm". typed tells that the cell is a
// number with a point before its decimals. What is no number is given as it is.
func (f numberFormat) show(raw string, from epoch) (text string, typed bool) {
	if f == formatPlain && plainDigits(raw) {
		return raw, true
	}
	x, err := strconv.ParseFloat(raw, 64)
	if err != nil || math.IsNaN(x) || math.IsInf(x, 0) {
		return raw, false
	}
	switch f {
	case formatPlain:
		return shortest(x), true
	case formatPercent:
		// 15 digits are what a sheet keeps: 0.07 is 7 %, not 7.000000000000001.
		x, _ = strconv.ParseFloat(strconv.FormatFloat(x*100, 'g', 15, 64), 64)
		if math.IsInf(x, 0) {
			return raw, false
		}
		return shortest(x) + " %", true
	case formatDate, formatMoment:
		if x < 1 && x >= 0 && from == epoch1900 {
			return clock(x, f == formatMoment), false // day 0 is none: a time of day
		}
		return moment(x, f == formatMoment, from)
	}
	if x >= clockDays && (f == formatClock || f == formatSeconds) {
		return moment(x, true, from)
	}
	if math.Abs(x) > lastDay1900 {
		return shortest(x), true
	}
	return clock(x, f == formatSeconds || f == formatHoursSeconds), false
}

// plainDigits reports whether a number already has the shortest form: up to 15
// digits, no zero too many.
func plainDigits(s string) bool {
	digits, point := s, -1
	if len(digits) > 0 && digits[0] == '-' {
		digits = digits[1:]
	}
	for i := 0; i < len(digits); i++ {
		switch c := digits[i]; {
		case c == '.' && point < 0:
			point = i
		case c < '0' || c > '9':
			return false
		}
	}
	switch n := len(digits); {
	case n == 0 || n > 15 || point == 0 || digits == "0" && len(s) > 1:
		return false
	case point < 0:
		return digits[0] != '0' || n == 1
	default:
		return (digits[0] != '0' || point == 1) && digits[n-1] != '0' && point != n-1
	}
}

// shortest writes a number in the shortest form that reads back as the same.
func shortest(x float64) string {
	if x == 0 {
		return "0" // not -0
	}
	if a := math.Abs(x); a >= 1e-6 && a < 1e15 {
		return strconv.FormatFloat(x, 'f', -1, 64)
	}
	return strconv.FormatFloat(x, 'g', -1, 64)
}

// moment writes a day, with the time where the format shows one or the number
// has one, to the second. A number that is no date is given as a number.
func moment(x float64, timed bool, from epoch) (text string, typed bool) {
	days := math.Floor(x)
	seconds := int(math.Round((x - days) * daySeconds))
	if seconds == daySeconds {
		days, seconds = days+1, 0
	}
	first, last := time.Date(1899, 12, 30, 0, 0, 0, 0, time.UTC), float64(lastDay1900)
	if from == epoch1904 {
		first, last = time.Date(1904, 1, 1, 0, 0, 0, 0, time.UTC), lastDay1904
	}
	if days < 0 || days > last {
		return shortest(x), true
	}
	day := first.AddDate(0, 0, int(days)).Format(time.DateOnly)
	switch {
	case from == epoch1904:
	case days == leapDay1900:
		day = "1900-02-29" // as the sheet shows it; whoever reads it finds no such day
	case days < leapDay1900:
		day = first.AddDate(0, 0, int(days)+1).Format(time.DateOnly)
	}
	if !timed && seconds == 0 {
		return day, false
	}
	return fmt.Sprintf("%sT%02d:%02d:%02d", day, seconds/3600, seconds/60%60, seconds%60), false
}

// clock writes days as hours and minutes, beyond 24 hours too; with seconds
// where they are shown or not zero.
func clock(x float64, withSeconds bool) string {
	sign, seconds := "", int64(math.Round(math.Abs(x)*daySeconds))
	if x < 0 && seconds > 0 {
		sign = "-"
	}
	text := fmt.Sprintf("%s%d:%02d", sign, seconds/3600, seconds/60%60)
	if withSeconds || seconds%60 != 0 {
		text += fmt.Sprintf(":%02d", seconds%60)
	}
	return text
}
