package browsertest

import (
	"strings"
	"testing"
)

// Headings that no one knows, and values that can be read two ways. Invented.
const (
	riddles = "alpha;beta;gamma;delta\nT-9;0;90;12\nT-9;90;;3\n"
	twoWays = "machine;rated load kg;from kg;to kg;hours\nT-9;230;0;90;1,234\nT-9;230;90;;2,345\n"
)

// choose picks an option of a select by its words, as a person would.
func choose(p *Page, selector, words string) {
	p.t.Helper()
	p.Do(`(() => {
		const select = document.querySelector(` + quote(selector) + `);
		const option = [...select.options].find((o) => o.textContent === ` + quote(words) + `);
		select.value = option.value;
		select.dispatchEvent(new Event("change", { bubbles: true }));
	})()`)
}

// A person says what the columns are, sees at once what is read, and the next
// file with the same headings is read without asking.
func TestPointOutColumns(t *testing.T) {
	p := Open(t, Tablet)
	p.Drop("#app", "riddles.csv", "text/csv", []byte(riddles))
	p.WaitFor("#pointing")
	if got := p.Text("#preview"); !strings.HasPrefix(got, "Nothing yet") {
		t.Errorf("got %q, want that nothing is read yet", got)
	}
	for i, words := range []string{"machine, name or number", "lower edge of the band", "upper edge of the band", "hours in the band"} {
		choose(p, "#field-"+string(rune('1'+i)), words)
	}
	p.WaitText("#preview", "1 machine, 1 reading, 2 bands.")
	p.Click("#take-pointed")
	p.WaitFor("#sheet")
	if got := p.Text("#handover .answer"); !strings.Contains(got, "guide") {
		t.Errorf("got %q, want the guide named", got)
	}
	p.Go("/")
	p.WaitReady()
	p.Drop("#app", "more.csv", "text/csv", []byte(strings.ReplaceAll(riddles, "T-9", "T-8")))
	p.WaitFor("#sheet")
	if got := p.Text("#machine"); !strings.Contains(got, "T-8") {
		t.Errorf("got %q, want the sheet of T-8 at once", got)
	}
}

// An ambiguous column is asked about with its own values.
func TestAskAboutDecimals(t *testing.T) {
	p := Open(t, Phone)
	p.Drop("#app", "two.csv", "text/csv", []byte(twoWays))
	p.WaitFor("#pointing")
	if got := p.Text(".ask-file"); !strings.Contains(got, "1,234") || !strings.Contains(got, "1.234") {
		t.Errorf("got %q, want the value and both meanings", got)
	}
	if wide := sideways(p); wide != "" {
		t.Errorf("got %s, want a page that does not scroll sideways", wide)
	}
	p.Click("#answer-1-comma")
	p.WaitText("#preview", "1 machine, 1 reading, 2 bands.")
	p.Click("#take-pointed")
	p.WaitFor("#sheet")
	if wide := sideways(p); wide != "" {
		t.Errorf("got %s, want a page that does not scroll sideways", wide)
	}
}

// Times that name no zone are in the one that is chosen, and what hours under one
// edge each are is asked.
func TestChooseZoneAndCounts(t *testing.T) {
	p := Open(t, Phone)
	p.Drop("#app", "over.csv", "text/csv", []byte("machine;reading at;rated load kg;Hours over 0 kg;Hours over 230 kg\nT-9;2026-03-02 08:10;230;12;3\n"))
	p.WaitFor("#pointing")
	if got := p.Text(".ask-file"); !strings.Contains(got, "one edge only") || !strings.Contains(got, "0-230 kg: 9 h") {
		t.Errorf("got %q, want the question with both meanings", got)
	}
	choose(p, "#point-zone", "UTC+02:00")
	p.Click("#answer-1-cumulative")
	p.WaitText("#preview", "1 machine, 1 reading, 2 bands.")
	if got := p.Text(".preview"); !strings.Contains(got, "2 March 2026 06:10") {
		t.Errorf("got %q, want the time in UTC", got)
	}
	if wide := sideways(p); wide != "" {
		t.Errorf("got %s, want a page that does not scroll sideways", wide)
	}
}
