package intake

import (
	"slices"

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
