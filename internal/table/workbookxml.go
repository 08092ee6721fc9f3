package table

import (
	"bufio"
	"bytes"
	"errors"
	"io"
	"strconv"
	"unicode/utf8"
)

// markup gives the tags and the text of one XML part of a workbook, in one pass.
// It holds no more than one tag or one text, each of at most maxMarkup bytes.
//
// It knows what parts of workbooks use: elements, attributes, text, CDATA, the
// five entities and character references; comments and instructions are passed
// over. Names count without their prefix. A document type is refused, as ECMA-376
// part 2, 9.1 asks for (from memory): with it entities could be defined. Tags
// must match and end. encoding/xml is not used here: it holds a text of any
// length, and it takes nearly five times as long (BenchmarkMarkup).
type markup struct {
	in     *bufio.Reader
	name   []byte // of the tag, without prefix
	attrs  []byte // of the opening tag, as written
	text   []byte
	open   []byte // the names of the open elements, one behind the other
	opened []int  // where each begins
	inTag  bool   // behind "<"
	alone  bool   // the tag ended in "/>": its end is still to be given
	seen   bool   // there was an element
	kept   []byte // what did not fit the buffer of in
}

// token is what markup gives.
type token int

const (
	tokenOpen token = iota
	tokenClose
	tokenText
)

const maxDepth = 100 // elements in one another; a workbook has about ten

// The faults of a part. Their text goes into a refusal.
var (
	errCut     = errors.New("it ends in the middle")
	errLong    = errors.New("a tag or text is longer than 1 MiB")
	errMarkup  = errors.New("it is not well-formed XML")
	errDoctype = errors.New("it has a document type")
	errDepth   = errors.New("elements are nested more than 100 deep")
)

func newMarkup(in io.Reader) *markup {
	m := &markup{in: bufio.NewReaderSize(in, 64<<10)}
	if mark, _ := m.in.Peek(len(bom)); string(mark) == bom {
		m.in.Discard(len(bom))
	}
	return m
}

// next returns the next token; io.EOF after the end of a whole document. What
// the token holds is valid until the next call.
func (m *markup) next() (token, error) {
	if m.alone {
		m.alone = false
		return tokenClose, m.pop()
	}
	for {
		if !m.inTag {
			text, err := m.until('<')
			if err == io.EOF {
				return m.end(text)
			}
			if err != nil {
				return 0, err
			}
			m.inTag = true
			if text = text[:len(text)-1]; len(text) > 0 && len(m.opened) > 0 {
				if m.text, err = unescape(text); err != nil {
					return 0, err
				}
				return tokenText, nil
			}
		}
		m.inTag = false
		kind, skipped, err := m.tag()
		if err == io.EOF {
			err = errCut
		}
		if err != nil || !skipped {
			return kind, err
		}
	}
}

// end is what there is at the end of the part.
func (m *markup) end(rest []byte) (token, error) {
	if len(m.opened) > 0 || !m.seen || len(bytes.TrimSpace(rest)) > 0 {
		return 0, errCut
	}
	return 0, io.EOF
}

// tag reads what stands behind "<"; skipped tells that it says nothing.
func (m *markup) tag() (kind token, skipped bool, err error) {
	first, err := m.in.ReadByte()
	if err != nil {
		return 0, false, err
	}
	switch first {
	case '?':
		_, err := m.through("?>")
		return 0, true, err
	case '!':
		return m.declaration()
	case '/':
		name, err := m.until('>')
		if err != nil {
			return 0, false, err
		}
		m.name = local(trimBlank(name[:len(name)-1]))
		if n := len(m.opened); n == 0 || !bytes.Equal(m.name, m.open[m.opened[n-1]:]) {
			return 0, false, errMarkup
		}
		return tokenClose, false, m.pop()
	}
	m.in.UnreadByte()
	return tokenOpen, false, m.element()
}

