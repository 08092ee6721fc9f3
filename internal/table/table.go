// Package table takes files of any container apart into tables of rows: text
// with divided cells, workbooks, web pages, archives of them. It knows nothing
// of what the cells mean. Memory is bounded throughout, see the limits.
package table

import (
	"errors"
	"io"

	"ratchetmark/internal/record"
)

// Rows gives the rows of one table.
type Rows interface {
	// Next returns the next row; io.EOF at the end. The cells are valid until
	// the next call. A row that is not well-formed gives a [*Broken] error, and
	// reading may go on.
	Next() (cells []string, err error)
	// Place returns where cell i, from 0, of the last row stands; of the row's
	// last cell where i is beyond it.
	Place(i int) record.Origin
}

// Typed is what rows are whose cells know whether they are numbers by type, not
// by how they are written.
type Typed interface{ Typed(i int) bool }

// Spotted is what rows are that tell the line and the column of a cell by
// themselves, as [Rows.Place] gives them, at less cost.
type Spotted interface {
	Spot(i int) (line, column int)
}

// Repeating is what rows are that tell how many of the first cells of the last
// row are those of the row that was given before it; 0 where that is not known.
type Repeating interface{ Same() int }

// Loose is what rows are that may be shorter than their heading: blank cells at
// the end are not kept in the file.
type Loose interface{ Loose() bool }

// Table is one table of a file: the text itself, a sheet, a table of a page.
type Table struct {
	File string // "export.zip: march.csv" within an archive
	Name string // of the sheet; empty where the file is one table
	Rows Rows
}

// Broken is a row that is not well-formed.
type Broken struct {
	Origin  record.Origin
	Message string
}

func (b *Broken) Error() string { return b.Origin.String() + ": " + b.Message }

// Refusal says why a file could not be read at all.
type Refusal = record.Refusal

// Limits on what is taken apart. Far above what a machine or an office makes,
// low enough that a hostile file cannot exhaust a tablet.
const (
	maxLine     = 64 << 10  // bytes of one line of delimited text
	maxPacked   = 64 << 20  // bytes of an archive or workbook: it is held in memory
	maxUnpacked = 512 << 20 // bytes of all that an archive holds
	maxPart     = 256 << 20 // bytes of one part of a workbook
	maxStrings  = 48 << 20  // bytes of a workbook's shared strings, held in memory
	maxRatio    = 100       // unpacked to packed, once above ratioFrom
	ratioFrom   = 1 << 20   // bytes
	maxAbout    = 16 << 20  // bytes of any other part of a workbook
	maxMerged   = 20000     // merged cells of a sheet whose value is repeated
	maxPage     = 64 << 20  // bytes of a table of a page, and of those within it: it is held in memory
	maxEntries  = 500       // entries of an archive, sheets of a workbook
	maxCells    = 2000      // cells of one row
	maxMarkup   = 1 << 20   // bytes of one tag, one text or one row of a workbook
	maxToken    = 16 << 20  // bytes of one tag, text, script or picture of a page
	sniffed     = 4096      // bytes looked at to tell what a file is
)

// Walker is told what a file holds, in the order of the file.
type Walker struct {
	Table func(t Table) error                      // of each table
	JSON  func(name string, in io.Reader) error    // of each JSON text, as UTF-8 without a mark
	Note  func(at record.Origin, f record.Finding) // of what a container says about itself
}

// Walk takes a file apart. The error is a [*Refusal] where the file cannot be
// taken apart, else that of the reader or of the walker.
func Walk(name string, in io.Reader, w Walker) error {
	return w.walk(name, in, false)
}

// walk takes one file apart; inside tells that it stands in an archive.
func (w Walker) walk(name string, in io.Reader, inside bool) error {
	buffered := newPeeker(in)
	head, err := buffered.Peek(sniffed)
	if err != nil && err != io.EOF {
		return err
	}
	kind, refusal := sniff(name, head)
	switch {
	case refusal != nil:
		return refusal
	case kind == kindZIP:
		return w.packed(name, buffered, inside)
	}
	text := newDecoder(buffered, head)
	switch kind {
	case kindJSON:
		err = w.JSON(name, text)
	case kindHTML:
		err = w.page(name, text)
	default:
		err = w.delimited(name, text)
	}
	if err == nil {
		text.say(name, w.Note)
	}
	return err
}

// isRefusal reports whether an error is that of the file, not of the reader.
func isRefusal(err error) bool {
	var r *Refusal
	return errors.As(err, &r)
}
