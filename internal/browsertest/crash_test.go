package browsertest

import (
	"encoding/json"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// A fault within the program is caught once and shown, and what is open and typed can still be saved. Each row makes a
// function of the browser fail that the app calls: in a handler, beside the page, while drawing.
func TestFaultIsCaughtOnce(t *testing.T) {
	for _, c := range []struct {
		name, spoil, mend string
		act               func(p *Page)
	}{
		{"in a handler", `window.real = URL.createObjectURL; URL.createObjectURL = () => { throw new Error("made to fail") }`,
			`URL.createObjectURL = window.real`,
			func(p *Page) { press(p, "#go-sheet"); p.Click("#save-case") }},
		{"while showing", `window.real = ratchetmarkShow; window.ratchetmarkShow = () => { throw new Error("made to fail") }`,
			`window.ratchetmarkShow = window.real`,
			func(p *Page) { p.Click("#type") }},
		{"beside the page", `window.real = Blob; window.Blob = function () { throw new Error("made to fail") }`, `window.Blob = window.real`,
			func(p *Page) { pasteRecord(p, "machine") }},
		{"asking the reader", `Worker.prototype.postMessage = () => { throw new Error("made to fail") }`, ``,
			func(p *Page) { p.Drop("#app", "a.csv", "", []byte("machine")) }},
		{"while drawing", `(() => {
			const real = document.createElement.bind(document);
			document.createElement = (...all) => { document.createElement = real; throw new Error("made to fail"); };
		})()`, ``, func(p *Page) { press(p, "#go-sheet") }},
		{"while drawing a picture", `(() => {
			const real = Object.getOwnPropertyDescriptor(Element.prototype, "innerHTML");
			Object.defineProperty(Element.prototype, "innerHTML", { ...real, set() { throw new Error("made to fail"); } });
			window.mend = () => Object.defineProperty(Element.prototype, "innerHTML", real);
		})()`, `window.mend()`, func(p *Page) { press(p, "#go-sheet") }},
	} {
		t.Run(c.name, func(t *testing.T) {
			p := Open(t, Tablet)
			openFile(p, filepath.Join(testdata, "demo", "lashed.case.json"))
			p.Click("#go-start")
			p.Click("#type")
			p.Type("#id", "TYPED-1")
			p.Type("#rated", "240")
			p.Click("#go-start")
			p.WaitFor("#start")
			p.Do(`(() => {` + c.spoil + `})()`)
			c.act(p)
			p.until("the fault is shown", `!!document.querySelector("#crash, .boot-error")`)
			if text := p.Text("#crash, .boot-error"); !strings.Contains(text, "made to fail") {
				t.Errorf("got %q, want the fault in it", text)
			}
			if got := p.Count("#crash, .boot-error"); got != 1 {
				t.Errorf("got the fault %d times, want once", got)
			}
			p.Do(`(() => {` + c.mend + `})()`)
			p.Forgive("made to fail")
			if p.Count("#save-all") == 0 {
				t.Fatal("got no way to save what is open, want one")
			}
			name, saved := p.Download(func() { press(p, "#save-all") })
			savedCases(t, name, saved, "NF-07", "TYPED-1")
		})
	}
}

// After a fault in a handler the app goes on.
func TestGoOnAfterAFault(t *testing.T) {
	p := Open(t, Tablet)
	openFile(p, filepath.Join(testdata, "demo", "lashed.case.json"))
	want := seen(p)
	p.Do(`(() => { window.real = URL.createObjectURL; URL.createObjectURL = () => { throw new Error("made to fail") } })()`)
	p.Click("#save-case")
	p.WaitFor("#crash")
	p.Do(`(() => { URL.createObjectURL = window.real })()`)
	p.Click("#forget-crash")
	p.WaitGone("#crash")
	if got := seen(p); got != want {
		t.Errorf("got %+v, want %+v", got, want)
	}
	if name, _ := p.Download(func() { p.Click("#save-case") }); name != "NF-07.case.json" {
		t.Errorf("got %s, want NF-07.case.json", name)
	}
}

// savedCases checks that a saved stream holds the machines, and that the command can open it.
func savedCases(t *testing.T, name string, saved []byte, want ...string) {
	t.Helper()
	file := filepath.Join(t.TempDir(), name)
	if err := os.WriteFile(file, saved, 0o644); err != nil {
		t.Fatal(err)
	}
	var got []string
	for _, line := range assess(t, file).lines() {
		var r result
		if err := json.Unmarshal([]byte(line), &r); err != nil {
			t.Fatal(err)
		}
		got = append(got, r.Machine.ID)
	}
	if strings.Join(got, " ") != strings.Join(want, " ") {
		t.Errorf("got %v in %s, want %v", got, name, want)
	}
}
