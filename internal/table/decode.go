package table

import (
	"bytes"
	"encoding/binary"
	"io"
	"unicode/utf8"

	"golang.org/x/text/encoding/unicode"

	"ratchetmark/internal/record"
)

// wide tells how many bytes a character takes, and their order.
type wide int

const (
	narrow wide = iota
	little      // UTF-16, low byte first
	big
)

// wideOf tells whether text is UTF-16: by its byte order mark, or where every
// other byte of the beginning is zero, as it is in plain text.
func wideOf(head []byte) wide {
	switch {
	case bytes.HasPrefix(head, []byte("\xff\xfe")):
		return little
	case bytes.HasPrefix(head, []byte("\xfe\xff")):
		return big
	}
	n := min(len(head)&^1, 64)
	if n < 4 {
		return narrow
	}
	even, odd := 0, 0
	for i := 0; i < n; i += 2 {
		if head[i] == 0 {
			even++
		}
		if head[i+1] == 0 {
			odd++
		}
	}
	switch {
	case even == 0 && odd*10 >= n/2*9:
		return little
	case odd == 0 && even*10 >= n/2*9:
		return big
	}
	return narrow
}

// narrowed decodes the beginning of UTF-16 text, for sniffing.
func narrowed(head []byte, w wide) []byte {
	var order binary.ByteOrder = binary.LittleEndian
	if w == big {
		order = binary.BigEndian
	}
	var out []byte
	for i := 0; i+1 < len(head); i += 2 {
		out = utf8.AppendRune(out, rune(order.Uint16(head[i:])))
	}
	return out
}

// decoder gives text as UTF-8 without a byte order mark. UTF-16 is told by its
// beginning. Other text is UTF-8 up to the first byte that is not; where all
// before was ASCII it is of one byte a character from there on: Windows-1252 (as
// browsers read what calls itself ISO 8859-1, WHATWG Encoding Standard), unless
// the bytes are letters in another code page only. Else the byte is replaced.
type decoder struct {
	in     io.Reader
	wide   wide
	marked bool // began with a byte order mark

	piece    []byte // what is read into
	raw      []byte // read, not yet looked at
	out      []byte // decoded, not yet given
	eof      error
	wideText bool // characters beyond ASCII have been seen
	single   bool // one byte a character from here on
	page     codePage
	replaced int
	line     int // lines given, to say where the first odd byte stands
	oddLine  int
}

const decodePiece = 32 << 10

func newDecoder(in io.Reader, head []byte) *decoder {
	d := &decoder{wide: wideOf(head)}
	d.marked = bytes.HasPrefix(head, []byte(bom)) || bytes.HasPrefix(head, []byte("\xff\xfe")) || bytes.HasPrefix(head, []byte("\xfe\xff"))
	switch d.wide {
	case little:
		in = unicode.UTF16(unicode.LittleEndian, unicode.UseBOM).NewDecoder().Reader(in)
	case big:
		in = unicode.UTF16(unicode.BigEndian, unicode.UseBOM).NewDecoder().Reader(in)
	default:
		if d.marked {
			in = &skipper{in, len(bom)}
		}
	}
	d.in = in
	return d
}

// skipper leaves out the first bytes.
type skipper struct {
	in io.Reader
	n  int
}

func (s *skipper) Read(p []byte) (int, error) {
	for s.n > 0 {
		n, err := s.in.Read(make([]byte, s.n))
		s.n -= n
		if err != nil {
			return 0, err
		}
	}
	return s.in.Read(p)
}

// Read implements io.Reader.
func (d *decoder) Read(p []byte) (int, error) {
	for len(d.out) == 0 {
		if d.eof != nil && len(d.raw) == 0 {
			return 0, d.eof
		}
		if err := d.fill(); err != nil {
			return 0, err
		}
	}
	n := copy(p, d.out)
	d.out = d.out[n:]
	return n, nil
}

