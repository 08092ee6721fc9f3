package table_test

import (
	"fmt"
	"strings"
	"testing"
)

// styleList has one style for each number format that the tests use.
const styleList = `<numFmts count="10"><numFmt numFmtId="164" formatCode="[h]:mm"/><numFmt numFmtId="165" formatCode="yyyy\-mm\-dd\ hh:mm"/>` +
	`<numFmt numFmtId="166" formatCode="[$-407]d\.\ mmmm\ yyyy;@"/><numFmt numFmtId="167" formatCode="0.0&quot; days&quot;"/><numFmt numFmtId="168" formatCode="[Red]#,##0.00"/>` +
	`<numFmt numFmtId="169" formatCode="#,##0&quot; lb&quot;"/><numFmt numFmtId="170" formatCode="0\ \k\g"/><numFmt numFmtId="171" formatCode="0.0&quot; %&quot;"/><numFmt numFmtId="172" formatCode="0;-0&quot; lb&quot;"/><numFmt numFmtId="173" formatCode="&quot;No &quot;0"/></numFmts>` +
	`<cellStyleXfs><xf numFmtId="14"/></cellStyleXfs>` +
	`<cellXfs><xf numFmtId="0"/><xf numFmtId="14"/><xf numFmtId="22"/><xf numFmtId="10"/><xf numFmtId="164"/><xf numFmtId="165"/><xf numFmtId="166"/><xf numFmtId="167"/><xf numFmtId="168"/><xf numFmtId="20"/><xf numFmtId="21"/>` +
	`<xf numFmtId="169"/><xf numFmtId="170"/><xf numFmtId="171"/><xf numFmtId="172"/><xf numFmtId="173"/></cellXfs>` +
	`<cellStyles><xf numFmtId="14"/></cellStyles>`

// Styles of styleList by what they show.
const (
	asPlain, asDate, asMoment, asPercent, asHours, asISO, asLong, asDays, asMoney, asClock, asSeconds = 0, 1, 2, 3, 4, 5, 6, 7, 8, 9, 10
	asPounds, asKilos, asShare, asLoss, asNumbered                                                    = 11, 12, 13, 14, 15
)

