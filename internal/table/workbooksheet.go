package table

import (
	"bytes"
	"fmt"
	"io"
	"strconv"
	"strings"

	"ratchetmark/internal/record"
)

// sheetRows gives the rows of a worksheet (ECMA-376 part 1, 18.3.1.73) in one
// pass. One row is held: at most maxCells cells, maxMarkup bytes of text besides
// the shared strings. Blank rows, one or many, are given as one.
type sheetRows struct {
	book  *book
	name  string
	part  string
	m     *markup
	merge merges

	row    int // number of the row in hand
	cells  []string
	number []bool
	size   int    // bytes of text in the row
	held   bool   // the row in hand is still to be given, behind a blank one
	shown  int    // the row given last
	blank  bool   // the row given last was blank
	buf    []byte // text of a cell
	said   sheetSays
}

// sheetSays is what a sheet says about itself: how often and where first.
type sheetSays struct{ noResult, tooWide, hidden, noString tally }

type tally struct {
	n  int
	at record.Origin
}

func (t *tally) add(at record.Origin) {
	if t.n == 0 {
		t.at = at
	}
	t.n++
}

// sheet gives one sheet to the walker.
func (w Walker) sheet(k *book, name, part string) error {
	merge, err := k.merges(part)
	if err != nil {
		return err
	}
	in, err := k.open(part, maxPart, k.budget)
	if err != nil {
		return err
	}
	defer in.Close()
	r := &sheetRows{book: k, name: name, part: part, m: newMarkup(in), merge: merge}
	if err := w.Table(Table{File: k.file, Name: name, Rows: r}); err != nil {
		return err
	}
	r.say(w.Note)
	return nil
}

// Next implements [Rows].
func (r *sheetRows) Next() ([]string, error) {
	if r.held {
		r.held = false
		return r.give()
	}
	for {
		t, err := r.m.next()
		if err == io.EOF {
			return nil, io.EOF
		}
		if err != nil {
			return nil, r.book.fault(r.part, r.row, err)
		}
		if t != tokenOpen || string(r.m.name) != "row" {
			continue
		}
		last := r.row
		if err := r.read(); err != nil {
			return nil, r.book.fault(r.part, r.row, err)
		}
		switch {
		case len(r.cells) == 0 && (r.blank || r.shown == 0):
			continue
		case len(r.cells) > 0 && r.row > last+1 && !r.blank && r.shown > 0:
			r.held, r.blank, r.shown = true, true, last+1
			return nil, nil
		}
		return r.give()
	}
}

// give gives the row in hand.
func (r *sheetRows) give() ([]string, error) {
	r.shown, r.blank = r.row, len(r.cells) == 0
	return r.cells, nil
}

// read reads a row up to its end.
func (r *sheetRows) read() error {
	r.cells, r.number, r.size = r.cells[:0], r.number[:0], 0
	if n, err := strconv.Atoi(string(r.m.attr("r"))); err == nil && n > 0 && n <= maxRows {
		r.row = n
	} else {
		r.row++
	}
	if isTrue(r.m.attr("hidden")) {
		r.said.hidden.add(r.at(0))
	}
	column := 0
	for {
		t, err := r.m.next()
		switch {
		case err == io.EOF:
			return errCut
		case err != nil:
			return err
		case t == tokenClose && string(r.m.name) == "row":
			r.merge.fill(r)
			return nil
		case t == tokenOpen && string(r.m.name) == "c":
			about := r.m.cell()
			if n := columnOf(about.place); n > 0 {
				column = n - 1
			}
			if err := r.cell(column, about); err != nil {
				return err
			}
			column++
		}
	}
}

const maxRows = 1 << 20 // rows of a sheet, as office programs have it

// cell reads a cell up to its end.
func (r *sheetRows) cell(column int, about cellAttrs) error {
	kind, style := kindOf(about.kind), 0
	if len(about.style) > 0 {
		style, _ = strconv.Atoi(string(about.style))
	}
	usual := &usualValue
	if kind == cellInline {
		usual = &usualInline
	}
	switch text, ok, err := r.m.usually(usual); {
	case err != nil:
		return err
	case ok:
		r.buf = append(r.buf[:0], text...)
		return r.put(column, kind, style)
	}
	var inValue, formula, valued bool
	var inline rich
	r.buf = r.buf[:0]
	for {
		t, err := r.m.next()
		switch name := string(r.m.name); {
		case err == io.EOF:
			return errCut
		case err != nil:
			return err
		case t == tokenText && inValue:
			r.buf = append(r.buf, r.m.text...)
		case kind == cellInline:
			r.buf = inline.take(r.m, t, r.buf)
			valued = valued || t == tokenOpen && name == "is"
		case t == tokenText:
		case name == "v":
			inValue = t == tokenOpen
			valued = true
		case name == "f":
			formula = true
		}
		if len(r.buf) > maxMarkup {
			return errLong
		}
		if t == tokenClose && string(r.m.name) == "c" {
			break
		}
	}
	if formula && !valued {
		r.said.noResult.add(r.at(column))
	}
	if !valued {
		return nil
	}
	return r.put(column, kind, style)
}

