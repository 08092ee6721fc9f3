package browsertest

import (
	"context"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/cdproto/log"
	"github.com/chromedp/cdproto/network"
	"github.com/chromedp/cdproto/page"
	"github.com/chromedp/chromedp"

	"ratchetmark/internal/site"
)

// kept lists the names on the device, as the start page does.
func kept(p *Page) []string {
	p.t.Helper()
	p.Settle()
	return Eval[[]string](p, `[...document.querySelectorAll(".kept .kept-name")].map((e) => e.innerText)`)
}

// crash ends the process of a page, without a word to it.
func crash(p *Page) {
	p.t.Helper()
	ctx, cancel := context.WithTimeout(p.ctx, 500*time.Millisecond)
	defer cancel()
	_, _ = chromedp.Call(ctx, page.Crash, cdp.Empty{}) // the page cannot answer any more
	ctx, cancel = context.WithTimeout(p.ctx, 500*time.Millisecond)
	defer cancel()
	if _, err := chromedp.Run(ctx, chromedp.Evaluate[int]("1")); err == nil {
		p.t.Fatal("the page lives on, want it crashed")
	}
}

// another opens the app in a further tab of the profile that a page has.
func another(t *testing.T, p *Page) *Page {
	t.Helper()
	return tab(t, shared.ctx, p.origin, chromedp.WithExistingBrowserContext(chromedp.FromContext(p.ctx).BrowserContextID))
}

// tab opens the app in a tab.
func tab(t *testing.T, parent context.Context, origin string, options ...chromedp.ContextOption) *Page {
	t.Helper()
	p := &Page{t: t, origin: origin}
	ctx, quit := chromedp.NewContext(parent, append(options, chromedp.WithListener(p.record))...)
	p.ctx = ctx
	t.Cleanup(func() {
		quit()
		for _, problem := range p.Problems() {
			t.Error("page: " + problem)
		}
	})
	if err := chromedp.Do(ctx); err != nil {
		t.Fatalf("start a page: %v", err)
	}
	p.call("record the page", func(ctx context.Context) error {
		if _, err := chromedp.Call(ctx, log.Enable, cdp.Empty{}); err != nil {
			return err
		}
		_, err := chromedp.Call(ctx, network.Enable, network.EnableParams{})
		return err
	})
	p.Resize(Tablet)
	p.Go("/")
	p.WaitReady()
	return p
}

// profile is a browser of its own, with a profile that outlives it.
type profile struct{ *Browser }

func ownBrowser(t *testing.T) *profile {
	t.Helper()
	folder, err := os.MkdirTemp("", "browsertest")
	if err != nil {
		t.Fatal(err)
	}
	b := &profile{&Browser{folder: folder, server: Serve(site.Files())}}
	b.Origin = b.server.URL
	t.Cleanup(func() {
		b.stop()
		b.server.Close()
		if err := os.RemoveAll(folder); err != nil {
			t.Logf("remove %s: %v", folder, err)
		}
	})
	b.start(t)
	return b
}

func (b *profile) start(t *testing.T) {
	t.Helper()
	program, err := find()
	if err != nil {
		t.Fatal(err)
	}
	if err := b.launch(program); err != nil {
		t.Fatal(err)
	}
}

// open opens the app in the profile itself, not in one that is gone with the tab.
func (b *profile) open(t *testing.T) *Page {
	t.Helper()
	return tab(t, b.ctx, b.Origin)
}

// kill ends the browser as a loss of power does, but for what the system has taken to write.
func (b *profile) kill(t *testing.T) {
	t.Helper()
	process := chromedp.FromContext(b.ctx).Browser.Process()
	if err := process.Kill(); err != nil {
		t.Fatal(err)
	}
	b.stop()
}

// entry is a selector within the nth entry of the list.
func entry(n int, rest string) string { return nth(".kept li", n) + " " + rest }

