package model

import (
	"slices"
	"strings"
	"time"
)

// ReadAgain shows the form of the machine on the sheet with a further reading,
// taken now. One that was added before and left without a figure is used again.
func (m *Model) ReadAgain(now time.Time) {
	m.Correct()
	if m.Page != Typing {
		return
	}
	at := timeText(now.Truncate(time.Minute))
	last := len(m.Form.Readings) - 1
	if last < 0 || !m.Form.Readings[last].blank() {
		m.addReading(at)
		return
	}
	m.Type(ReadAt(last), at)
	m.host.Show(LineID(OfReading, last, 0, "powered"))
}

// ReadAt is the field of the time of a reading.
func ReadAt(i int) Field { return FieldOf(OfReading, "at", i, 0) }

// FillNow fills a field of a time with the present one.
func (m *Model) FillNow(x Input, now time.Time) { m.Fill(x, timeText(now.Truncate(time.Minute))) }

// AddReading adds a reading with the bands of the last one, hours left blank.
func (m *Model) AddReading() { m.addReading("") }

func (m *Model) addReading(at string) {
	f := &m.Form
	n := len(f.Readings)
	first := LineID(OfReading, n, 0, "powered")
	m.edit(step{what: "add a reading", back: "add-reading", forth: first, part: OfReading, line: n}, func() {
		f.Readings = append(f.Readings, FormReading{Counters: Counters{At: at}, Bands: f.lastEdges(), Folded: f.edgesKnown()})
	})
	m.host.Show(first)
}

// lastEdges returns the bands of the last reading that has any, without hours;
// the usual set of empty ones where none has.
func (f *Form) lastEdges() []FormBand {
	for i := len(f.Readings) - 1; i >= 0; i-- {
		if len(f.Readings[i].Bands) == 0 {
			continue
		}
		var out []FormBand
		for _, b := range f.Readings[i].Bands {
			out = append(out, FormBand{From: b.From, To: b.To})
		}
		return out
	}
	return EmptyForm().Readings[0].Bands
}

// edgesKnown reports whether the bands of the last reading have all their edges,
// so that only hours remain to be typed.
func (f *Form) edgesKnown() bool {
	bands := f.lastEdges()
	for j, b := range bands {
		if strings.TrimSpace(b.From) == "" || strings.TrimSpace(b.To) == "" && j < len(bands)-1 {
			return false
		}
	}
	return len(bands) > 0
}

// blank reports whether a reading has a time and edges at most.
func (r *FormReading) blank() bool {
	return r.Powered+r.Moving+r.Peak+r.PeakAt == "" && r.onlyEdges()
}

// RemoveReading takes a reading off the form; the last one stays.
func (m *Model) RemoveReading(i int) {
	f := &m.Form
	if len(f.Readings) < 2 || i >= len(f.Readings) {
		return
	}
	s := step{what: "remove reading " + itoa(i+1), back: LineID(OfReading, i, 0, "powered"), forth: "add-reading", part: OfReading, line: i}
	m.edit(s, func() { f.Readings = slices.Delete(f.Readings, i, i+1) })
}
