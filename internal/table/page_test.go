package table_test

import (
	"fmt"
	"strings"
	"testing"
)

// shown writes all tables of a walk: name, then rows.
func (t taken) shown() string {
	var out []string
	for _, tb := range t.tables {
		out = append(out, tb.name+": "+grid(tb.rows))
	}
	return strings.Join(out, " // ")
}

func TestPage(t *testing.T) {
	for _, c := range []struct{ name, page, want string }{
		{"plain", "<table><tr><th>a</th><th>b</th></tr><tr><td>1</td><td>2</td></tr></table>", "table 1: a|b / 1|2"},
		{"ends left out", "<TABLE><TR><TD>a<TD>b<TR><TD>1<TD>2</TABLE>", "table 1: a|b / 1|2"},
		{"no row", "<table><td>a<td>b</table>", "table 1: a|b"},
		{"groups", "<table><thead><tr><th>a<th>b<tbody><tr><td>1<td>2</tbody><tfoot><tr><td>s<td>t</table>", "table 1: a|b / 1|2 / s|t"},
		{"caption", "<table><caption>March <b>2026</b></caption><tr><td>a<td>b</table>", "March 2026: a|b"},
		{"two", "<table><tr><td>a<td>b</table><p>x</p><table><tr><td>c<td>d</table>", "table 1: a|b // table 2: c|d"},
		{"across", "<table><tr><td colspan=2>a<td>b<tr><td>1<td>2<td>3</table>", "table 1: a||b / 1|2|3"},
		{"down", "<table><tr><td rowspan=3>m<td>1<tr><td>2<tr><td>3<tr><td>n<td>4</table>", "table 1: m|1 / m|2 / m|3 / n|4"},
		{"down at the end of rows", "<table><tr><td>1<td rowspan='2'>m<tr><td>2</table>", "table 1: 1|m / 2|m"},
		{"down beyond a gap", "<table><tr><td>1<td>2<td rowspan=2>m<tr><td>3</table>", "table 1: 1|2|m / 3||m"},
		{"down and across", "<table><tr><td colspan=2 rowspan=2>m<td>1<tr><td>2</table>", "table 1: m||1 / m||2"},
		{"down to the end of the group", "<table><tbody><tr><td rowspan=0>m<td>1<tr><td>2<tbody><tr><td>n<td>3</table>", "table 1: m|1 / m|2 / n|3"},
		{"spans without sense", "<table><tr><td colspan=-1 rowspan=x>a<td colspan=0>b</table>", "table 1: a|b"},
		{"inner table", "<table><tr><td>a<table><tr><td>x<td>y</table>b<td>c</table>", "table 1: a b|c // table 2: x|y"},
		{"layout around a table", "<table><tr><td><table><tr><td>x<td>y</table></table>", "table 1: x|y"},
		{"entities", "<table><tr><td>&lt;a&gt;&nbsp;&amp;&auml;&#x20ac;<td>b</table>", "table 1: <a> &ä€|b"},
		{"space", "<table><tr><td>  a\n\t b<br>c<br/>d <td><p>e</p><p>f</p></table>", "table 1: a b c d|e f"},
		{"words parted by marks alone", "<table><tr><td>1<b>2</b><i>3</i><td>x<sup>2</sup></table>", "table 1: 123|x2"},
		{"scripts and styles", "<table><tr><td>a<script>'<td>'</script><style>td{}</style><td>b<!-- <td>c --></table>", "table 1: a|b"},
		{"table in a script", "<script>document.write('<table><tr><td>x<td>y</table>')</script><table><tr><td>a<td>b</table>", "table 1: a|b"},
		{"blank cells and rows", "<table><tr><td><td>b<tr><tr><td>c<td></table>", "table 1: |b /  / c|"},
		{"ends without beginnings", "</td></tr></table><table></table></table><table><tr><td>a<td>b</table>", "table 1: a|b"},
		{"with a mark and a declaration", "\ufeff<?xml version='1.0'?><!DOCTYPE html><html><body><table><tr><td>a</td><td>b</td></tr></table></body></html>", "table 1: a|b"},
	} {
		t.Run(c.name, func(t *testing.T) {
			text := c.page
			if text[0] != '<' && !strings.HasPrefix(text, "\ufeff") {
				t.Fatalf("got %q, want markup", text)
			}
			got := takeText("p.html", text)
			if got.err != nil || got.shown() != c.want || len(got.notes) != 0 {
				t.Errorf("got %q, findings %v, error %v, want %q", got.shown(), got.notes, got.err, c.want)
			}
			for _, tb := range got.tables {
				if !tb.loose || tb.typed[0][0] {
					t.Errorf("got typed %v, loose %v, want loose rows of text", tb.typed[0][0], tb.loose)
				}
			}
		})
	}
}

func TestPagePlaces(t *testing.T) {
	got := takeText("p.html", "<html>\n<table>\n<tr><td>a\nb</td>\n<td>c</td></tr>\n\n<tr>\n<td rowspan=2>d<td>e\n<tr></tr></table>").one(t)
	var lines []string
	for _, row := range got.places {
		for _, at := range row {
			lines = append(lines, fmt.Sprint(at.Line))
		}
	}
	// two cells and what is beyond them, for each of three rows; the third repeats d
	if s := strings.Join(lines, " "); s != "3 5 5 8 8 8 8 8" || got.places[0][0].String() != "p.html:3" {
		t.Errorf("got the lines %s (%s), want 3 5 5, 8 8 8 and 8 8", s, got.places[0][0])
	}
}

func TestPageRefused(t *testing.T) {
	for _, c := range []struct{ name, page, want string }{
		{"no table", "<!DOCTYPE html><p>Sign in</p>", "the file is a web page or XML without a table"},
		{"layout alone", "<table><tr><td>menu</table>", "the file is a web page or XML without a table"},
		{"blank table", "<table><tr><td><td></table>", "the file is a web page or XML without a table"},
		{"tag without end", "<table " + strings.Repeat("x", 20<<20), "longer than 16 MiB"},
		{"spans that multiply", "<table>" + strings.Repeat("<tr><td rowspan=60000 colspan=1000>x<td colspan=1000>", 1) + strings.Repeat("<tr>", 2000), "larger than 64 MiB"},
		{"cells without end", "<table>" + strings.Repeat("<tr><td>", 1<<20), "larger than 64 MiB"},
	} {
		t.Run(c.name, func(t *testing.T) {
			if r := takeText("p.html", c.page).refused(t); !strings.Contains(r.Found, c.want) || r.File != "p.html" || r.Hint == "" {
				t.Errorf("got %+v, want it to say %q", r, c.want)
			}
		})
	}
}

// A page that is cut off is read as far as it goes, and says so.
func TestPageCut(t *testing.T) {
	got := takeText("p.html", "<p>\n<table><tr><td>a<td>b<tr><td>1<td>2")
	if got.shown() != "table 1: a|b / 1|2" || got.codes() != "page-cut" || got.notes[0].Line != 2 {
		t.Errorf("got %q and %+v, want the rows and page-cut in line 2", got.shown(), got.notes)
	}
}

func TestPageTooWide(t *testing.T) {
	got := takeText("p.html", "<table><tr><td>a<td>b\n<tr>"+strings.Repeat("<td>x", 2003)+"</table>")
	if rows := got.one(t).rows; len(rows[1]) != 2000 || got.codes() != "row-too-wide" || got.notes[0].Line != 2 || !strings.Contains(got.notes[0].Message, "3 cells") {
		t.Errorf("got %d cells and %+v, want 2000 and 3 cells too many in line 2", len(rows[1]), got.notes)
	}
}
