package intake

import (
	"fmt"
	"math"
	"strings"

	"ratchetmark/internal/batch"
	"ratchetmark/internal/record"
	"ratchetmark/internal/wording"
)

// readingNotes is what has to be known of a reading until the file is read.
// There is one for each of very many: the small ones stand together.
type readingNotes struct {
	at     record.Origin
	paths  *readingPaths
	s      *sheet  // the bands were read from
	counts string  // what a guide says of them
	step   float64 // of the unit of the edges, in kg
	bands  []bandSpot
	rated  []int // bands, from 0, whose edges are percent of the rated load

	lacks     int32        // bands that could not be read
	unit      wording.Unit // of the edges
	peakUnit  wording.Unit
	said      bool // that bands could not be read
	spoilt    bool // its bands cannot be used
	share     bool // hours are shares of the powered hours
	named     bool // they are said to be percent
	bareTime  bool // hours without a unit
	otherTime bool // hours given in minutes or seconds, cell by cell
	percent   bool // edges are percent of the rated load
	ofRated   bool // those of the band in hand are
	meter     bool // the hours may be the hour meter: their heading is as good for it
	mixed     bool // edges in several units
	unitless  bool // edges without a unit
}

// bandSpot is where the three values of a band stand.
type bandSpot struct{ from, to, hours spot }

// spot is a place within the table that a reading stands in.
type spot struct{ line, column int32 }

// band takes the band of a row: a label, or two edges, and hours. A row without
// any of them has none.
func (c *tableCase) band(s *sheet, r *record.Reading, at record.Path, b *bandCells) {
	if b.label.blank() && b.from.blank() && b.to.blank() && b.hours.blank() {
		return
	}
	if b.label.text != "" && b.from.blank() && b.to.blank() {
		label, err := rowLabel(b.label.text, s.dialect.decimal, b.label.unit)
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
		c.readings[c.current].said = true
	} else {
		v.unreadable(c, here, "a band such as 90-180 kg, under 90 or over 320")
	}
	c.lackBand(v.at(), at)
}

// edges takes a band whose edges stand in cells of their own.
func (c *tableCase) edges(r *record.Reading, at record.Path, b *bandCells) {
	notes := &c.readings[c.current]
	from, hasFrom, ok := c.edge(&b.from, at, r, "from_kg")
	to, hasTo, toOK := c.edge(&b.to, at, r, "to_kg")
	hours, hasHours, hoursOK := c.hours(&b.hours, at, r)
	if !ok || !toOK || !hoursOK || !hasFrom && !hasTo || !hasHours { // without a lower edge it is the lowest band
		c.lackBand(b.from.at(), at)
		return
	}
	out := record.Band{From: record.Kilogram(from), Hours: record.Hour(hours)}
	if hasTo {
		out.To = c.g.loads.of(record.Kilogram(to))
	}
	notes.stepOf(edgeUnit(&b.from))
	notes.ofRated = b.from.unit == wording.Percent || b.to.unit == wording.Percent
	c.keep(r, at, out, notes, &b.from, &b.to, &b.hours)
}

// edgeUnit returns the unit an edge was read in.
func edgeUnit(v *cell) wording.Unit {
	if v.read != wording.NoUnit {
		return v.read
	}
	return v.unit
}

// edge reads one edge; has is false for a blank one, ok for what is no edge.
func (c *tableCase) edge(v *cell, at record.Path, r *record.Reading, member string) (x float64, has, ok bool) {
	if v.blank() {
		return 0, false, true
	}
	if v.unit == wording.Percent {
		return c.percentEdge(v, at, r, member)
	}
	x, err := v.load().number(load)
	if v.bareLoad() {
		c.readings[c.current].unitless = true
	}
	if err != nil {
		c.badBand(v, at, r, member, err, "a number of kg, lb or t")
		return 0, false, false
	}
	return x, true, true
}

// percentEdge reads an edge in percent of the rated load.
func (c *tableCase) percentEdge(v *cell, at record.Path, r *record.Reading, member string) (x float64, has, ok bool) {
	x, err := v.number(portion)
	if err != nil {
		c.badBand(v, at, r, member, err, "a number of percent")
		return 0, false, false
	}
	c.readings[c.current].percent = true
	return 100 * x, true, true
}