// What was opened is in the list when the app is opened again, and gives the same result, byte by byte.
func TestRecentReopens(t *testing.T) {
	p := Open(t, Tablet)
	if p.Count("#recent") > 0 {
		t.Error("got a list on a new device, want none")
	}
	results := map[string]string{}
	for _, file := range []string{"demo/lashed.case.json", "delimited/two-readings-semicolon.csv", "bad/peak-below-occupied-band.case.json"} {
		openFile(p, filepath.Join(testdata, filepath.FromSlash(file)))
		setAssumption(p, "#cycles_per_hour-value", "7")
		results[Eval[string](p, `document.querySelector(".machines [aria-pressed=true] strong").innerText`)] = string(saveResult(p))
		p.Click("#go-start")
	}
	p.Go("/")
	p.WaitReady()
	p.WaitFor("#recent")
	for n, name := range kept(p) {
		p.WaitText(entry(n+1, ".kept-state"), "changed today at ")
		p.Click(entry(n+1, "[id^=open]"))
		p.WaitFor("#sheet")
		id := strings.Split(name, ",")[0]
		if got := string(saveResult(p)); got != results[id] {
			t.Errorf("%s: got %s\nwant %s", name, around(got, results[id]), around(results[id], got))
		}
		p.Click("#go-start")
		p.WaitFor("#recent")
	}
	if got := kept(p); len(got) != len(results) {
		t.Errorf("got %q, want %d entries", got, len(results))
	}
	p.Click(entry(1, "[id^=open]"))
	p.WaitFor("#sheet")
	if got := p.Count(".machines button"); got != len(results) {
		t.Errorf("got %d machines on the sheet, want the open one shown, none added to %d", got, len(results))
	}
}

// Deleting asks first and can be undone; the keyboard stays where it was needed.
func TestRecentDelete(t *testing.T) {
	p := Open(t, Tablet)
	p.Click("#example")
	p.WaitFor("#sheet")
	p.Click("#go-start")
	before := kept(p)
	on := func(id string) {
		t.Helper()
		p.until("the keyboard is on "+id, `document.activeElement.id.startsWith(`+quote(id)+`)`)
	}
	p.Focus(entry(2, "[id^=delete]"))
	p.Key("Enter")
	p.WaitText(entry(2, ".kept-state"), "elete it from this device?")
	on("keep-")
	p.Key("Enter")
	p.WaitFor(entry(2, "[id^=open]"))
	on("delete-")
	p.Key("Enter")
	on("keep-")
	p.Click(entry(2, "[id^=really]"))
	p.WaitText(entry(2, ".kept-state"), "eleted from this device")
	on("restore-")
	if got := len(kept(p)); got != len(before) {
		t.Errorf("got %d entries, want the deleted one still in its place", got)
	}
	q := another(t, p)
	q.WaitFor("#recent")
	if got, want := kept(q), append(append([]string{}, before[:1]...), before[2:]...); strings.Join(got, ";") != strings.Join(want, ";") {
		t.Errorf("got %q in another tab, want %q", got, want)
	}
	p.Key("Enter")
	p.WaitFor(entry(2, "[id^=open]"))
	on("open-")
	q.until("the other tab has it again", `document.querySelectorAll(".kept li").length === 5`)
	p.Go("/")
	p.WaitReady()
	p.WaitFor("#recent")
	if got := kept(p); strings.Join(got, ";") != strings.Join(before, ";") {
		t.Errorf("got %q, want %q again", got, before)
	}
	p.Click(entry(2, "[id^=delete]"))
	p.Click(entry(2, "[id^=really]"))
	p.WaitFor(entry(2, "[id^=restore]"))
	p.Go("/")
	p.WaitReady()
	p.WaitFor("#recent")
	if got := len(kept(p)); got != len(before)-1 {
		t.Errorf("got %d entries, want one fewer once the page was left", got)
	}
}

// The search is there for more than five entries and finds by name, kind, state, note and custody.
func TestRecentSearch(t *testing.T) {
	p := Open(t, Tablet)
	p.Click("#example")
	p.WaitFor("#sheet")
	p.Click("#go-start")
	p.WaitFor("#recent")
	if p.Count("#recent-search") > 0 {
		t.Error("got a search for five entries, want none")
	}
	p.Click("#type")
	p.Type("#id", "BAY-3")
	p.Click("#go-start")
	p.WaitFor("#recent-search")
	for _, c := range []struct {
		text, first, found string
	}{
		{"nf-07", "NF-07, boom lift", "1 of 6 found"},
		{"BEING typed", "BAY-3, boom lift", "1 of 6 found"},
		{"nothing of the kind", "", "0 of 6 found"},
		{"", "BAY-3, boom lift", ""},
	} {
		p.Type("#recent-search", c.text)
		p.Settle()
		got := strings.Join(kept(p), ";")
		if !strings.HasPrefix(got, c.first) || c.first == "" && got != "" || p.Text("#recent-found") != c.found {
			t.Errorf("%q: got %q and %q, want %q first and %q", c.text, got, p.Text("#recent-found"), c.first, c.found)
		}
	}
}

