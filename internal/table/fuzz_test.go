package table_test

import (
	"bytes"
	"encoding/xml"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"unicode/utf8"
)

// seeds adds the files of the test data whose names end so.
func seeds(f *testing.F, ends ...string) {
	f.Helper()
	for _, end := range ends {
		names, err := filepath.Glob("../../testdata/*/*" + end)
		if err != nil || len(names) == 0 {
			f.Fatalf("got no file of test data that ends in %q (%v), want some", end, err)
		}
		for _, name := range names {
			data, err := os.ReadFile(name)
			if err != nil {
				f.Fatal(err)
			}
			f.Add(data)
		}
	}
}

// sound checks what must hold of any walk, whatever the bytes.
func sound(t *testing.T, data []byte, multiply int) {
	got := takeBytes("f", data)
	if got.err != nil {
		if r := got.refused(t); r.Found == "" || r.Expected == "" || r.Hint == "" {
			t.Errorf("got the refusal %+v, want what was found, expected, and what to do", r)
		}
	}
	size := 0
	for _, tb := range got.tables {
		for i, row := range tb.rows {
			if len(row) > 2001 {
				t.Errorf("got a row of %d cells, want at most 2001", len(row))
			}
			for j, c := range row {
				size += len(c)
				if !utf8.ValidString(c) {
					t.Errorf("got the cell %q, want UTF-8", c)
				}
				if at := tb.places[i][j]; at.Line < 1 || at.Column < 0 || !strings.HasPrefix(at.File, "f") {
					t.Errorf("got the place %+v, want one in the file", at)
				}
			}
		}
	}
	if size > multiply*(len(data)+1024) {
		t.Errorf("got %d bytes of cells out of %d, want no more than %d times", size, len(data), multiply)
	}
	for _, n := range got.notes {
		if n.Code == "" || n.Message == "" || n.Where == "" || n.Effect == "" || n.File == "" {
			t.Errorf("got the finding %+v, want it whole", n)
		}
	}
}

func FuzzDelimited(f *testing.F) {
	seeds(f, ".csv", ".txt")
	for _, s := range []string{"sep=;\na;b", "a;\"b\nc\";d\n", "\"a;b\nc;d\n", "a\rb\r\nc\n\rd", "#x\n|||\n", "a,\"b\"\"\",c"} {
		f.Add([]byte(s))
	}
	f.Fuzz(func(t *testing.T, data []byte) { sound(t, append([]byte("a;b\n"), data...), 3) })
}

func FuzzDecode(f *testing.F) {
	for _, s := range []string{"a;b\n", "\ufeffa", "\xff\xfea\x00;\x00", "\xfe\xff\x00a", "a;\xe4", "ä;\xe4\xff", "\xe2\x82", "{\"a\":\"\xe4\"}", "\xff\xfe\x00\xd8"} {
		f.Add([]byte(s))
	}
	f.Fuzz(func(t *testing.T, data []byte) { sound(t, data, 4) })
}

func FuzzHTML(f *testing.F) {
	for _, s := range []string{"<table><tr><td>a<td rowspan=2>b<tr><td colspan=3>c</table>", "<table><caption>x<tr><td>&auml;<table><td>a<td>b</table>", "<table><script><td></script><td>a<td>b", "<tr></table><table><tbody><td rowspan=0>a<td>b<tbody><tr>"} {
		f.Add([]byte(s))
	}
	// One cell may be repeated in many rows: bounded by the size of a table.
	f.Fuzz(func(t *testing.T, data []byte) { sound(t, append([]byte("<"), data...), 64<<10) })
}

func FuzzZIP(f *testing.F) {
	seeds(f, ".xlsx", ".zip")
	f.Add(archive(map[string]string{"a.csv": "a;b\n1;2\n", "b.html": "<table><td>a<td>b</table>"}))
	f.Add(archive(map[string]string{"b.xlsx": string(oneSheet(`<row><c><v>1</v></c></row>`).bytes())}))
	f.Add(overlapping())
	f.Fuzz(func(t *testing.T, data []byte) {
		sound(t, append([]byte("PK\x03\x04"), bytes.TrimPrefix(data, []byte("PK\x03\x04"))...), 1100)
	})
}

