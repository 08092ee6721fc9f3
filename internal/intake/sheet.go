package intake

import (
	"errors"
	"fmt"
	"io"
	"strings"

	"ratchetmark/internal/record"
	"ratchetmark/internal/table"
	"ratchetmark/internal/wording"
)

// sheet reads one table of a file, row by row. Above, between and below rows
// under a heading it takes lines that name one value ("Rated load: 230 kg").
type sheet struct {
	g     *gatherer
	t     table.Table
	index int // in g.sheets

	mixedAt record.Origin // where dates of both orders were met; none where the line is 0
	heldAt  int           // of the one in hand
	held    []heldRow     // rows read ahead, to see how values are written
	place   func(i int) record.Origin
	typed   func(i int) bool // nil: none is
	spotted table.Spotted    // of place; nil: to be taken from it
	repeats table.Repeating  // nil: not known
	dialect dialect

	loosely bool     // rows may be shorter than the heading
	cols    []column // of the table in hand; nil outside of one
	layout  *layout
	width   int
	plan    plan
	above   above
	rows    int  // taken in
	units   bool // the next row may hold units only
	guide   *Guide
	gap     bool // a blank row has been passed
	about   about

	headings memo[candidate] // of texts, with the decimal mark below
	decimal  wording.Mark
	names    memo[wording.Field] // of lines
	words    memo[bool]          // whether texts are headings

	loose, asking int  // findings and questions before the heading in hand
	whole         bool // all rows were read ahead
	empty         int  // rows of readings that hold none
	emptyAt       record.Origin
	divided       bool          // a row of several cells was met
	openWords     openWords     // of the row above
	saidCounts    bool          // that rows count something other than hours
	above2        []string      // a heading that was not understood
	aboveAt       int           // where it stands among those read ahead
	toldGuide     bool          // that a guide is used
	asked         bool          // a value can be read two ways
	firstRow      []string      // the first that is not blank
	start         []string      // the row a guide for this table would name
	unheaded      bool          // below a heading of bands that was not understood
	odd           int           // lines that say nothing
	vain          int           // rows tried as the beginning of something else, since one was
	run           int           // of them, since something was said
	oddAt         record.Origin // the first of them
	oddText       string
	hand          bool       // a row has named a machine
	first         *tableCase // the first one a row has named
	only          *tableCase // the only one; nil where there are several

}

// heldRow is a row read ahead, with all that the reader knows of it.
type heldRow struct {
	cells  []string
	places []record.Origin
	typed  []bool
	broken *table.Broken
}

// readTable reads a table to its end.
func (g *gatherer) readTable(t table.Table) error {
	s := &sheet{g: g, t: t, index: len(g.sheets), about: g.about()}
	if rows, ok := t.Rows.(table.Loose); ok {
		s.loosely = rows.Loose()
	}
	if s.index < maxSheets {
		g.sheets = append(g.sheets, Sheet{File: t.File, Name: t.Name})
	}
	if err := s.lookAhead(); err != nil {
		return err
	}
	if s.whole {
		s.arrange()
	}
	for i := range s.held {
		if s.lost() {
			break
		}
		h := &s.held[i]
		s.heldAt = i
		s.place = func(i int) record.Origin { return h.places[min(max(i, 0), len(h.places)-1)] }
		s.typed = func(i int) bool { return i < len(h.typed) && h.typed[i] }
		if h.broken != nil {
			s.broken(h.broken)
			continue
		}
		s.take(h.cells)
	}
	s.held = nil
	s.tell()
	for {
		cells, err := t.Rows.Next()
		switch {
		case err == io.EOF || err == nil && s.lost():
			s.end()
			return nil
		case err == nil && s.divided:
			s.take(cells)
		case err == nil:
			s.takeLive(cells)
		default:
			var broken *table.Broken
			if !errors.As(err, &broken) {
				return err
			}
			s.broken(broken)
		}
	}
}

// tell takes from the rows what they tell of the cells that are read as they come.
func (s *sheet) tell() {
	s.place, s.typed = s.t.Rows.Place, s.typedLive()
	s.spotted, _ = s.t.Rows.(table.Spotted)
	s.repeats, _ = s.t.Rows.(table.Repeating)
	s.above.whole = 0
}

// takeLive takes in a row that was not read ahead.
func (s *sheet) takeLive(cells []string) {
	parts := s.partsOfCell(cells)
	if parts == nil {
		s.take(cells)
		return
	}
	at := s.t.Rows.Place(0)
	s.place, s.spotted, s.repeats = func(int) record.Origin { return at }, nil, nil
	s.take(parts)
	s.tell()
}

// maxOdd is how many lines in a row that say nothing are read before a table is given up.
const maxOdd = 2000

// lost reports whether so many lines said nothing that there is no use in reading on.
func (s *sheet) lost() bool { return s.run >= maxOdd }

func (s *sheet) typedLive() func(int) bool {
	if rows, ok := s.t.Rows.(table.Typed); ok {
		return rows.Typed
	}
	return nil
}

// How far the reader looks ahead: at least so many rows, and while values can
// be read two ways up to so many bytes.
const (
	aheadRows  = 1000
	aheadBytes = 4 << 20
)

