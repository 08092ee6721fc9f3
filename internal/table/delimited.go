package table

import (
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"strings"
	"unicode/utf8"

	"ratchetmark/internal/record"
)

const dividerHead = 16 << 10 // bytes looked at to tell the divider

// delimited reads text with divided cells.
func (w Walker) delimited(name string, in io.Reader) error {
	l := newLiner(name, in)
	head, err := l.peek(dividerHead)
	if err != nil {
		return err
	}
	r := &delimited{name: name, lines: l, divider: dividerOf(head)}
	if mark, line := declaredIn(head); mark != 0 {
		r.divider, r.skip = mark, line
	}
	return w.Table(Table{File: name, Rows: r})
}

// delimited gives the rows of text with divided cells, quoted as in RFC 4180.
// A line without quotes is divided here; encoding/csv takes the others.
type delimited struct {
	name    string
	lines   *liner
	divider byte
	cells   []string
	starts  []int  // of the cells in line, in bytes
	line    string // the row as it stands, or the last of its lines
	from    int    // number of its first line
	quoted  *csv.Reader
	feed    feed
	divided string // the row before where it was divided here, else empty
	fills   int    // of lines when it was
	same    int    // how many of its first cells are those of the row before
	ascii   bool   // the last row is, and was divided here
	byCSV   bool   // the last row was taken by quoted
	base    int    // line of quoted that is line from
	skip    int    // the line that names the divider; 0: none
	distant int    // no quote that opens above this line is closed
}

// Next implements [Rows].
func (r *delimited) Next() ([]string, error) {
	for {
		line, err := r.lines.next()
		if err != nil {
			return nil, err
		}
		if len(line) > 0 && line[0] == '#' && (len(line) == 1 || line[1] != r.divider) || r.lines.line == r.skip {
			continue
		}
		r.from, r.line = r.lines.line, line
		if r.lines.quoted(line) {
			r.divided = ""
			return r.quotedRow(line)
		}
		r.divide(line)
		return r.cells, r.tooWide()
	}
}

// divide divides a line without quotes. The first cells are mostly those of the
// line before, which are then taken over as they are.
func (r *delimited) divide(line string) {
	known, old := r.known(line), len(r.cells)
	if r.divided == "" { // the row before was not divided here
		old = 0
	}
	cells, starts, divider := r.cells[:known], r.starts[:known], r.divider
	start, bits := 0, byte(0)
	if known > 0 {
		start = r.starts[:known+1][known]
	}
	same, alike := known, true
	for i := start; i < len(line); i++ {
		bits |= line[i]
		if line[i] != divider {
			continue
		}
		k, cell := len(cells), line[start:i]
		if alike = alike && k < old && cells[:old][k] == cell; alike {
			same++
		}
		cells, starts = append(cells, cell), append(starts, start)
		if start = i + 1; len(cells) > maxCells {
			break
		}
	}
	if k := len(cells); alike && k < old && cells[:old][k] == line[start:] {
		same++
	}
	r.cells, r.starts = append(cells, line[start:]), append(starts, start)
	r.ascii = bits < utf8.RuneSelf && (r.ascii || known == 0) && len(r.cells) <= maxCells
	r.byCSV, r.same, r.divided, r.fills = false, same, line, r.lines.fills
}

// known returns how many cells are those of the line divided before, as far as
// one look tells. Lines read at another time count for nothing, lest their
// memory be held.
func (r *delimited) known(line string) int {
	n := min(r.same, len(r.cells)-1)
	if n <= 0 || r.divided == "" || r.fills != r.lines.fills || !strings.HasPrefix(line, r.divided[:r.starts[n]]) {
		return 0
	}
	return n
}

// Same implements [Repeating].
func (r *delimited) Same() int {
	if r.divided == "" {
		return 0
	}
	return r.same
}

// quotedRow takes a row with quotes, which may go on over several lines, up to
// the limit of one line in all. Where a quote is not closed, the lines up to the
// one that opens it are lost, and no more.
func (r *delimited) quotedRow(line string) ([]string, error) {
	row := append([]byte(line), '\n')
	first := r.from
	ends := []int{len(line)} // of the lines in row
	opener, opened := 0, r.opens(line, outside)
	for opened != closed {
		if first+len(ends) <= r.distant {
			return nil, r.unclosed(row, ends, opener, opened)
		}
		more, err := r.lines.next()
		if err != nil && err != io.EOF {
			return nil, err
		}
		if err == io.EOF || len(row)+len(more) > maxLine {
			if err == nil {
				row = append(row, more...)
				ends = append(ends, len(row))
			}
			r.distant = first + len(ends)
			return nil, r.unclosed(row, ends, opener, opened)
		}
		row = append(append(row, more...), '\n')
		ends = append(ends, len(row)-1)
		if at := r.opens(more, within); at != stillOpen {
			opener, opened = len(ends)-1, at
		}
	}
	cells, err := r.parse(row)
	var broken *Broken
	if errors.As(err, &broken) && len(ends) > 1 { // the quote of the first line was not meant to be closed by a later one
		return nil, r.unclosed(row, ends, 0, max(r.opens(line, outside), 0))
	}
	return cells, err
}

