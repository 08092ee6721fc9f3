package browsertest

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// value returns what a field holds.
func value(p *Page, selector string) string {
	p.t.Helper()
	p.until("finding "+selector, "document.querySelector("+quote(selector)+") !== null")
	return Eval[string](p, "document.querySelector("+quote(selector)+").value")
}

// sameValues compares what the fields hold with what they should.
func sameValues(t *testing.T, p *Page, when string, want map[string]string) {
	t.Helper()
	p.Settle()
	for selector, text := range want {
		if got := value(p, selector); got != text {
			t.Errorf("%s: got %q in %s, want %q", when, got, selector, text)
		}
	}
}

// openForm opens an empty form.
func openForm(t *testing.T) *Page {
	t.Helper()
	p := Open(t, Tablet)
	p.Click("#type")
	p.WaitFor("#typing")
	return p
}

// The edge above follows the one that is typed; bands are added, split and removed, and nothing typed into others is lost.
func TestBands(t *testing.T) {
	p := openForm(t)
	for j, to := range []string{"80", "160", "240"} {
		p.Type(fmt.Sprintf("#r1-b%d-to", j+1), to)
		p.Type(fmt.Sprintf("#r1-b%d-hours", j+1), fmt.Sprint(10*(j+1)))
	}
	sameValues(t, p, "typed", map[string]string{
		"#r1-b1-from": "0", "#r1-b2-from": "80", "#r1-b3-from": "160", "#r1-b4-from": "240", "#r1-b4-to": "",
	})
	p.Type("#r1-b1-to", "90")
	sameValues(t, p, "edge changed", map[string]string{"#r1-b2-from": "90", "#r1-b2-to": "160", "#r1-b3-from": "160"})

	p.Click("#r1-b2-split")
	p.WaitFor("#r1-b5-hours")
	sameValues(t, p, "split", map[string]string{
		"#r1-b2-from": "90", "#r1-b2-to": "", "#r1-b2-hours": "20", "#r1-b3-from": "", "#r1-b3-to": "160", "#r1-b3-hours": "",
		"#r1-b4-from": "160", "#r1-b4-hours": "30", "#r1-b5-from": "240",
	})
	p.Type("#r1-b2-to", "120")
	sameValues(t, p, "split at", map[string]string{"#r1-b3-from": "120"})

	p.Click("#r1-b2-remove")
	p.WaitGone("#r1-b5-hours")
	sameValues(t, p, "removed", map[string]string{
		"#r1-b1-to": "90", "#r1-b2-from": "90", "#r1-b2-to": "160", "#r1-b2-hours": "", "#r1-b3-hours": "30",
	})

	p.Type("#r1-b4-to", "320")
	p.Click("#r1-add-band")
	p.WaitFor("#r1-b5-hours")
	sameValues(t, p, "added", map[string]string{"#r1-b5-from": "320", "#r1-b5-to": "", "#r1-b5-hours": ""})
}

// The hours of the bands are held against the hour meter as they are typed.
func TestSumAgainstTheHourMeter(t *testing.T) {
	p := openForm(t)
	for _, step := range []struct{ field, text, want string }{
		{"#r1-b1-hours", "12,5", "The bands add up to 12.5 h."},
		{"#r1-b2-hours", "7.5", "The bands add up to 20.0 h."},
		{"#r1-powered", "20", "20.0 h, as many as the powered hours."},
		{"#r1-powered", "22,5", "2.5 h of the powered hours are in no band."},
		{"#r1-powered", "18", "2.0 h more than the powered hours."},
		{"#r1-b2-hours", "about 7", "cannot be added up yet"},
	} {
		p.Type(step.field, step.text)
		p.Settle()
		if got := p.Text("#r1-total"); !strings.Contains(got, step.want) {
			t.Errorf("%s in %s: got %q, want %q", step.text, step.field, got, step.want)
		}
	}
}