// fill decodes what is whole of what was read, and reads the next piece once
// nothing but the beginning of a character is left.
func (d *decoder) fill() error {
	if d.eof == nil && (len(d.raw) == 0 || !d.single && !utf8.FullRune(d.raw)) {
		if d.piece == nil {
			d.piece = make([]byte, decodePiece)
		}
		held := copy(d.piece, d.raw) // less than a character
		n, err := d.in.Read(d.piece[held:])
		d.raw = d.piece[:held+n]
		if err != nil {
			d.eof = err
		}
	}
	for len(d.raw) > 0 {
		good := d.good()
		if good == 0 && d.eof == nil && !utf8.FullRune(d.raw) && !d.single {
			return nil // the rest of a character is still to come
		}
		switch {
		case good == 0:
			good = 1
			d.out = append(d.out, d.odd(d.raw[0])...)
		case d.single:
			text, _ := d.page.of.NewDecoder().Bytes(d.raw[:good])
			d.out = append(d.out, text...)
		case len(d.out) == 0:
			d.out = d.raw[:good:good]
		default:
			d.out = append(d.out, d.raw[:good]...)
		}
		d.line += bytes.Count(d.raw[:good], []byte("\n"))
		d.raw = d.raw[good:]
	}
	return nil
}

// good returns how much of what was read can be taken as it is.
func (d *decoder) good() int {
	if d.single {
		return len(d.raw)
	}
	if ascii(d.raw) {
		return len(d.raw)
	}
	if utf8.Valid(d.raw) {
		d.wideText = true
		return len(d.raw)
	}
	i := 0
	for i < len(d.raw) {
		if d.raw[i] < utf8.RuneSelf {
			i++
			continue
		}
		r, size := utf8.DecodeRune(d.raw[i:])
		if r == utf8.RuneError && size <= 1 {
			break
		}
		d.wideText = true
		i += size
	}
	return i
}

func ascii(p []byte) bool {
	bits := byte(0)
	for len(p) >= 8 && bits < utf8.RuneSelf {
		q := p[:8]
		bits |= q[0] | q[1] | q[2] | q[3] | q[4] | q[5] | q[6] | q[7]
		p = p[8:]
	}
	for _, b := range p {
		bits |= b
	}
	return bits < utf8.RuneSelf
}

// odd takes a byte that is not UTF-8.
func (d *decoder) odd(b byte) []byte {
	if d.oddLine == 0 {
		d.oddLine = d.line + 1
	}
	if !d.wideText && d.wide == narrow {
		text := d.raw
		if n := len(d.out); n > 0 { // a word may have begun
			text = append([]byte{d.out[n-1]}, text...)
		}
		d.single, d.page = true, pageOf(text)
		out, _ := d.page.of.NewDecoder().Bytes([]byte{b})
		return out
	}
	d.replaced++
	return []byte("\ufffd")
}

// say tells what was detected, where it is not plain UTF-8.
func (d *decoder) say(name string, note func(record.Origin, record.Finding)) {
	f := record.Finding{Code: "encoding-detected", Severity: record.Note, Where: "the whole file", Expected: "UTF-8"}
	at := record.Origin{File: name, Line: 1, Column: 1}
	switch {
	case d.replaced > 0:
		f.Code, f.Severity = "encoding-broken", record.Doubt
		f.Message = "some bytes are not UTF-8, though the text before them is"
		f.Effect, f.Hint = "each is shown as \ufffd; names may not match", "export the file again as UTF-8"
		at.Line = d.oddLine
	case d.single:
		f.Message = "a byte that is not UTF-8, and nothing but ASCII before it"
		f.Effect, f.Hint = "the text is read as "+d.page.name, "check names with accents; export as UTF-8 if they look wrong"
		at.Line = d.oddLine
	case d.wide != narrow && d.marked:
		f.Message = "the text is UTF-16, as its byte order mark says"
		f.Effect = "none; it is read as that"
	case d.wide != narrow:
		f.Message = "the text is UTF-16 without a byte order mark"
		f.Effect = "none; it is read as that"
	default:
		return
	}
	note(at, f)
}
