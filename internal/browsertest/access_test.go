package browsertest

import (
	"context"
	"strings"
	"testing"

	"github.com/chromedp/cdproto/accessibility"
	"github.com/chromedp/chromedp"
)

// tabTo presses Tab until the element has the keyboard, and looks at each stop on the way: the focus must be visible
// (WCAG 2.2, 2.4.7) and in view (2.4.11).
func tabTo(t *testing.T, p *Page, selector string) {
	t.Helper()
	for range 40 {
		p.Key("Tab")
		stop := Eval[struct {
			Name, Fault string
			There       bool
		}](p, `(async () => {
			await new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done)));
			const e = document.activeElement;
			if (e === document.body) return { name: "the page", fault: "", there: false };
			const box = e.getBoundingClientRect(), style = getComputedStyle(e), faults = [];
			if (!e.matches(":focus-visible") || style.outlineStyle === "none" || parseFloat(style.outlineWidth) < 2) faults.push("no outline");
			if (box.width < 2 || box.height < 2 || box.bottom < 0 || box.top > innerHeight) faults.push("not in view");
			return { name: e.tagName + "#" + e.id + " " + e.innerText.slice(0, 40), fault: faults.join(", "), there: e.matches(`+quote(selector)+`) };
		})()`)
		if stop.Fault != "" {
			t.Errorf("%s: got %s with the keyboard on it, want the focus seen", stop.Name, stop.Fault)
		}
		if stop.There {
			return
		}
	}
	t.Fatalf("got nowhere near %s with 40 times Tab", selector)
}

// By keyboard alone one gets from the start page to the sheet of another machine, its unit and its assumptions (WCAG 2.2, 2.1.1).
func TestKeyboardAlone(t *testing.T) {
	p := Open(t, Tablet)
	p.Show(Media{ReducedMotion: true})
	tabTo(t, p, "#example")
	p.Key("Enter")
	p.WaitFor("#sheet")
	p.until("the keyboard is on the sheet", `document.activeElement.id === "sheet"`)
	tabTo(t, p, "#machine-3")
	p.Key("Enter")
	p.WaitFor("#machine-3[aria-pressed=true]")
	p.Settle()
	if got := Eval[string](p, "document.activeElement.id"); got != "machine-3" {
		t.Errorf("got the keyboard on %q after choosing a machine, want machine-3", got)
	}
	tabTo(t, p, "#unit")
	p.Key("Space")
	p.WaitText("#unit", "Show kg")
	tabTo(t, p, "details.figures > summary")
	p.Key("Enter")
	p.until("the figures are open", `document.querySelector("details.figures").open`)
	tabTo(t, p, "#assumed-use > summary")
	if !Eval[bool](p, `document.querySelector("#assumed-use").open`) {
		p.Key("Enter")
		p.until("the assumptions are open", `document.querySelector("#assumed-use").open`)
	}
	tabTo(t, p, "#cycles_per_hour-value")
	before := p.Text("#cost-answer")
	p.Do(`document.activeElement.select()`)
	p.Key("9", "Tab")
	p.until("the assumption is set", `document.querySelector("#cycles_per_hour-usual") !== null`)
	if got := p.Text("#cost-answer"); got == before {
		t.Errorf("got %q as before, want another answer", got)
	}
}

// eachState shows every state of the app on one page, with everything in it laid open.
func eachState(t *testing.T, v Viewport, look func(p *Page, name string)) {
	t.Helper()
	p := Open(t, v)
	for i, s := range states {
		if s.name == "sheet-reasons" {
			continue // the same as another, laid open
		}
		if i > 0 {
			p.Show(Media{ReducedMotion: true})
			p.Resize(v)
			p.Go("/")
			p.WaitReady()
		}
		s.steps(p)
		layOpen(p)
		look(p, s.name)
	}
}

// layOpen opens what is closed, and has the browser lay out what is out of view too.
func layOpen(p *Page) {
	p.t.Helper()
	p.Do(`document.querySelectorAll("details").forEach((d) => { d.open = true })`)
	p.Do(`document.querySelectorAll("#sheet *").forEach((e) => { e.style.contentVisibility = "visible" })`)
	p.Settle()
}

