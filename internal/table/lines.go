package table

import (
	"fmt"
	"io"
	"strings"
)

// liner gives text line by line, whatever ends its lines: CR LF, LF or CR. A
// line longer than the limit is refused: nothing with one is a record. It holds
// no more than its buffer, what was read last and the lines put back. The lines
// read at once share their memory.
type liner struct {
	name   string
	in     io.Reader
	buf    []byte // to read into
	text   string // what is read
	start  int    // of what is not given yet
	feed   int    // where the next LF stands; len(text) where there is none
	cr     bool   // there may be a CR in text
	quotes bool   // there may be a quote in text
	err    error
	queued []string // lines put back, the next one last
	line   int      // number of the line given last
	fills  int      // how often text was read
}

const (
	linerBuffer = 2*maxLine + 2
	linerRead   = 8 << 10 // bytes that are read at once, unless the text ends
)

func newLiner(name string, in io.Reader) *liner {
	return &liner{name: name, in: in, buf: make([]byte, linerBuffer)}
}

// peek returns the next n bytes, fewer at the end of the text.
func (l *liner) peek(n int) ([]byte, error) {
	for len(l.text)-l.start < n && l.err == nil {
		l.fill()
	}
	if l.err != nil && l.err != io.EOF {
		return nil, l.err
	}
	return []byte(l.text[l.start:min(len(l.text), l.start+n)]), nil
}

// fill reads more behind what is there.
func (l *liner) fill() {
	held := copy(l.buf, l.text[l.start:])
	end := held
	for end < len(l.buf) && end-held < linerRead && l.err == nil {
		var n int
		n, l.err = l.in.Read(l.buf[end:])
		end += n
	}
	l.text, l.start = string(l.buf[:end]), 0
	l.fills++
	l.cr, l.quotes = strings.IndexByte(l.text, '\r') >= 0, strings.IndexByte(l.text, '"') >= 0
	l.find()
}

// find looks for the next LF.
func (l *liner) find() {
	l.feed = len(l.text)
	if i := strings.IndexByte(l.text[l.start:], '\n'); i >= 0 {
		l.feed = l.start + i
	}
}

// next returns the next line without its end; io.EOF after the last.
func (l *liner) next() (string, error) {
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
				return "", l.tooLong()
			}
			l.line++
			return line, nil
		}
		switch {
		case len(l.text)-l.start > maxLine+1:
			return "", l.tooLong()
		case l.err == io.EOF && l.start == len(l.text):
			return "", io.EOF
		case l.err != nil && l.err != io.EOF:
			return "", l.err
		}
		l.fill()
	}
}

// cut takes the next line off the text; false where its end is not read yet.
func (l *liner) cut() (string, bool) {
	rest := l.text[l.start:l.feed]
	i, end := -1, len(l.text)
	if l.cr {
		i = strings.IndexByte(rest, '\r')
	}
	last := l.err == io.EOF
	switch {
	case i >= 0 && l.start+i+1 == end && !last:
		return "", false // an LF may follow
	case i >= 0:
		l.start += i + 1
		if l.start < end && l.text[l.start] == '\n' {
			l.start++
		}
		return rest[:i], true
	case l.feed < end:
		l.start = l.feed + 1
		return rest, true
	case last && l.start < end:
		l.start = end
		return rest, true
	}
	return "", false
}

// quoted reports whether the line given last may have a quote.
func (l *liner) quoted(line string) bool { return l.quotes && strings.IndexByte(line, '"') >= 0 }

var longText = fmt.Sprintf("the line is longer than %d KiB", maxLine>>10)

func (l *liner) tooLong() error {
	return &Refusal{File: l.name, Line: l.line + 1, Found: longText, Expected: "one short row for each band",
		Hint: "this is not delimited text in the form of the template"}
}

// back puts lines back, to be given again; the first of them first.
func (l *liner) back(lines []string) {
	for i := len(lines) - 1; i >= 0; i-- {
		l.queued = append(l.queued, lines[i])
		l.line--
	}
	l.quotes = l.quotes || len(lines) > 0
}
