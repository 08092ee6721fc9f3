package intake

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"ratchetmark/internal/record"
)

// settle works out what only the whole case tells: shares of the powered hours,
// edges in percent of the rated load, labels that count whole kilograms.
func (c *tableCase) settle() {
	c.dropUnexplained()
	c.unclear()
	c.settlePeaks()
	c.roundPeaks()
	c.joinLone()
	c.joinMoments()
	c.alike()
	c.openEdges()
	c.dropLacking()
	for i := range c.readings {
		r, n := &c.out.Case.Readings[i], &c.readings[i]
		n.paths = c.g.pathsOf(i)
		if n.percent && !n.spoilt {
			c.scale(r, n)
		}
		if n.share && !n.spoilt {
			c.share(r, n)
		}
		if n.spoilt {
			r.Bands = nil
			continue
		}
		c.sharesOrHours(r, n)
		c.closeEdges(r, n)
		c.roundEdges(r, n)
	}
	c.weighAlarms()
	c.locate()
}

// dropLacking leaves out the bands of a reading that lacks one where another
// reading has bands: what was gained in between cannot be told without it.
func (c *tableCase) dropLacking() {
	banded := 0
	for _, r := range c.out.Case.Readings {
		if len(r.Bands) > 0 {
			banded++
		}
	}
	for i := range c.readings {
		n := &c.readings[i]
		if n.lacks == 0 || n.spoilt || banded < 2 {
			continue
		}
		n.spoilt = true
		at := c.g.pathsOf(i).reading.At("bands")
		for j := range c.out.Findings {
			if f := &c.out.Findings[j]; f.Path == at && f.Code == "bands-incomplete" {
				f.Effect = "the bands of this reading are left out, its peak is still used: the true hours may be higher"
			}
		}
	}
}

// joinLone puts bands without a time to the only reading that has none: a sheet
// of bands beside a sheet with the hour meter and the peak.
func (c *tableCase) joinLone() {
	rs := c.out.Case.Readings
	if len(rs) != 2 {
		return
	}
	bare := slices.IndexFunc(rs, func(r record.Reading) bool {
		return r.At.IsZero() && r.Powered == nil && r.Peak == nil && len(r.Bands) > 0
	})
	if bare < 0 || len(rs[1-bare].Bands) > 0 || c.readings[1-bare].spoilt {
		return
	}
	keep := 1 - bare
	rs[keep].Bands = rs[bare].Bands
	n := c.readings[bare]
	n.at = c.readings[keep].at
	c.out.Case.Readings, c.readings = rs[keep:keep+1:keep+1], []readingNotes{n}
	for path, at := range c.out.Origins {
		if old := string(c.g.pathsOf(keep).reading); keep > 0 && strings.HasPrefix(string(path), old) {
			c.out.Origins[c.g.pathsOf(0).reading+path[len(old):]] = at
		}
	}
}

// scale turns edges in percent into kg.
func (c *tableCase) scale(r *record.Reading, n *readingNotes) {
	rated := c.out.Case.Machine.RatedLoad
	if rated == nil {
		c.lacks(n, "edges-without-rated-load", "edges in percent of the rated load, and no rated load", "the rated load, from the plate", "give the rated load beside the bands")
		return
	}
	for i := range r.Bands {
		b := &r.Bands[i]
		if i < len(n.bands) && !slices.Contains(n.rated, i) {
			continue
		}
		b.From = tidy(b.From * *rated / 100)
		if b.To != nil {
			b.To = record.Of(tidy(*b.To * *rated / 100))
		}
	}
}

// share turns shares of the powered hours into hours.
func (c *tableCase) share(r *record.Reading, n *readingNotes) {
	if r.Powered == nil {
		c.lacks(n, "share-without-hours", "bands in percent of the powered hours, and no powered hours", "the hour meter beside the shares", "give the powered hours of the reading")
		return
	}
	if !c.sharesAddUp(r, n) {
		return
	}
	for i := range r.Bands {
		r.Bands[i].Hours = tidy(r.Bands[i].Hours * *r.Powered)
	}
}

// sharesOrHours doubts hours under edges in percent that add up to 100 though the
// hour meter shows another number: the percent may be those of the hours.
func (c *tableCase) sharesOrHours(r *record.Reading, n *readingNotes) {
	if !n.percent || n.share || len(r.Bands) < 2 || math.Abs(float64(record.Total(r.Bands))-100) > 0.2 {
		return
	}
	if r.Powered != nil && math.Abs(float64(*r.Powered)-100) < 2 {
		return
	}
	if r.Powered == nil {
		c.g.find(c, n.at, record.Finding{
			Code: "shares-or-hours", Severity: record.Doubt, Path: n.paths.reading.At("bands"),
			Message: "under edges in percent the hours add up to 100", Expected: "h or % with the hours",
			Effect: "they are taken as hours; they may be percent of the hours", Hint: "compare them with the machine's screen",
		})
		return
	}
	c.lacks(n, "shares-or-hours", "under edges in percent the hours add up to 100, and the hour meter shows "+record.Number(*r.Powered), "h or % with the hours", "say whether they are hours or percent of the hours")
	r.Bands = nil
}

