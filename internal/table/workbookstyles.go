package table

import (
	"strconv"
	"strings"
)

// numberFormat is how a cell shows its number, as far as it changes what the
// number means.
type numberFormat uint8

const (
	formatPlain   numberFormat = iota
	formatPercent              // 0.125 is 12.5 %
	formatDate                 // days since the epoch; the day alone is shown
	formatMoment               // a day and a time
	formatClock                // a time of day, hours and minutes
	formatSeconds              // a time of day with seconds
	formatHours                // hours and minutes that have gone by: [h]:mm
	formatHoursSeconds
)

// builtIn are the number formats that files name by number alone: ECMA-376 part
// 1, 18.8.30, from memory. Those of 27 to 58 depend on the language of the
// program; some are dates in one and times in another, which the number tells.
var builtIn = []struct {
	from, to int
	format   numberFormat
}{
	{9, 10, formatPercent},
	{14, 17, formatDate},
	{18, 18, formatClock},
	{19, 19, formatSeconds},
	{20, 20, formatClock},
	{21, 21, formatSeconds},
	{22, 22, formatMoment},
	{27, 31, formatDate},
	{32, 32, formatClock},
	{33, 33, formatSeconds},
	{34, 36, formatDate},
	{45, 45, formatSeconds},
	{46, 46, formatHoursSeconds},
	{47, 47, formatSeconds},
	{50, 58, formatDate},
}

// styles gathers the formats of a styles part (ECMA-376 part 1, 18.8).
type styles struct {
	own     map[int]numberFormat
	behind  map[int]string // what a format shows behind the number
	cells   []numberFormat
	suffix  []string // by style of a cell, as far as there are any
	section string   // the list that is being read
}

// read takes a token of the part.
func (s *styles) read(m *markup, t token) error {
	switch name := string(m.name); {
	case t == tokenText:
	case name == "numFmts" || name == "cellXfs":
		if s.section = ""; t == tokenOpen {
			s.section = name
		}
	case t == tokenOpen && name == "numFmt" && s.section == "numFmts":
		if s.own == nil {
			s.own = map[int]numberFormat{}
		}
		if id, err := strconv.Atoi(string(m.attr("numFmtId"))); err == nil {
			code := string(m.attr("formatCode"))
			s.own[id] = formatOf(code)
			if text := shownBehind(code); text != "" && s.own[id] == formatPlain {
				if s.behind == nil {
					s.behind = map[int]string{}
				}
				s.behind[id] = text
			}
		}
	case t == tokenOpen && name == "xf" && s.section == "cellXfs":
		id, _ := strconv.Atoi(string(m.attr("numFmtId")))
		if text := s.behind[id]; text != "" {
			for len(s.suffix) < len(s.cells) {
				s.suffix = append(s.suffix, "")
			}
			s.suffix = append(s.suffix, text)
		}
		s.cells = append(s.cells, s.byID(id))
	}
	return nil
}

func (s *styles) byID(id int) numberFormat {
	if f, ok := s.own[id]; ok {
		return f
	}
	for _, b := range builtIn {
		if id >= b.from && id <= b.to {
			return b.format
		}
	}
	return formatPlain
}

// formatOf tells from its code what a format shows: ECMA-376 part 1, 18.8.31.
// The first section counts, that of positive numbers.
func formatOf(code string) numberFormat {
	marks, elapsed := formatMarks(strings.ToLower(code))
	has := func(chars string) bool { return strings.ContainsAny(marks, chars) }
	clock, digits := has("hs") || elapsed, has("0#?")
	switch {
	case has("%"):
		return formatPercent
	case has("yd") && clock:
		return formatMoment
	case has("yd"), has("m") && !clock && !digits:
		return formatDate
	case elapsed && has("s"):
		return formatHoursSeconds
	case elapsed:
		return formatHours
	case has("s"):
		return formatSeconds
	case clock:
		return formatClock
	}
	return formatPlain
}

// formatMarks returns the marks of a format's first section that stand for
// something, without what is shown as it is, colours, languages and conditions;
// elapsed tells that hours, minutes or seconds count on beyond the clock.
func formatMarks(code string) (marks string, elapsed bool) {
	var out strings.Builder
	for i := 0; i < len(code); i++ {
		switch c := code[i]; c {
		case ';':
			return out.String(), elapsed
		case '\\', '_', '*':
			i++ // the next stands for itself, for its width, for filling
		case '"', '[':
			end := strings.IndexByte(code[i+1:], map[byte]byte{'"': '"', '[': ']'}[c])
			if end < 0 {
				return out.String(), elapsed
			}
			if inner := code[i+1 : i+1+end]; c == '[' && inner != "" && strings.Trim(inner, inner[:1]) == "" && strings.ContainsAny(inner, "hms") {
				elapsed = true
				if inner[0] == 's' {
					out.WriteByte('s')
				}
			}
			i += end + 1
		default:
			out.WriteByte(c)
		}
	}
	return out.String(), elapsed
}

// shownBehind returns the words a format shows behind the number, as the unit in
// 0" lb": who reads the sheet reads it with the number. Only letters and a
// percent sign count; empty for none.
func shownBehind(code string) string {
	var out strings.Builder
	for i := 0; i < len(code); i++ {
		switch c := code[i]; c {
		case ';':
			return unitShown(out.String())
		case '0', '#', '?':
			out.Reset()
		case '\\':
			if i++; i < len(code) {
				out.WriteByte(code[i])
			}
		case '_', '*':
			i++
		case '[', '"':
			end := strings.IndexByte(code[i+1:], map[byte]byte{'"': '"', '[': ']'}[c])
			if end < 0 {
				return ""
			}
			if c == '"' {
				out.WriteString(code[i+1 : i+1+end])
			}
			i += end + 1
		}
	}
	return unitShown(out.String())
}

func unitShown(text string) string {
	text = strings.TrimSpace(text)
	if len(text) > 20 || strings.Trim(text, "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ%.") != "" || strings.Trim(text, ".") == "" {
		return ""
	}
	return text
}
