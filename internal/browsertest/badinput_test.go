package browsertest

import (
	"bufio"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// onSheet is what a reader has before them of a machine.
type onSheet struct{ machine, summary, cost string }

func seen(p *Page) onSheet {
	p.t.Helper()
	p.WaitFor("#sheet")
	return onSheet{p.Text("#machine"), p.Text("#summary"), p.Text("#cost-answer")}
}

// openExample opens the worked example and its third machine.
func openExample(t *testing.T) *Page {
	t.Helper()
	p := Open(t, Tablet)
	example(3)(p)
	p.Settle()
	return p
}

// staysOpen checks that a machine is on the sheet as it was, and that nothing broke.
func staysOpen(t *testing.T, p *Page, what string, want onSheet) {
	t.Helper()
	if p.Count("#crash") > 0 {
		t.Errorf("%s: got a fault %s", what, p.Text("#crash"))
	}
	press(p, "#machine-3")
	p.Settle()
	if got := seen(p); got != want {
		t.Errorf("%s: got %+v on the sheet, want %+v", what, got, want)
	}
}

// What is no record is refused with its place, what was found and what was expected; the sheet stays as it was.
func TestRefusedBesideAnOpenSheet(t *testing.T) {
	p := openExample(t)
	want := seen(p)
	data := func(name string) []byte {
		data, err := os.ReadFile(filepath.Join(testdata, "bad", name))
		if err != nil {
			t.Fatal(err)
		}
		return data
	}
	for _, c := range []struct {
		name, words string
		data        []byte
	}{
		{"empty.csv", "the file is empty", nil},
		{"photo.jpg", "a JPEG picture", data("photo.jpg")},
		{"photo.csv", "a JPEG picture", data("photo-named.csv")},
		{"truncated.case.json", "truncated.case.json:13:45: the file ends in the middle of a value", data("truncated.case.json")},
		{"page.csv", "a web page", data("html-page.csv")},
		{"deep.json", "nested more than", data("deep.json")},
		{"zeros.bin", "the file is not text", make([]byte, 1000)},
		{`<img src=x onerror="window.hacked=1">.csv`, "the file is empty", nil},
	} {
		p.Drop("#app", c.name, "", c.data)
		p.WaitText("#notices", c.name+" could not be read")
		notice := p.Text("#notices")
		for _, words := range []string{c.words, "Found at " + c.name, "Expected: ", "What to do: "} {
			if !strings.Contains(notice, words) {
				t.Errorf("%s: got %q, want %q in it", c.name, notice, words)
			}
		}
		if got := p.Count("#notices h2"); got != 1 {
			t.Errorf("%s: got %d notices, want one: the last is about another file", c.name, got)
		}
		staysOpen(t, p, c.name, want)
		p.Click("#forget-notices")
		p.WaitGone("#notices")
	}
	nothingRan(t, p)
	if got := p.Count(".machines button"); got != 5 {
		t.Errorf("got %d machines, want the 5 of the example", got)
	}
}

// A record with values that cannot be is opened beside the others: its findings say where, no figure is made of them, and the
// others stay.
func TestImpossibleValuesBesideAnOpenSheet(t *testing.T) {
	p := openExample(t)
	want := seen(p)
	for i, name := range []string{
		"huge-number.case.json", "huge-hours.case.json", "number-overflow.case.json", "nan.csv", "infinity.csv",
		"negative-hours.case.json", "overlap.case.json", "reversed-band.case.json", "bad-time.case.json", "wrong-types.case.json",
	} {
		file, err := os.ReadFile(filepath.Join(testdata, "bad", name))
		if err != nil {
			t.Fatal(err)
		}
		file = []byte(strings.ReplaceAll(string(file), "T-01", fmt.Sprint("BAD-", i)))
		p.Drop("#app", name, "", file)
		p.WaitFor(fmt.Sprintf("#machine-%d[aria-pressed=true]", 6+i))
		if got := p.Count("#recorded .finding:not(.note)"); got == 0 {
			t.Errorf("%s: got no doubt and no blocking finding, want one", name)
		}
		if text := p.Text("#recorded .findings"); !strings.Contains(text, name) {
			t.Errorf("%s: got %q, want the file named", name, text)
		}
		for _, selector := range []string{"#summary", "#carry", "#over", "#cost", "#recorded > .answer"} {
			if text := p.Text(selector); strings.Contains(text, "NaN") || strings.Contains(text, "Inf") || longNumber(text) {
				t.Errorf("%s: got %q in %s, want no such figure", name, text, selector)
			}
		}
		if wide := sideways(p); wide != "" {
			t.Errorf("%s: got a page that scrolls sideways: %s", name, wide)
		}
		staysOpen(t, p, name, want)
	}
}

// longNumber reports whether a text has a run of more than 16 digits: no figure has as many that mean something.
func longNumber(text string) bool {
	run := 0
	for _, r := range text {
		if run++; r < '0' || r > '9' {
			run = 0
		}
		if run > 16 {
			return true
		}
	}
	return false
}

// Markup in a record is shown as text. Nothing is made of it and nothing of it runs.
func TestMarkupInFields(t *testing.T) {
	p := Open(t, Tablet)
	p.Do(`window.alert = window.prompt = window.confirm = () => { window.hacked = "dialogue" }`)
	file, err := os.ReadFile(filepath.Join(testdata, "bad", "html-in-fields.case.json"))
	if err != nil {
		t.Fatal(err)
	}
	p.Drop("#app", "markup.case.json", "", file)
	p.WaitText("#machine", `<script>alert("T-01")</script>`)
	nothingRan(t, p)

	const attack = `<img src=x onerror='window.hacked=1'><svg onload='window.hacked=1'><a href='javascript:window.hacked=1'>x</a></title></text><script>window.hacked=1</script>&lt;b&gt;`
	text := strings.ReplaceAll(string(file), "invented example: no such machine", attack)
	text = strings.ReplaceAll(text, `"scissor"`, `"`+attack+`"`)
	text = strings.ReplaceAll(text, `<script>alert(\"T-01\")</script>`, attack)
	text = strings.ReplaceAll(text, `"holder": "hire"`, `"holder": "`+attack+`"`)
	text = strings.ReplaceAll(text, `"peak_kg"`, `"`+attack+`": 1, "peak_kg"`)
	p.Drop("#app", attack+".case.json", "", []byte(text))
	p.WaitText("#machine", "onerror")
	nothingRan(t, p)
	p.Click("#correct")
	p.WaitFor("#typing")
	nothingRan(t, p)
}

// nothingRan checks that no element was made of a record's text, and that none of it ran.
func nothingRan(t *testing.T, p *Page) {
	t.Helper()
	p.Settle()
	const made = `#app img, #app script, #app iframe, #app object, #app embed, #app a, #app style, #app link, #app form, #app b,
		#app [onerror], #app [onload], #app [onclick], #app [href^=javascript]`
	if got := p.Count(made); got != 0 {
		t.Errorf("got %d elements made of a record's text, want none: %s", got,
			Eval[string](p, "document.querySelector("+quote(made)+").outerHTML"))
	}
	if got := Eval[string](p, `String(window.hacked)`); got != "undefined" {
		t.Errorf("got a script of a record run: %s", got)
	}
}

// huge is how large the huge files are.
const huge = 100_000_000

// A huge text without a line break is refused as soon as that is seen.
func TestHugeTextWithoutLineBreak(t *testing.T) {
	p := openExample(t)
	want := seen(p)
	file := writeHuge(t, "", strings.Repeat("words without an end ", 1000))
	p.Click("#go-start")
	openFile(p, file)
	p.WaitText("#notices", "huge.csv could not be read")
	if text := p.Text("#notices"); !strings.Contains(text, "huge.csv:1: the line is longer than") {
		t.Errorf("got %q, want the place and what was found", text)
	}
	p.Click("#go-sheet")
	staysOpen(t, p, "huge text", want)
}

// Reading a huge table shows progress with a figure and can be given up; the sheet stays and the next file is read.
func TestHugeTableCanBeCancelled(t *testing.T) {
	p := openExample(t)
	want := seen(p)
	const row = "BIG-1,boom,230,2,262,2026-02-02T08:10:00Z,40,14,221,2026-01-20T10:30:00Z,80,160,1\n"
	const head = "machine,kind,rated_load_kg,persons,load_sensing_kg,reading_at,powered_h,moving_h,peak_kg,peak_at,from_kg,to_kg,hours\n"
	file := writeHuge(t, head, strings.Repeat(row, 500))
	p.Click("#go-start")
	p.Files("#file", file)
	p.WaitFor("#busy")
	p.until("progress has a figure", `/: [1-9]\d* % of 100[.,]\d MB/.test(document.querySelector("#busy")?.innerText)`)
	shown := Eval[struct {
		Value float64
		Text  string
	}](p, `({ value: document.querySelector("#busy progress").value, text: document.querySelector("#busy p").innerText })`)
	if !strings.Contains(shown.Text, "huge.csv") || !strings.Contains(shown.Text, fmt.Sprintf("%.0f %%", shown.Value)) {
		t.Errorf("got %+v, want the file's name and the same figure twice", shown)
	}
	p.Click("#cancel")
	p.WaitGone("#busy")
	if p.Count("#notices") > 0 {
		t.Errorf("got a notice %q, want none", p.Text("#notices"))
	}
	p.Click("#go-sheet")
	staysOpen(t, p, "cancelled", want)
	p.Click("#go-start")
	openFile(p, filepath.Join(testdata, "delimited", "template.csv"))
	p.WaitText("#machine", "EXAMPLE-1")
	if got := p.Count(".machines button"); got != 6 {
		t.Errorf("got %d machines, want 6: the cancelled file must not turn up", got)
	}
}

// writeHuge writes a file of repeated text; it is removed after the test.
func writeHuge(t *testing.T, head, part string) string {
	t.Helper()
	name := filepath.Join(t.TempDir(), "huge.csv")
	f, err := os.Create(name)
	if err != nil {
		t.Fatal(err)
	}
	w := bufio.NewWriterSize(f, 1<<20)
	n, _ := w.WriteString(head)
	for n < huge && err == nil {
		var more int
		more, err = w.WriteString(part)
		n += more
	}
	if err == nil {
		err = w.Flush()
	}
	if err2 := f.Close(); err != nil || err2 != nil {
		t.Fatal(err, err2)
	}
	return name
}