// operable are the roles of what can be operated, as the browser tells them to a screen reader.
var operable = "button textbox combobox listbox checkbox radio spinbutton searchbox slider link Date DateTime InputTime DisclosureTriangle"

// Everything that can be operated, and every picture and region, has a name for a screen reader (WCAG 2.2, 4.1.2 and 1.1.1).
func TestNames(t *testing.T) {
	eachState(t, Tablet, func(p *Page, name string) {
		var nodes []*accessibility.Node
		p.call("read the accessibility tree", func(ctx context.Context) error {
			tree, err := chromedp.Call(ctx, accessibility.GetFullAXTree, accessibility.GetFullAXTreeParams{})
			nodes = tree.Nodes
			return err
		})
		controls := 0
		for _, n := range nodes {
			if n.Ignored || n.Role == nil {
				continue
			}
			role := strings.Trim(string(n.Role.Value), `"`)
			isControl := strings.Contains(" "+operable+" ", " "+role+" ")
			if isControl {
				controls++
			}
			if !isControl && role != "image" && role != "img" && role != "region" && role != "navigation" && role != "table" {
				continue
			}
			if n.Name == nil || strings.Trim(string(n.Name.Value), `" `) == "" {
				t.Errorf("%s: got a %s without a name, want one: node %d", name, role, n.BackendDOMNodeID)
			}
		}
		shown := Eval[int](p, `[...document.querySelectorAll("button, input, select, textarea, summary")].filter((e) => e.checkVisibility()).length`)
		if controls < shown {
			t.Errorf("%s: got %d controls in the tree of %d on the page", name, controls, shown)
		}
	})
}

// What is pressed is large enough for gloves: 44 px each way, as WCAG 2.2, 2.5.5 asks (2.5.8 asks for 24).
func TestTargets(t *testing.T) {
	eachState(t, Phone, func(p *Page, name string) {
		small := Eval[[]string](p, `[...document.querySelectorAll("button, a[href], select, textarea, summary, label.button, input:not(.visually-hidden)")]
			.filter((e) => e.checkVisibility()).map((e) => [e, e.getBoundingClientRect()])
			.filter(([, box]) => box.width < 44 || box.height < 44)
			.map(([e, box]) => e.tagName + "#" + e.id + " " + (e.innerText ?? "").slice(0, 40) + " " + box.width.toFixed(1) + " x " + box.height.toFixed(1))`)
		if len(small) > 0 {
			t.Errorf("%s: got %d targets below 44 px: %s", name, len(small), strings.Join(small[:min(len(small), 6)], "; "))
		}
	})
}

// Nothing but a table makes one scroll sideways on a phone, nor at a width of 320 px, which is what 1280 px are at 400 % zoom
// (WCAG 2.2, 1.4.10); 1180 px at 200 % (1.4.4) lie between.
func TestReflow(t *testing.T) {
	eachState(t, Phone, func(p *Page, name string) {
		for _, width := range []int64{390, 320, 590} {
			p.Resize(Viewport{Width: width, Height: 844, Scale: 1})
			if wide := sideways(p); wide != "" {
				t.Errorf("%s at %d px: got a page that scrolls sideways: %s", name, width, wide)
			}
		}
	})
	p := Open(t, Phone)
	p.Do(`(() => { const e = document.createElement("pre"); e.textContent = "x".repeat(500); document.body.append(e) })()`)
	if sideways(p) == "" {
		t.Error("got nothing too wide with a word of 500 letters: the check sees nothing")
	}
}

