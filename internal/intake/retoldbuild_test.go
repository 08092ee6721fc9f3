package intake_test

import (
	"archive/zip"
	"bytes"
	"fmt"
	"html"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
	"time"
	"unicode/utf16"
)

// shapeBytes returns the bytes of a file of testdata/shapes. A .book is built
// into a workbook, a .pack into an archive; a way behind an exclamation mark
// changes how the text is encoded: the text stays reviewable, and no binary
// file is kept.
func shapeBytes(t testing.TB, vector string) (name string, data []byte) {
	t.Helper()
	name, way, _ := strings.Cut(vector, "!")
	data, err := os.ReadFile(testdata + "retold/" + name)
	if err != nil {
		t.Fatal(err)
	}
	switch filepath.Ext(name) {
	case ".book":
		return strings.TrimSuffix(name, ".book") + ".xlsx", bookOf(sectionsOf(string(data)))
	case ".pack":
		return strings.TrimSuffix(name, ".pack") + ".zip", packOf(sectionsOf(string(data)))
	}
	if way == "" {
		return name, data
	}
	encode, ok := ways[way]
	if !ok {
		t.Fatalf("got the way %q, want one of the table", way)
	}
	return name, encode(string(data))
}

// ways are the ways in which a text can be written to a file.
var ways = map[string]func(string) []byte{
	"crlf":       func(s string) []byte { return []byte(strings.ReplaceAll(s, "\n", "\r\n")) },
	"cr":         func(s string) []byte { return []byte(strings.ReplaceAll(s, "\n", "\r")) },
	"mixed-ends": mixedEnds,
	"no-end":     func(s string) []byte { return []byte(strings.TrimRight(s, "\n")) },
	"bom":        func(s string) []byte { return []byte("\ufeff" + s) },
	"utf16le":    func(s string) []byte { return utf16Of(s, false) },
	"utf16be":    func(s string) []byte { return utf16Of(s, true) },
	"utf16le-bom": func(s string) []byte {
		return utf16Of("\ufeff"+s, false)
	},
	"utf16be-bom": func(s string) []byte { return utf16Of("\ufeff"+s, true) },
	"cp1252":      latin,
}

// mixedEnds ends the lines in turn as three systems do.
func mixedEnds(s string) []byte {
	ends := []string{"\n", "\r\n", "\r"}
	var b strings.Builder
	for i, line := range strings.Split(strings.TrimSuffix(s, "\n"), "\n") {
		b.WriteString(line + ends[i%len(ends)])
	}
	return []byte(b.String())
}

func utf16Of(s string, big bool) []byte {
	var out []byte
	for _, u := range utf16.Encode([]rune(s)) {
		if big {
			out = append(out, byte(u>>8), byte(u))
		} else {
			out = append(out, byte(u), byte(u>>8))
		}
	}
	return out
}

// latin writes a text of characters below 256, where Windows-1252 and ISO
// 8859-1 are the same but for 0x80 to 0x9f.
func latin(s string) []byte {
	var out []byte
	for _, r := range s {
		if r > 0xff || r >= 0x80 && r < 0xa0 {
			panic(fmt.Sprintf("%q is not in the code page", r))
		}
		out = append(out, byte(r))
	}
	return out
}

// section is a sheet of a workbook or a file of an archive.
type section struct{ name, text string }

// sectionsOf divides a text at the lines "== name".
func sectionsOf(text string) (out []section) {
	for _, line := range strings.SplitAfter(text, "\n") {
		if name, ok := strings.CutPrefix(line, "== "); ok {
			out = append(out, section{name: strings.TrimSpace(name)})
		} else if len(out) > 0 {
			out[len(out)-1].text += line
		}
	}
	return out
}

func packOf(files []section) []byte {
	var out bytes.Buffer
	z := zip.NewWriter(&out)
	for _, f := range files {
		w, err := z.Create(f.name)
		if err == nil {
			_, err = w.Write([]byte(f.text))
		}
		if err != nil {
			panic(err) // writing to memory does not fail
		}
	}
	if err := z.Close(); err != nil {
		panic(err)
	}
	return out.Bytes()
}

