package intake

import (
	"ratchetmark/internal/record"
)

// double reports whether a band stands in its reading already, with the same
// hours: it counts once. One with other hours is for the check of the case.
func (c *tableCase) double(r *record.Reading, b record.Band, at *cell) bool {
	for _, o := range r.Bands {
		if o.SameEdges(b) && o.Hours == b.Hours {
			c.sayTwice(at.at(), c.readings[c.current].paths.reading.At("bands"))
			return true
		}
	}
	return false
}

// rowTwice reports whether a row with a column for each band repeats the row of
// the same machine and time before it.
func (s *sheet) rowTwice(c *tableCase, r *record.Reading, cells []string) bool {
	if len(s.plan.bands) != len(r.Bands) {
		return false
	}
	for k, i := range s.plan.bands {
		v := s.cellAt(cells, i)
		if x, err := v.number(duration); err != nil || record.Hour(x) != r.Bands[k].Hours {
			return false
		}
	}
	for _, i := range s.plan.ofReading {
		v := s.cellAt(cells, i)
		if s.cols[i].Field != "peak_kg" || v.blank() || r.Peak == nil {
			continue
		}
		if x, err := v.number(load); err != nil || record.Kilogram(x) != *r.Peak {
			return false
		}
	}
	c.sayTwice(s.place(0), c.readings[c.current].paths.reading)
	return true
}

// sayTwice notes once for a file that something stands twice.
func (c *tableCase) sayTwice(where record.Origin, at record.Path) {
	if c.g.doubled {
		return
	}
	c.g.doubled = true
	c.g.find(c, where, record.Finding{
		Code: "row-twice", Severity: record.Note, Path: at,
		Message: "the same row stands twice", Expected: "each row once",
		Effect: "it is counted once", Hint: "nothing, if it was pasted twice",
	})
}