// What cannot be read blocks the sheet: it is counted, each field says why, and it goes away as it is mended.
func TestProblemsBlockTheSheet(t *testing.T) {
	p := openForm(t)
	p.Click("#finish")
	p.WaitText("#problems", "2 fields cannot be read yet")
	for field, want := range map[string]string{"#rated": "the rated load is needed", "#r1-peak": "hours per band or a peak are needed"} {
		problemAt(t, p, field, want)
	}
	if got := Eval[string](p, "document.activeElement.id"); got != "problems" {
		t.Errorf("got the keyboard on %q, want problems", got)
	}
	p.Type("#rated", "1,234")
	p.Type("#r1-b1-to", "100")
	p.Type("#r1-b1-hours", "4,5")
	p.Type("#r1-b2-hours", "0")
	p.Type("#r1-powered", "1.500")
	p.Type("#persons", "1.5")
	p.Type("#r1-peak", "ninety")
	p.Click("#finish")
	p.WaitText("#problems", "4 fields cannot be read yet")
	problemAt(t, p, "#rated", "can be read two ways")
	problemAt(t, p, "#r1-powered", "can be read two ways")
	problemAt(t, p, "#persons", "a whole number is expected")
	problemAt(t, p, "#r1-peak", "is not a number")
	if p.Count("#sheet") > 0 {
		t.Error("got a sheet, want it held back")
	}
	sameValues(t, p, "refused", map[string]string{"#rated": "1,234", "#r1-peak": "ninety"})

	for field, text := range map[string]string{"#rated": "1234", "#r1-powered": "4,5", "#persons": "2"} {
		p.Type(field, text)
	}
	p.WaitText("#problems", "One field cannot be read yet")
	if got := Eval[string](p, `document.querySelector("#rated").getAttribute("aria-invalid")`); got != "false" {
		t.Errorf("got aria-invalid %s on a mended field, want false", got)
	}
	p.Type("#r1-peak", "90")
	p.Click("#finish")
	p.WaitFor("#sheet")
	r := resultOf(t, saveResult(p))
	if want := `"counted_h":4.5`; !strings.Contains(string(r.Capacity), want) {
		t.Errorf("got %s, want %s: the comma stands for decimals", r.Capacity, want)
	}
}

// problemAt checks that a field says what is wrong with it, to the eye and to a screen reader.
func problemAt(t *testing.T, p *Page, field, want string) {
	t.Helper()
	got := Eval[struct{ Invalid, Words string }](p, fmt.Sprintf(`(() => {
		const field = document.querySelector(%s), words = field.getAttribute("aria-describedby").split(" ")
			.map((id) => document.getElementById(id)).filter((e) => e?.checkVisibility()).map((e) => e.innerText);
		return { invalid: field.getAttribute("aria-invalid"), words: words.join(" ") };
	})()`, quote(field)))
	if got.Invalid != "true" || !strings.Contains(got.Words, want) {
		t.Errorf("%s: got %+v, want %q", field, got, want)
	}
}

// A further reading has the bands of the last one, without its hours; it can be taken off again.
func TestAddAReading(t *testing.T) {
	p := openForm(t)
	p.Type("#r1-b1-to", "80")
	p.Type("#r1-b1-hours", "5")
	p.Type("#r1-powered", "5")
	p.Click("#add-reading")
	p.WaitFor("#r2-b4-hours")
	if got := Eval[string](p, "document.activeElement.id"); got != "r2-powered" {
		t.Errorf("got the keyboard on %q, want it in the powered hours", got)
	}
	sameValues(t, p, "added", map[string]string{
		"#r2-b1-from": "0", "#r2-b1-to": "80", "#r2-b1-hours": "", "#r2-b2-from": "80", "#r2-powered": "", "#r1-b1-hours": "5",
	})
	p.Type("#r2-b1-hours", "6")
	p.Click("#r1-remove")
	p.WaitGone("#r2-powered")
	sameValues(t, p, "first one removed", map[string]string{"#r1-b1-hours": "6", "#r1-powered": ""})
	if p.Count("#r1-remove") > 0 {
		t.Error("got a way to remove the only reading, want none")
	}
}