// element reads an opening tag.
func (m *markup) element() error {
	tag, err := m.until('>')
	for err == nil && quoteOpen(tag) {
		m.kept = append(m.kept[:0], tag...) // ">" stood in an attribute
		tag, err = m.untilFrom('>')
	}
	if err != nil {
		return err
	}
	tag = tag[:len(tag)-1]
	if n := len(tag); n > 0 && tag[n-1] == '/' {
		tag, m.alone = tag[:n-1], true
	}
	i := 0
	for i < len(tag) && !isBlank(tag[i]) {
		i++
	}
	if m.name, m.attrs = local(tag[:i]), tag[i:]; len(m.name) == 0 || m.seen && len(m.opened) == 0 {
		return errMarkup
	}
	if m.seen = true; len(m.opened) == maxDepth {
		return errDepth
	}
	m.opened, m.open = append(m.opened, len(m.open)), append(m.open, m.name...)
	return nil
}

func (m *markup) pop() error {
	at := m.opened[len(m.opened)-1]
	m.name = m.open[at:]
	m.open, m.opened = m.open[:at], m.opened[:len(m.opened)-1]
	return nil
}

// declaration reads what begins with "<!".
func (m *markup) declaration() (token, bool, error) {
	head, err := m.in.Peek(2)
	switch {
	case err != nil:
		return 0, false, err
	case string(head) == "--":
		m.in.Discard(2)
		_, err := m.through("-->")
		return 0, true, err
	}
	if head, err = m.in.Peek(7); string(head) != "[CDATA[" {
		return 0, false, errDoctype
	}
	m.in.Discard(7)
	m.text, err = m.through("]]>")
	return tokenText, len(m.opened) == 0, err
}

// until reads up to and with a byte.
func (m *markup) until(b byte) ([]byte, error) {
	m.kept = m.kept[:0]
	return m.untilFrom(b)
}

// untilFrom is until, behind what is kept already.
func (m *markup) untilFrom(b byte) ([]byte, error) {
	for {
		piece, err := m.in.ReadSlice(b)
		if err == nil && len(m.kept) == 0 {
			return piece, nil
		}
		if len(m.kept)+len(piece) > maxMarkup {
			return nil, errLong
		}
		m.kept = append(m.kept, piece...)
		if err != bufio.ErrBufferFull {
			return m.kept, err
		}
	}
}

// through reads up to a mark and returns what stands before it.
func (m *markup) through(mark string) ([]byte, error) {
	m.kept = m.kept[:0]
	for {
		text, err := m.untilFrom(mark[len(mark)-1])
		if err != nil {
			return nil, err
		}
		if before, ok := bytes.CutSuffix(text, []byte(mark)); ok {
			return before, nil
		}
		if len(m.kept) == 0 {
			m.kept = append(m.kept, text...)
		}
	}
}

// quoteOpen reports whether a tag breaks off within an attribute.
func quoteOpen(tag []byte) bool {
	for {
		i := 0
		for i < len(tag) && tag[i] != '"' && tag[i] != '\'' {
			i++
		}
		if i == len(tag) {
			return false
		}
		j := bytes.IndexByte(tag[i+1:], tag[i])
		if j < 0 {
			return true
		}
		tag = tag[i+1+j+1:]
	}
}

func isBlank(c byte) bool { return c == ' ' || c == '\n' || c == '\t' || c == '\r' }

// trimBlank is bytes.TrimSpace for the white space of XML, and faster.
func trimBlank(b []byte) []byte {
	for len(b) > 0 && isBlank(b[0]) {
		b = b[1:]
	}
	for len(b) > 0 && isBlank(b[len(b)-1]) {
		b = b[:len(b)-1]
	}
	return b
}

// local returns a name without its prefix.
func local(name []byte) []byte {
	if len(name) == 1 && name[0] != ':' {
		return name
	}
	return name[bytes.LastIndexByte(name, ':')+1:]
}

// attr returns an attribute of the tag by its name without prefix; nil without it.
func (m *markup) attr(name string) []byte {
	rest := m.attrs
	for {
		key, value, after, ok := cutAttr(rest)
		if !ok {
			return nil
		}
		rest = after
		if string(local(key)) == name && !bytes.HasPrefix(key, []byte("xmlns:")) {
			value, err := unescape(value)
			if err != nil {
				return nil
			}
			return value
		}
	}
}

