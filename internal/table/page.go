package table

import (
	"errors"
	"fmt"
	"io"

	"golang.org/x/net/html"

	"ratchetmark/internal/record"
)

// page reads each table of a web page or of markup that was pasted. A table is
// held, with those within it (at most maxPage), until it ends: only then is it
// clear whether it holds more than one cell. Text of the page beside its tables
// is passed over.
func (w Walker) page(name string, in io.Reader) error {
	p := &pageReader{file: name, z: html.NewTokenizer(in), line: 1}
	p.z.SetMaxBuf(maxToken)
	for {
		kind := p.z.Next()
		if kind == html.ErrorToken {
			break
		}
		p.take(kind)
		if p.size > maxPage {
			return p.refuse(fmt.Sprintf("a table of the page is larger than %d MiB", maxPage>>20), "a smaller one", "save it as delimited text")
		}
		if len(p.open) == 0 && len(p.whole) > 0 {
			if err := p.visit(w); err != nil {
				return err
			}
		}
	}
	switch err := p.z.Err(); {
	case errors.Is(err, html.ErrBufferExceeded):
		return p.refuse(fmt.Sprintf("a tag or text is longer than %d MiB", maxToken>>20), "a page with a table", "save the table as delimited text")
	case err != io.EOF:
		return err
	}
	return p.finish(w)
}

func (p *pageReader) refuse(found, expected, hint string) *Refusal {
	return &Refusal{File: p.file, Line: p.line, Found: found, Expected: expected, Hint: hint}
}

// finish gives what is left at the end of the page.
func (p *pageReader) finish(w Walker) error {
	if len(p.open) > 0 {
		w.Note(record.Origin{File: p.file, Line: p.open[0].line}, record.Finding{
			Code: "page-cut", Severity: record.Doubt, Where: "a table of the page", Message: "the page ends within the table",
			Expected: "the end of the table", Effect: "the table is read as far as it goes; rows may be missing", Hint: "save or copy the whole page again",
		})
		for len(p.open) > 0 {
			p.closeTable()
		}
		if err := p.visit(w); err != nil {
			return err
		}
	}
	if p.wide.n > 0 {
		w.Note(p.wide.at, tooWide("a table of the page", p.wide.n))
	}
	if p.given == 0 {
		return &Refusal{File: p.file, Found: "the file is a web page or XML without a table of more than one cell", Expected: expectedFile, Hint: "log in and export the record again, or save the page that shows it"}
	}
	return nil
}

// tooWide is the finding of cells that are too far to the right.
func tooWide(where string, n int) record.Finding {
	return record.Finding{Code: "row-too-wide", Severity: record.Doubt, Where: where, Message: fmt.Sprintf("%d cells stand beyond column %d", n, maxCells),
		Expected: "fewer columns", Effect: "nothing is read from these cells", Hint: "move them to columns further left"}
}

// visit gives the tables that are whole, in the order in which they begin.
func (p *pageReader) visit(w Walker) error {
	whole := p.whole
	p.whole, p.size = nil, 0
	for _, t := range whole {
		if t.filled <= 1 {
			continue // made for the layout of the page
		}
		p.given++
		name := t.caption.String()
		if name == "" {
			name = fmt.Sprintf("table %d", p.given)
		}
		if err := w.Table(Table{File: p.file, Name: name, Rows: &pageRows{file: p.file, t: t}}); err != nil {
			return err
		}
	}
	return nil
}

// pageRows gives the rows of a table of a page.
type pageRows struct {
	file string
	t    *pageTable
	next int
	buf  []string
}

// Next implements [Rows].
func (r *pageRows) Next() ([]string, error) {
	if r.next == len(r.t.rows) {
		return nil, io.EOF
	}
	r.buf = r.buf[:0]
	for _, c := range r.t.rows[r.next].cells {
		r.buf = append(r.buf, c.text)
	}
	r.next++
	return r.buf, nil
}

// Place implements [Rows]: the line of the markup in which the cell begins.
func (r *pageRows) Place(i int) record.Origin {
	if r.next == 0 {
		return record.Origin{File: r.file, Line: r.t.line}
	}
	row := r.t.rows[r.next-1]
	if len(row.cells) == 0 {
		return record.Origin{File: r.file, Line: row.line}
	}
	return record.Origin{File: r.file, Line: row.cells[max(min(i, len(row.cells)-1), 0)].line}
}

// Typed implements [Typed]: a page writes its numbers for people.
func (r *pageRows) Typed(int) bool { return false }

// Loose implements [Loose]: a row may leave out its last cells.
func (r *pageRows) Loose() bool { return true }
