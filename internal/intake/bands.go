package intake

import (
	"fmt"
	"math"

	"ratchetmark/internal/batch"
	"ratchetmark/internal/record"
	"ratchetmark/internal/wording"
)

// readingNotes is what has to be known of a reading until the file is read.
type readingNotes struct {
	at      record.Origin
	name    record.Path
	spoilt  bool // its bands cannot be used
	share   bool // hours are shares of the powered hours
	percent bool // edges are percent of the rated load
	step    float64
	mixed   bool // edges in several units
	bands   []bandSpot
}

// bandSpot is where the three values of a band stand.
type bandSpot struct{ from, to, hours spot }

// spot is a place within the table that a reading stands in.
type spot struct{ line, column int32 }

func (n *readingNotes) path(i int) record.Path {
	if n.name == "" {
		n.name = pathOf(i)
	}
	return n.name
}

// band takes the band of a row: a label, or two edges, and hours. A row without
// any of them has none.
func (c *tableCase) band(s *sheet, r *record.Reading, at record.Path, b *bandCells) {
	if b.label.blank() && b.from.blank() && b.to.blank() && b.hours.blank() {
		return
	}
	if b.label.text != "" && b.from.blank() && b.to.blank() {
		label, err := wording.Band(b.label.text, s.dialect.decimal, b.label.unit)
		if err != nil {
			c.unreadableLabel(&b.label, at, err)
			return
		}
		c.addBand(s, r, at, &label, &b.label, &b.hours)
		return
	}
	c.edges(r, at, b)
}

func (c *tableCase) unreadableLabel(v *cell, at record.Path, err error) {
	here := at.At("bands")
	if ambiguous(err) {
		v.twoWays(c, here, batch.AskDecimal)
	} else {
		v.unreadable(c, here, "a band such as 90-180 kg, under 90 or over 320")
	}
	c.spoil(v.at(), at)
}

// edges takes a band whose edges stand in cells of their own.
func (c *tableCase) edges(r *record.Reading, at record.Path, b *bandCells) {
	notes := &c.readings[c.current]
	var from *record.Kilogram
	var out record.Band
	ok := c.edge(&b.from, at, r, "from_kg", &from)
	ok = c.edge(&b.to, at, r, "to_kg", &out.To) && ok
	hours, hoursOK := c.hours(&b.hours, at, r)
	if !ok || !hoursOK || from == nil || hours == nil {
		c.spoil(b.from.at(), at)
		return
	}
	out.From, out.Hours = *from, *hours
	c.keep(r, at, out, notes, &b.from, &b.to, &b.hours)
}

// edge reads one edge; a blank one is left nil.
func (c *tableCase) edge(v *cell, at record.Path, r *record.Reading, member string, to **record.Kilogram) bool {
	if v.blank() {
		return true
	}
	if v.unit == wording.Percent {
		return c.percentEdge(v, at, r, member, to)
	}
	x, err := v.load().number(load)
	if err != nil {
		c.badBand(v, at, r, member, err, "a number of kg, lb or t")
		return false
	}
	*to = record.Of(record.Kilogram(x))
	return true
}

// percentEdge reads an edge in percent of the rated load.
func (c *tableCase) percentEdge(v *cell, at record.Path, r *record.Reading, member string, to **record.Kilogram) bool {
	x, err := v.number(portion)
	if err != nil {
		c.badBand(v, at, r, member, err, "a number of percent")
		return false
	}
	c.readings[c.current].percent = true
	*to = record.Of(record.Kilogram(100 * x))
	return true
}

// hours reads the hours of a band, or its share of the powered hours.
func (c *tableCase) hours(v *cell, at record.Path, r *record.Reading) (*record.Hour, bool) {
	if v.blank() {
		return nil, true
	}
	of := duration
	if v.unit == wording.Percent {
		of = portion
	}
	x, err := v.number(of)
	if err == errUnit && of == duration {
		if y, err2 := v.number(portion); err2 == nil {
			x, err, of = y, nil, portion
		}
	}
	if err != nil {
		c.badBand(v, at, r, "hours", err, dimensionWords[of])
		return nil, false
	}
	if of == portion {
		c.readings[c.current].share = true
	}
	return record.Of(record.Hour(x)), true
}

// badBand notes a value of a band that cannot be read.
func (c *tableCase) badBand(v *cell, at record.Path, r *record.Reading, member string, err error, expected string) {
	here := at.At("bands").At(len(r.Bands) + 1).At(member)
	if ambiguous(err) {
		v.twoWays(c, here, batch.AskDecimal)
		return
	}
	v.unreadable(c, here, expected)
}

// addBand takes a band with a label that was read.
func (c *tableCase) addBand(s *sheet, r *record.Reading, at record.Path, label *wording.Label, named, v *cell) {
	hours, ok := c.hours(v, at, r)
	if !ok || hours == nil {
		c.spoil(v.at(), at)
		return
	}
	notes := &c.readings[c.current]
	b := record.Band{Hours: *hours}
	if label.From != nil {
		b.From = record.Kilogram(*label.From)
	}
	if label.To != nil {
		b.To = record.Of(record.Kilogram(*label.To))
	}
	switch label.Unit {
	case wording.Percent:
		notes.percent = true
	case wording.NoUnit:
		named.unit = wording.NoUnit
		if d := &s.dialect; d.unitless == 0 {
			d.unitlessAt = named.at()
		}
		s.dialect.unitless++
	}
	notes.stepOf(label.Unit)
	c.keep(r, at, b, notes, named, named, v)
}

// stepOf notes the unit in which labels are written, in kg.
func (n *readingNotes) stepOf(u wording.Unit) {
	step := 1.0
	if u == wording.Pound {
		step = wording.Pound.In(1)
	}
	n.mixed = n.mixed || n.step != 0 && n.step != step
	n.step = step
}

// keep appends a band to its reading.
func (c *tableCase) keep(r *record.Reading, at record.Path, b record.Band, notes *readingNotes, from, to, hours *cell) {
	switch {
	case len(r.Bands) >= maxBands:
		c.spoilFor(from.at(), at, fmt.Sprintf("more than %d bands in one reading", maxBands), "fewer bands")
		return
	case c.g.bands >= maxKept:
		c.g.stop(from.at(), "bands", maxKept)
		c.spoil(from.at(), at)
		return
	}
	c.g.bands++
	if !record.Finite(b.Hours) || !record.Finite(b.From) || b.To != nil && !record.Finite(*b.To) {
		return
	}
	r.Bands = append(r.Bands, b)
	notes.bands = append(notes.bands, bandSpot{spotOf(from), spotOf(to), spotOf(hours)})
}

func spotOf(v *cell) spot {
	at := v.at()
	return spot{int32(min(at.Line, math.MaxInt32)), int32(min(at.Column, math.MaxInt32))}
}

// spoil notes that the bands of the reading in hand cannot be used.
func (c *tableCase) spoil(where record.Origin, at record.Path) {
	c.spoilFor(where, at, "at least one band lacks its lower edge or its hours", "from_kg, to_kg (blank for the open band) and hours in every row")
}

func (c *tableCase) spoilFor(where record.Origin, at record.Path, message, expected string) {
	notes := &c.readings[c.current]
	if notes.spoilt {
		return
	}
	notes.spoilt = true
	c.g.find(c, where, record.Finding{
		Code: "bands-incomplete", Severity: record.Blocking, Path: at.At("bands"),
		Message: message, Expected: expected,
		Effect: "the bands of this reading are left out; its peak is still used", Hint: "complete the row that is named",
	})
}