// contrast lists the texts with less than 4.5 to 1 between them and what is behind them, and the edges of fields and the focus
// with less than 3 to 1. Relative luminance and contrast ratio are as WCAG 2.2 defines them.
const contrast = `(() => {
	const ctx = new OffscreenCanvas(1, 1).getContext("2d", { willReadFrequently: true });
	const rgba = (color) => {
		ctx.clearRect(0, 0, 1, 1);
		ctx.fillStyle = color;
		ctx.fillRect(0, 0, 1, 1);
		const [r, g, b, a] = ctx.getImageData(0, 0, 1, 1).data;
		return [r, g, b, a / 255];
	};
	const over = (top, below) => [0, 1, 2].map((i) => top[i] * top[3] + below[i] * (1 - top[3])).concat(1);
	const behind = (e) => {
		const layers = [];
		for (; e; e = e.parentElement) layers.push(rgba(getComputedStyle(e).backgroundColor));
		return layers.reduceRight((below, layer) => over(layer, below), rgba("Canvas"));
	};
	const luminance = ([r, g, b]) => {
		const [R, G, B] = [r, g, b].map((v) => (v /= 255) <= 0.04045 ? v / 12.92 : ((v + 0.055) / 1.055) ** 2.4);
		return 0.2126 * R + 0.7152 * G + 0.0722 * B;
	};
	const ratio = (a, b) => {
		const [x, y] = [luminance(a), luminance(b)].sort((m, n) => n - m);
		return (x + 0.05) / (y + 0.05);
	};
	const faults = [], seen = new Set();
	let checked = 0;
	const check = (e, what, color, ground, least) => {
		checked++;
		const got = ratio(over(rgba(color), ground), ground);
		const words = what + " " + e.tagName + "." + (e.getAttribute("class") ?? "") + " " + color + " on " + ground.map(Math.round);
		if (got < least && !seen.has(words)) {
			seen.add(words);
			faults.push(words + " " + got.toFixed(2) + " " + (e.textContent ?? "").trim().slice(0, 30));
		}
	};
	for (const e of document.querySelectorAll("body *")) {
		if (!e.checkVisibility({ visibilityProperty: true, opacityProperty: true })) continue;
		const style = getComputedStyle(e);
		if ([...e.childNodes].some((n) => n.nodeType === 3 && n.data.trim()))
			check(e, "text", e instanceof SVGElement ? style.fill : style.color, behind(e), 4.5);
		if (e.matches("input:not(.visually-hidden), select, textarea")) {
			check(e, "text", style.color, behind(e), 4.5);
			check(e, "edge", style.borderTopColor, behind(e.parentElement), 3);
		}
		if (e.matches("button, summary, input"))
			check(e, "focus", getComputedStyle(document.documentElement).getPropertyValue("--focus"), behind(e.parentElement), 3);
	}
	return { checked, faults };
})()`

// Words stand out from what is behind them (WCAG 2.2, 1.4.3), and so do the edges of fields and the focus (1.4.11), on a light
// screen, a dark one and one that asks for more contrast.
func TestContrast(t *testing.T) {
	eachState(t, Tablet, func(p *Page, name string) { checkContrast(t, p, name) })

	p := Open(t, Tablet)
	p.Click("#example")
	p.WaitFor("#sheet")
	p.Do(`(() => { URL.createObjectURL = () => { throw new Error("made to fail") } })()`)
	p.Click("#save-case")
	p.WaitFor("#crash")
	checkContrast(t, p, "fault")

	p.Do(`(() => { document.querySelector("h1").style.color = "#999" })()`)
	p.Show(Media{})
	if len(contrastOf(p).Faults) == 0 {
		t.Error("got nothing too faint with a grey heading: the check sees nothing")
	}
}

// contrasts is what a look at a page's colours gives.
type contrasts struct {
	Checked int
	Faults  []string
}

func contrastOf(p *Page) contrasts {
	p.t.Helper()
	p.Settle()
	return Eval[contrasts](p, contrast)
}

func checkContrast(t *testing.T, p *Page, name string) {
	t.Helper()
	for _, m := range []struct {
		name string
		Media
	}{{"light", Media{}}, {"dark", Media{Dark: true}}, {"more", Media{MoreContrast: true}}, {"dark, more", Media{Dark: true, MoreContrast: true}}} {
		p.Show(m.Media)
		got := contrastOf(p)
		if got.Checked < 20 {
			t.Errorf("%s, %s: got %d colours looked at, want at least 20", name, m.name, got.Checked)
		}
		for _, fault := range got.Faults {
			t.Errorf("%s, %s: got too little contrast: %s", name, m.name, fault)
		}
	}
}
