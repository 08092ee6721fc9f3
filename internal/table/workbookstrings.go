package table

import (
	"bytes"
	"errors"
	"strconv"
	"strings"
	"unicode/utf16"
	"unicode/utf8"
)

// sharedStrings are the texts that cells name by number (ECMA-376 part 1,
// 18.4.9). Texts and their ends together take at most maxStrings bytes; while
// they grow, twice that.
type sharedStrings struct {
	text  strings.Builder
	ends  []uint32
	whole string // text, once all are read
	rich  rich
	buf   []byte
}

var errStrings = errors.New("it holds more text than is read: 48 MiB")

// read takes a token of the part.
func (s *sharedStrings) read(m *markup, t token) error {
	switch {
	case t == tokenOpen && string(m.name) == "si":
		s.buf, s.rich = s.buf[:0], rich{}
	case t == tokenClose && string(m.name) == "si":
		s.text.Write(unescapeCell(s.buf))
		s.ends = append(s.ends, uint32(s.text.Len()))
		if s.text.Len()+4*len(s.ends) > maxStrings {
			return errStrings
		}
	case t == tokenClose && string(m.name) == "sst":
		s.whole = s.text.String()
	default:
		s.buf = s.rich.take(m, t, s.buf)
		if len(s.buf) > maxMarkup {
			return errLong
		}
	}
	return nil
}

// at returns the text of a number; false where there is none.
func (s *sharedStrings) at(number []byte) (string, bool) {
	i, err := strconv.Atoi(string(bytes.TrimSpace(number)))
	if err != nil || i < 0 || i >= len(s.ends) {
		return "", false
	}
	from := uint32(0)
	if i > 0 {
		from = s.ends[i-1]
	}
	if s.ends[i] > uint32(len(s.whole)) {
		return "", false
	}
	return s.whole[from:s.ends[i]], true
}

// rich gathers the text of a string that may be made of runs (18.4.8): that of
// t elements, without the phonetic ones (18.4.6).
type rich struct{ inText, inPhonetic bool }

func (r *rich) take(m *markup, t token, buf []byte) []byte {
	switch {
	case t == tokenText:
		if r.inText && !r.inPhonetic {
			buf = append(buf, m.text...)
		}
	case string(m.name) == "t":
		r.inText = t == tokenOpen
	case string(m.name) == "rPh":
		r.inPhonetic = t == tokenOpen
	}
	return buf
}

// unescapeCell replaces "_x000D_" and the like, by which characters are written
// that XML has not: ECMA-376 part 1, 22.9.2.19.
func unescapeCell(text []byte) []byte {
	if !bytes.Contains(text, []byte("_x")) {
		return text
	}
	var out []byte
	for {
		i := bytes.Index(text, []byte("_x"))
		if i < 0 {
			return append(out, text...)
		}
		n, ok := hexOf(text[i:])
		if !ok {
			out, text = append(out, text[:i+2]...), text[i+2:]
			continue
		}
		out, text = append(out, text[:i]...), text[i+7:]
		if low, ok := hexOf(text); ok && utf16.IsSurrogate(n) && utf16.DecodeRune(n, low) != utf8.RuneError {
			n, text = utf16.DecodeRune(n, low), text[7:]
		}
		out = utf8.AppendRune(out, n)
	}
}

// hexOf reads "_x000D_" at the beginning of a text.
func hexOf(text []byte) (rune, bool) {
	if len(text) < 7 || text[0] != '_' || text[1] != 'x' || text[6] != '_' {
		return 0, false
	}
	n, err := strconv.ParseUint(string(text[2:6]), 16, 16)
	return rune(n), err == nil
}