// Correcting an opened record changes the result, says so, and leaves what the form does not show as it was.
func TestCorrectTheReadings(t *testing.T) {
	p := Open(t, Tablet)
	openFile(p, filepath.Join(testdata, "demo", "lashed.case.json"))
	before := resultOf(t, saveResult(p))
	summary := p.Text("#summary")
	p.Click("#correct")
	p.WaitText("#typing h1", "Correct the readings")
	laidOpen(p, 4)
	sameValues(t, p, "opened", map[string]string{"#id": "NF-07", "#rated": "230", "#r4-b7-hours": "1.9", "#r4-peak": "812"})
	for n := 4; n <= 6; n++ {
		laidOpen(p, n)
		p.Type(fmt.Sprintf("#r%d-b7-hours", n), "0,4")
	}
	p.Click("#finish")
	p.WaitFor("#sheet")
	after := resultOf(t, saveResult(p))
	if text := p.Text("#summary"); text == summary || !strings.Contains(text, "0.4 h") {
		t.Errorf("got %q, want it changed to 0.4 h", text)
	}
	if string(before.Capacity) == string(after.Capacity) {
		t.Errorf("got capacity %s as before, want it changed", after.Capacity)
	}
	if len(after.Findings) == 0 || !strings.Contains(p.Text("#recorded .findings"), "changed by hand") {
		t.Errorf("got findings %v, want one that says changed by hand", after.Findings)
	}
	_, saved := p.Download(func() { p.Click("#save-case") })
	if !strings.Contains(string(saved), "winched onto the deck") || !strings.Contains(string(saved), `"mass_kg": 6840`) {
		t.Errorf("got %.300s, want custody and mass kept", saved)
	}
	p.Click("#correct")
	for n := 4; n <= 6; n++ {
		laidOpen(p, n)
		p.Type(fmt.Sprintf("#r%d-b7-hours", n), "1.9")
	}
	p.Click("#finish")
	p.WaitText("#summary", "1.9 h")
	if text := p.Text("#summary"); text != summary {
		t.Errorf("got %q, want %q again", text, summary)
	}
}

// laidOpen opens the nth reading of the form if it is folded.
func laidOpen(p *Page, n int) {
	p.t.Helper()
	button := fmt.Sprintf("#r%d-fold", n)
	p.until("the reading is there", "document.querySelector("+quote(button)+") !== null")
	if Eval[string](p, "document.querySelector("+quote(button)+").ariaExpanded") == "false" {
		p.Click(button)
		p.WaitFor(fmt.Sprintf("#r%d-powered", n))
	}
}

// A typed case that is saved and opened again, in the app or by the command, gives the same figures.
func TestTypedCaseIsRepeatable(t *testing.T) {
	p := Open(t, Tablet)
	typeCase(p, caseOf(t, "two-readings-semicolon.csv"))
	_, early := p.Download(func() { p.Click("#save-form") })
	p.Click("#finish")
	p.WaitFor("#sheet")
	want := figuresOf(t, saveResult(p))
	name, saved := p.Download(func() { p.Click("#save-case") })
	if string(early) != string(saved) {
		t.Errorf("got %s from the form, %s from the sheet, want the same", around(string(early), string(saved)), around(string(saved), string(early)))
	}
	file := filepath.Join(t.TempDir(), name)
	if err := os.WriteFile(file, saved, 0o644); err != nil {
		t.Fatal(err)
	}
	p.Go("/")
	p.WaitReady()
	openFile(p, file)
	if got := figuresOf(t, saveResult(p)); got != want {
		t.Errorf("got %s\nwant %s", around(got, want), around(want, got))
	}
	if got := figuresOf(t, []byte(assess(t, file).out)); got != want {
		t.Errorf("command: got %s\nwant %s", around(got, want), around(want, got))
	}
}