// lookAhead holds the first rows and surveys how their values are written.
func (s *sheet) lookAhead() error {
	typed := s.typedLive()
	var found survey
	for size := 0; len(s.held) < aheadRows || !found.settled() && size < aheadBytes; {
		cells, err := s.t.Rows.Next()
		if err == io.EOF {
			s.whole = true
			break
		}
		if err != nil {
			var broken *table.Broken
			if !errors.As(err, &broken) {
				return err
			}
			s.held = append(s.held, heldRow{broken: broken, places: []record.Origin{broken.Origin}})
			size += aheadBytes / aheadRows
			continue
		}
		place := s.t.Rows.Place
		if parts := s.partsOfCell(cells); parts != nil {
			at := place(0)
			cells, place = parts, func(int) record.Origin { return at }
		}
		h := heldRow{cells: make([]string, len(cells)), places: make([]record.Origin, len(cells)+1), typed: make([]bool, len(cells))}
		for i, c := range cells {
			h.cells[i] = strings.Clone(c)
			h.places[i], h.typed[i] = place(i), typed != nil && typed(i)
			found.look(strings.TrimSpace(c), h.typed[i])
			size += len(c) + 1
		}
		h.places[len(cells)] = place(len(cells))
		if found.dayFirst > 0 && found.monFirst > 0 && s.mixedAt.Line == 0 {
			s.mixedAt = h.places[0]
		}
		s.held = append(s.held, h)
		if len(s.held) <= shownRows && s.index < len(s.g.sheets) {
			sh := &s.g.sheets[s.index]
			sh.Rows = append(sh.Rows, lineOf(rowWords(h.places[0]), h.cells))
		}
	}
	s.settleDialect(found)
	return nil
}

func rowWords(at record.Origin) string { return fmt.Sprintf("row %d", at.Line) }

// take takes in one row.
func (s *sheet) take(cells []string) {
	s.rows++
	if blankRow(cells) {
		s.gap = true
		return
	}
	if isRule(cells) {
		return
	}
	if s.units && s.cols != nil && (s.unitRow(cells) || s.secondRow(cells)) {
		return
	}
	if s.cols == nil || (s.gap || s.strange(cells)) && s.tryBegin(cells) || s.gap && s.otherTable(cells) {
		s.outside(cells)
	} else {
		s.row(cells)
	}
	s.gap = false
}

// isRule reports whether a row is a line drawn below headings: "---", "===".
func isRule(cells []string) bool {
	n := 0
	for _, c := range cells {
		if c = trim(c); c == "" {
			continue
		}
		switch c[0] {
		case '-', '=', ':', '+':
			if len(c) < 3 || strings.Trim(c, "-=:+") != "" {
				return false
			}
			n++
		default:
			return false
		}
	}
	return n > 1
}

func blankRow(cells []string) bool {
	for _, c := range cells {
		if strings.TrimSpace(c) != "" {
			return false
		}
	}
	return true
}

// tryBegin reports whether a row begins something else than a row of the table
// in hand. After so many rows in a row that did not, those without a blank row
// above them are not tried.
func (s *sheet) tryBegin(cells []string) bool {
	if s.vain >= maxOdd && !s.gap {
		return false
	}
	if s.vain++; s.begins(cells) {
		s.vain = 0
		return true
	}
	return false
}

// begins reports whether a row is something other than a row of the table in hand.
func (s *sheet) begins(cells []string) bool {
	if s.guideFor(cells) != nil {
		return true
	}
	if filledUpTo(2, cells) > 1 { // a heading takes two words at least
		if l, _ := fit(s.bandsByValues(s.candidates(cells))); l != nil {
			return true
		}
	}
	return s.isLine(cells)
}

// otherTable reports whether a row behind a blank one is nothing but words, and
// of another width than the table in hand: the title or the heading of another.
func (s *sheet) otherTable(cells []string) bool {
	if filled(cells) == s.width || len(cells) == s.width && filled(cells) > 1 {
		return false
	}
	for _, c := range cells {
		if c = trim(c); c != "" && startsNumber(c) {
			return false
		}
	}
	return true
}

// strange reports whether a row does not look like one of the table in hand.
func (s *sheet) strange(cells []string) bool {
	if len(cells) != s.width && !s.loosely {
		return true
	}
	if i := s.plan.label; i >= 0 && i < len(cells) {
		if c := trim(cells[i]); c != "" && !startsNumber(c) {
			if f := s.lineField(c); f != "" {
				return true // "Peak" below the bands is no band
			}
		}
	}
	for _, i := range s.plan.keys {
		if i < len(cells) {
			if c := trim(cells[i]); c != "" && !startsNumber(c) {
				return true
			}
		}
	}
	return false
}

func (s *sheet) isKey(f wording.Field) bool {
	for _, k := range s.layout.key {
		if f == k {
			return true
		}
	}
	return false
}

func startsNumber(c string) bool {
	return c[0] >= '0' && c[0] <= '9' || c[0] == '-' || c[0] == '+' || c[0] == '.' || c[0] == ','
}

func (s *sheet) candidates(cells []string) []candidate {
	out := make([]candidate, len(cells))
	for i, c := range cells {
		out[i] = s.candidate(c)
	}
	return out
}

// candidate is what a text can mean as a heading. Short texts are looked up
// once: rows that do not fit their table tend to be alike.
func (s *sheet) candidate(text string) candidate {
	if s.decimal != s.dialect.decimal {
		s.decimal, s.headings = s.dialect.decimal, memo[candidate]{}
	}
	c, _ := s.headings.of(text, func(text string) (candidate, bool) {
		if len(text) <= memoText {
			text = strings.Clone(text) // it is held
		}
		return candidateOf(text, s.decimal), true
	})
	return c
}

// broken notes a row that is not well-formed.
func (s *sheet) broken(b *table.Broken) {
	s.g.find(nil, b.Origin, record.Finding{
		Code: "row-broken", Severity: record.Blocking, Where: fmt.Sprintf("row in line %d", b.Origin.Line),
		Message: "the row is not well-formed: " + b.Message, Expected: "quotes in pairs, or none",
		Effect: "the row is left out, and with it the hours of its band", Hint: "close or remove the quote",
	})
}
