package intake

import (
	"strings"
	"time"

	"ratchetmark/internal/record"
	"ratchetmark/internal/wording"
)

// custodyRow takes a row that says who had the machine.
func (s *sheet) custodyRow(cells []string) {
	c := s.caseOf(cells)
	if c == nil {
		return
	}
	list := &c.out.Case.Custody
	at, ok := c.entry(s, "custody", len(*list))
	if !ok {
		return
	}
	var u record.Custody
	u.From = c.timeOr(s.cell(cells, "custody_from"), at.At("from"))
	u.To = c.endOf(s.cell(cells, "custody_to"), at.At("to"))
	u.Who = s.cell(cells, "who").label(c, at.At("who"))
	u.Note = s.cell(cells, "note").label(c, at.At("note"))
	holder := s.cell(cells, "holder")
	if h, known := s.g.holders.of(holder.text, wording.Holder); known && !denies(holder.text) {
		u.Holder = h
	} else {
		u.Holder = record.Holder(holder.label(c, at.At("holder")))
	}
	*list = append(*list, u)
}

// eventRow takes a row that says what the machine logged at a moment.
func (s *sheet) eventRow(cells []string) {
	c := s.caseOf(cells)
	if c == nil {
		return
	}
	list := &c.out.Case.Events
	at, ok := c.entry(s, "events", len(*list))
	if !ok {
		return
	}
	var e record.Event
	e.At = c.momentOr(s, cells, "event_at", at.At("at"))
	e.Note = s.cell(cells, "note").label(c, at.At("note"))
	kind := s.cell(cells, "event_kind")
	if k, known := s.g.events.of(kind.text, wording.EventKind); known {
		e.Kind = k
	} else {
		e.Kind = record.EventKind(kind.label(c, at.At("kind")))
	}
	once(c, s.cell(cells, "event_load_kg").load(), load, at.At("load_kg"), &e.Load)
	*list = append(*list, e)
}

// dailyRow takes a row that says how long the machine was used on a day.
func (s *sheet) dailyRow(cells []string) {
	c := s.caseOf(cells)
	if c == nil {
		return
	}
	list := &c.out.Case.Daily
	at, ok := c.entry(s, "daily", len(*list))
	if !ok {
		return
	}
	var d record.Daily
	d.Date = record.Date{Time: c.day(s.cell(cells, "daily_date"), at.At("date"))}
	once(c, s.cell(cells, "powered_h"), duration, at.At("powered_h"), &d.Powered)
	once(c, s.cell(cells, "moving_h"), duration, at.At("moving_h"), &d.Moving)
	*list = append(*list, d)
}

// entry returns the path of the next entry of a list, and notes where it stands.
func (c *tableCase) entry(s *sheet, list record.Path, n int) (record.Path, bool) {
	if n >= maxEntries {
		c.tooMany(list, s.place(0))
		return "", false
	}
	at := list.At(n + 1)
	c.out.Origins[at] = s.place(0)
	if c.out.Origins[""].Line == 0 {
		c.out.Origins[""] = s.place(0)
	}
	return at, true
}

// timeOr reads a time; zero for a blank and for what is not one, which is noted.
func (c *tableCase) timeOr(v *cell, at record.Path) time.Time {
	t, _ := c.time(v, at, timeExpected)
	return t
}

// denies reports whether a cell says that something is not so.
func denies(text string) bool {
	for _, word := range strings.Fields(strings.ToLower(text)) {
		switch word {
		case "not", "no", "nicht", "kein", "keine", "pas", "non", "sin", "senza", "sans", "ohne", "without":
			return true
		}
	}
	return false
}

// endOf reads the end of a custody entry. A day without a time of day ends when
// the day does: whoever had the machine until that day had it on that day too.
func (c *tableCase) endOf(v *cell, at record.Path) time.Time {
	t := c.timeOr(v, at)
	if t.IsZero() {
		return t
	}
	if _, _, clock, err := wording.Time(v.text, v.s.dialect.dates, v.s.dialect.zone); err == nil && !clock {
		return t.Add(24 * time.Hour)
	}
	return t
}

// momentOr reads a time from one column, or from one for the date and one for the time of day.
func (c *tableCase) momentOr(s *sheet, cells []string, f wording.Field, at record.Path) time.Time {
	v := s.cell(cells, f)
	if v.text == "" {
		v = s.cell(cells, "reading_date")
	}
	t := c.timeOr(v, at)
	clock := s.cell(cells, "reading_time")
	if t.IsZero() || clock.blank() {
		return t
	}
	d, err := wording.Daytime(clock.text)
	if err != nil {
		clock.unreadable(c, at, "a time of day such as 08:10")
	}
	return t.Add(d)
}

// day reads a calendar day: the one written, whatever the zone.
func (c *tableCase) day(v *cell, at record.Path) time.Time {
	zone := v.s.dialect.zone
	bare := v.s.dialect.bare
	v.s.dialect.zone = time.UTC
	t := c.timeOr(v, at)
	v.s.dialect.zone, v.s.dialect.bare = zone, bare
	return time.Date(t.Year(), t.Month(), t.Day(), 0, 0, 0, 0, time.UTC)
}