func TestWorkbookCell(t *testing.T) {
	number := func(style int, v string) string { return fmt.Sprintf(`<c r="A1" s="%d"><v>%s</v></c>`, style, v) }
	for _, c := range []struct {
		name, cell, want string
		typed            bool
	}{
		{"integer", number(asPlain, "230"), "230", true},
		{"decimals", number(asPlain, "12.5"), "12.5", true},
		{"exponent", number(asPlain, "1.25E-3"), "0.00125", true},
		{"trailing zero", number(asPlain, "1.50"), "1.5", true},
		{"leading zero", number(asPlain, "007"), "7", true},
		{"minus zero", number(asPlain, "-0"), "0", true},
		{"17 digits", number(asPlain, "0.10000000000000001"), "0.1", true},
		{"million", number(asPlain, "1000000"), "1000000", true},
		{"no number", number(asPlain, "NaN"), "NaN", false},
		{"too large", number(asPlain, "1e999"), "1e999", false},
		{"unknown style", number(99, "3"), "3", true},
		{"negative style", number(-1, "3"), "3", true},
		{"digits with a colour", number(asMoney, "1234.5"), "1234.5", true},
		{"quoted letters are no date, and shown", number(asDays, "3"), "3 days", true},
		{"unit in quotes", number(asPounds, "551"), "551 lb", true},
		{"unit behind strokes", number(asKilos, "250"), "250 kg", true},
		{"percent sign in quotes", number(asShare, "80"), "80 %", true},
		{"unit of negative numbers alone", number(asLoss, "3"), "3", true},
		{"word before the number", number(asNumbered, "3"), "3", true},
		{"percent", number(asPercent, "0.125"), "12.5 %", true},
		{"percent without an error of binary", number(asPercent, "0.07"), "7 %", true},
		{"date", number(asDate, "46083"), "2026-03-02", false},
		{"date with a time that its format hides", number(asDate, "46083.25"), "2026-03-02T06:00:00", false},
		{"moment", number(asMoment, "46083.340277777781"), "2026-03-02T08:10:00", false},
		{"moment at midnight", number(asMoment, "46083"), "2026-03-02T00:00:00", false},
		{"moment rounded up to midnight", number(asMoment, "46083.9999999"), "2026-03-03T00:00:00", false},
		{"own format", number(asISO, "46083.340277777781"), "2026-03-02T08:10:00", false},
		{"format with a language", number(asLong, "46083"), "2026-03-02", false},
		{"time of day in a date", number(asMoment, "0.5"), "12:00:00", false},
		{"day beyond the calendar", number(asDate, "2958466"), "2958466", true},
		{"negative date", number(asDate, "-1"), "-1", true},
		{"29 February 1900, as sheets show it", number(asDate, "60"), "1900-02-29", false},
		{"first day", number(asDate, "1"), "1900-01-01", false},
		{"hours that have gone by", number(asHours, "51.4375"), "1234:30", false},
		{"negative hours", number(asHours, "-0.0625"), "-1:30", false},
		{"time of day", number(asClock, "0.34027777777777779"), "8:10", false},
		{"time of day with seconds not shown", number(asClock, "0.34028935185185187"), "8:10:01", false},
		{"time of day with seconds", number(asSeconds, "0.5"), "12:00:00", false},
		{"time of day that hides its date", number(asClock, "46083.340277777781"), "2026-03-02T08:10:00", false},
		{"hours beyond reason", number(asHours, "1e300"), "1e+300", true},
		{"shared string", `<c r="A1" t="s"><v>1</v></c>`, "two & a half", false},
		{"shared string of runs, without phonetic text", `<c r="A1" t="s"><v>2</v></c>`, "bold plain", false},
		{"inline string", `<c r="A1" t="inlineStr"><is><t>in </t></is></c>`, "in ", false},
		{"inline string of runs", `<c r="A1" t="inlineStr"><is><r><t>a</t></r><r><rPr><b/></rPr><t>b</t></r></is></c>`, "ab", false},
		{"CDATA", `<c r="A1" t="inlineStr"><is><t><![CDATA[<a> & b]]></t></is></c>`, "<a> & b", false},
		{"references", `<c r="A1" t="inlineStr"><is><t>&lt;&#65;&#x42;&apos;&quot;&gt;</t></is></c>`, `<AB'">`, false},
		{"escaped characters", `<c r="A1" t="inlineStr"><is><t>a_x000A_b_x005F_x_xD83D__xDE00__x00</t></is></c>`, "a\nb_x\U0001F600_x00", false},
		{"comment within", `<c r="A1"><!-- > --><v>4<!-- x -->2</v></c>`, "42", true},
		{"true", `<c r="A1" t="b"><v>1</v></c>`, "TRUE", false},
		{"false", `<c r="A1" t="b"><v>0</v></c>`, "FALSE", false},
		{"error", `<c r="A1" t="e"><f>1/0</f><v>#DIV/0!</v></c>`, "#DIV/0!", false},
		{"result of a formula", `<c r="A1"><f>SUM(B1:B3)</f><v>7</v></c>`, "7", true},
		{"text of a formula", `<c r="A1" t="str"><f>"a"&amp;"b"</f><v>ab</v></c>`, "ab", false},
		{"date in ISO 8601", `<c r="A1" t="d" s="1"><v>2026-03-02T08:10:00</v></c>`, "2026-03-02T08:10:00", false},
		{"unknown type", `<c r="A1" t="new"><v>x</v></c>`, "x", false},
		{"prefixed names", `<x:c r="A1"><x:v>5</x:v></x:c>`, "5", true},
		{"bracket in an attribute", `<c r="A1" note="a > b" cm='"'><v>5</v></c>`, "5", true},
		{"not UTF-8", "<c r=\"A1\" t=\"inlineStr\"><is><t>a\xffb</t></is></c>", "a\ufffdb", false},
	} {
		t.Run(c.name, func(t *testing.T) {
			b := oneSheet(`<row r="1">` + c.cell + `</row>`)
			b.styles = styleList
			b.strings = `<si><t>one</t></si><si><t>two &amp; a half</t></si><si><r><t>bold </t></r><r><t>plain</t></r><rPh sb="0" eb="1"><t>phonetic</t></rPh></si>`
			got := takeBytes("b.xlsx", b.bytes()).one(t)
			if len(got.rows) != 1 || len(got.rows[0]) != 1 || got.rows[0][0] != c.want || got.typed[0][0] != c.typed {
				t.Errorf("got %q typed %v, want %q typed %v", got.rows, got.typed, c.want, c.typed)
			}
		})
	}
}

