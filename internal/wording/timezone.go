package wording

import (
	"strings"
	"time"
)

// cutClock cuts the time of day behind a date: behind T, a space or nothing,
// and in the basic form of ISO 8601.
func cutClock(s string) (t daytime, rest string, ok bool) {
	s, basic := strings.CutPrefix(s, "t")
	if digits, rest := leadingDigits(s); basic && (len(digits) == 4 || len(digits) == 6) {
		digits += "00"
		t = daytime{hour: atoi(digits[:2]), minute: atoi(digits[2:4]), second: atoi(digits[4:6])}
		if len(rest) > 1 && (rest[0] == '.' || rest[0] == ',') && isDigit(rest[1]) {
			t.nanosecond, rest = cutFraction(rest[1:])
		}
		return t, rest, t.hour < 24 && t.minute < 60 && t.second <= 60
	}
	s = strings.TrimLeft(strings.TrimPrefix(s, "- "), " ")
	if t, rest, ok = cutDaytime(s); ok || basic {
		return t, rest, ok
	}
	return t, s, false
}

// cutZone reads the zone at the end: Z, UTC, GMT, +01:00, +0100, +01, with UTC
// or GMT in front of the offset or not. The name of a zone says too little.
func cutZone(s, rest string, usual *time.Location) (zone *time.Location, zoned bool, err error) {
	text := strings.TrimLeft(rest, " ")
	if text == "" {
		return usual, false, nil
	}
	for _, name := range [...]string{"z", "utc", "gmt"} {
		if after, ok := strings.CutPrefix(text, name); ok {
			if text = strings.TrimLeft(after, " "); text == "" {
				return time.UTC, true, nil
			}
			break
		}
	}
	seconds, ok := offset(text)
	if !ok {
		return nil, false, unreadable(s, "has a zone that is not an offset", "Z, or an offset below 24 hours such as +01:00", "write the offset from UTC, or leave the zone out")
	}
	if seconds == 0 { // -00:00 as well: RFC 3339, 4.3
		return time.UTC, true, nil
	}
	return time.FixedZone("", seconds), true, nil
}

// offset reads +01:00, +0100 or +01, in seconds; s is not empty.
func offset(s string) (seconds int, ok bool) {
	if s[0] != '+' && s[0] != '-' {
		return 0, false
	}
	digits := strings.Replace(s[1:], ":", "", 1)
	if len(s) == 6 && s[3] != ':' || len(digits) != 2 && len(digits) != 4 || strings.Trim(digits, "0123456789") != "" {
		return 0, false
	}
	if len(digits) == 2 {
		digits += "00"
	}
	hours, minutes := atoi(digits[:2]), atoi(digits[2:])
	if seconds = hours*3600 + minutes*60; s[0] == '-' {
		seconds = -seconds
	}
	return seconds, hours < 24 && minutes < 60
}

// moment puts date, time of day and zone together and checks that the result
// can be written again.
func moment(s string, d date, of daytime, zone *time.Location) (time.Time, error) {
	t := d.at(of, zone)
	if before := t.Add(-time.Second).UTC(); of.second == 60 && (before.Hour() != 23 || before.Minute() != 59) {
		return t, unreadable(s, "has a second 60 where none can be", "seconds from 0 to 59", "correct the seconds")
	}
	if _, err := t.MarshalText(); err != nil {
		return t, unreadable(s, "is in a zone that cannot be written", "an offset below 24 hours", "correct the zone")
	}
	return t, nil
}