// FuzzXLSX changes the parts of a workbook, not its packed bytes: those would
// hardly ever unpack again.
func FuzzXLSX(f *testing.F) {
	f.Add(`<row r="1"><c r="A1" t="s"><v>0</v></c><c r="B1" s="1"><v>46083.5</v></c></row>`, `<mergeCells><mergeCell ref="A1:A3"/></mergeCells>`, `<si><t>a</t></si>`, styleList, `<workbookPr date1904="1"/>`)
	f.Add(`<row><c t="inlineStr"><is><r><t>a</t></r></is></c></row><row r="9" hidden="1"/>`, ``, `<si><r><t>x_x000A_</t></r><rPh><t>y</t></rPh></si>`, `<cellXfs><xf numFmtId="46"/></cellXfs>`, `<!-- -->`)
	f.Add(`<row r="2"><c r="XFD2" t="e"><f>1/0</f><v>#DIV/0!</v></c><c><f>A1</f></c></row>`, `<x/>`, ``, `<numFmts><numFmt numFmtId="9" formatCode="[h]:mm"/></numFmts>`, ``)
	f.Fuzz(func(t *testing.T, rows, behind, strings, styles, about string) {
		b := workbook{sheets: []sheet{{name: "s", rows: rows, behind: behind}}, strings: strings, styles: styles, about: about}
		sound(t, b.bytes(), 64<<10)
	})
}

// What encoding/xml takes for well-formed and finds in it, the reader of
// workbooks finds as well, in the text of an inline string.
func FuzzMarkup(f *testing.F) {
	for _, s := range []string{"a", "a &lt; b", "<![CDATA[x]]>y", "<!-- - -->z", "&#65;&#x42;", "<r a='>'/>", "<?p ?>q", "<t xmlns:a='b'>c</t>", "&amp"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, inner string) {
		want, ok := textOf(inner)
		if !ok {
			return
		}
		b := oneSheet(`<row r="1"><c r="A1" t="inlineStr"><is><t>` + inner + `</t></is></c><c r="B1"><v>1</v></c></row>`)
		got := takeBytes("f.xlsx", b.bytes()).one(t)
		if len(got.rows) != 1 || got.rows[0][0] != want {
			t.Errorf("%q: got %q, want %q", inner, got.rows, want)
		}
	})
}

// textOf returns the text of markup by encoding/xml; false where it has elements
// (what they mean is another matter), is not well-formed, or has characters that
// are read otherwise: CR, which XML makes LF, and escapes of workbooks.
func textOf(inner string) (string, bool) {
	if strings.ContainsAny(inner, "\r") || strings.Contains(inner, "_x") || strings.Contains(inner, "]]>") && !strings.Contains(inner, "CDATA") || strings.Contains(inner, "<!DOC") {
		return "", false
	}
	d := xml.NewDecoder(strings.NewReader("<t>" + inner + "</t>"))
	var text strings.Builder
	for depth := 0; ; {
		token, err := d.Token()
		if err == io.EOF {
			s := text.String()
			return s, s != "" && !strings.Contains(s, "_x")
		}
		if err != nil {
			return "", false
		}
		switch token := token.(type) {
		case xml.StartElement:
			if depth++; depth > 1 {
				return "", false
			}
		case xml.EndElement:
			depth--
		case xml.Directive:
			return "", false
		case xml.CharData:
			text.Write(token)
		}
	}
}

// The cells that are read in one go are those that are read tag by tag.
func FuzzUsualCells(f *testing.F) {
	for _, s := range []string{"1", "46083.5", "a &lt; b", "&x;", "", " 7 ", "<f>1</f>", "</v></c><c><v>2", "<![CDATA[x]]>", "a>b", "_x0041_"} {
		f.Add(s, "n")
		f.Add(s, "str")
		f.Add(s, "s")
	}
	f.Fuzz(func(t *testing.T, inner, kind string) {
		sheet := func(v, is string) taken {
			return takeBytes("f.xlsx", oneSheet(`<row r="1"><c r="A1" t="`+kind+`">`+v+inner+`</v></c><c t='inlineStr'  s="1" r="C1">`+is+inner+`</t></is></c><c r="D1"/><c r="E1"><v>3</v></c></row>`).bytes())
		}
		got, want := sheet("<v>", "<is><t>"), sheet("<v >", "<is ><t >")
		if (got.err == nil) != (want.err == nil) || len(got.tables) != len(want.tables) {
			t.Fatalf("got %v and %d tables, want %v and %d", got.err, len(got.tables), want.err, len(want.tables))
		}
		for i := range got.tables {
			if g, w := fmt.Sprintf("%q %v", got.tables[i].rows, got.tables[i].places), fmt.Sprintf("%q %v", want.tables[i].rows, want.tables[i].places); g != w {
				t.Errorf("got %s, want %s", g, w)
			}
		}
	})
}