// The examples of ECMA-376 part 1, 18.17.4.1 and 18.17.4.3 (of the first edition:
// 3.17.4.1, 3.17.4.3), those of days after February 1900 in both systems.
func TestWorkbookDatesOfTheStandard(t *testing.T) {
	for _, c := range []struct {
		serial, system, want string
	}{
		{"3687", "1900", "1910-02-03T00:00:00"},
		{"38749", "1900", "2006-02-01T00:00:00"},
		{"2958465", "1900", "9999-12-31T00:00:00"},
		{"3687.4207639", "1900", "1910-02-03T10:05:54"},
		{"1.5", "1900", "1900-01-01T12:00:00"},
		{"2958465.9999884", "1900", "9999-12-31T23:59:59"},
		{"0", "1904", "1904-01-01T00:00:00"},
		{"2225", "1904", "1910-02-03T00:00:00"},
		{"37287", "1904", "2006-02-01T00:00:00"},
		{"2957003", "1904", "9999-12-31T00:00:00"},
		{"2225.4207639", "1904", "1910-02-03T10:05:54"},
		{"0.5", "1904", "1904-01-01T12:00:00"},
		{"2957003.9999884", "1904", "9999-12-31T23:59:59"},
	} {
		b := oneSheet(`<row r="1"><c r="A1" s="2"><v>` + c.serial + `</v></c></row>`)
		b.styles = styleList
		if c.system == "1904" {
			b.about = `<workbookPr date1904="1"/>`
		}
		got := takeBytes("b.xlsx", b.bytes()).one(t)
		if g := grid(got.rows); g != c.want {
			t.Errorf("%s in the %s system: got %s, want %s", c.serial, c.system, g, c.want)
		}
	}
}

func TestWorkbookRows(t *testing.T) {
	const a, b, c = `<c r="A%d"><v>1</v></c>`, `<c r="B%d"><v>2</v></c>`, `<c r="C%d"><v>3</v></c>`
	row := func(n int, cells ...string) string {
		return fmt.Sprintf(`<row r="%d">`, n) + strings.ReplaceAll(strings.Join(cells, ""), "%d", fmt.Sprint(n)) + `</row>`
	}
	for _, k := range []struct{ name, rows, behind, want string }{
		{"gap in a row", row(1, a, c), "", "1||3"},
		{"blank cells at the end are not kept", row(1, a, `<c r="B1" s="1"/>`), "", "1"},
		{"rows left out are one blank row", row(1, a) + row(4, a), "", "1 /  / 1"},
		{"blank rows are one", row(1, a) + row(2) + row(3, `<c r="A3"/>`) + row(9, a), "", "1 /  / 1"},
		{"blank rows at the beginning are none", row(1) + row(3, a), "", "1"},
		{"rows and cells without places", `<row><c><v>1</v></c><c><v>2</v></c></row><row><c/><c><v>3</v></c></row>`, "", "1|2 / |3"},
		{"a place, then none", `<row r="1"><c r="B1"><v>1</v></c><c><v>2</v></c></row>`, "", "|1|2"},
		{"merged down", row(1, a, b) + row(2, b) + row(3, b) + row(4, b), `<mergeCells count="1"><mergeCell ref="A1:A3"/></mergeCells>`, "1|2 / 1|2 / 1|2 / |2"},
		{"merged across", row(1, a, c) + row(2, a, b, c), `<mergeCells><mergeCell ref="A1:B1"/></mergeCells>`, "1||3 / 1|2|3"},
		{"merged block", row(1, a, c) + row(2, c), `<mergeCells><mergeCell ref="A1:B2"/></mergeCells>`, "1||3 / 1||3"},
		{"merged over blank rows", row(1, a, b) + row(2), `<mergeCells><mergeCell ref="A1:A9"/></mergeCells>`, "1|2 / "},
		{"merged cell with a value of its own", row(1, a, b) + row(2, `<c r="A2"><v>7</v></c>`), `<mergeCells><mergeCell ref="A1:A2"/></mergeCells>`, "1|2 / 7"},
		{"merged without sense", row(1, a), `<mergeCells><mergeCell ref="A1"/><mergeCell/><mergeCell ref="ZZZZ9:A"/><mergeCell ref="A0:A99999999999"/></mergeCells>`, "1"},
		{"no rows", "", "", ""},
	} {
		t.Run(k.name, func(t *testing.T) {
			got := takeBytes("b.xlsx", workbook{sheets: []sheet{{name: "Load", rows: k.rows, behind: k.behind}}}.bytes()).one(t)
			if g := grid(got.rows); g != k.want {
				t.Errorf("got %q, want %q", g, k.want)
			}
			if !got.loose {
				t.Errorf("got rows as long as their heading, want loose ones")
			}
		})
	}
}

