package intake

import (
	"slices"
	"strings"

	"ratchetmark/internal/record"
	"ratchetmark/internal/wording"
)

// unread takes note of a row outside of a table that says nothing but may bear
// on loads: a heading of bands that is not understood, a name with a load word
// and a number. It reports whether it did.
func (s *sheet) unread(cells []string) bool {
	switch {
	case s.bandHeading(cells):
		s.unheaded = true
		s.loose, s.asking = len(s.g.loose), len(s.g.questions)
		s.above2, s.aboveAt = cloneCells(cells), s.heldAt
		s.start = cloneCells(cells)
		s.g.find(nil, s.place(0), record.Finding{
			Code: "heading-unread", Severity: record.Blocking, Where: "heading row",
			Message: "the heading " + quoteStart(cells) + " has bands, and not a column of hours that is known", Expected: "a column with the hours in each band",
			Effect: "the rows below are not read: loads over the rated load may be in them", Hint: "point out the columns, or name the hours",
		})
		return true
	case s.unheaded && filled(cells) > 1:
		return true // said with its heading
	case s.loadLine(cells):
		s.g.find(nil, s.place(0), record.Finding{
			Code: "line-unread", Severity: record.Blocking, Where: "beside the tables",
			Message: "a line speaks of loads, and is not known: " + quoteStart(cells), Expected: "a name that is known, such as rated load or peak, and its value",
			Effect: "it is not used: a load over the rated load may be in it", Hint: "write the name as in the template, with its unit",
		})
		return true
	}
	return false
}

// bandHeading reports whether a row is nothing but words, and one of them is
// the heading of a column of bands or of their hours.
func (s *sheet) bandHeading(cells []string) bool {
	if filled(cells) < 2 {
		return false
	}
	known := false
	for _, c := range cells {
		if c = trim(c); c == "" {
			continue
		}
		if len(c) > maxHeading || startsNumber(c) && candidateOf(c, s.dialect.decimal).label == nil {
			return false
		}
		fields, _ := wording.Fields(c)
		known = known || slices.ContainsFunc(fields, func(f wording.Field) bool {
			return f == "band" || f == "from_kg" || f == "hours" || f == "share"
		})
	}
	return known
}

// loadWords are parts of names that speak of the load on the platform.
var loadWords = append(slices.Clone(overloadWords), "peak", "highest", "spitze", "höchst", "rated", "nennlast", "band ", "> ", "over ")

// overloadWords speak of overload.
var overloadWords = []string{"overload", "over load", "over-load", "überlast", "ueberlast", "surcharge", "sobrecarga", "sovraccarico"}

// loadLine reports whether a row is a name that speaks of loads and a number.
func (s *sheet) loadLine(cells []string) bool {
	parts, _ := s.parts(cells)
	if filled(cells) == 1 && len(parts) < 2 {
		return loadSaid(cells)
	}
	if len(parts) < 2 || len(parts[0]) > maxHeading || !startsNumber(parts[1]) {
		return false
	}
	if i := strings.LastIndexByte(parts[1], ' '); i > 0 && slices.Contains(noLoads, strings.ToLower(parts[1][i+1:])) {
		return false
	}
	name := strings.ToLower(parts[0])
	return slices.ContainsFunc(loadWords, func(w string) bool { return strings.Contains(name, w) })
}

// countWords are words by which a column counts something other than hours.
var countWords = []string{"number of lifts", "number of cycles", "lifts", "cycles", "counts", "count", "number of", "no. of", "starts", "anzahl", "zyklen", "hübe", "nombre", "numero", "número"}

// countsBeside reports whether a heading counts lifts or the like in a band
// whose hours stand in another column.
func (s *sheet) countsBeside(heading string) bool {
	text := strings.ToLower(heading)
	for _, w := range countWords {
		if !strings.Contains(text, w) {
			continue
		}
		label, err := wording.Band(strings.Replace(text, w, "", 1), s.dialect.decimal, wording.NoUnit)
		return err == nil && slices.ContainsFunc(s.cols, func(c column) bool {
			return c.label != nil && sameEdge(c.label.From, label.From) && sameEdge(c.label.To, label.To)
		})
	}
	return false
}

func sameEdge(a, b *float64) bool { return a == b || a != nil && b != nil && *a == *b }

// loadSaid reports whether the one cell of a row speaks of a load and gives a
// number of kg or lb.
func loadSaid(cells []string) bool {
	text := ""
	for _, c := range cells {
		text += strings.ToLower(trim(c))
	}
	if len(text) > maxHeading || !slices.ContainsFunc(loadWords, func(w string) bool { return strings.Contains(text, w) }) {
		return false
	}
	words := strings.FieldsFunc(text, func(r rune) bool { return strings.ContainsRune(" ,;:()[]", r) })
	for i, w := range words {
		if unit := strings.TrimLeft(w, "0123456789.,"); (unit == "kg" || unit == "lb" || unit == "lbs") && (unit != w || i > 0 && startsNumber(words[i-1])) {
			return true
		}
	}
	return false
}
