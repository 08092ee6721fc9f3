package browsertest

import (
	"strings"
	"testing"
)

// pasteTable pastes markup and text on the page itself, as copied from a page or a spreadsheet.
func pasteTable(p *Page, html, text string) {
	p.t.Helper()
	p.Do(`(() => {
		const data = new DataTransfer();
		data.setData("text/html", ` + quote(html) + `);
		data.setData("text/plain", ` + quote(text) + `);
		document.body.dispatchEvent(new ClipboardEvent("paste", { clipboardData: data, bubbles: true, cancelable: true }));
	})()`)
}

// A table copied from a page, or cells copied from a spreadsheet, open when they are pasted on the page.
func TestPasteATable(t *testing.T) {
	p := Open(t, Tablet)
	pasteTable(p, "<meta><table><tr><th>machine</th><th>rated load kg</th><th>band</th><th>hours</th></tr><tr><td>T-31</td><td>230</td><td>0-90 kg</td><td>12</td></tr><tr><td>T-31</td><td></td><td>over 90 kg</td><td>3</td></tr></table>", "")
	p.WaitFor("#sheet")
	if got := p.Text("#machine"); !strings.Contains(got, "T-31") {
		t.Errorf("got %q, want T-31", got)
	}
	pasteTable(p, "", "machine\trated load kg\tband\thours\nT-32\t230\t0-90 kg\t12\nT-32\t\tover 90 kg\t3\n")
	p.WaitText(".machines", "T-32")
}