// sharesAddUp sees what the shares of a reading add up to. What nothing calls
// percent and adds up to 1 are fractions; it reports false where they cannot be used.
func (c *tableCase) sharesAddUp(r *record.Reading, n *readingNotes) bool {
	sum := float64(record.Total(r.Bands)) * 100 // in the numbers that were read
	const expected = "shares that add up to 100 %"
	switch of1 := math.Abs(sum-1) < 0.02; {
	case of1 && !n.named && n.lacks == 0 && record.Sorted(r.Bands)[0].From == 0:
		for i := range r.Bands {
			r.Bands[i].Hours *= 100
		}
		c.g.find(c, n.at, record.Finding{
			Code: "shares-of-one", Severity: record.Note, Path: n.paths.reading.At("bands"),
			Message: "the shares add up to 1", Expected: expected,
			Effect: "they are taken as fractions of the powered hours", Hint: "write them in percent",
		})
	case of1 && n.lacks == 0:
		c.lacks(n, "shares-of-one", "the shares add up to about 1 %", expected, "write the shares in percent; these look like fractions of 1")
		return false
	case !n.named && (sum < 50 || sum > 102):
		c.lacks(n, "shares-unclear", fmt.Sprintf("the shares add up to %s, and nothing says of what", record.Number(sum)), expected, "say whether they are percent or fractions of 1")
		return false
	case sum > 102 || sum < 90 && n.lacks == 0:
		c.g.find(c, n.at, record.Finding{
			Code: "shares-odd", Severity: record.Doubt, Path: n.paths.reading.At("bands"),
			Message: fmt.Sprintf("the shares add up to %s %%", record.Number(tidy(sum))), Expected: expected,
			Effect: "hours are missing, or counted twice", Hint: "compare the shares with the machine's screen",
		})
	}
	return true
}

// lacks notes that the bands of a reading cannot be used without another value.
func (c *tableCase) lacks(n *readingNotes, code, message, expected, hint string) {
	n.spoilt = true
	c.g.find(c, n.at, record.Finding{
		Code: code, Severity: record.Blocking, Path: n.paths.reading.At("bands"),
		Message: message, Expected: expected, Effect: "the bands of this reading are left out; its peak is still used", Hint: hint,
	})
}

// tidy rounds what was multiplied to a millionth: no counter is finer.
func tidy[T ~float64](x T) T { return T(math.Round(float64(x)*1e6) / 1e6) }

// locate notes where in the file the parts stand that a check of the case will name.
func (c *tableCase) locate() {
	if _, ok := c.out.Origins[""]; !ok && len(c.readings) > 0 {
		c.out.Origins[""] = c.readings[0].at
	}
	for i, f := range record.Check(&c.out.Case) {
		if i == maxFindings {
			return
		}
		if _, ok := c.out.Origins[f.Path]; !ok {
			if at, ok := c.bandPlace(f.Path); ok {
				c.out.Origins[f.Path] = at
			}
		}
	}
}

// bandPlace finds where a band, or one of its values, stands.
func (c *tableCase) bandPlace(p record.Path) (record.Origin, bool) {
	steps := strings.Split(string(p), "/")
	if len(steps) < 4 || steps[0] != "readings" || steps[2] != "bands" {
		return record.Origin{}, false
	}
	i, j := number0(steps[1])-1, number0(steps[3])-1
	if i < 0 || i >= len(c.readings) || j < 0 || j >= len(c.readings[i].bands) {
		return record.Origin{}, false
	}
	n := &c.readings[i]
	at := n.bands[j].from
	if len(steps) > 4 {
		switch steps[4] {
		case "to_kg":
			at = n.bands[j].to
		case "hours":
			at = n.bands[j].hours
		}
	}
	o := record.Origin{File: n.at.File, Sheet: n.at.Sheet, Line: int(at.line), Column: int(at.column)}
	if n.at.Cell != "" {
		o.Cell = cellName(o.Line, o.Column)
	}
	return o, true
}

func number0(s string) (n int) {
	for _, d := range []byte(s) {
		if d < '0' || d > '9' || n > 1e6 {
			return 0
		}
		n = 10*n + int(d-'0')
	}
	return n
}

// cellName names a cell of a spreadsheet: row 7, column 2 is B7.
func cellName(row, column int) string {
	name := ""
	for ; column > 0; column = (column - 1) / 26 {
		name = string(rune('A'+(column-1)%26)) + name
	}
	return name + plainNumber(float64(row))
}