const (
	sheetML  = `xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main" xmlns:r="http://schemas.openxmlformats.org/officeDocument/2006/relationships"`
	relation = "http://schemas.openxmlformats.org/officeDocument/2006/relationships"
)

// bookOf builds a workbook (ECMA-376) of sheets given as cells divided by
// commas. A number is a number, "@2026-03-02 08:10" a date, "~412.5" a duration
// of so many hours, anything else text.
func bookOf(sheets []section) []byte {
	var list, relations strings.Builder
	parts := []section{
		{"[Content_Types].xml", `<Types xmlns="http://schemas.openxmlformats.org/package/2006/content-types"/>`},
		{"_rels/.rels", `<Relationships><Relationship Id="rId1" Type="` + relation + `/officeDocument" Target="xl/workbook.xml"/></Relationships>`},
		{"xl/styles.xml", `<styleSheet ` + sheetML + `><numFmts count="2"><numFmt numFmtId="164" formatCode="yyyy\-mm\-dd\ hh:mm"/><numFmt numFmtId="165" formatCode="[h]:mm"/></numFmts>` +
			`<cellXfs count="3"><xf numFmtId="0"/><xf numFmtId="164" applyNumberFormat="1"/><xf numFmtId="165" applyNumberFormat="1"/></cellXfs></styleSheet>`},
	}
	for i, s := range sheets {
		fmt.Fprintf(&list, `<sheet name="%s" sheetId="%d" r:id="rId%d"/>`, html.EscapeString(s.name), i+1, i+1)
		fmt.Fprintf(&relations, `<Relationship Id="rId%d" Type="%s/worksheet" Target="worksheets/sheet%d.xml"/>`, i+1, relation, i+1)
		parts = append(parts, section{fmt.Sprintf("xl/worksheets/sheet%d.xml", i+1), `<worksheet ` + sheetML + `><sheetData>` + rowsXML(s.text) + `</sheetData></worksheet>`})
	}
	relations.WriteString(`<Relationship Id="rIdT" Type="` + relation + `/styles" Target="styles.xml"/>`)
	parts = append(parts,
		section{"xl/workbook.xml", `<workbook ` + sheetML + `><sheets>` + list.String() + `</sheets></workbook>`},
		section{"xl/_rels/workbook.xml.rels", `<Relationships>` + relations.String() + `</Relationships>`})
	return packOf(parts)
}

func rowsXML(text string) string {
	var b strings.Builder
	for i, line := range strings.Split(strings.TrimSuffix(text, "\n"), "\n") {
		fmt.Fprintf(&b, `<row r="%d">`, i+1)
		for j, c := range strings.Split(line, ",") {
			if c != "" {
				fmt.Fprintf(&b, `<c r="%c%d"%s</c>`, 'A'+j, i+1, cellXML(c))
			}
		}
		b.WriteString("</row>")
	}
	return b.String()
}

var bookNumber = regexp.MustCompile(`^-?[0-9]+(\.[0-9]+)?$`)

func cellXML(c string) string {
	switch {
	case bookNumber.MatchString(c):
		return "><v>" + c + "</v>"
	case c[0] == '@':
		form := "2006-01-02 15:04"
		t, err := time.Parse(form[:len(c)-1], c[1:])
		if err != nil {
			panic(err)
		}
		days := t.Sub(time.Date(1899, 12, 30, 0, 0, 0, 0, time.UTC)).Hours() / 24 // ECMA-376-1:2016, 18.17.4.1
		return fmt.Sprintf(` s="1"><v>%.10f</v>`, days)
	case c[0] == '~':
		var hours float64
		fmt.Sscan(c[1:], &hours)
		return fmt.Sprintf(` s="2"><v>%.12f</v>`, hours/24)
	}
	return ` t="inlineStr"><is><t>` + html.EscapeString(c) + `</t></is>`
}