// hours reads the hours of a band, or its share of the powered hours.
func (c *tableCase) hours(v *cell, at record.Path, r *record.Reading) (x float64, has, ok bool) {
	if v.blank() {
		return 0, false, true
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
		return 0, false, false
	}
	switch notes := &c.readings[c.current]; {
	case of == portion:
		notes.share = true
		notes.named = notes.named || v.percent || strings.Contains(v.text, "%")
	case v.unit != wording.NoUnit || x == 0:
	case v.read == wording.NoUnit:
		notes.bareTime = true
	case v.read != wording.Hour && v.read != wording.Clock:
		notes.otherTime = true
	}
	return x, true, true
}

// badBand notes a value of a band that cannot be read.
func (c *tableCase) badBand(v *cell, at record.Path, r *record.Reading, member string, err error, expected string) {
	notes := &c.readings[c.current]
	here := at.At("bands").At(len(r.Bands) + int(notes.lacks) + 1).At(member)
	if ambiguous(err) {
		v.twoWays(c, here, batch.AskDecimal)
		notes.said = true
		return
	}
	v.unreadable(c, here, expected)
}

// addBand takes a band with a label that was read.
func (c *tableCase) addBand(s *sheet, r *record.Reading, at record.Path, label *wording.Label, named, v *cell) {
	hours, has, ok := c.hours(v, at, r)
	if !ok || !has {
		c.lackBand(v.at(), at)
		return
	}
	notes := &c.readings[c.current]
	b := record.Band{Hours: record.Hour(hours)}
	if label.From != nil {
		b.From = record.Kilogram(*label.From)
	}
	if label.To != nil {
		b.To = c.g.loads.of(record.Kilogram(*label.To))
	}
	notes.ofRated = label.Unit == wording.Percent
	switch label.Unit {
	case wording.Percent:
		notes.percent = true
	case wording.NoUnit:
		notes.unitless = true
		named.unit = wording.NoUnit
		if d := &s.dialect; d.unitless == 0 {
			d.unitlessAt = named.at()
		}
		s.dialect.unitless++
	}
	c.g.names(label.Unit)
	notes.stepOf(label.Unit)
	c.keep(r, at, b, notes, named, named, v)
}

// stepOf notes the unit in which labels are written, in kg.
func (n *readingNotes) stepOf(u wording.Unit) {
	if n.step != 0 && n.unit == u {
		return
	}
	step := 1.0
	if u.IsLoad() {
		step = u.In(1)
	}
	n.mixed = n.mixed || n.step != 0 && n.step != step
	n.step, n.unit = step, u
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
	if len(r.Bands) > 0 && b.From <= r.Bands[len(r.Bands)-1].From && c.double(r, b, from) {
		return
	}
	c.g.bands++
	if !record.Finite(b.Hours) || !record.Finite(b.From) || b.To != nil && !record.Finite(*b.To) {
		return
	}
	if r.Bands == nil {
		notes.s = from.s
		if g := from.s.guide; g != nil {
			notes.counts = g.Counts
		}
	}
	if r.Bands == nil && c.current > 0 { // as many as the reading before has, most likely
		n := len(c.out.Case.Readings[c.current-1].Bands)
		r.Bands, notes.bands = make([]record.Band, 0, n), make([]bandSpot, 0, n)
	}
	r.Bands = append(r.Bands, b)
	if notes.ofRated {
		notes.rated = append(notes.rated, len(notes.bands))
	}
	notes.bands = append(notes.bands, bandSpot{spotOf(from), spotOf(to), spotOf(hours)})
}

func spotOf(v *cell) spot {
	if v.kept == nil && v.s.spotted != nil {
		return spotAt(v.s.spotted.Spot(v.i))
	}
	at := v.at()
	return spotAt(at.Line, at.Column)
}

func spotAt(line, column int) spot {
	return spot{int32(min(line, math.MaxInt32)), int32(min(column, math.MaxInt32))}
}

// lackBand notes that a band of the reading in hand could not be read. The
// others are sound: their hours are what there was at least.
func (c *tableCase) lackBand(where record.Origin, at record.Path) {
	notes := &c.readings[c.current]
	notes.lacks++
	if notes.spoilt || notes.said {
		return
	}
	notes.said = true
	c.g.find(c, where, record.Finding{
		Code: "bands-incomplete", Severity: record.Blocking, Path: at.At("bands"),
		Message: "at least one band lacks its lower edge or its hours", Expected: "the limits of every band (an upper one for all but the last) and its hours",
		Effect: "that band is left out, the others are used: the true hours may be higher", Hint: "complete the row or the cell that is named",
	})
}

// spoil notes that the bands of the reading in hand cannot be used.
func (c *tableCase) spoil(where record.Origin, at record.Path) {
	c.spoilFor(where, at, "more bands than are kept", "fewer bands in one file")
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
