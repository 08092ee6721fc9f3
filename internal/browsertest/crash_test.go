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
		{"in a handler", `URL.createObjectURL = () => { throw new Error("made to fail") }`, `delete URL.createObjectURL`,
			func(p *Page) { press(p, "#go-sheet"); p.Click("#save-case") }},
		{"while showing", `window.shown = ratchetmarkShow; window.ratchetmarkShow = () => { throw new Error("made to fail") }`,
			`window.ratchetmarkShow = window.shown`,
			func(p *Page) { press(p, "#go-sheet"); p.Click("#correct") }},
		{"beside the page", `window.RealBlob = Blob; window.Blob = function () { throw new Error("made to fail") }`, `window.Blob = window.RealBlob`,
			func(p *Page) { pasteRecord2(p, "machine") }},
		{"in the answer of the reader", `window.RealWorker = Worker; Worker.prototype.postMessage = () => { throw new Error("made to fail") }`, ``,
			func(p *Page) { p.Drop("#app", "a.csv", "", []byte("machine")) }},
		{"while drawing", `(() => {
			const real = document.createElement.bind(document);
			document.createElement = (...all) => { document.createElement = real; throw new Error("made to fail"); };
		})()`, ``, func(p *Page) { press(p, "#go-sheet") }},
	} {
		t.Run(c.name, func(t *testing.T) {
			p := Open(t, Tablet)
			openFile(p, filepath.Join(testdata, "demo", "lashed.case.json"))
			p.Click("#go-start")
			p.Click("#type")
			p.Type("#id", "TYPED-1")
			p.Type("#rated", "240")
			p.Click("#go-start")
			p.Do(`(() => {` + c.spoil + `})()`)
			c.act(p)
			p.WaitFor("#crash")
			if text := p.Text("#crash"); !strings.Contains(text, "made to fail") {
				t.Errorf("got %q, want the fault in it", text)
			}
			if got := p.Count(".crash"); got != 1 {
				t.Errorf("got the fault %d times, want once", got)
			}
			if c.mend != "" {
				p.Do(`(() => {` + c.mend + `})()`)
			}
			name, saved := p.Download(func() { p.Click("#save-all") })
			savedCases(t, name, saved, "NF-07", "TYPED-1")
			p.Click("#forget-crash")
			p.WaitGone("#crash")
			if Eval[bool](p, `document.documentElement.dataset.failed === "1"`) {
				t.Error("got the app stopped, want it to go on")
			}
			p.Forgive("made to fail")
		})
	}
}

// pasteRecord2 pastes a text that need not be a record.
func pasteRecord2(p *Page, text string) {
	p.Do(`document.querySelector("#start details").open = true`)
	p.Paste("#paste", text)
	p.Do(`document.querySelector("#start details").open = true`)
	p.Click("#read-paste")
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