// cellAttrs are the attributes of a cell, each as attr gives it.
type cellAttrs struct{ place, kind, style []byte }

// cell returns the attributes of the tag of a cell in one look.
func (m *markup) cell() (a cellAttrs) {
	var seen struct{ place, kind, style bool }
	rest := m.attrs
	for {
		key, value, after, ok := cutAttr(rest)
		if !ok {
			return a
		}
		rest = after
		to, twice := (*[]byte)(nil), (*bool)(nil)
		switch string(local(key)) {
		case "r":
			to, twice = &a.place, &seen.place
		case "t":
			to, twice = &a.kind, &seen.kind
		case "s":
			to, twice = &a.style, &seen.style
		default:
			continue
		}
		if !*twice && !bytes.HasPrefix(key, []byte("xmlns:")) {
			*twice = true
			if text, err := unescape(value); err == nil {
				*to = text
			}
		}
	}
}

// cutAttr cuts the first attribute off those of a tag.
func cutAttr(attrs []byte) (key, value, rest []byte, ok bool) {
	i := bytes.IndexByte(attrs, '=')
	if i < 0 {
		return nil, nil, nil, false
	}
	key, rest = trimBlank(attrs[:i]), trimBlank(attrs[i+1:])
	if len(rest) == 0 {
		return nil, nil, nil, false
	}
	end := bytes.IndexByte(rest[1:], rest[0])
	if end < 0 {
		return nil, nil, nil, false
	}
	return key, rest[1 : 1+end], rest[end+2:], true
}

// usual is the markup that nearly every cell of a kind has behind its tag.
type usual struct {
	begin, end []byte // around the text
	depth      int    // of elements around it
}

var (
	usualValue  = usual{[]byte("<v>"), []byte("</v></c>"), 1}
	usualInline = usual{[]byte("<is><t>"), []byte("</t></is></c>"), 2}
)

// usually reads a cell behind its tag up to its end where that has the usual
// markup and no other; else it reads nothing.
func (m *markup) usually(u *usual) (text []byte, ok bool, err error) {
	ahead, _ := m.in.Peek(m.in.Buffered())
	if m.alone || len(m.opened)+u.depth > maxDepth || !bytes.HasPrefix(ahead, u.begin) {
		return nil, false, nil
	}
	ahead = ahead[len(u.begin):]
	end := bytes.IndexByte(ahead, '<')
	if end < 0 || !bytes.HasPrefix(ahead[end:], u.end) {
		return nil, false, nil
	}
	if text, err = unescape(ahead[:end]); err != nil {
		return nil, false, err
	}
	m.in.Discard(len(u.begin) + end + len(u.end))
	return text, true, m.pop()
}

// entities are those that every XML text has: XML 1.0, 4.6.
var entities = map[string]string{"lt": "<", "gt": ">", "amp": "&", "apos": "'", "quot": `"`}

// unescape replaces entities and character references. Text without any is
// returned as it is.
func unescape(text []byte) ([]byte, error) {
	i := bytes.IndexByte(text, '&')
	if i < 0 {
		return text, nil
	}
	var out []byte
	for ; i >= 0; i = bytes.IndexByte(text, '&') {
		out = append(out, text[:i]...)
		text = text[i+1:]
		end := bytes.IndexByte(text[:min(len(text), 12)], ';')
		if end < 0 {
			return nil, errMarkup
		}
		if by, ok := entities[string(text[:end])]; ok {
			out = append(out, by...)
		} else if r := reference(string(text[:end])); r != 0 {
			out = utf8.AppendRune(out, r)
		} else {
			return nil, errMarkup
		}
		text = text[end+1:]
	}
	return append(out, text...), nil
}

// reference reads "#65" or "#x41"; 0 where it is neither.
func reference(s string) rune {
	if len(s) < 2 || s[0] != '#' {
		return 0
	}
	base, digits := 10, s[1:]
	if digits[0] == 'x' {
		base, digits = 16, digits[1:]
	}
	n, err := strconv.ParseUint(digits, base, 21)
	if err != nil || !utf8.ValidRune(rune(n)) {
		return 0
	}
	return rune(n)
}
