package table

import (
	"bytes"
	"slices"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"

	"golang.org/x/net/html"

	"ratchetmark/internal/record"
)

// pageReader takes the tokens of a page apart into tables.
type pageReader struct {
	file  string
	z     *html.Tokenizer
	line  int          // in which the token begins
	open  []*pageTable // the tables that are open, the outermost first
	whole []*pageTable // the outermost one that ended and those within it, by beginning
	size  int          // bytes held by open tables, about
	skip  string       // the element whose text is passed over
	given int          // tables given to the walker
	wide  tally        // cells with text beyond maxCells
}

// pageTable is one table. Cells stand where columns and rows that they span put
// them: HTML Living Standard, 4.9.12, forming a table.
type pageTable struct {
	line    int
	caption words
	rows    []pageRow
	spans   []span // by column: cells from rows above that go on
	filled  int    // cells with text

	inCaption, inRow, inCell bool
	text                     words
	cell                     pageCell // the cell that is open
	across, down             int      // what it spans
}

type pageRow struct {
	line  int
	cells []pageCell
}

type pageCell struct {
	text string
	line int
}

type span struct {
	rows int // more
	cell pageCell
}

const (
	cellSize = 48    // bytes that a cell takes besides its text, about
	maxDown  = 65534 // rows that a cell may span, HTML Living Standard, 4.9.11
	maxWide  = 1000  // columns
	maxInner = 30    // tables within one another
)

// words gathers text with single spaces between its words.
type words struct {
	b   strings.Builder
	gap bool
}

func (w *words) add(text []byte) {
	for len(text) > 0 {
		r, size := utf8.DecodeRune(text)
		if unicode.IsSpace(r) {
			w.gap = true
		} else {
			if w.gap && w.b.Len() > 0 {
				w.b.WriteByte(' ')
			}
			w.gap = false
			w.b.WriteRune(r)
		}
		text = text[size:]
	}
}

func (w *words) String() string { return w.b.String() }

// textless are elements whose text is not shown.
var textless = []string{"script", "style", "template", "noscript", "title", "textarea", "select"}

// inline are elements that do not part words.
var inline = []string{"a", "abbr", "b", "bdi", "bdo", "big", "cite", "code", "data", "del", "dfn", "em", "font", "i", "ins", "kbd", "label", "mark", "nobr", "q", "s", "samp", "small", "span", "strike", "strong", "sub", "sup", "time", "tt", "u", "var", "wbr"}

// take takes one token.
func (p *pageReader) take(kind html.TokenType) {
	lines := bytes.Count(p.z.Raw(), []byte("\n"))
	switch kind {
	case html.TextToken:
		if p.skip == "" && len(p.open) > 0 {
			p.text(p.z.Text())
		}
	case html.StartTagToken, html.SelfClosingTagToken:
		name, more := p.z.TagName()
		p.start(string(name), more)
	case html.EndTagToken:
		name, _ := p.z.TagName()
		p.end(string(name))
	}
	p.line += lines
}

func (p *pageReader) top() *pageTable { return p.open[len(p.open)-1] }

// text takes text of the innermost table.
func (p *pageReader) text(text []byte) {
	t := p.top()
	switch {
	case t.inCaption:
		t.caption.add(text)
	case t.inCell:
		t.text.add(text)
	default:
		return
	}
	p.size += len(text)
}

// start takes an opening tag.
func (p *pageReader) start(name string, attrs bool) {
	switch {
	case p.skip != "":
		return
	case slices.Contains(textless, name):
		p.skip = name // "<script/>" opens as well: HTML has no elements that end themselves
		return
	case name == "table":
		if len(p.open) > 0 {
			p.text([]byte(" ")) // parts the words of the cell around it
		}
		if len(p.open) < maxInner {
			t := &pageTable{line: p.line}
			p.open, p.whole = append(p.open, t), append(p.whole, t)
			p.size += 4 * cellSize
		}
		return
	case len(p.open) == 0:
		return
	}
	t := p.top()
	switch name {
	case "caption":
		t.inCaption = true
	case "thead", "tbody", "tfoot":
		p.endRow(t)
		t.spans = nil // cells do not go on beyond their group
	case "tr":
		p.endRow(t)
		p.startRow(t)
	case "td", "th":
		p.endCell(t)
		if !t.inRow {
			p.startRow(t)
		}
		t.inCaption, t.inCell, t.text = false, true, words{}
		t.cell, t.across, t.down = pageCell{line: p.line}, 1, 1
		if attrs {
			p.spanned(t)
		}
	default:
		if !slices.Contains(inline, name) {
			p.text([]byte(" "))
		}
	}
}

