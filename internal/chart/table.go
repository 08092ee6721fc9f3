package chart

import "strings"

// Row is a row of a table: its title and its cells.
type Row struct {
	Title string
	Cells []string
}

// Table writes a table as HTML, in ASCII, every word escaped.
func Table(caption string, head []string, rows []Row) string {
	var b strings.Builder
	put := func(open, words, closing string) { b.WriteString(open + escape(words) + closing) }
	put("<table><caption>", caption, "</caption><thead><tr>")
	for _, h := range head {
		put(`<th scope="col">`, h, "</th>")
	}
	b.WriteString("</tr></thead><tbody>")
	for _, r := range rows {
		put(`<tr><th scope="row">`, r.Title, "</th>")
		for _, c := range r.Cells {
			put("<td>", c, "</td>")
		}
		b.WriteString("</tr>")
	}
	b.WriteString("</tbody></table>")
	return b.String()
}