// unclosed gives back the lines below the one that opens a quote that is never closed.
func (r *delimited) unclosed(row []byte, ends []int, opener, column int) error {
	var after []string
	for i := opener + 1; i < len(ends); i++ {
		after = append(after, string(row[ends[i-1]+1:ends[i]]))
	}
	r.lines.back(after)
	start := 0
	if opener > 0 {
		start = ends[opener-1] + 1
	}
	at := record.Origin{File: r.name, Line: r.from + opener, Column: utf8.RuneCount(row[start:start+column]) + 1}
	return &Broken{at, "a quote is opened and not closed"}
}

// The states of the scan for open quotes.
type quoteState int

const (
	outside quoteState = iota
	within
)

// What opens returns besides a position.
const (
	closed    = -1
	stillOpen = -2
)

// opens returns where in a line the quote stands that is open at its end;
// stillOpen where it is the one that was open at its beginning, closed where none is.
func (r *delimited) opens(line string, state quoteState) int {
	at := stillOpen
	atStart := state == outside
	for i := 0; i < len(line); i++ {
		c := line[i]
		switch {
		case state == within && c == '"' && i+1 < len(line) && line[i+1] == '"':
			i++
		case state == within && c == '"':
			state = outside
		case state == outside && c == '"' && atStart:
			state, at = within, i
		}
		atStart = state == outside && c == r.divider
	}
	if state == outside {
		return closed
	}
	return at
}

// feed gives one row at a time to a csv.Reader.
type feed struct{ row []byte }

func (f *feed) Read(p []byte) (int, error) {
	if len(f.row) == 0 {
		return 0, io.EOF
	}
	n := copy(p, f.row)
	f.row = f.row[n:]
	return n, nil
}

// parse has encoding/csv take a row.
func (r *delimited) parse(row []byte) ([]string, error) {
	r.line = string(row)
	r.feed.row = row
	if r.quoted == nil {
		r.quoted = csv.NewReader(&r.feed)
		r.quoted.Comma, r.quoted.FieldsPerRecord, r.quoted.ReuseRecord = rune(r.divider), -1, true
	}
	cells, err := r.quoted.Read()
	var fault *csv.ParseError
	if errors.As(err, &fault) {
		r.quoted, r.feed.row = nil, nil
		return nil, &Broken{record.Origin{File: r.name, Line: r.from, Column: r.column(r.line, fault.Column)}, fault.Err.Error()}
	}
	if err != nil {
		return nil, err
	}
	r.byCSV = true
	r.base, _ = r.quoted.FieldPos(0)
	r.cells = append(r.cells[:0], cells...)
	return r.cells, r.tooWide()
}

// tooWide refuses a row with more cells than any table has.
func (r *delimited) tooWide() error {
	if len(r.cells) <= maxCells {
		return nil
	}
	return &Broken{record.Origin{File: r.name, Line: r.from, Column: 1}, fmt.Sprintf("the row has more than %d cells", maxCells)}
}

// column turns a column of csv, in bytes from 1, into one in characters.
func (r *delimited) column(line string, inBytes int) int {
	return utf8.RuneCountInString(line[:min(max(inBytes-1, 0), len(line))]) + 1
}

// Place implements [Rows].
func (r *delimited) Place(i int) record.Origin {
	line, column := r.Spot(i)
	return record.Origin{File: r.name, Line: line, Column: column}
}

// Spot implements [Spotted]. Columns count characters, as an editor does.
func (r *delimited) Spot(i int) (line, column int) {
	if len(r.cells) == 0 {
		return r.from, 1
	}
	i = min(max(i, 0), len(r.cells)-1)
	if !r.byCSV && r.ascii {
		return r.from, r.starts[i] + 1
	}
	if !r.byCSV {
		return r.from, utf8.RuneCountInString(r.line[:r.starts[i]]) + 1
	}
	line, column = r.quoted.FieldPos(i)
	rest := r.line
	for n := r.base; n < line; n++ {
		if cut := strings.IndexByte(rest, '\n'); cut >= 0 {
			rest = rest[cut+1:]
		}
	}
	return r.from + line - r.base, r.column(rest, column)
}
