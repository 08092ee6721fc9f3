package wording

import "strings"

// bandReader reads one candidate after another.
type bandReader struct {
	decimal Mark
	usual   Unit
	twoWays bool // a number of a candidate could be read in two ways
}

// edge is a number of a label with its unit.
type edge struct {
	text  string
	unit  Unit
	value float64
}

// read reads a band that is the whole of a text.
func (b *bandReader) read(s string) (Label, bool) {
	s, behind := cutUnitBracket(strings.TrimSpace(s))
	if behind == NoUnit {
		s, behind = cutUnitBehind(s)
	}
	if label, ok := b.phrase(s, behind); ok {
		return label, true
	}
	if len(s) < 3 || strings.IndexByte("[(]", s[0]) < 0 || strings.IndexByte("])[", s[len(s)-1]) < 0 {
		return Label{}, false
	}
	inner := s[1 : len(s)-1]
	if label, ok := b.phrase(inner, behind); ok {
		return label, true
	}
	for _, mark := range [...]string{";", ","} { // an interval as in ISO 80000-2:2019, 2-7.7 to 2-7.12, from memory
		if low, high, ok := strings.Cut(inner, mark); ok && !strings.Contains(high, mark) {
			return b.phrase(strings.TrimSpace(low)+" - "+strings.TrimSpace(high), behind)
		}
	}
	return Label{}, false
}

// cutUnitBracket takes a unit in brackets off the end: that of the edges, or of
// what is counted in the band.
func cutUnitBracket(s string) (rest string, u Unit) {
	i := strings.LastIndexAny(s, "[(")
	if i <= 0 || s[len(s)-1] != ')' && s[len(s)-1] != ']' {
		return s, NoUnit
	}
	if u, _, ok := unitOf(s[i+1 : len(s)-1]); ok {
		return strings.TrimSpace(s[:i]), u
	}
	return s, NoUnit
}

// cutUnitBehind takes a unit off that stands behind the bracket of an interval.
func cutUnitBehind(s string) (rest string, u Unit) {
	i := strings.LastIndexAny(s, "])[")
	if i < 0 || i+1 == len(s) {
		return s, NoUnit
	}
	if u, _, ok := unitOf(strings.TrimSpace(s[i+1:])); ok && (u.IsLoad() || u == Percent) {
		return s[:i+1], u
	}
	return s, NoUnit
}

// phrase reads a band without brackets. behind is the unit that stood behind it
// in brackets: its own only where it has no other.
func (b *bandReader) phrase(s string, behind Unit) (Label, bool) {
	shape, edges, ofRated, ok := lex(s)
	if !ok {
		return Label{}, false
	}
	row, ok := shapes[shape]
	if !ok {
		return Label{}, false
	}
	if !b.units(edges, behind) || ofRated && edges[0].unit != Percent {
		return Label{}, false
	}
	if !b.values(edges) {
		return Label{}, false
	}
	label := Label{Unit: edges[len(edges)-1].unit}
	if row.from > 0 {
		label.From = &edges[row.from-1].value
	}
	if row.to > 0 {
		label.To = &edges[row.to-1].value
	}
	return label, true
}

// units gives each edge its unit: its own, that of the other edge, the one in
// brackets, the usual one. Loads and percent do not mix.
func (b *bandReader) units(edges []edge, behind Unit) bool {
	common := NoUnit
	for _, e := range edges {
		if e.unit != NoUnit {
			common = e.unit
		}
	}
	if common == NoUnit && !behind.IsTime() {
		common = behind
	}
	if common == NoUnit {
		common = b.usual
	}
	for i := range edges {
		if edges[i].unit == NoUnit {
			edges[i].unit = common
		}
		if (edges[i].unit == Percent) != (common == Percent) {
			return false
		}
	}
	return true
}

// values reads the numbers. The mark that one of them proves holds for the others.
func (b *bandReader) values(edges []edge) bool {
	decimal := b.decimal
	for _, e := range edges {
		if m, _ := MarkOf(e.text); decimal == Unknown {
			decimal = m
		}
	}
	for i := range edges {
		e := &edges[i]
		x, err := Number(e.text, decimal)
		if u, isOurs := err.(*Unreadable); isOurs && u.Ambiguous {
			b.twoWays = true
		}
		if err != nil {
			return false
		}
		if e.value = x; e.unit.IsLoad() {
			e.value = e.unit.In(x)
		}
		if e.value > largest {
			return false
		}
	}
	return true
}
