package browsertest

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// What is being typed outlives the page: it is there when the app is opened again, and gone once the sheet is shown.
func TestDraftOutlivesThePage(t *testing.T) {
	p := openForm(t)
	p.Type("#id", "BAY-3")
	p.Type("#rated", "23o")
	p.Type("#r1-b1-to", "75")
	p.Type("#r1-b1-hours", "4,5")
	p.Click("#add-reading")
	p.WaitFor("#r2-powered")

	p.Go("/")
	p.WaitReady()
	p.WaitText("#type", "Go on typing BAY-3")
	p.Click("#type")
	sameValues(t, p, "loaded again", map[string]string{
		"#id": "BAY-3", "#rated": "23o", "#r1-b1-to": "75", "#r1-b2-from": "75", "#r1-b1-hours": "4,5", "#r2-b1-to": "75",
	})
	p.Click("#r2-remove")
	p.Type("#rated", "230")
	p.Type("#r1-b2-hours", "0")
	p.Click("#finish")
	p.WaitFor("#sheet")
	p.Click("#go-start")
	p.WaitText("#type", "Type them in")
	p.Go("/")
	p.WaitReady()
	if text := p.Text("#type"); !strings.Contains(text, "Type them in") {
		t.Errorf("got %q, want the draft gone", text)
	}
}

// Beginning afresh forgets the draft; merely opening the form keeps none.
func TestBeginAfresh(t *testing.T) {
	p := openForm(t)
	p.Click("#go-start")
	p.WaitText("#type", "Type them in")
	p.Click("#type")
	p.Type("#rated", "200")
	p.Click("#go-start")
	p.WaitText("#type", "Go on typing")
	p.Click("#type-afresh")
	sameValues(t, p, "afresh", map[string]string{"#rated": ""})
	p.Click("#go-start")
	p.WaitGone("#type-afresh")
}

// A device that keeps nothing is told about, and typing goes on.
func TestDeviceThatKeepsNothing(t *testing.T) {
	p := Blank(t, Tablet)
	p.Before(`Storage.prototype.setItem = () => { throw new DOMException("made to refuse", "QuotaExceededError") }`)
	p.Go("/")
	p.WaitReady()
	p.Click("#type")
	p.Type("#id", "BAY-3")
	p.WaitText("#notices", "not kept on this device")
	sameValues(t, p, "refused", map[string]string{"#id": "BAY-3"})
	if got := p.Count("#notices h2"); got != 1 {
		t.Errorf("got %d notices, want one", got)
	}
}

// Assumptions are edited on the sheet: the answer follows, nonsense is refused with words and kept in its field, the usual
// value can be put back, and the saved case repeats the edited result in the command.
func TestAssumptions(t *testing.T) {
	p := Open(t, Tablet)
	openFile(p, filepath.Join(testdata, "demo", "worked.case.json"))
	field, usual := "#cycles_per_hour-value", "#cycles_per_hour-usual"
	before, answer := figuresOf(t, saveResult(p)), p.Text("#cost-answer")
	unfold(p, "details.assumptions")
	p.WaitFor(field)
	old := value(p, field)

	setAssumption(p, field, "9,5")
	p.until("the assumption is set", "document.querySelector("+quote(usual)+") !== null")
	edited := p.Text("#cost-answer")
	if edited == answer {
		t.Errorf("got %q as before, want another answer", edited)
	}
	for text, words := range map[string]string{
		"many": "is not a number", "-3": "load cycles per counted hour is", "1e9": "expected", "1,234": "can be read two ways", "": "a number is expected",
	} {
		setAssumption(p, field, text)
		if got := Eval[string](p, `document.querySelector("`+field+`").closest(".assumption").innerText`); !strings.Contains(got, words) {
			t.Errorf("%q: got %q, want %q in it", text, got, words)
		}
		sameValues(t, p, "refused", map[string]string{field: text})
		if got := p.Text("#cost-answer"); got != edited {
			t.Errorf("%q: got %q, want the answer to stay %q", text, got, edited)
		}
	}
	setAssumption(p, field, "9.5")
	result := saveResult(p)
	name, saved := p.Download(func() { p.Click("#save-case") })
	file := filepath.Join(t.TempDir(), name)
	if err := os.WriteFile(file, saved, 0o644); err != nil {
		t.Fatal(err)
	}
	if got, want := figuresOf(t, []byte(assess(t, file).out)), figuresOf(t, result); got != want || got == before {
		t.Errorf("command: got %s\nwant %s, which differs from %s", around(got, want), around(want, got), around(before, want))
	}
	unfold(p, "details.assumptions")
	p.Click(usual)
	p.until("the usual value is back", "document.querySelector("+quote(usual)+") === null")
	sameValues(t, p, "usual", map[string]string{field: old})
	if got := p.Text("#cost-answer"); got != answer {
		t.Errorf("got %q, want %q again", got, answer)
	}
}

// What a person laid open stays open while other things on the page change.
func TestWhatIsOpenStaysOpen(t *testing.T) {
	p := Open(t, Tablet)
	stays := func(details string, change func()) {
		t.Helper()
		p.Click(details + " > summary")
		p.Settle()
		change()
		p.Settle()
		if !Eval[bool](p, "document.querySelector("+quote(details)+").open") {
			t.Errorf("got %s closed, want it open", details)
		}
	}
	stays("#start details", func() { p.Paste("#paste", "a record") })
	openFile(p, filepath.Join(testdata, "demo", "lashed.case.json"))
	stays("#recorded details", func() { press(p, "#unit") })
	stays("#piece-1 details", func() { press(p, "#unit") })
	stays("details.assumptions", func() { p.Type("#cycles_per_hour-value", "8") })
	if t.Failed() {
		return
	}
	p.Click("details.assumptions > summary")
	press(p, "#unit")
	p.Settle()
	if Eval[bool](p, `document.querySelector("details.assumptions").open`) {
		t.Error("got the assumptions open again, want them closed as they were left")
	}
}
