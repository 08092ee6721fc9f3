package model

import (
	"slices"
	"strings"
	"time"

	"ratchetmark/internal/record"
)

// FormLine is a line of a list as it is typed. What its cells are is told by
// [rows]: custody has holder, from, to, who and note; an event kind, at, load and
// note; a day date, powered and moving hours; a check kind, at, shown, mass, by
// and note; a tie-down over the platform, how known, at and note.
type FormLine [6]string

// Lists are the parts of the form that are lists beside the readings.
var Lists = []Part{OfCustody, OfEvent, OfDay, OfCheck, OfTieDown}

// listWords names the lists for a person.
var listWords = map[Part]string{
	OfCustody: "Who had it", OfEvent: "Alarms and power", OfDay: "Daily use",
	OfCheck: "Checks of the load shown", OfTieDown: "How it was tied down",
}

// Words names a part for a person; empty for one that is not in [Lists].
func (p Part) Words() string { return listWords[p] }

// list returns a list.
func (f *Form) list(part Part) *[]FormLine {
	switch part {
	case OfCustody:
		return &f.Custody
	case OfEvent:
		return &f.Events
	case OfCheck:
		return &f.Checks
	case OfTieDown:
		return &f.TieDowns
	}
	return &f.Daily
}

// fillContext fills the lists with those of a case.
func (f *Form) fillContext(c record.Case) {
	for _, u := range c.Custody {
		f.Custody = append(f.Custody, FormLine{string(u.Holder), timeText(u.From), timeText(u.To), u.Who, u.Note})
	}
	for _, e := range c.Events {
		f.Events = append(f.Events, FormLine{string(e.Kind), timeText(e.At), numberText(e.Load), e.Note})
	}
	for _, d := range c.Daily {
		f.Daily = append(f.Daily, FormLine{dayText(d.Date), numberText(d.Powered), numberText(d.Moving)})
	}
	f.fillTold(c)
}

// dayText writes a date as a date field shows it.
func dayText(d record.Date) string {
	if d.IsZero() {
		return ""
	}
	return d.String()
}

// readContext reads the lists into a case. Lines that were not used are left out.
func (f *Form) readContext(c *record.Case) {
	c.Custody, c.Events, c.Daily, c.Checks, c.TieDowns = nil, nil, nil, nil, nil
	for _, part := range Lists {
		for i, line := range *f.list(part) {
			if line == (FormLine{}) {
				continue
			}
			at := record.Path(part).At(i + 1)
			switch part {
			case OfCustody:
				c.Custody = append(c.Custody, f.custody(at, line))
			case OfEvent:
				c.Events = append(c.Events, f.event(at, line))
			case OfCheck:
				c.Checks = append(c.Checks, f.check(at, line))
			case OfTieDown:
				c.TieDowns = append(c.TieDowns, f.tieDown(at, line))
			default:
				c.Daily = append(c.Daily, f.day(at, line))
			}
		}
	}
}

func (f *Form) custody(at record.Path, u FormLine) record.Custody {
	out := record.Custody{Holder: record.Holder(u[0]), Who: u[3], Note: u[4]}
	out.From, _ = f.time(at.At("from"), u[1])
	out.To, _ = f.time(at.At("to"), u[2])
	if u[0] == "" {
		f.problem(at.At("holder"), "choose hire, transit, depot or workshop, or remove the line")
	}
	return out
}

func (f *Form) event(at record.Path, e FormLine) record.Event {
	out := record.Event{Kind: record.EventKind(e[0]), Load: number[record.Kilogram](f, at.At("load_kg"), e[2]), Note: e[3]}
	out.At = f.needed(at.At("at"), e[1])
	if e[0] == "" {
		f.problem(at.At("kind"), "choose what happened, or remove the line")
	}
	return out
}

func (f *Form) day(at record.Path, d FormLine) record.Daily {
	out := record.Daily{
		Powered: number[record.Hour](f, at.At("powered_h"), d[1]),
		Moving:  number[record.Hour](f, at.At("moving_h"), d[2]),
	}
	if day := f.date(at.At("date"), d[0]); day != nil {
		out.Date = *day
	} else if strings.TrimSpace(d[0]) == "" {
		f.problem(at.At("date"), "the day is missing; enter it or remove the line")
	}
	return out
}

// needed reads a time that a line cannot do without.
func (f *Form) needed(at record.Path, text string) time.Time {
	t, ok := f.time(at, text)
	if !ok && strings.TrimSpace(text) == "" {
		f.problem(at, "the time is missing; enter it or remove the line")
	}
	return t
}

// AddLine adds a line to a list. Custody goes on where the last line ended.
func (m *Model) AddLine(part Part) {
	f := &m.Form
	n := f.Lines(part, 0)
	first := Fields(part, n, 0)[0].ID()
	m.edit(step{what: "add a line to " + lower(part.Words()), back: addID(part), forth: first, part: part, line: n}, func() {
		var line FormLine
		if part == OfCustody && n > 0 {
			line[1] = f.Custody[n-1][2]
		}
		list := f.list(part)
		*list = append(*list, line)
	})
	f.reveal(part, n, false)
	m.host.Show(first)
}

// RemoveLine takes a line off a list.
func (m *Model) RemoveLine(part Part, i int) {
	f := &m.Form
	if i < 0 || i >= f.Lines(part, 0) {
		return
	}
	s := step{what: "remove " + lineWords(part, i), back: Fields(part, i, 0)[0].ID(), forth: addID(part), part: part, line: i}
	m.edit(s, func() {
		list := f.list(part)
		*list = slices.Delete(*list, i, i+1)
	})
}

// lineWords names a line of a list: "line 2 of who had it".
func lineWords(part Part, i int) string {
	return "line " + itoa(i+1) + " of " + lower(part.Words())
}

// addID is the id of the button that adds a line to a list.
func addID(part Part) string { return "add-" + string(part) }

// AddID is the id of the button that adds a line to the list.
func (p Part) AddID() string { return addID(p) }

// lower writes a heading for use within a sentence.
func lower(s string) string { return strings.ToLower(s[:1]) + s[1:] }
