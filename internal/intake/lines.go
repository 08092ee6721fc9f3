package intake

import (
	"fmt"
	"strings"

	"ratchetmark/internal/wording"
)

// line takes a row that names values ("Rated load", "230 kg") or one band and
// its hours; false where it is neither.
func (s *sheet) line(cells []string) bool {
	if !s.isLine(cells) {
		return false
	}
	s.cols, s.layout = nil, nil
	parts, at := s.parts(cells)
	if f, _ := lineField(parts[0]); f != "" {
		s.unheaded = false
	} else {
		s.bandLine(parts, at)
		return true
	}
	for i := 0; i+1 < len(parts); i += 2 {
		f, unit := lineField(parts[i])
		if f == "" {
			break
		}
		if fields, _ := wording.Fields(parts[i]); (candidate{fields: fields}).twofold() {
			f = twofoldField
		}
		where := s.place(at[i+1])
		if strange := strangeUnit(parts[i]); strange != "" && measures([]wording.Field{f}) {
			clean, _ := Visible(fmt.Sprintf("%q", short(parts[i])))
			finding := strangeUnitIn(clean, strange)
			finding.Where = "line " + clean
			s.g.find(nil, where, finding)
			continue
		}
		s.about.hear(s, saying{f, cell{s: s, text: strings.Clone(parts[i+1]), unit: unit, kept: &keptCell{where, strings.Clone(parts[i]), s.isTyped(at[i+1])}}})
	}
	return true
}

// isLine reports whether a row names a value or the hours of a band.
func (s *sheet) isLine(cells []string) bool {
	parts, _ := s.parts(cells)
	if len(parts) < 2 || len(parts[0]) > maxHeading {
		return false
	}
	if f := s.lineField(parts[0]); f != "" {
		if len(parts) == 2 && (f == "machine" || f == "kind") && (filledUpTo(2, cells) == 1 || len(parts[1]) <= 2) {
			return true // a machine can be called by any word
		}
		for i := range parts {
			if i%2 > 0 && len(parts[i]) <= 2 {
				continue // "A" is a word of headings, and a name
			}
			if s.isWords(parts[i]) != (i%2 == 0) {
				return false
			}
		}
		return len(parts)%2 == 0
	}
	return len(parts) == 2 && s.isBandLine(parts) && (!s.unheaded || namesTime(parts[1]))
}

// namesTime reports whether a value names a unit of time.
func namesTime(text string) bool {
	_, unit, err := wording.Quantity(text, wording.Unknown, wording.NoUnit)
	return (err == nil || ambiguous(err)) && unit.IsTime()
}

// isWords reports whether a text is a heading itself: two headings side by side
// are no name and value.
func isWords(text string) bool {
	fields, _ := wording.Fields(text)
	return len(fields) > 0
}

// isWords is isWords of a text that rows may repeat.
func (s *sheet) isWords(text string) bool {
	words, _ := s.words.of(text, func(text string) (bool, bool) { return isWords(text), true })
	return words
}

func (s *sheet) isBandLine(parts []string) bool {
	if !startsNumber(parts[1]) {
		return false
	}
	if _, err := wording.Band(parts[0], s.dialect.decimal, wording.NoUnit); err != nil {
		return false
	}
	_, unit, err := wording.Quantity(parts[1], s.dialect.decimal, wording.Hour)
	return (err == nil || ambiguous(err)) && !unit.IsLoad()
}

// parts returns the cells of a row that are not blank, and where they stand. A
// single cell is divided at its colon; a unit in a cell of its own is put to
// the number before it.
func (s *sheet) parts(cells []string) (parts []string, at []int) {
	for i, c := range cells {
		if c = strings.TrimSpace(c); c == "" {
			continue
		}
		if n := len(parts); n == 2 && startsNumber(parts[1]) && isUnit(c) {
			parts[1] += " " + c
			continue
		}
		parts, at = append(parts, c), append(at, i)
		if len(parts) > 16 {
			return nil, nil
		}
	}
	if len(parts) == 1 {
		key, value, ok := cutLine(parts[0])
		if !ok {
			return nil, nil
		}
		return []string{key, value}, []int{at[0], at[0]}
	}
	for i := 0; i < len(parts); i += 2 {
		parts[i] = strings.TrimSpace(strings.TrimRight(parts[i], ":="))
	}
	return parts, at
}

func isUnit(s string) bool {
	_, unit := wording.HeadingUnit("x [" + s + "]")
	return unit != wording.NoUnit
}

// cutLine divides "Rated load: 230 kg" or "peak = 812".
func cutLine(text string) (key, value string, ok bool) {
	for _, mark := range []string{": ", "\t", " = ", ":", "=", ","} {
		if key, value, ok = strings.Cut(text, mark); ok {
			key, value = strings.TrimSpace(key), strings.TrimSpace(value)
			if mark == "," && value != "" && !startsNumber(value) && strings.Contains(value, " ") {
				return "", "", false // a sentence
			}
			return key, value, key != "" && value != ""
		}
	}
	return cutByWords(text)
}

// cutByWords divides a name from its value where nothing but a blank or dots
// stand between: "Rated load 250 kg", "Peak load ...... 320 kg".
func cutByWords(text string) (key, value string, ok bool) {
	if i := strings.Index(text, "..."); i > 0 {
		key, value = strings.TrimSpace(text[:i]), strings.TrimLeft(text[i:], ". ")
		return key, value, value != ""
	}
	words := strings.Fields(text)
	if len(words) < 2 || len(words) > 8 || len(text) > maxHeading {
		return "", "", false
	}
	for n := len(words) - 1; n > 0; n-- {
		key, value = strings.Join(words[:n], " "), strings.Join(words[n:], " ")
		if !startsNumber(value) {
			continue
		}
		if _, unit, err := wording.Quantity(value, wording.Unknown, wording.NoUnit); err != nil || unit == wording.NoUnit {
			continue
		}
		if f, _ := lineField(key); f != "" {
			return key, value, true
		}
		if _, err := wording.Band(key, wording.Unknown, wording.NoUnit); err == nil && n < len(words)-1 {
			return key, value, true
		}
	}
	if f, _ := lineField(words[0]); len(words) == 2 && f == "machine" && strings.ContainsAny(words[1], "0123456789") {
		return words[0], words[1], true
	}
	return "", "", false
}

// lineField returns what the name of a value means in a line; empty for nothing.
func lineField(name string) (wording.Field, wording.Unit) {
	if len(name) > maxHeading {
		return "", wording.NoUnit
	}
	fields, unit := wording.Fields(name)
	for _, f := range fields {
		for _, list := range [][]wording.Field{machineFields, readingFields} {
			for _, g := range list {
				if f == g {
					return f, unit
				}
			}
		}
	}
	return "", wording.NoUnit
}

// lineField returns what the name of a value means in a line, as one looks it up
// row by row.
func (s *sheet) lineField(name string) wording.Field {
	f, _ := s.names.of(name, func(name string) (wording.Field, bool) {
		f, _ := lineField(name)
		return f, f != ""
	})
	return f
}
