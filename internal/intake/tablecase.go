package intake

import (
	"errors"
	"fmt"
	"strings"
	"time"

	"ratchetmark/internal/batch"
	"ratchetmark/internal/record"
	"ratchetmark/internal/wording"
)

// tableCase gathers what the rows of a file say of one machine.
type tableCase struct {
	g            *gatherer
	out          Record
	file         string // of rows that name no machine: where they stand
	sheet        string
	current      int // index of the reading in hand, -1 before the first
	full         bool
	bare         []record.Path // loads without a unit
	ratedUnit    wording.Unit
	unexplained  bool    // rows without a date differ in a column that is not known
	alarms       float64 // of overload, the most that a row counts
	alarmsAt     record.Origin
	rounded      bool        // a load was put at the rated load
	rated        []ratedPeak // peaks in percent of the rated load
	toldOf, told int         // of which lines, and how many of them, it was told

	readings []readingNotes // one for each reading
	byTime   map[int64]int  // index of the reading of a time
	lastText []byte         // of the time read last, with the table it stood in
	lastFrom *sheet
}

// machine takes a value of the machine; the first counts.
func (c *tableCase) machine(f wording.Field, v *cell) {
	m := &c.out.Case.Machine
	at := record.Path("machine").At(string(f))
	if v.blank() {
		return
	}
	if (f == "rated_load_kg" || f == "load_sensing_kg" || f == "mass_kg") && v.bareLoad() {
		c.bare = append(c.bare, at)
	}
	switch f {
	case "kind":
		c.kind(v)
	case "rated_load_kg":
		once(c, v.load(), load, at, &m.RatedLoad)
		c.ratedUnit = edgeUnit(v)
	case "load_sensing_kg":
		once(c, v.load(), load, at, &m.LoadSensing)
	case "mass_kg":
		once(c, v.load(), load, at, &m.Mass)
	case "persons":
		whole(c, v, at, &m.Persons)
	case "in_service":
		if t, ok := c.time(v, at, "a date such as 2026-03-02"); ok && m.InService == nil {
			m.InService = &record.Date{Time: t.Truncate(24 * time.Hour)}
		}
	}
}

func (c *tableCase) kind(v *cell) {
	m := &c.out.Case.Machine
	if m.Kind != "" {
		return
	}
	if k, ok := c.g.kinds.of(v.text, wording.Kind); ok {
		m.Kind = k
		return
	}
	m.Kind = record.Kind(short(v.label(c, "machine/kind")))
	c.out.Origins["machine/kind"] = v.at()
}

// load counts a load that has no unit.
func (v *cell) load() *cell {
	if v.bareLoad() {
		d := &v.s.dialect
		if d.unitless == 0 {
			d.unitlessAt = v.at()
		}
		d.unitless++
	}
	return v
}

// bareLoad reports whether neither the cell nor its heading names a unit. A
// number by type in a column of such is one as well.
func (v *cell) bareLoad() bool { return v.unit == wording.NoUnit && v.bareNumber() }

func (v *cell) bareNumber() bool {
	return !v.blank() && endsInDigit(v.text) && !strings.ContainsAny(v.text, "gbt")
}

func endsInDigit(s string) bool { return isDigit(s[len(s)-1]) }

// time reads a time; ok is false for what is not one, which is noted.
func (c *tableCase) time(v *cell, at record.Path, expected string) (t time.Time, ok bool) {
	if v.blank() {
		return t, false
	}
	t, err := v.time()
	switch {
	case ambiguous(err):
		v.twoWays(c, at, batch.AskDates)
	case err != nil:
		v.unreadable(c, at, expected)
	}
	return t, err == nil
}

const timeExpected = "a time such as 2026-03-02T08:10:00Z"

