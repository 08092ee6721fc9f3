package intake

import (
	"fmt"
	"slices"

	"ratchetmark/internal/record"
)

// tableCase gathers the rows of one machine.
type tableCase struct {
	t       *tableReader
	out     Record
	order   int   // in the file
	current int   // index of the reading in hand, -1 before the first
	spoilt  []int // indices of readings whose bands cannot be used
	full    bool  // readings were left out, and it was said
}

// machine takes the machine's own cells of a row; the first value counts.
func (c *tableCase) machine(cells []string) {
	m := &c.out.Case.Machine
	if kind, _ := Visible(short(c.t.cell(cells, "kind"))); kind != "" && m.Kind == "" {
		m.Kind = record.Kind(kind)
	}
	once(c, cells, "rated_load_kg", "machine/rated_load_kg", &m.RatedLoad)
	once(c, cells, "load_sensing_kg", "machine/load_sensing_kg", &m.LoadSensing)
	var persons *float64
	if m.Persons != nil {
		persons = record.Of(float64(*m.Persons))
	}
	once(c, cells, "persons", "machine/persons", &persons)
	if persons != nil {
		if *persons != float64(int32(*persons)) {
			c.unreadable(cells, "persons", "machine/persons", fmt.Sprintf("%q", c.t.cell(cells, "persons")), "a whole number")
			return
		}
		m.Persons = record.Of(int(*persons))
	}
}

// reading takes the reading's cells of a row, and its band.
func (c *tableCase) reading(cells []string) {
	r, at := c.readingOf(cells)
	if r == nil {
		return
	}
	once(c, cells, "powered_h", at.At("powered_h"), &r.Powered)
	once(c, cells, "moving_h", at.At("moving_h"), &r.Moving)
	once(c, cells, "peak_kg", at.At("peak_kg"), &r.Peak)
	if text := c.t.cell(cells, "peak_at"); text != "" && r.PeakAt == nil {
		if t, err := ParseTime(text); err != nil {
			c.unreadable(cells, "peak_at", at.At("peak_at"), fmt.Sprintf("%q", short(text)), "a time such as 2026-03-02T08:10:00Z")
		} else {
			r.PeakAt = &t
		}
	}
	c.band(cells, r, at)
}

// readingOf returns the reading a row belongs to.
func (c *tableCase) readingOf(cells []string) (*record.Reading, record.Path) {
	readings := &c.out.Case.Readings
	text := c.t.cell(cells, "reading_at")
	if text == "" {
		if c.current < 0 {
			c.begin(record.Reading{}, cells)
		}
		return &(*readings)[c.current], pathOf(c.current)
	}
	at, err := ParseTime(text)
	if err != nil {
		clean, _ := Visible(fmt.Sprintf("found %q", short(text)))
		c.t.find(c, c.t.place(cells, "reading_at"), record.Finding{
			Code: "row-undated", Severity: record.Blocking, Path: "readings", Where: fmt.Sprintf("row in line %d", c.t.place(cells, "reading_at").Line),
			Message: clean, Expected: "a time such as 2026-03-02T08:10:00Z",
			Effect: "the row is left out, and with it the hours of its band", Hint: "correct the time of the reading",
		})
		return nil, ""
	}
	if i := slices.IndexFunc(*readings, func(r record.Reading) bool { return r.At.Equal(at) && !r.At.IsZero() }); i >= 0 {
		c.current = i
	} else if len(*readings) == maxEntries {
		if c.full {
			return nil, ""
		}
		c.full = true
		c.t.find(c, c.t.place(cells, "reading_at"), record.Finding{
			Code: "too-many", Severity: record.Blocking, Path: "readings",
			Message: fmt.Sprintf("more than %d readings", maxEntries), Expected: "fewer readings of one machine",
			Effect: "the readings from here on are not read", Hint: "split the record",
		})
		return nil, ""
	} else {
		c.begin(record.Reading{At: at}, cells)
	}
	return &(*readings)[c.current], pathOf(c.current)
}

