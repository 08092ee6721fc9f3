package table_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"
)

// The same cells come out whatever divides them, ends the lines, and whether
// they are quoted.
func TestDelimitedAlike(t *testing.T) {
	rows := [][]string{{"machine", "hours", "note"}, {"T-01", "12", "x y"}, {"T-02", "", "ä€"}, {"", "3", ""}}
	for _, mark := range []string{",", ";", "\t", "|"} {
		for _, end := range []string{"\n", "\r\n", "\r", "mixed"} {
			for _, quote := range []string{"", `"`, "some"} {
				for _, last := range []bool{true, false} {
					text := written(rows, mark, end, quote, last)
					if got := takeText("f.csv", text).one(t); grid(got.rows) != grid(rows) || got.file != "f.csv" || got.name != "" || got.loose {
						t.Errorf("%q: got %q, want %q", text, grid(got.rows), grid(rows))
					}
				}
			}
		}
	}
}

// written writes rows as delimited text.
func written(rows [][]string, mark, end, quote string, last bool) string {
	var b strings.Builder
	for i, r := range rows {
		for j, c := range r {
			if j > 0 {
				b.WriteString(mark)
			}
			if quote == `"` || quote == "some" && (i+j)%2 == 0 {
				c = `"` + c + `"`
			}
			b.WriteString(c)
		}
		if i < len(rows)-1 || last {
			e := end
			if end == "mixed" {
				e = []string{"\r", "\r\n", "\n"}[i%3]
			}
			b.WriteString(e)
		}
	}
	return b.String()
}

func TestDelimited(t *testing.T) {
	for _, c := range []struct{ name, text, want string }{
		{"named divider", "sep=;\na,b;c\n1,5;2,5\n", "a,b|c / 1,5|2,5"},
		{"named divider, CR LF", "sep=|\r\na|b\r\n", "a|b"},
		{"named divider, CR", "sep=;\ra,b;c\r1,5;2\r", "a,b|c / 1,5|2"},
		{"named tab", "SEP=\t\na;b\tc\n", "a;b|c"},
		{"comments", "# made by hand\na;b\n#x;y\n1;2\n# end", "a|b / 1|2"},
		{"no comment within a row", "a;#b\n", "a|#b"},
		{"one column", "load\n230\n1,5\n", "load / 230 / 1,5"},
		{"decimal commas", "Hours;Load\n1,5;2,5\n3,5;4,5\n", "Hours|Load / 1,5|2,5 / 3,5|4,5"},
		{"decimal commas and commas in headings", "Load, kg;Hours, h\n1,5;2,5\n3,5;4,5\n", "Load, kg|Hours, h / 1,5|2,5 / 3,5|4,5"},
		{"preamble", "Machine;T-01\n\na,b,c\n1,2,3\n4,5,6\n7,8,9\n", "Machine;T-01 /  / a|b|c / 1|2|3 / 4|5|6 / 7|8|9"},
		{"blank lines", "a;b\n\n1;2\n", "a|b /  / 1|2"},
		{"ragged", "a;b;c\n1\n1;2;3;4\n", "a|b|c / 1 / 1|2|3|4"},
		{"spaces are kept", " a ; b\n", " a | b"},
		{"quoted divider", "a;\"b;c\"\n1;2\n", "a|b;c / 1|2"},
		{"quoted line end", "a;b\n\"1\r\n2\";3\n", "a|b / 1\n2|3"},
		{"quoted comment", "a;b\n\"x\n#y\";3\n", "a|b / x\n#y|3"},
	} {
		t.Run(c.name, func(t *testing.T) {
			got := takeText("f.csv", c.text).one(t)
			if g := grid(got.rows); g != c.want || len(got.broken) != 0 {
				t.Errorf("got %q broken %v, want %q", g, got.broken, c.want)
			}
		})
	}
}

