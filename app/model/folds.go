package model

import (
	"strconv"
	"strings"

	"ratchetmark/internal/dossier"
	"ratchetmark/internal/record"
)

// Unfolded reports whether a part of the page that can be folded is open.
func (m *Model) Unfolded(id string) bool { return m.unfolded[id] }

// FoldKey names a part of the sheet that can be folded, for the machine that is
// shown.
func (m *Model) FoldKey(name string, i int) string {
	return name + "-" + itoa(m.Current) + "-" + itoa(i)
}

// reveal lays open a part of the sheet.
func (m *Model) reveal(fold string) {
	if key := m.FoldKey(fold, 0); fold != "" && !m.Unfolded(key) {
		m.Unfold(key)
	}
}

// Unfold opens a part of the page that is closed, and closes one that is open.
func (m *Model) Unfold(id string) {
	if m.unfolded == nil {
		m.unfolded = map[string]bool{}
	}
	m.unfolded[id] = !m.unfolded[id]
}

// fold says whether a person opened or closed a reading; undecided it is open
// when it is one of the last.
type fold int8

const (
	undecided fold = iota
	laidOpen
	laidShut
)

// openReadings is how many readings, counted from the last, are open at first.
// The page is built anew at every key, and readings that were finished long
// ago are in the way.
const openReadings = 2

// pageOfLines is how many lines of a list are shown at first, the latest ones,
// and how many more at a time.
const pageOfLines = 4

// folds is what of the lists of a form is laid open.
type folds struct {
	open  map[Part]bool
	lines map[Part]int // shown beyond the first page
}

// Open reports whether a reading is laid open.
func (f *Form) Open(i int) bool {
	r := &f.Readings[i]
	return r.fold == laidOpen || r.fold == undecided && i >= len(f.Readings)-openReadings
}

// Fold closes a reading that is open and opens one that is closed.
func (m *Model) Fold(i int) {
	if i >= len(m.Form.Readings) {
		return
	}
	was := m.Form.Open(i)
	m.Form.Readings[i].fold = laidOpen
	if was {
		m.Form.Readings[i].fold = laidShut
	}
}

// FoldLine says in a line what is in a reading.
func (f *Form) FoldLine(i int) string {
	r := &f.Readings[i]
	var parts []string
	if r.At != "" {
		parts = append(parts, strings.Replace(r.At, "T", " ", 1)+" UTC")
	}
	if r.Powered != "" {
		parts = append(parts, r.Powered+" powered hours")
	}
	if sum, ok := f.sum(i); ok && sum > 0 {
		parts = append(parts, dossier.H(sum)+" in bands")
	}
	if r.Peak != "" {
		parts = append(parts, "peak "+r.Peak+" kg")
	}
	if len(parts) == 0 {
		parts = append(parts, "nothing typed yet")
	}
	return strings.Join(parts, ", ")
}

// ShowEdges shows the edges of a reading's bands, or hides them.
func (m *Model) ShowEdges(i int) {
	if i < len(m.Form.Readings) {
		m.Form.Readings[i].Folded = !m.Form.Readings[i].Folded
	}
}

// ListOpen reports whether a list is laid open. Who had the machine is, the
// others only when somebody opened them.
func (f *Form) ListOpen(part Part) bool {
	if open, decided := f.folds.open[part]; decided {
		return open
	}
	return part == OfCustody
}

// FoldList closes a list that is open and opens one that is closed.
func (m *Model) FoldList(part Part) { m.Form.setList(part, !m.Form.ListOpen(part)) }

func (f *Form) setList(part Part, open bool) {
	if f.folds.open == nil {
		f.folds.open = map[Part]bool{}
	}
	f.folds.open[part] = open
}

// ShownFrom returns the first line of a list that is shown.
func (f *Form) ShownFrom(part Part) int {
	return max(0, f.Lines(part, 0)-pageOfLines-f.folds.lines[part])
}

// ShowEarlier shows more lines of a list.
func (m *Model) ShowEarlier(part Part) { m.Form.showLines(part, pageOfLines) }

func (f *Form) showLines(part Part, more int) {
	if f.folds.lines == nil {
		f.folds.lines = map[Part]int{}
	}
	f.folds.lines[part] += more
}

// reveal lays open what a line of a part is folded away in.
func (f *Form) reveal(part Part, line int, edges bool) {
	switch part {
	case OfReading, OfBand:
		if line >= 0 && line < len(f.Readings) {
			r := &f.Readings[line]
			if !f.Open(line) {
				r.fold = laidOpen
			}
			r.Folded = r.Folded && !edges
		}
	case OfCustody, OfEvent, OfDay, OfCheck, OfTieDown:
		f.setList(part, true)
		if missing := f.ShownFrom(part) - line; missing > 0 {
			f.showLines(part, missing)
		}
	}
}

// revealProblems lays open the fields that cannot be read, so that they stay
// open while they are mended.
func (f *Form) revealProblems() {
	for _, p := range f.Problems {
		f.revealPath(p.Path)
	}
}

// revealPath lays open what a field is folded away in.
func (f *Form) revealPath(at record.Path) {
	steps := strings.Split(string(at), "/")
	if len(steps) < 3 {
		return
	}
	line, err := strconv.Atoi(steps[1])
	if err != nil {
		return
	}
	name := steps[len(steps)-1]
	part := Part(steps[0])
	if part == OfReading && line <= len(f.Readings) {
		f.Readings[line-1].fold = laidOpen
	}
	f.reveal(part, line-1, name == "from_kg" || name == "to_kg")
}

func itoa(n int) string { return strconv.Itoa(n) }