func (c *tableCase) begin(r record.Reading, cells []string) {
	c.out.Case.Readings = append(c.out.Case.Readings, r)
	c.current = len(c.out.Case.Readings) - 1
	c.out.Origins[pathOf(c.current)] = c.t.place(cells, "reading_at")
}

func pathOf(reading int) record.Path { return record.Path("readings").At(reading + 1) }

// band takes the band of a row. A row without edges and hours has none.
func (c *tableCase) band(cells []string, r *record.Reading, at record.Path) {
	texts := []string{c.t.cell(cells, "from_kg"), c.t.cell(cells, "to_kg"), c.t.cell(cells, "hours")}
	if texts[0] == "" && texts[1] == "" && texts[2] == "" {
		return
	}
	here := at.At("bands").At(len(r.Bands) + 1)
	c.out.Origins[here] = c.t.place(cells, "from_kg")
	var from *record.Kilogram
	var b record.Band
	var hours *record.Hour
	ok := once(c, cells, "from_kg", here.At("from_kg"), &from)
	ok = once(c, cells, "to_kg", here.At("to_kg"), &b.To) && ok
	ok = once(c, cells, "hours", here.At("hours"), &hours) && ok
	full := len(r.Bands) >= maxBands
	if !ok || from == nil || hours == nil || full {
		c.spoil(cells, at, full)
		return
	}
	b.From, b.Hours = *from, *hours
	r.Bands = append(r.Bands, b)
}

// spoil notes that the bands of the reading in hand cannot be used.
func (c *tableCase) spoil(cells []string, at record.Path, full bool) {
	if slices.Contains(c.spoilt, c.current) {
		return
	}
	c.spoilt = append(c.spoilt, c.current)
	f := record.Finding{
		Code: "bands-incomplete", Severity: record.Blocking, Path: at.At("bands"),
		Message: "at least one band lacks its lower edge or its hours", Expected: "from_kg, to_kg (blank for the open band) and hours in every row",
		Effect: "the bands of this reading are left out; its peak is still used", Hint: "complete the row that is named",
	}
	if full {
		f.Message, f.Expected = fmt.Sprintf("more than %d bands in one reading", maxBands), "fewer bands"
	}
	c.t.find(c, c.t.place(cells, "from_kg"), f)
}

// drop leaves out the bands that cannot be used.
func (c *tableCase) drop() {
	for _, i := range c.spoilt {
		c.out.Case.Readings[i].Bands = nil
	}
}

// once reads a number cell into a value that is not set yet. A blank cell
// leaves it; a different second value is noted and the first stays. It reports
// whether the cell could be read.
func once[T ~float64](c *tableCase, cells []string, column string, at record.Path, to **T) bool {
	text := c.t.cell(cells, column)
	if text == "" {
		return true
	}
	x, err := ParseNumber(text)
	switch {
	case err == ErrAmbiguous:
		c.t.find(c, c.t.place(cells, column), record.Finding{
			Code: "number-ambiguous", Severity: record.Blocking, Path: at,
			Message: fmt.Sprintf("%q can be read two ways", text), Expected: "no mark for thousands, and not exactly three decimals",
			Effect: "the value is taken as missing; it is not guessed", Hint: "write it without the mark, or with one decimal more or less",
		})
		return false
	case err != nil:
		c.unreadable(cells, column, at, fmt.Sprintf("%q", short(text)), "a number")
		return false
	case *to == nil:
		*to = record.Of(T(x))
		c.out.Origins[at] = c.t.place(cells, column)
	case **to != T(x):
		c.t.find(c, c.t.place(cells, column), record.Finding{
			Code: "value-differs", Severity: record.Doubt, Path: at,
			Message: fmt.Sprintf("%s here, %s in a row above", record.Number(x), record.Number(**to)), Expected: "one value for the machine or the reading",
			Effect: "the first value is used", Hint: "correct one of the two",
		})
	}
	return true
}

func (c *tableCase) unreadable(cells []string, column string, at record.Path, found, expected string) {
	clean, _ := Visible(found)
	c.t.find(c, c.t.place(cells, column), unreadable(at, clean, expected))
}