// cellKind is what the value of a cell is (ECMA-376 part 1, 18.18.11).
type cellKind int

const (
	cellNumber cellKind = iota
	cellShared
	cellInline
	cellText // of a formula, an error or a date in ISO 8601: as it stands
	cellBoolean
)

func kindOf(t []byte) cellKind {
	switch string(t) {
	case "", "n":
		return cellNumber
	case "s":
		return cellShared
	case "inlineStr":
		return cellInline
	case "b":
		return cellBoolean
	}
	return cellText // "str", "e", "d" and what is not known
}

// put puts the value in hand where it belongs.
func (r *sheetRows) put(column int, kind cellKind, style int) error {
	text, number := "", false
	switch kind {
	case cellShared:
		shared, ok := r.book.strings.at(r.buf)
		if !ok {
			r.said.noString.add(r.at(column))
		}
		text = shared
	case cellBoolean:
		text = map[bool]string{true: "TRUE", false: "FALSE"}[isTrue(bytes.TrimSpace(r.buf))]
	case cellNumber:
		format := formatPlain
		if style >= 0 && style < len(r.book.styles) {
			format = r.book.styles[style]
		}
		if raw := string(bytes.TrimSpace(r.buf)); raw != "" {
			text, number = format.show(raw, r.book.from)
			if style >= 0 && style < len(r.book.suffix) && r.book.suffix[style] != "" && number {
				text += " " + r.book.suffix[style]
			}
		}
	default:
		text = string(unescapeCell(r.buf))
	}
	if text == "" {
		return nil
	}
	text = strings.ToValidUTF8(text, "\ufffd")
	if column >= maxCells {
		r.said.tooWide.add(r.at(column))
		return nil
	}
	if kind != cellShared {
		if r.size += len(text); r.size > maxMarkup {
			return errLong
		}
	}
	r.set(column, text, number)
	return nil
}

func (r *sheetRows) set(column int, text string, number bool) {
	for len(r.cells) <= column {
		r.cells, r.number = append(r.cells, ""), append(r.number, false)
	}
	r.cells[column], r.number[column] = text, number
}

// Typed implements [Typed].
func (r *sheetRows) Typed(i int) bool { return !r.held && i >= 0 && i < len(r.number) && r.number[i] }

// Loose implements [Loose].
func (r *sheetRows) Loose() bool { return true }

// Place implements [Rows].
func (r *sheetRows) Place(i int) record.Origin {
	row, column := r.Spot(i)
	return r.placed(row, column-1)
}

// Spot implements [Spotted].
func (r *sheetRows) Spot(i int) (row, column int) {
	last := len(r.cells) - 1
	if r.blank {
		last = 0
	}
	return r.shown, max(min(i, last), 0) + 1
}

// at returns the place of a cell of the row that is being read.
func (r *sheetRows) at(column int) record.Origin { return r.placed(r.row, column) }

func (r *sheetRows) placed(row, column int) record.Origin {
	return record.Origin{File: r.book.file, Sheet: r.name, Line: row, Column: column + 1, Cell: columnName(column) + strconv.Itoa(row)}
}

// columnName writes a column, from 0, as sheets do: 0 is A, 26 is AA.
func columnName(column int) string {
	var out []byte
	for n := column + 1; n > 0; n = (n - 1) / 26 {
		out = append([]byte{byte('A' + (n-1)%26)}, out...)
	}
	return string(out)
}

// columnOf reads the column, from 1, of a place as "AB12"; 0 where there is none.
func columnOf(place []byte) int {
	n := 0
	for i, c := range place {
		switch {
		case c >= 'A' && c <= 'Z' && i < 3:
			n = n*26 + int(c-'A') + 1
		case c >= 'a' && c <= 'z' && i < 3:
			n = n*26 + int(c-'a') + 1
		default:
			return n
		}
	}
	return n
}

// say tells what the sheet said about itself.
func (r *sheetRows) say(note func(record.Origin, record.Finding)) {
	for _, s := range []struct {
		tally
		f record.Finding
	}{
		{r.said.noResult, record.Finding{Code: "formula-without-result", Severity: record.Doubt, Message: "%d formulas have no stored result",
			Expected: "results", Effect: "the cells are taken as blank", Hint: "open the workbook in an office program and save it"}},
		{r.said.noString, record.Finding{Code: "text-missing", Severity: record.Doubt, Message: "%d cells name a text that the workbook does not hold",
			Expected: "texts by their numbers", Effect: "the cells are taken as blank", Hint: "save the workbook again with an office program"}},
		{r.said.hidden, record.Finding{Code: "hidden-rows", Severity: record.Note, Message: "%d rows are hidden",
			Expected: "rows that are seen", Effect: "they are read as the others", Hint: "delete them and save the workbook if they do not belong to the record"}},
	} {
		if s.n > 0 {
			s.f.Where, s.f.Message = "the sheet "+r.name, fmt.Sprintf(s.f.Message, s.n)
			note(s.at, s.f)
		}
	}
	if r.said.tooWide.n > 0 {
		note(r.said.tooWide.at, tooWide("the sheet "+r.name, r.said.tooWide.n))
	}
}