// The examples of RFC 4180, section 2.
func TestRFC4180(t *testing.T) {
	for _, c := range []struct{ rule, text, want string }{
		{"1", "aaa,bbb,ccc\r\nzzz,yyy,xxx\r\n", "aaa|bbb|ccc / zzz|yyy|xxx"},
		{"2", "aaa,bbb,ccc\r\nzzz,yyy,xxx", "aaa|bbb|ccc / zzz|yyy|xxx"},
		{"3", "field_name,field_name,field_name\r\naaa,bbb,ccc\r\nzzz,yyy,xxx\r\n", "field_name|field_name|field_name / aaa|bbb|ccc / zzz|yyy|xxx"},
		{"4", "aaa,bbb,ccc", "aaa|bbb|ccc"},
		{"5", "\"aaa\",\"bbb\",\"ccc\"\r\nzzz,yyy,xxx", "aaa|bbb|ccc / zzz|yyy|xxx"},
		{"6", "\"aaa\",\"b\r\nbb\",\"ccc\"\r\nzzz,yyy,xxx", "aaa|b\nbb|ccc / zzz|yyy|xxx"}, // line ends within a cell are LF, as encoding/csv has it
		{"7", "\"aaa\",\"b\"\"bb\",\"ccc\"", "aaa|b\"bb|ccc"},
	} {
		if g := grid(takeText("f.csv", c.text).one(t).rows); g != c.want {
			t.Errorf("rule %s: got %q, want %q", c.rule, g, c.want)
		}
	}
}

func TestDelimitedPlaces(t *testing.T) {
	text := "# x\na;ä€;c\r\n\"ä\";\"b\nb\";c\r\rlast;z"
	got := takeText("f.csv", text).one(t)
	for _, c := range []struct {
		row, cell int
		want      string
	}{
		{0, 0, "f.csv:2:1"}, {0, 1, "f.csv:2:3"}, {0, 2, "f.csv:2:6"}, {0, 3, "f.csv:2:6"},
		{1, 0, "f.csv:3:1"}, {1, 1, "f.csv:3:5"}, {1, 2, "f.csv:4:4"},
		{2, 0, "f.csv:5:1"}, {3, 1, "f.csv:6:6"},
	} {
		if at := got.places[c.row][c.cell].String(); at != c.want {
			t.Errorf("row %d cell %d: got %s, want %s", c.row, c.cell, at, c.want)
		}
	}
}

// A row with a fault is reported with its place, and the next lines are read.
func TestDelimitedBroken(t *testing.T) {
	for _, c := range []struct{ name, text, want, at string }{
		{"open quote", "a;b\n\"1;2\n3;4\n", "a|b / 3|4", "f.csv:2:1"},
		{"open quote at the end", "a;b\n1;\"2", "a|b", "f.csv:2:3"},
		{"open quote with doubled ones behind", "a;b;c\n1;\"x \"\"y\n3;4;5\n", "a|b|c / 3|4|5", "f.csv:2:3"},
		{"quote within", "a;b\n1;x\"y\n3;4\n", "a|b / 3|4", "f.csv:2:4"},
		{"text behind a quote", "a;b\nä;\"x\"y\n3;4\n", "a|b / 3|4", "f.csv:2:5"},
		{"open quote before many lines", "a;b\n\"1;2\n" + strings.Repeat("3;4\n", 300), "a|b" + strings.Repeat(" / 3|4", 300), "f.csv:2:1"},
		{"two open quotes", "a;b\n\"1;2\n3;4\n5;\"6\n7;8\n", "", "f.csv:2:1"},
	} {
		t.Run(c.name, func(t *testing.T) {
			got := takeText("f.csv", c.text).one(t)
			if len(got.broken) == 0 || got.broken[0].Origin.String() != c.at || got.broken[0].Message == "" {
				t.Fatalf("got %v, want a broken row at %s", got.broken, c.at)
			}
			if g := grid(got.rows); c.want != "" && g != c.want {
				t.Errorf("got %q, want %q", g, c.want)
			}
			if c.name == "two open quotes" && !strings.HasSuffix(grid(got.rows), "7|8") {
				t.Errorf("got %q, want the rows behind", grid(got.rows))
			}
		})
	}
}

func TestLongLine(t *testing.T) {
	const limit = 64 << 10
	for _, end := range []string{"\n", "\r\n", "\r"} {
		long := strings.Repeat("x", limit)
		got := takeText("f.csv", "a;b"+end+long+end+"c;d"+end).one(t)
		if len(got.rows) != 3 || got.rows[1][0] != long {
			t.Errorf("%q: got %d rows, want 3 with a line of 64 KiB", end, len(got.rows))
		}
		r := takeText("f.csv", "a;b"+end+long+"x"+end+"c;d"+end).refused(t)
		if r.Line != 2 || r.Found != "the line is longer than 64 KiB" {
			t.Errorf("%q: got %+v, want the refusal of line 2", end, r)
		}
	}
	if r := takeText("f.csv", "a;b\n"+strings.Repeat("x", 1<<20)).refused(t); r.Line != 2 {
		t.Errorf("got %+v, want the refusal of line 2", r)
	}
}

