package table_test

import (
	"encoding/binary"
	"errors"
	"io"
	"strings"
	"testing"
	"testing/iotest"
	"unicode/utf16"

	"ratchetmark/internal/table"
)

// wideText writes text as UTF-16.
func wideText(text string, order binary.AppendByteOrder) string {
	var out []byte
	for _, u := range utf16.Encode([]rune(text)) {
		out = order.AppendUint16(out, u)
	}
	return string(out)
}

func TestEncoding(t *testing.T) {
	const text = "Maschine;März\nT-01;5 €\n"
	const want = "Maschine|März / T-01|5 €"
	for _, c := range []struct{ name, bytes, want, codes, says string }{
		{"UTF-8", text, want, "", ""},
		{"UTF-8 with a mark", "\ufeff" + text, want, "", ""},
		{"ASCII", "a;b\n", "a|b", "", ""},
		{"UTF-16 little end first", "\xff\xfe" + wideText(text, binary.LittleEndian), want, "encoding-detected", "UTF-16, as its byte order mark says"},
		{"UTF-16 big end first", "\xfe\xff" + wideText(text, binary.BigEndian), want, "encoding-detected", "UTF-16, as its byte order mark says"},
		{"UTF-16 little end first, no mark", wideText(text, binary.LittleEndian), want, "encoding-detected", "UTF-16 without"},
		{"UTF-16 big end first, no mark", wideText(text, binary.BigEndian), want, "encoding-detected", "UTF-16 without"},
		{"Windows-1252", "Maschine;M\xe4rz\nT-01;5 \x80\n", want, "encoding-detected", "a byte that is not UTF-8"},
		{"UTF-8, then a byte that is not", "Maschine;März\nT-01;5 \x80\n", "Maschine|März / T-01|5 \ufffd", "encoding-broken", "some bytes are not UTF-8"},
		{"character cut off at the end", "a;März\nb;\xe2\x82", "a|März / b|\ufffd\ufffd", "encoding-broken", "some bytes are not UTF-8"},
	} {
		t.Run(c.name, func(t *testing.T) {
			for how, got := range map[string]taken{"whole": takeText("f.csv", c.bytes), "by bytes": take("f.csv", iotest.OneByteReader(strings.NewReader(c.bytes)))} {
				if g := grid(got.one(t).rows); g != c.want || got.codes() != c.codes || c.says != "" && !strings.Contains(got.notes[0].Message, c.says) {
					t.Errorf("%s: got %q and %+v, want %q and a finding of %q", how, g, got.notes, c.want, c.says)
				}
			}
		})
	}
	if n := takeText("f.csv", "a;b\nc;d\ne;\xe4\n").notes; len(n) != 1 || n[0].Line != 3 {
		t.Errorf("got %+v, want the line of the first odd byte, 3", n)
	}
}

// Rows of index windows-1252 of the WHATWG Encoding Standard: the bytes in which
// it differs from ISO 8859-1, in which it does not, and those it leaves as they are.
func TestWindows1252Index(t *testing.T) {
	for b, want := range map[byte]rune{
		0x80: 0x20ac, 0x82: 0x201a, 0x83: 0x0192, 0x84: 0x201e, 0x85: 0x2026, 0x86: 0x2020, 0x87: 0x2021, 0x88: 0x02c6, 0x89: 0x2030,
		0x8a: 0x0160, 0x8b: 0x2039, 0x8c: 0x0152, 0x8e: 0x017d, 0x91: 0x2018, 0x92: 0x2019, 0x93: 0x201c, 0x94: 0x201d, 0x95: 0x2022,
		0x96: 0x2013, 0x97: 0x2014, 0x98: 0x02dc, 0x99: 0x2122, 0x9a: 0x0161, 0x9b: 0x203a, 0x9c: 0x0153, 0x9e: 0x017e, 0x9f: 0x0178,
		0xa0: 0xa0, 0xe4: 0xe4, 0xff: 0xff,
	} {
		if g := grid(takeText("f.csv", "a;"+string([]byte{b})+"x\n").one(t).rows); g != "a|"+string(want)+"x" {
			t.Errorf("byte %#x: got %q, want %q", b, g, "a|"+string(want)+"x")
		}
	}
}

func TestJSONIsDecoded(t *testing.T) {
	const text = `{"note":"März"}`
	for name, bytes := range map[string]string{"UTF-8": text, "mark": "\ufeff" + text, "little": "\xff\xfe" + wideText(text, binary.LittleEndian), "big": wideText(text, binary.BigEndian), "blank before": "\n\t " + text, "1252": "{\"note\":\"M\xe4rz\"}"} {
		if got := takeText("c.json", bytes); got.err != nil || len(got.json) != 1 || strings.TrimSpace(got.json[0]) != "c.json="+text && strings.TrimPrefix(got.json[0], "c.json=\n\t ") != text {
			t.Errorf("%s: got %q and the error %v, want %q", name, got.json, got.err, text)
		}
	}
}

// Bytes that are not UTF-8, however many, are not gathered in memory: no more of
// the file is read than the rows given so far need.
func TestManyOddBytes(t *testing.T) {
	in := &counted{in: strings.NewReader("a;ä\n" + strings.Repeat("1;\xff\n", 2<<20))}
	stop := errors.New("stop")
	err := table.Walk("f.csv", in, table.Walker{Table: func(tb table.Table) error {
		for range 10000 {
			if _, err := tb.Rows.Next(); err != nil {
				return err
			}
		}
		return stop
	}})
	if err != stop || in.n > 1<<20 {
		t.Errorf("got %d bytes read for 10000 rows of 40 KB and the error %v, want at most 1 MiB", in.n, err)
	}
}

type counted struct {
	in io.Reader
	n  int
}

func (c *counted) Read(p []byte) (int, error) {
	n, err := c.in.Read(p)
	c.n += n
	return n, err
}

// Words tell code pages of one byte a character apart; where nothing does, it is
// Windows-1252.
func TestCodePages(t *testing.T) {
	for name, c := range map[string]struct{ text, want string }{
		"1252":          {"Ger\xe4t;\xfcber 250;l\x92engin;5 \x80;\x84x\x93", "Gerät;über 250;l’engin;5 €;„x“"},
		"850":           {"Ger\x84t;\x81ber 250;H\x94chstlast", "Gerät;über 250;Höchstlast"},
		"850 in French": {"num\x82ro;relev\x82 le;d\x82tenteur", "numéro;relevé le;détenteur"},
		"Mac":           {"Ger\x8at;\x9fber 250;H\x9achstlast", "Gerät;über 250;Höchstlast"},
		"Mac in French": {"num\x8ero;relev\x8e le;d\x8etenteur", "numéro;relevé le;détenteur"},
	} {
		got, err := io.ReadAll(table.Decoded(strings.NewReader(c.text), []byte(c.text)))
		if err != nil || string(got) != c.want {
			t.Errorf("%s: got %q, %v, want %q", name, got, err, c.want)
		}
	}
}