func TestWorkbookPlaces(t *testing.T) {
	got := takeBytes("b.xlsx", oneSheet(`<row r="7"><c r="B7"><v>1</v></c><c r="AB7"><v>2</v></c></row><row r="9"><c r="A9"><v>3</v></c></row>`).bytes()).one(t)
	if got.file != "b.xlsx" || got.name != "Load" {
		t.Errorf("got the table %q %q, want b.xlsx and Load", got.file, got.name)
	}
	for _, c := range []struct {
		row, cell    int
		want         string
		line, column int
	}{
		{0, 1, "b.xlsx, Load, B7", 7, 2},
		{0, 27, "b.xlsx, Load, AB7", 7, 28},
		{0, 28, "b.xlsx, Load, AB7", 7, 28}, // beyond the row: its last cell
		{1, 0, "b.xlsx, Load, A8", 8, 1},    // the blank row
		{2, 0, "b.xlsx, Load, A9", 9, 1},
	} {
		at := got.places[c.row][c.cell]
		if at.String() != c.want || at.Line != c.line || at.Column != c.column {
			t.Errorf("row %d cell %d: got %s line %d column %d, want %s line %d column %d", c.row, c.cell, at, at.Line, at.Column, c.want, c.line, c.column)
		}
	}
}

func TestWorkbookSheets(t *testing.T) {
	row := func(v string) string { return `<row r="1"><c r="A1"><v>` + v + `</v></c></row>` }
	b := workbook{sheets: []sheet{
		{name: "Z &amp; first", rows: row("1")}, {name: "aside", state: "hidden", rows: row("2")},
		{name: "deep", state: "veryHidden", rows: row("3")}, {name: "A last", state: "visible", rows: row("4")},
	}}
	got := takeBytes("b.xlsx", b.bytes())
	var names []string
	for _, s := range got.tables {
		names = append(names, s.name+"="+grid(s.rows))
	}
	if s := strings.Join(names, ", "); got.err != nil || s != "Z & first=1, A last=4" {
		t.Errorf("got %q and the error %v, want the visible sheets in the order of the workbook", s, got.err)
	}
	if got.codes() != "hidden-sheet hidden-sheet" || got.notes[0].Sheet != "aside" {
		t.Errorf("got the findings %+v, want one for each hidden sheet", got.notes)
	}
}

func TestWorkbookSays(t *testing.T) {
	for _, c := range []struct{ name, rows, codes, cell, rest string }{
		{"formula without a result", `<row r="2"><c r="A2"><v>1</v></c><c r="B2"><f>A2*2</f></c></row>`, "formula-without-result", "B2", "1"},
		{"string that is not there", `<row r="2"><c r="A2" t="s"><v>5</v></c><c r="B2"><v>1</v></c><c r="C2" t="s"><v>-1</v></c></row>`, "text-missing", "A2", "|1"},
		{"too far right", `<row r="2"><c r="A2"><v>1</v></c><c r="XFD2"><v>9</v></c></row>`, "row-too-wide", "XFD2", "1"},
		{"hidden rows", `<row r="2" hidden="1"><c r="A2"><v>1</v></c></row>`, "hidden-rows", "A2", "1"},
	} {
		t.Run(c.name, func(t *testing.T) {
			got := takeBytes("b.xlsx", oneSheet(c.rows).bytes())
			if got.codes() != c.codes || got.notes[0].Cell != c.cell {
				t.Errorf("got %+v, want %s at %s", got.notes, c.codes, c.cell)
			}
			if g := grid(got.one(t).rows); g != c.rest {
				t.Errorf("got the rows %q, want %q", g, c.rest)
			}
		})
	}
}

