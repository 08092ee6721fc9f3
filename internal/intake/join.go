package intake

import (
	"ratchetmark/internal/record"
	"ratchetmark/internal/wording"
)

// joinMoments brings together two readings of one time that complete each
// other: the hour meter and the peak from one sheet, the bands from another.
func (c *tableCase) joinMoments() {
	banded := 0
	for i := range c.out.Case.Readings {
		if len(c.out.Case.Readings[i].Bands) > 0 {
			banded++
		}
	}
	if banded == 0 || banded == len(c.out.Case.Readings) {
		return
	}
	first := map[int64]int{}
	for j := 0; j < len(c.out.Case.Readings); j++ {
		at := c.out.Case.Readings[j].At.UnixNano()
		i, ok := first[at]
		switch {
		case !ok:
			first[at] = j
		case c.completes(i, j):
			c.joinReadings(i, j)
			j--
		}
	}
}

// completes reports whether two readings are of one time and say nothing twice.
func (c *tableCase) completes(i, j int) bool {
	a, b := &c.out.Case.Readings[i], &c.out.Case.Readings[j]
	if a.At.IsZero() || !a.At.Equal(b.At) || c.readings[i].spoilt || c.readings[j].spoilt {
		return false
	}
	return (len(a.Bands) == 0) != (len(b.Bands) == 0) && (a.Powered == nil || b.Powered == nil) && (a.Moving == nil || b.Moving == nil) && (a.Peak == nil || b.Peak == nil)
}

// joinReadings puts what reading j says to reading i, and takes it out.
func (c *tableCase) joinReadings(i, j int) {
	a, b := &c.out.Case.Readings[i], c.out.Case.Readings[j]
	if len(a.Bands) == 0 {
		n := c.readings[j]
		n.at, n.paths, n.peakUnit = c.readings[i].at, c.readings[i].paths, max(n.peakUnit, c.readings[i].peakUnit)
		a.Bands, c.readings[i] = b.Bands, n
	}
	for field, has := range map[wording.Field]bool{"powered_h": a.Powered != nil, "moving_h": a.Moving != nil, "peak_kg": a.Peak != nil, "peak_at": a.PeakAt != nil} {
		if !has { // a value that was left out has a place as well
			delete(c.out.Origins, c.g.pathsOf(i).of(field))
		}
	}
	a.Powered, a.Moving, a.Peak, a.PeakAt = either(a.Powered, b.Powered), either(a.Moving, b.Moving), either(a.Peak, b.Peak), either(a.PeakAt, b.PeakAt)
	c.out.Case.Readings = append(c.out.Case.Readings[:j:j], c.out.Case.Readings[j+1:]...)
	c.readings = append(c.readings[:j:j], c.readings[j+1:]...)
	c.moveOrigins(i, j)
	for k := range c.out.Findings {
		f := &c.out.Findings[k]
		if old := f.Path; old != "" {
			if f.Path = withoutReading(old, i, j); f.Where == old.Words() {
				f.Where = f.Path.Words()
			}
		}
	}
}

// moveOrigins moves the places of what stands in reading j to reading i, where
// that has no place of its own.
func (c *tableCase) moveOrigins(i, j int) {
	moved := record.Origins{}
	for path, at := range c.out.Origins {
		if readingOfPath(path)-1 != j {
			moved[withoutReading(path, i, j)] = at
		}
	}
	for path, at := range c.out.Origins {
		if readingOfPath(path)-1 != j {
			continue
		}
		if path = withoutReading(path, i, j); moved[path] == (record.Origin{}) {
			moved[path] = at
		}
	}
	c.out.Origins = moved
}

// pathOf returns the path of a reading, by its place from 0.
func pathOf(reading int) record.Path { return record.Path("readings").At(reading + 1) }

// withoutReading returns a path as it is once reading j is part of reading i.
func withoutReading(path record.Path, i, j int) record.Path {
	n := readingOfPath(path) - 1
	switch {
	case n < j:
		return path
	case n == j:
		return pathOf(i) + path[len(pathOf(n)):]
	}
	return pathOf(n-1) + path[len(pathOf(n)):]
}

// readingOfPath returns the number, from 1, of the reading a path is about; 0 for none.
func readingOfPath(path record.Path) int {
	const list = "readings/"
	if len(path) <= len(list) || path[:len(list)] != list {
		return 0
	}
	end := len(list)
	for end < len(path) && path[end] != '/' {
		end++
	}
	return number0(string(path[len(list):end]))
}
