package model

import "slices"

// bandStep is a step that changes which bands a reading has.
func bandStep(what string, i int, back, forth string) step {
	return step{what: what, back: back, forth: forth, part: OfBand, line: i, edges: true}
}

// AddBand adds a band above the others.
func (m *Model) AddBand(i int) {
	if i >= len(m.Form.Readings) {
		return
	}
	bands := &m.Form.Readings[i].Bands
	n := len(*bands)
	m.edit(bandStep("add band "+itoa(n+1), i, LineID(OfReading, i, 0, "add-band"), LineID(OfBand, i, n, "to")), func() {
		b := FormBand{From: "0"}
		if n > 0 {
			b.From = (*bands)[n-1].To
		}
		*bands = append(*bands, b)
	})
}

// RemoveBand takes a band off the form; the one above begins where it began.
func (m *Model) RemoveBand(i, j int) {
	if j >= m.Form.Lines(OfBand, i) {
		return
	}
	bands := &m.Form.Readings[i].Bands
	m.edit(bandStep("remove band "+itoa(j+1), i, LineID(OfBand, i, j, "hours"), LineID(OfReading, i, 0, "add-band")), func() {
		if j+1 < len(*bands) && (*bands)[j+1].From == (*bands)[j].To {
			(*bands)[j+1].From = (*bands)[j].From
		}
		*bands = slices.Delete(*bands, j, j+1)
	})
}

// SplitBand divides a band at a load that is left to be typed. Its hours stay
// with the lower part, the upper part's are left blank.
func (m *Model) SplitBand(i, j int) {
	if j >= m.Form.Lines(OfBand, i) {
		return
	}
	bands := &m.Form.Readings[i].Bands
	m.edit(bandStep("split band "+itoa(j+1), i, LineID(OfBand, i, j, "split"), LineID(OfBand, i, j, "to")), func() {
		upper := FormBand{To: (*bands)[j].To}
		(*bands)[j].To = ""
		*bands = slices.Insert(*bands, j+1, upper)
	})
}

// SetEdge sets the upper edge of a band; the band above follows if it began there.
func (m *Model) SetEdge(i, j int, text string) { m.Type(FieldOf(OfBand, "to_kg", i, j), text) }

// Sum returns the hours typed into the bands of a reading; ok is false while
// one of them cannot be read.
func (m *Model) Sum(i int) (sum float64, ok bool) { return m.Form.sum(i) }
