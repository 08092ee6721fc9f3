package table

import (
	"bytes"
	"fmt"
	"io"
)

// liner gives text line by line, whatever ends its lines: CR LF, LF or CR. A
// line longer than the limit is refused: nothing with one is a record. It holds
// no more than its buffer and the lines put back.
type liner struct {
	name       string
	in         io.Reader
	buf        []byte
	start, end int // of what is read and not given yet
	feed       int // where the next LF stands; end where there is none
	err        error
	queued     [][]byte // lines put back, the next one last
	line       int      // number of the line given last
}

const linerBuffer = 2*maxLine + 2

func newLiner(name string, in io.Reader) *liner {
	return &liner{name: name, in: in, buf: make([]byte, linerBuffer)}
}

// peek returns the next n bytes, fewer at the end of the text.
func (l *liner) peek(n int) ([]byte, error) {
	for l.end-l.start < n && l.err == nil {
		l.fill()
	}
	if l.err != nil && l.err != io.EOF {
		return nil, l.err
	}
	return l.buf[l.start:min(l.end, l.start+n)], nil
}

// fill reads more behind what is there.
func (l *liner) fill() {
	if l.start > 0 {
		copy(l.buf, l.buf[l.start:l.end])
		l.start, l.end = 0, l.end-l.start
	}
	n, err := l.in.Read(l.buf[l.end:])
	l.end += n
	l.err = err
	l.find()
}

// find looks for the next LF.
func (l *liner) find() {
	l.feed = l.end
	if i := bytes.IndexByte(l.buf[l.start:l.end], '\n'); i >= 0 {
		l.feed = l.start + i
	}
}

// next returns the next line without its end, valid until the next call; io.EOF after the last.
func (l *liner) next() ([]byte, error) {
	if n := len(l.queued); n > 0 {
		line := l.queued[n-1]
		l.queued = l.queued[:n-1]
		l.line++
		return line, nil
	}
	for {
		if l.feed < l.start {
			l.find()
		}
		if line, ok := l.cut(); ok {
			if len(line) > maxLine {
				return nil, l.tooLong()
			}
			l.line++
			return line, nil
		}
		switch {
		case l.end-l.start > maxLine+1:
			return nil, l.tooLong()
		case l.err == io.EOF && l.start == l.end:
			return nil, io.EOF
		case l.err != nil && l.err != io.EOF:
			return nil, l.err
		}
		l.fill()
	}
}

// cut takes the next line off the buffer; false where its end is not read yet.
func (l *liner) cut() ([]byte, bool) {
	rest := l.buf[l.start:l.feed]
	i := bytes.IndexByte(rest, '\r')
	last := l.err == io.EOF
	switch {
	case i >= 0 && l.start+i+1 == l.end && !last:
		return nil, false // an LF may follow
	case i >= 0:
		l.start += i + 1
		if l.start < l.end && l.buf[l.start] == '\n' {
			l.start++
		}
		return rest[:i], true
	case l.feed < l.end:
		l.start = l.feed + 1
		return rest, true
	case last && l.start < l.end:
		l.start = l.end
		return rest, true
	}
	return nil, false
}

var longText = fmt.Sprintf("the line is longer than %d KiB", maxLine>>10)

func (l *liner) tooLong() error {
	return &Refusal{File: l.name, Line: l.line + 1, Found: longText, Expected: "one short row for each band",
		Hint: "this is not delimited text in the form of the template"}
}

// back puts lines back, to be given again; the first of them first.
func (l *liner) back(lines [][]byte) {
	for i := len(lines) - 1; i >= 0; i-- {
		l.queued = append(l.queued, lines[i])
		l.line--
	}
}
