package browsertest

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// What is being typed outlives the page: it is there when the app is opened again, and gone once the sheet is shown.
func TestKeepOutlivesThePage(t *testing.T) {
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

// Beginning afresh leaves what was typed before in the list; merely opening the form keeps nothing.
func TestKeepBeginAfresh(t *testing.T) {
	p := openForm(t)
	p.Click("#go-start")
	p.WaitText("#type", "Type them in")
	p.Click("#type")
	p.Type("#rated", "200")
	p.Click("#go-start")
	p.WaitText("#type", "Go on typing")
	p.Click("#type-afresh")
	sameValues(t, p, "afresh", map[string]string{"#rated": ""})
	p.Type("#id", "BAY-4")
	p.Click("#go-start")
	p.WaitText("#type", "Go on typing BAY-4")
	if got := kept(p); strings.Join(got, "; ") != "BAY-4, boom lift; machine without a name, boom lift" {
		t.Errorf("got %q on this device, want both machines", got)
	}
	p.Click(nth(".kept li", 2) + " [id^=open]")
	sameValues(t, p, "the earlier one", map[string]string{"#rated": "200"})
}

// What is typed is written and committed before the browser is done with the key: nothing that ends the page comes in between.
func TestKeepInTheSameTask(t *testing.T) {
	p := Blank(t, Tablet)
	p.Before(`window.commits = 0;
		const real = IDBTransaction.prototype.commit;
		IDBTransaction.prototype.commit = function () { window.commits++; return real.call(this); };`)
	p.Go("/")
	p.WaitReady()
	p.Click("#type")
	p.WaitFor("#rated")
	got := Eval[[]int](p, `["2", "23", "23o"].map((text) => {
		const field = document.querySelector("#rated");
		field.value = text;
		field.dispatchEvent(new Event("input", { bubbles: true }));
		return window.commits;
	})`)
	if len(got) != 3 || got[0] != 1 || got[1] != 2 || got[2] != 3 {
		t.Errorf("got %v commits after each key, want 1, 2, 3", got)
	}
}

// A tab that crashes right after a key has lost nothing: of a new machine, nor of a correction.
func TestKeepOutlivesACrash(t *testing.T) {
	p := Open(t, Tablet)
	openFile(p, filepath.Join(testdata, "demo", "lashed.case.json"))
	p.Click("#correct")
	p.WaitFor("#rated")
	p.Type("#rated", "24o")
	p.Click("#go-start")
	p.Click("#type")
	p.WaitFor("#typing")
	p.Type("#id", "BAY-3")
	p.Focus("#rated")
	p.insert("2")
	p.insert("3")
	p.insert("o")
	crash(p)

	p = another(t, p)
	p.WaitText("#type", "Go on typing BAY-3")
	p.Click("#type")
	sameValues(t, p, "new", map[string]string{"#id": "BAY-3", "#rated": "23o"})
	p.Click("#go-start")
	p.WaitText(nth(".kept li", 2), "being corrected")
	p.Click(nth(".kept li", 2) + " [id^=open]")
	p.WaitFor("#typing")
	sameValues(t, p, "correction", map[string]string{"#id": "NF-07", "#rated": "24o"})
}

// The end of the whole browser loses nothing either, in a profile that stays.
func TestKeepOutlivesTheBrowser(t *testing.T) {
	b := ownBrowser(t)
	p := b.open(t)
	openFile(p, filepath.Join(testdata, "demo", "lashed.case.json"))
	want := string(saveResult(p))
	p.Click("#go-start")
	p.Click("#type")
	p.WaitFor("#typing")
	p.Type("#id", "BAY-3")
	p.Type("#rated", "23o")
	b.kill(t)
	b.start(t)
	p = b.open(t)
	p.WaitText("#type", "Go on typing BAY-3")
	p.Click("#type")
	sameValues(t, p, "after the end", map[string]string{"#id": "BAY-3", "#rated": "23o"})
	p.Click("#go-start")
	p.Click(nth(".kept li", 2) + " [id^=open]")
	p.WaitFor("#sheet")
	if got := string(saveResult(p)); got != want {
		t.Errorf("got %s\nwant %s", around(got, want), around(want, got))
	}
}

// What earlier versions kept of a form is taken over, once.
func TestKeepTakesOverTheOldDraft(t *testing.T) {
	p := Blank(t, Tablet)
	p.Before(`if (location.protocol === "http:" && !sessionStorage.getItem("once")) {
		sessionStorage.setItem("once", "1");
		localStorage.setItem("ratchetmark.typing", '{"ID":"OLD-1","Kind":"mast","Rated":"23o","Readings":[{"Bands":[{"From":"0","To":"90"}]}]}');
	}`)
	for range 2 {
		p.Go("/")
		p.WaitReady()
		p.WaitText("#type", "Go on typing OLD-1")
		p.until("the old one is removed", `localStorage.length === 0`)
		if got := kept(p); len(got) != 1 || got[0] != "OLD-1, mast lift" {
			t.Errorf("got %q, want it taken over once", got)
		}
	}
	p.Click("#type")
	sameValues(t, p, "old", map[string]string{"#id": "OLD-1", "#rated": "23o"})
}

// A device that keeps nothing says so once, whatever the reason; typing, the sheet and saving go on.
func TestKeepRefused(t *testing.T) {
	fails := func(name string) string {
		return `IDBFactory.prototype.open = () => {
			const request = new EventTarget();
			Object.defineProperty(request, "error", { value: new DOMException("made to fail", "` + name + `") });
			setTimeout(() => request.onerror());
			return request;
		}`
	}
	for _, c := range []struct{ name, spoil, want string }{
		{"full", `IDBObjectStore.prototype.put = () => { throw new DOMException("made to refuse", "QuotaExceededError") }`, "no room left on this device"},
		{"full at the end", `const real = IDBTransaction.prototype.commit;
			IDBTransaction.prototype.commit = function () { setTimeout(() => { Object.defineProperty(this, "error",
				{ value: new DOMException("made to refuse", "QuotaExceededError") }); this.onabort(); }); this.oncomplete = null; }`, "no room left on this device"},
		{"missing", `Object.defineProperty(window, "indexedDB", { value: undefined })`, "keeps nothing for the app"},
		{"private", `IDBFactory.prototype.open = () => { throw new DOMException("made to refuse", "SecurityError") }`, "refuses to keep anything"},
		{"broken", fails("UnknownError"), "refuses to keep anything"},
		{"newer", fails("VersionError"), "A newer version of the app"},
		{"blocked", `IDBFactory.prototype.open = () => { const request = {}; setTimeout(() => request.onblocked()); return request; }`, "Another tab holds back"},
	} {
		t.Run(c.name, func(t *testing.T) {
			p := Blank(t, Tablet)
			p.Before(c.spoil)
			p.Go("/")
			p.WaitReady()
			p.Click("#type")
			p.Type("#id", "BAY-3")
			p.Type("#rated", "230")
			p.WaitText("#notices", c.want)
			if text := p.Text("#notices"); !strings.Contains(text, "as a file") {
				t.Errorf("got %q, want the way that is left", text)
			}
			if got := p.Count("#notices h2"); got != 1 {
				t.Errorf("got %d notices, want one", got)
			}
			sameValues(t, p, "refused", map[string]string{"#id": "BAY-3", "#rated": "230"})
			p.Click("#forget-notices")
			p.Type("#r1-peak", "90")
			p.Click("#finish")
			p.WaitFor("#sheet")
			p.Settle()
			if got := p.Count("#notices"); got != 0 {
				t.Errorf("got %q again, want it said once", p.Text("#notices"))
			}
			name, saved := p.Download(func() { p.Click("#save-case") })
			savedCases(t, name, saved, "BAY-3")
		})
	}
}

// A newer version of the app in another tab is not held up by this one.
func TestKeepGivesWayToANewerVersion(t *testing.T) {
	p := openForm(t)
	p.Type("#id", "BAY-3")
	if got := Eval[string](p, `new Promise((done) => {
		const request = indexedDB.open("ratchetmark", 2);
		request.onsuccess = () => { request.result.close(); done("open"); };
		request.onblocked = () => done("blocked");
	})`); got != "open" {
		t.Errorf("got %s, want the newer version let in", got)
	}
	p.WaitText("#notices", "This tab keeps nothing any more")
	p.Type("#rated", "230")
	p.Settle()
	if got := p.Count("#notices h2"); got != 1 {
		t.Errorf("got %d notices, want one", got)
	}
	q := another(t, p)
	q.WaitText("#notices", "A newer version of the app")
}

// Assumptions are edited on the sheet: the answer follows, nonsense is refused with words and kept in its field, the usual
// value can be put back, and the saved case repeats the edited result in the command.
func TestAssumptions(t *testing.T) {
	p := Open(t, Tablet)
	openFile(p, filepath.Join(testdata, "demo", "worked.case.json"))
	field, usual := "#cycles_per_hour-value", "#cycles_per_hour-usual"
	before, answer := figuresOf(t, saveResult(p)), p.Text("#cost-answer")
	unfold(p, "#assumed-use")
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
	unfold(p, "#assumed-use")
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
	stays("#assumed-use", func() { p.Type("#cycles_per_hour-value", "8") })
	if t.Failed() {
		return
	}
	p.Click("#assumed-use > summary")
	press(p, "#unit")
	p.Settle()
	if Eval[bool](p, `document.querySelector("#assumed-use").open`) {
		t.Error("got the assumptions open again, want them closed as they were left")
	}
}