// Text whose lines end in CR alone, of any size, is read line by line.
func TestManyLinesOfCR(t *testing.T) {
	const line, n = "machine;12345;abcdefghijklm\r", 300000
	got := takeText("f.csv", strings.Repeat(line, n)).one(t)
	odd := slices.IndexFunc(got.rows, func(r []string) bool { return strings.Join(r, ";") != line[:len(line)-1] })
	if len(got.rows) != n || odd >= 0 {
		t.Errorf("got %d rows, the first that differs is %d, want %d alike", len(got.rows), odd, n)
	}
}

// A row with more cells than are read says so.
func TestDelimitedTooWide(t *testing.T) {
	for name, text := range map[string]string{"plain": strings.Repeat("x;", 3000), "quoted": `"a";` + strings.Repeat("x;", 3000)} {
		got := takeText("f.csv", text)
		if tb := got.one(t); len(tb.broken) == 0 && len(got.notes) == 0 {
			t.Errorf("%s: got %d cells and not a word, want a broken row or a finding", name, len(tb.rows[0]))
		}
	}
}

// A divider that cannot be one is none: the walk refuses or reads, never fails otherwise.
func TestDividerWithoutSense(t *testing.T) {
	for _, mark := range []string{`"`, "\x00", "\r", "a", "#"} {
		got := takeText("f.csv", "sep="+mark+"\na;\"b\"\n1;2\n")
		if got.err != nil {
			got.refused(t)
		}
	}
}

func TestSniff(t *testing.T) {
	for _, c := range []struct{ bytes, want string }{
		{"", "the file is empty"},
		{" \r\n\t\n", "nothing but blank lines"},
		{"\xff\xd8\xff\xe0", "a JPEG picture"},
		{"\x89PNG\r\n\x1a\n", "a PNG picture"},
		{"GIF89a", "a GIF picture"},
		{"%PDF-1.7", "a PDF document"},
		{"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1", "an old office document"},
		{"\x1f\x8b\x08", "a gzip archive"},
		{"7z\xbc\xaf\x27\x1c", "a 7z archive"},
		{"Rar!\x1a\x07", "a RAR archive"},
		{"\x00\x01\x02\x03", "byte 1 is zero"},
	} {
		if r := takeText("f", c.bytes).refused(t); !strings.Contains(r.Found, c.want) || r.Expected == "" || r.Hint == "" || r.Error() == "" {
			t.Errorf("%q: got %+v, want it to say %q", c.bytes, r, c.want)
		}
	}
}

// The same content comes out of each container.
func TestContainersAlike(t *testing.T) {
	rows := [][]string{{"machine", "from_kg", "hours"}, {"T-01", "0", "812.4"}, {"T-01", "90", "41.25"}, {"T <2> & ä", "", "1e-09"}}
	var sheet, page strings.Builder
	for _, r := range rows {
		sheet.WriteString("<row>")
		page.WriteString("<tr>")
		for _, c := range r {
			esc := strings.NewReplacer("&", "&amp;", "<", "&lt;", ">", "&gt;").Replace(c)
			fmt.Fprintf(&sheet, `<c t="inlineStr"><is><t>%s</t></is></c>`, esc)
			fmt.Fprintf(&page, `<td>%s</td>`, esc)
		}
		sheet.WriteString("</row>")
		page.WriteString("</tr>")
	}
	csv := written(rows, ";", "\n", "", true)
	for name, data := range map[string][]byte{
		"a.csv": []byte(csv), "a.tsv": []byte(written(rows, "\t", "\r\n", `"`, true)), "a.xlsx": oneSheet(sheet.String()).bytes(),
		"a.html": []byte("<table>" + page.String() + "</table>"), "a.zip": archive(map[string]string{"a.csv": csv}),
	} {
		if g := grid(takeBytes(name, data).one(t).rows); g != grid(rows) {
			t.Errorf("%s: got %q, want %q", name, g, grid(rows))
		}
	}
}