// value takes a value of a reading; the first counts.
func (c *tableCase) value(f wording.Field, v *cell, r *record.Reading) {
	if v.blank() {
		return
	}
	here := c.readings[c.current].paths.of(f)
	switch f {
	case "powered_h":
		once(c, v, duration, here, &r.Powered)
	case "moving_h":
		once(c, v, duration, here, &r.Moving)
	case "peak_kg":
		switch {
		case v.unit == wording.Percent || strings.HasSuffix(v.text, "%"):
			c.peakPercent(v, here)
			return
		case v.bareLoad():
			c.bare = append(c.bare, here)
		}
		once(c, v.load(), load, here, &r.Peak)
		c.readings[c.current].peakUnit = edgeUnit(v)
		if _, rest, ok := v.loadWithRemark(); ok && r.PeakAt == nil {
			if at, dated := v.timeBeside(rest); dated {
				if t, err := at.time(); err == nil {
					r.PeakAt = &t
				}
			}
		}
	case "peak_at":
		if r.PeakAt != nil {
			return
		}
		if t, ok := c.time(v, here, timeExpected); ok {
			r.PeakAt = &t
		}
	}
}

// at makes the reading of a time the one in hand; a new one if need be. It
// reports false where the row has to be left out.
func (c *tableCase) at(date, clock *cell) bool {
	if c.current >= 0 && c.lastFrom == date.s && string(c.lastText) == date.text && clock.text == "" {
		return true
	}
	t, err := moment(date, clock)
	if err != nil {
		c.undated(date, err)
		return false
	}
	c.lastText, c.lastFrom = c.lastText[:0], nil
	if clock.text == "" {
		c.lastText, c.lastFrom = append(c.lastText, date.text...), date.s
	}
	if i, ok := c.byTime[t.UnixNano()]; ok {
		c.current = i
		return true
	}
	return c.begin(record.Reading{At: t}, date.at())
}

// undated notes a row whose time cannot be read.
func (c *tableCase) undated(date *cell, err error) {
	if ambiguous(err) {
		date.twoWays(c, "readings", batch.AskDates)
		return
	}
	f := record.Finding{
		Code: "row-undated", Severity: record.Blocking, Path: "readings", Where: fmt.Sprintf("row in line %d", date.at().Line),
		Message: "found " + date.shown(), Expected: timeExpected,
		Effect: "the row is left out, and with it the hours of its band", Hint: "correct the time of the reading",
	}
	var why *wording.Unreadable
	if errors.As(err, &why) && why.Fault != "" {
		f.Message, f.Hint = f.Message+", which "+why.Fault, why.Hint
	}
	c.g.find(c, date.at(), f)
}

// begin begins a reading; false where there are too many.
func (c *tableCase) begin(r record.Reading, at record.Origin) bool {
	readings := &c.out.Case.Readings
	if len(*readings) >= maxEntries {
		c.tooMany("readings", at)
		return false
	}
	if *readings == nil {
		*readings, c.readings = make([]record.Reading, 0, c.g.usual), make([]readingNotes, 0, c.g.usual)
	}
	*readings = append(*readings, r)
	c.current = len(*readings) - 1
	c.readings = append(c.readings, readingNotes{at: at, paths: c.g.pathsOf(c.current)})
	if !r.At.IsZero() {
		if c.byTime == nil {
			c.byTime = map[int64]int{}
		}
		c.byTime[r.At.UnixNano()] = c.current
	}
	c.out.Origins[c.readings[c.current].paths.reading] = at
	return true
}

// tooMany says once that entries of a case are left out.
func (c *tableCase) tooMany(what record.Path, at record.Origin) {
	if c.full {
		return
	}
	c.full = true
	c.g.find(c, at, record.Finding{
		Code: "too-many", Severity: record.Blocking, Path: what,
		Message: fmt.Sprintf("more than %d entries", maxEntries), Expected: fmt.Sprintf("at most %d of one machine", maxEntries),
		Effect: "the entries from here on are not read", Hint: "split the record",
	})
}

// reading returns the reading in hand and its path.
func (c *tableCase) reading() (*record.Reading, record.Path) {
	return &c.out.Case.Readings[c.current], c.readings[c.current].paths.reading
}