// spanned reads what a cell spans.
func (p *pageReader) spanned(t *pageTable) {
	for {
		key, value, more := p.z.TagAttr()
		switch n, err := strconv.Atoi(strings.TrimSpace(string(value))); {
		case err != nil || n < 0:
		case string(key) == "colspan" && n > 0:
			t.across = min(n, maxWide)
		case string(key) == "rowspan" && n == 0:
			t.down = maxDown // to the end of the group
		case string(key) == "rowspan":
			t.down = min(n, maxDown)
		}
		if !more {
			return
		}
	}
}

// end takes a closing tag.
func (p *pageReader) end(name string) {
	if p.skip != "" {
		if name == p.skip {
			p.skip = ""
		}
		return
	}
	if len(p.open) == 0 {
		return
	}
	t := p.top()
	switch name {
	case "table":
		p.closeTable()
	case "caption":
		t.inCaption = false
	case "tr":
		p.endRow(t)
	case "thead", "tbody", "tfoot":
		p.endRow(t)
		t.spans = nil
	case "td", "th":
		p.endCell(t)
	default:
		if !slices.Contains(inline, name) {
			p.text([]byte(" "))
		}
	}
}

func (p *pageReader) closeTable() {
	p.endRow(p.top())
	p.open = p.open[:len(p.open)-1]
}

func (p *pageReader) startRow(t *pageTable) {
	t.inRow, t.inCaption = true, false
	t.rows = append(t.rows, pageRow{line: p.line})
	p.size += cellSize
}

// endCell puts the open cell behind those that go on from rows above.
func (p *pageReader) endCell(t *pageTable) {
	if !t.inCell {
		return
	}
	t.inCell = false
	t.cell.text = t.text.String()
	if t.cell.text != "" {
		t.filled++
	}
	p.goOn(t, false)
	row := &t.rows[len(t.rows)-1]
	for i := range t.across {
		column := len(row.cells)
		if column == maxCells {
			if i == 0 && t.cell.text != "" {
				p.wide.add(record.Origin{File: p.file, Line: t.cell.line})
			}
			return
		}
		c := t.cell
		if i > 0 {
			c.text = ""
		}
		p.put(row, c)
		if t.down > 1 {
			for len(t.spans) <= column {
				t.spans = append(t.spans, span{})
			}
			t.spans[column] = span{t.down, c} // this row is counted off at its end
		}
	}
}

// goOn repeats cells from rows above where they stand next in the row; at its
// end, wherever they stand.
func (p *pageReader) goOn(t *pageTable, atEnd bool) {
	row := &t.rows[len(t.rows)-1]
	for column := len(row.cells); column < len(t.spans) && column < maxCells; column++ {
		if t.spans[column].rows == 0 {
			if !atEnd {
				return
			}
			p.put(row, pageCell{line: row.line})
			continue
		}
		p.put(row, t.spans[column].cell)
	}
}

func (p *pageReader) put(row *pageRow, c pageCell) {
	row.cells = append(row.cells, c)
	p.size += cellSize
}

func (p *pageReader) endRow(t *pageTable) {
	p.endCell(t)
	if !t.inRow {
		return
	}
	t.inRow = false
	p.goOn(t, true)
	for i := range t.spans {
		t.spans[i].rows = max(t.spans[i].rows-1, 0)
	}
	for n := len(t.spans); n > 0 && t.spans[n-1].rows == 0; n-- {
		t.spans = t.spans[:n-1] // the last always goes on, so that a row ends with it
	}
}
