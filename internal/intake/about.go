package intake

import (
	"fmt"
	"slices"
	"strings"

	"ratchetmark/internal/record"
	"ratchetmark/internal/wording"
)

// about is what the lines of a sheet say of the machine and the reading that
// the rows below them belong to.
type about struct {
	number  int // tells it from others of the file
	id      string
	named   bool
	machine []saying // values of the machine
	reading []saying // values of one reading
	c       *tableCase
	r       int      // index of the reading in c, from 1; 0: none yet
	dated   bool     // the time of reading was read, or cannot be
	given   int      // how many of reading it has
	unsure  []saying // of the rated load or the peak
	heard   bool     // something was said since the last flush
}

// about begins to hear of another machine.
func (g *gatherer) about() about {
	g.abouts++
	return about{number: g.abouts}
}

// saying is one value named in a line.
type saying struct {
	field wording.Field
	cell  cell
}

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

func ofMachine(f wording.Field) bool {
	for _, g := range machineFields {
		if f == g {
			return true
		}
	}
	return false
}

// hear takes in a saying. A second machine, or a second time of reading, begins anew.
func (a *about) hear(s *sheet, v saying) {
	switch {
	case v.field == "machine" && a.named && a.c == nil && len(a.machine)+len(a.reading)+len(a.unsure) == 0:
		s.g.find(nil, v.cell.at(), record.Finding{ // a name and a serial number, one below the other
			Code: "name-second", Severity: record.Note, Where: "machine",
			Message: "a second name for the machine: " + v.cell.shown(), Expected: "one name",
			Effect: "the first is used", Hint: "keep both in one line if both matter",
		})
	case v.field == "machine":
		if a.named {
			a.flush(s)
			*a = s.g.about()
		}
		a.named, a.id = true, v.cell.label(nil, "machine/id")
		a.call(s)
	case v.field == twofoldField:
		a.unsure = append(a.unsure, v)
	case ofMachine(v.field):
		a.machine = append(a.machine, v)
	default:
		if a.says(v.field) {
			a.flush(s)
			a.reading, a.r, a.given, a.dated = nil, 0, 0, false
		}
		a.reading = append(a.reading, v)
	}
	a.heard = true
}

// call gives the case that was begun without a name the name it has.
func (a *about) call(s *sheet) {
	if a.c == nil || a.id == "" || a.c.out.Case.Machine.ID != "" {
		return
	}
	if s.g.byID[foldID(a.id)] != nil {
		return // it is told apart by its sheet; what follows goes to the one with the name
	}
	a.c.out.Case.Machine.ID = a.id
	s.g.byID[foldID(a.id)] = a.c
}

// twofoldField is the field of a line that may say the rated load or the peak.
const twofoldField wording.Field = "rated_load_kg or peak_kg"

// other returns which of the two loads is still unsaid where the lines say one
// of them; empty where they say neither or both.
func (a *about) other() wording.Field {
	rated := slices.ContainsFunc(a.machine, func(v saying) bool { return v.field == "rated_load_kg" })
	switch peak := a.says("peak_kg"); {
	case rated && !peak:
		return "peak_kg"
	case peak && !rated:
		return "rated_load_kg"
	}
	return ""
}

// settle gives the lines that may say either load their sense, once the others
// have been heard.
func (a *about) settle(s *sheet) {
	for _, v := range a.unsure {
		switch v.field = a.other(); {
		case v.field == "":
			s.g.find(nil, v.cell.at(), loadTwofold(v.cell.head()))
		case ofMachine(v.field):
			a.machine = append(a.machine, v)
		default:
			a.reading = append(a.reading, v)
		}
	}
	a.unsure = nil
}

func (a *about) says(f wording.Field) bool {
	for _, v := range a.reading {
		if v.field == f {
			return true
		}
	}
	return false
}

// table is to be called where a table begins: a reading made of lines above an
// earlier table is not the one below.
func (a *about) table() { a.heard = a.heard || a.r == 0 && len(a.reading) > 0 }

// caseOf returns the case of the machine the lines are about.
func (a *about) caseOf(s *sheet) *tableCase {
	if a.c == nil {
		if a.named && a.id != "" {
			a.c = s.g.named(a.id)
		} else {
			a.c = s.g.unnamed(s.t.File, s.t.Name)
		}
	}
	if a.c == nil {
		s.g.stop(s.place(0), "machines", maxMachines)
		return nil
	}
	s.g.last = a.c
	a.settle(s)
	a.tell(a.c)
	return a.c
}

// tell gives a case what the lines say of the machine.
func (a *about) tell(c *tableCase) {
	if a.machine == nil {
		return
	}
	if c.toldOf != a.number {
		c.toldOf, c.told = a.number, 0
	}
	for ; c.told < len(a.machine); c.told++ {
		c.machine(a.machine[c.told].field, &a.machine[c.told].cell)
	}
}

// readingOf returns the reading the lines are about.
func (a *about) readingOf(s *sheet, c *tableCase) (*record.Reading, record.Path) {
	if a.r > 0 && a.c == c {
		c.current = a.r - 1
		return a.give(c)
	}
	var date, clock cell
	for _, v := range a.reading {
		switch v.field {
		case "reading_at", "reading_date":
			date = v.cell
		case "reading_time":
			clock = v.cell
		}
	}
	switch {
	case date.s != nil:
		if !c.at(&date, &clock) && !c.begin(record.Reading{}, date.at()) { // what is below it is kept without its time
			return nil, ""
		}
		a.dated = true
	case len(a.reading) > 0 || c.current < 0:
		if !c.begin(record.Reading{}, s.place(0)) {
			return nil, ""
		}
	}
	if a.c == c {
		a.r = c.current + 1
	}
	return a.give(c)
}

// give gives the reading in hand what the lines say of it and it has not yet.
func (a *about) give(c *tableCase) (*record.Reading, record.Path) {
	r, at := c.reading()
	for ; a.given < len(a.reading); a.given++ {
		v := &a.reading[a.given]
		if (v.field == "reading_at" || v.field == "reading_date") && r.At.IsZero() && !a.dated {
			if t, ok := c.time(&v.cell, at.At("at"), timeExpected); ok {
				r.At = t
			}
			continue
		}
		c.value(v.field, &v.cell, r)
	}
	return r, at
}

// flush gives away what was said and has found no row to go with.
func (a *about) flush(s *sheet) {
	if !a.heard {
		return
	}
	a.heard = false
	if c := a.caseOf(s); c != nil && a.given < len(a.reading) {
		a.readingOf(s, c)
	}
}

// bandLine takes a line that names a band and its hours.
func (s *sheet) bandLine(parts []string, at []int) {
	c := s.about.caseOf(s)
	if c == nil {
		return
	}
	r, path := s.about.readingOf(s, c)
	if r == nil {
		return
	}
	label := cell{s: s, text: parts[0], kept: &keptCell{s.place(at[0]), parts[0], s.isTyped(at[0])}}
	hours := cell{s: s, text: parts[1], unit: wording.Hour, kept: &keptCell{s.place(at[1]), parts[0], s.isTyped(at[1])}}
	if _, unit, err := wording.Quantity(parts[1], s.dialect.decimal, wording.Hour); err == nil && unit == wording.Percent {
		hours.unit = wording.Percent
	}
	c.band(s, r, path, &bandCells{label: label, hours: hours})
}