// All as one file, opened on another device, is the same again.
func TestRecentRoundTrip(t *testing.T) {
	p := Open(t, Tablet)
	p.Click("#example")
	p.WaitFor("#sheet")
	p.Click("#go-start")
	p.Click("#type")
	p.Type("#id", "BAY-3")
	p.Type("#rated", "23o")
	p.Go("/")
	p.WaitReady()
	p.WaitFor("#recent")
	before := kept(p)
	name, saved := p.Download(func() { p.Click("#recent-save") })
	p.Click(entry(2, "[id^=open]"))
	p.WaitFor("#sheet")
	figures := figuresOf(t, saveResult(p))
	file := filepath.Join(t.TempDir(), name)
	if err := os.WriteFile(file, saved, 0o644); err != nil {
		t.Fatal(err)
	}

	p = Open(t, Tablet)
	openFile(p, file)
	p.WaitFor("#sheet")
	p.Click("#go-start")
	p.WaitFor("#recent")
	if got := kept(p); strings.Join(got, ";") != strings.Join(before, ";") {
		t.Errorf("got %q, want %q", got, before)
	}
	if _, again := p.Download(func() { p.Click("#recent-save") }); string(again) != string(saved) {
		t.Errorf("got %s\nwant %s", around(string(again), string(saved)), around(string(saved), string(again)))
	}
	p.Click(entry(2, "[id^=open]"))
	p.WaitFor("#sheet")
	if got := figuresOf(t, saveResult(p)); got != figures {
		t.Errorf("got %s\nwant %s", around(got, figures), around(figures, got))
	}
	p.Click("#go-start")
	one, content := p.Download(func() { p.Click(entry(2, "[id^=save]")) })
	if !strings.HasPrefix(before[1], strings.TrimSuffix(one, ".case.json")+",") {
		t.Errorf("got %s, want the case of %s", one, before[1])
	}
	savedCases(t, one, content, strings.TrimSuffix(one, ".case.json"))
}

// What another tab changed is told, and not overwritten.
func TestRecentTwoTabs(t *testing.T) {
	p := Open(t, Tablet)
	openFile(p, filepath.Join(testdata, "demo", "lashed.case.json"))
	q := another(t, p)
	q.WaitFor("#recent")
	q.Click(entry(1, "[id^=open]"))
	q.WaitFor("#sheet")
	setAssumption(q, "#cycles_per_hour-value", "9")
	newer := string(saveResult(q))
	p.WaitText("#notices", "NF-07 was changed in another tab")
	setAssumption(p, "#cycles_per_hour-value", "7")
	p.Click("#go-start")
	p.WaitFor("#recent")
	if got := kept(p); len(got) != 2 {
		t.Fatalf("got %q, want both", got)
	}
	r := another(t, p)
	r.WaitFor("#recent")
	r.Click(entry(2, "[id^=open]"))
	r.WaitFor("#sheet")
	if got := string(saveResult(r)); got != newer {
		t.Errorf("got %s\nwant %s", around(got, newer), around(newer, got))
	}
}

// The list fits both sizes: nothing beside the window, buttons of 44 px, each with a name of its own.
func TestRecentFits(t *testing.T) {
	p := Open(t, Tablet)
	p.Click("#example")
	p.WaitFor("#sheet")
	p.Click("#go-start")
	p.Click("#type")
	p.Type("#id", "A machine with quite a long name, from the far end of the yard, beside the gate")
	p.Click("#go-start")
	p.WaitFor("#recent")
	p.Click(entry(3, "[id^=delete]"))
	for _, v := range []Viewport{Tablet, Phone} {
		p.Resize(v)
		if got := sideways(p); got != "" {
			t.Errorf("%s: got %s, want nothing beside the window", v.Name, got)
		}
		got := Eval[[]string](p, `(() => {
			const names = new Map(), faults = [];
			for (const e of document.querySelectorAll("#recent button, #recent input")) {
				const box = e.getBoundingClientRect(), name = e.ariaLabel || e.innerText || e.labels?.[0]?.innerText;
				if (box.height < 44 || box.width < 44) faults.push(name + ": " + box.width + " x " + box.height);
				if (!name || names.has(name)) faults.push("name " + name);
				names.set(name, e);
			}
			return names.size > 15 ? faults : ["only " + names.size];
		})()`)
		if len(got) > 0 {
			t.Errorf("%s: got %q, want targets of 44 px with names", v.Name, got)
		}
		if folder := os.Getenv("RECENT_SHOTS"); folder != "" {
			for name, m := range map[string]Media{"light": {}, "dark": {Dark: true}} {
				p.Show(m)
				p.Resize(p.whole(v))
				p.Settle()
				if err := os.WriteFile(filepath.Join(folder, v.Name+"-"+name+".png"), p.Screenshot(), 0o644); err != nil {
					t.Fatal(err)
				}
				p.Resize(v)
			}
		}
	}
}