func TestWorkbookRefused(t *testing.T) {
	good := `<row r="1"><c r="A1"><v>1</v></c></row>`
	part := func(text string) workbook {
		b := oneSheet(good)
		b.extra = map[string]string{"xl/worksheets/sheet1.xml": text}
		return b
	}
	for _, c := range []struct {
		name string
		book workbook
		want string
	}{
		{"sheet that breaks off", part(`<worksheet><sheetData><row r="1"><c r="A1"><v>1</v></c></row>`), "behind row 1: it ends in the middle"},
		{"row that breaks off", part(`<worksheet><sheetData><row r="3"><c r="A3"><v>1</v></c>`), "behind row 3: it ends in the middle"},
		{"tag that breaks off", part(`<worksheet><sheetData><row r="1"><c r="A`), "it ends in the middle"},
		{"empty part", part(``), "it ends in the middle"},
		{"tags that do not match", part(`<worksheet><sheetData><row></c></row></sheetData></worksheet>`), "it is not well-formed XML"},
		{"unknown entity", part(`<worksheet><sheetData><row><c><v>&x;</v></c></row></sheetData></worksheet>`), "it is not well-formed XML"},
		{"two roots", part(`<worksheet/><worksheet/>`), "it is not well-formed XML"},
		{"document type", part(`<!DOCTYPE a [<!ENTITY x "y">]><worksheet/>`), "it has a document type"},
		{"text too long", part(`<worksheet><sheetData><row><c><v>` + noise(2<<20) + `</v></c></row></sheetData></worksheet>`), "a tag or text is longer than 1 MiB"},
		{"tag too long", part(`<worksheet a="` + noise(2<<20) + `"/>`), "a tag or text is longer than 1 MiB"},
		{"elements too deep", part(strings.Repeat("<a>", 200)), "nested more than 100 deep"},
		{"no sheets", workbook{}, "no visible sheet"},
		{"only hidden sheets", workbook{sheets: []sheet{{name: "a", state: "hidden", rows: good}}}, "no visible sheet"},
		{"sheet left out", workbook{sheets: []sheet{{name: "a", rows: good}}, without: []string{"xl/worksheets/sheet1.xml"}}, "has no part xl/worksheets/sheet1.xml"},
		{"list of sheets left out", workbook{sheets: []sheet{{name: "a", rows: good}}, without: []string{"xl/workbook.xml", "_rels/.rels"}}, "has no part xl/workbook.xml"},
		{"part twice", workbook{sheets: []sheet{{name: "a", rows: good}}, extra: map[string]string{"XL/Workbook.xml": "<a/>"}}, "two parts by the name"},
		{"too many sheets", workbook{extra: map[string]string{"xl/workbook.xml": "<workbook>" + strings.Repeat("<sheet/>", 501) + "</workbook>"}}, "too many sheets"},
	} {
		t.Run(c.name, func(t *testing.T) {
			r := takeBytes("b.xlsx", c.book.bytes()).refused(t)
			if !strings.Contains(r.Found, c.want) || r.File != "b.xlsx" || r.Expected == "" || r.Hint == "" {
				t.Errorf("got %+v, want it to say %q", r, c.want)
			}
		})
	}
}

func TestWorkbookWithoutStylesOrStrings(t *testing.T) {
	b := oneSheet(`<row r="1"><c r="A1" s="4"><v>1.5</v></c></row>`)
	if g := grid(takeBytes("b.xlsx", b.bytes()).one(t).rows); g != "1.5" {
		t.Errorf("got %q, want 1.5", g)
	}
}
