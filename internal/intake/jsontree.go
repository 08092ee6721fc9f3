package intake

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"sort"
	"strconv"
	"strings"
	"unicode/utf8"

	"ratchetmark/internal/record"
)

// node is a JSON value that knows where it stands in the file.
type node struct {
	offset int
	value  any     // string, json.Number, bool or nil for a scalar
	fields []field // of an object
	items  []node  // of an array
	shape  shape
}

type shape int

const (
	scalar shape = iota
	object
	array
)

// kindText names what a node is, for messages.
func (n node) kindText() string {
	switch {
	case n.shape == object:
		return "an object"
	case n.shape == array:
		return "a list"
	}
	switch v := n.value.(type) {
	case nil:
		return "null"
	case bool:
		return fmt.Sprint(v)
	case json.Number:
		return "the number " + short(v.String())
	default:
		return fmt.Sprintf("the text %q", short(fmt.Sprint(v)))
	}
}

// short cuts a value that is too long for a message.
func short(s string) string {
	const most = 40
	r := []rune(s)
	if len(r) <= most {
		return s
	}
	return string(r[:most]) + "…"
}

type field struct {
	name   string
	offset int
	node   node
}

// treeReader builds nodes from the tokens of encoding/json.
type treeReader struct {
	name string
	data []byte
	dec  *json.Decoder
	line lines

	values int // read of the case in hand
}

func newTreeReader(name string, data []byte) *treeReader {
	dec := json.NewDecoder(bytes.NewReader(data))
	dec.UseNumber()
	return &treeReader{name: name, data: data, dec: dec, line: linesOf(data)}
}

// start returns the offset at which the next token begins.
func (t *treeReader) start() int {
	i := int(t.dec.InputOffset())
	for i < len(t.data) && bytes.IndexByte([]byte(" \t\r\n,:"), t.data[i]) >= 0 {
		i++
	}
	return i
}

// next reads the next value; io.EOF at the end of the input.
func (t *treeReader) next(depth int) (node, error) {
	n := node{offset: t.start()}
	if depth > maxDepth {
		return n, t.tooMuch(n.offset, fmt.Sprintf("values are nested more than %d deep", maxDepth))
	}
	if t.values++; t.values > maxValues {
		return n, t.tooMuch(n.offset, fmt.Sprintf("more than %d values in one case or list", maxValues))
	}
	token, err := t.dec.Token()
	if err != nil {
		return n, t.fault(err, depth)
	}
	switch token {
	case json.Delim('{'):
		n.shape = object
		err = t.fields(&n, depth)
	case json.Delim('['):
		n.shape = array
		for err == nil && t.dec.More() {
			var item node
			item, err = t.next(depth + 1)
			n.items = append(n.items, item)
		}
		if err == nil {
			err = t.close(depth)
		}
	default:
		n.value = token
	}
	return n, err
}

func (t *treeReader) fields(n *node, depth int) error {
	for t.dec.More() {
		f := field{offset: t.start()}
		token, err := t.dec.Token()
		if err != nil {
			return t.fault(err, depth+1)
		}
		f.name, _ = token.(string)
		if f.node, err = t.next(depth + 1); err != nil {
			return err
		}
		n.fields = append(n.fields, f)
	}
	return t.close(depth)
}

// close reads the end of an object or array.
func (t *treeReader) close(depth int) error {
	if _, err := t.dec.Token(); err != nil {
		return t.fault(err, depth+1)
	}
	return nil
}

// fault turns an error of the decoder into a refusal with a place.
func (t *treeReader) fault(err error, depth int) error {
	var refusal *Refusal
	var syntax *json.SyntaxError
	switch {
	case errors.As(err, &refusal):
		return err
	case depth == 0 && err == io.EOF:
		return io.EOF
	case err == io.EOF || err == io.ErrUnexpectedEOF:
		return t.refuse(len(t.data), "the file ends in the middle of a value", "the rest of it")
	case errors.As(err, &syntax):
		return t.refuse(max(t.start(), 0), "the JSON is broken: "+syntax.Error(), "well-formed JSON")
	}
	return err
}

func (t *treeReader) refuse(offset int, found, expected string) *Refusal {
	at := t.line.at(offset)
	return &Refusal{File: t.name, Line: at.Line, Column: at.Column, Found: found, Expected: expected,
		Hint: "export the case again; a file cut short in transfer looks like this"}
}

// tooMuch refuses JSON that no record makes.
func (t *treeReader) tooMuch(offset int, found string) *Refusal {
	r := t.refuse(offset, found, "a case file; one machine takes a few hundred values")
	r.Hint = "check that this is a case file; split a long list by machine"
	return r
}

// lines finds line and column of an offset.
type lines struct {
	starts []int
	data   []byte
}

func linesOf(data []byte) lines {
	starts := []int{0}
	for i, b := range data {
		if b == '\n' {
			starts = append(starts, i+1)
		}
	}
	return lines{starts, data}
}

type position struct{ Line, Column int }

// longLine is the length, in bytes, from which columns count bytes and not characters.
const longLine = 64 << 10

// at returns line and column, both from 1; columns count characters.
func (l lines) at(offset int) position {
	i := sort.SearchInts(l.starts, offset+1) - 1
	before := l.data[l.starts[i]:min(offset, len(l.data))]
	if len(before) > longLine {
		return position{i + 1, len(before) + 1}
	}
	return position{i + 1, utf8.RuneCount(before) + 1}
}

// find returns where the value at a path stands; the nearest enclosing value
// that exists where it does not.
func (n node) find(p record.Path) int {
	offset := n.offset
	for step := range strings.SplitSeq(string(p), "/") {
		next := n.step(step)
		if next == nil {
			break
		}
		n, offset = *next, next.offset
	}
	return offset
}

// step returns the member or the item (from 1) of that name; nil without one.
func (n node) step(name string) *node {
	for i := range n.fields {
		if n.fields[i].name == name {
			return &n.fields[i].node
		}
	}
	if i, err := strconv.Atoi(name); err == nil && i >= 1 && i <= len(n.items) {
		return &n.items[i-1]
	}
	return nil
}
