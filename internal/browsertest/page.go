package browsertest

import (
	"context"
	"encoding/json"
	"fmt"
	"sync"
	"testing"
	"time"

	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/cdproto/log"
	"github.com/chromedp/cdproto/network"
	"github.com/chromedp/cdproto/page"
	"github.com/chromedp/chromedp"
)

// patience is how long a step may take before the test fails.
const patience = 20 * time.Second

// Viewport is the size of a page in CSS pixels.
type Viewport struct {
	Name          string
	Width, Height int64
	Scale         float64 // device pixels to a CSS pixel
	Touch         bool
}

// The sizes that the app is made for.
var (
	Tablet = Viewport{Name: "tablet", Width: 1180, Height: 820, Scale: 1, Touch: true}
	Phone  = Viewport{Name: "phone", Width: 390, Height: 844, Scale: 2, Touch: true}
)

// Page is a tab with a profile of its own, so that nothing that is kept or cached passes from one test to another.
type Page struct {
	t        testing.TB
	ctx      context.Context
	origin   string
	lock     sync.Mutex
	problems []string
	requests []string
	said     []string
}

// Open opens the app and waits until it can be used.
func Open(t testing.TB, v Viewport) *Page {
	t.Helper()
	p := Blank(t, v)
	p.Go("/")
	p.WaitReady()
	return p
}

// Blank gives an empty page, for what has to be set before the app is loaded.
func Blank(t testing.TB, v Viewport) *Page {
	t.Helper()
	return blank(t, v, shared.Origin)
}

// blank gives an empty page for the app at an origin.
func blank(t testing.TB, v Viewport, origin string) *Page {
	t.Helper()
	p := &Page{t: t, origin: origin}
	ctx, quit := chromedp.NewContext(shared.ctx, chromedp.WithNewBrowserContext(), chromedp.WithListener(p.record))
	p.ctx = ctx
	t.Cleanup(func() {
		quit()
		for _, problem := range p.Problems() {
			t.Error("page: " + problem)
		}
	})
	if err := chromedp.Do(ctx); err != nil { // the page lives as long as the context of its first step
		t.Fatalf("start a page: %v", err)
	}
	p.call("record the page", func(ctx context.Context) error {
		if _, err := chromedp.Call(ctx, log.Enable, cdp.Empty{}); err != nil {
			return err
		}
		_, err := chromedp.Call(ctx, network.Enable, network.EnableParams{})
		return err
	})
	p.Resize(v)
	return p
}

// Go loads a path of the app.
func (p *Page) Go(path string) {
	p.t.Helper()
	p.call("load "+path, func(ctx context.Context) error { return chromedp.Do(ctx, chromedp.Navigate(p.origin+path)) })
}

// Resize changes the page's size.
func (p *Page) Resize(v Viewport) {
	p.t.Helper()
	p.call("resize", func(ctx context.Context) error {
		_, err := chromedp.Call(ctx, emulation.SetDeviceMetricsOverride, emulation.SetDeviceMetricsOverrideParams{
			Width: v.Width, Height: v.Height, DeviceScaleFactor: v.Scale, Mobile: v.Touch,
		})
		if err != nil {
			return err
		}
		_, err = chromedp.Call(ctx, emulation.SetTouchEmulationEnabled,
			emulation.SetTouchEmulationEnabledParams{Enabled: v.Touch})
		return err
	})
}

// WaitReady waits until the app says that it can be used.
func (p *Page) WaitReady() {
	p.t.Helper()
	p.until("the app is ready", `document.documentElement.dataset.ready === "1" || document.documentElement.dataset.failed === "1"`)
	if Eval[bool](p, `document.documentElement.dataset.failed === "1"`) {
		p.t.Fatalf("the app did not start: %s\n%s", p.Text("body"), p.Said())
	}
}

// WaitFor waits until an element that the CSS selector finds can be seen.
func (p *Page) WaitFor(selector string) {
	p.t.Helper()
	p.until("seeing "+selector, fmt.Sprintf(`[...document.querySelectorAll(%s)].some((e) => e.checkVisibility())`, quote(selector)))
}

// WaitGone waits until no element that the selector finds can be seen.
func (p *Page) WaitGone(selector string) {
	p.t.Helper()
	p.until(selector+" is gone", fmt.Sprintf(`![...document.querySelectorAll(%s)].some((e) => e.checkVisibility())`, quote(selector)))
}

// WaitText waits until the first element that the selector finds has the words.
func (p *Page) WaitText(selector, words string) {
	p.t.Helper()
	p.until(fmt.Sprintf("%s says %q", selector, words),
		fmt.Sprintf(`document.querySelector(%s)?.innerText.includes(%s) ?? false`, quote(selector), quote(words)))
}

// Text returns what a reader sees in the first element that the selector finds, once it is there.
func (p *Page) Text(selector string) string {
	p.t.Helper()
	p.until("finding "+selector, fmt.Sprintf(`document.querySelector(%s) !== null`, quote(selector)))
	return Eval[string](p, fmt.Sprintf(`document.querySelector(%s).innerText`, quote(selector)))
}

// Count returns how many elements the selector finds now.
func (p *Page) Count(selector string) int {
	p.t.Helper()
	return Eval[int](p, fmt.Sprintf(`document.querySelectorAll(%s).length`, quote(selector)))
}

// Eval evaluates an expression in the page; a promise is waited for.
func Eval[T any](p *Page, expression string) T {
	p.t.Helper()
	var value T
	p.call("evaluate "+expression, func(ctx context.Context) (err error) {
		value, err = chromedp.Run(ctx, chromedp.Evaluate[T](expression, chromedp.EvalAwaitPromise))
		return err
	})
	return value
}

// Do evaluates an expression whose value is of no interest.
func (p *Page) Do(expression string) {
	p.t.Helper()
	Eval[bool](p, "(async () => { await ("+expression+"); return true })()")
}

// until waits for an expression to become true.
func (p *Page) until(what, expression string) {
	p.t.Helper()
	for end := time.Now().Add(patience); !Eval[bool](p, expression); time.Sleep(15 * time.Millisecond) {
		if time.Now().After(end) {
			p.t.Fatalf("waited %s in vain: %s\non the page:\n%s\n%s", patience, what,
				Eval[string](p, "document.body.innerText.slice(0, 2000)"), p.Said())
		}
	}
}

// call runs a step with a limit on its time; a failure ends the test.
func (p *Page) call(what string, step func(ctx context.Context) error) {
	p.t.Helper()
	ctx, cancel := context.WithTimeout(p.ctx, patience)
	defer cancel()
	if err := step(ctx); err != nil {
		p.t.Fatalf("%s: %v\n%s", what, err, p.Said())
	}
}

// quote writes a text as a JavaScript string.
func quote(text string) string {
	quoted, _ := json.Marshal(text) // a string always has a JSON form
	return string(quoted)
}

// Before has a script run in the page before any of its own, each time it is loaded.
func (p *Page) Before(script string) {
	p.t.Helper()
	p.call("prepare a script", func(ctx context.Context) error {
		_, err := chromedp.Call(ctx, page.AddScriptToEvaluateOnNewDocument,
			page.AddScriptToEvaluateOnNewDocumentParams{Source: script})
		return err
	})
}

// Settle waits until the page has drawn what it has changed.
func (p *Page) Settle() {
	p.t.Helper()
	p.Do(`document.fonts.ready.then(() => new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done))))`)
}

// nth is a selector of the nth element of its kind among its neighbours, counted from 1.
func nth(selector string, n int) string { return fmt.Sprintf("%s:nth-of-type(%d)", selector, n) }
