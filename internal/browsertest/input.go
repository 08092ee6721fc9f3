package browsertest

import (
	"context"
	"encoding/base64"
	"fmt"
	"path/filepath"

	"github.com/chromedp/cdproto/input"
	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"
)

// aim finds the middle of an element once it has stood still in view for some frames, or what covers it. It also has the page
// note in pressed whether the next press reaches the element: what is drawn in between may move it away from the mouse.
const aim = `(async () => {
	const element = document.querySelector(%s);
	let box, still = 0;
	for (let frames = 0; still < 4 && frames < 300; frames++) {
		element.scrollIntoView({ block: "center", inline: "center", behavior: "instant" });
		await new Promise((done) => requestAnimationFrame(done));
		const now = element.getBoundingClientRect();
		still = box && now.top === box.top && now.left === box.left ? still + 1 : 0;
		box = now;
	}
	const x = box.left + box.width / 2, y = box.top + box.height / 2;
	const top = document.elementFromPoint(x, y), label = element.closest("label");
	const within = (target) => element.contains(target) || (label !== null && label.contains(target));
	window.pressed = "";
	addEventListener("mousedown", (e) => { window.pressed = within(e.target) ? "hit" : "missed"; }, { capture: true, once: true });
	return { x, y, covered: within(top) ? "" : (top ? top.outerHTML.slice(0, 200) : "nothing, it is out of view") };
})()`

// Click clicks the middle of the first element that the selector finds, as a mouse does. When the element moved away just
// then, it tries once more.
func (p *Page) Click(selector string) {
	p.t.Helper()
	for range 2 {
		p.WaitFor(selector)
		at := Eval[struct {
			X, Y    float64
			Covered string
		}](p, fmt.Sprintf(aim, quote(selector)))
		if at.Covered != "" {
			p.t.Fatalf("%s cannot be clicked: it is covered by %s", selector, at.Covered)
		}
		p.call("click "+selector, func(ctx context.Context) error { return chromedp.Do(ctx, chromedp.MouseClickXY(at.X, at.Y)) })
		if Eval[string](p, `window.pressed ?? ""`) != "missed" {
			return
		}
	}
	p.t.Fatalf("%s moves away when it is clicked", selector)
}

// Focus puts the keyboard on an element.
func (p *Page) Focus(selector string) {
	p.t.Helper()
	p.WaitFor(selector)
	p.Do(fmt.Sprintf(`document.querySelector(%s).focus()`, quote(selector)))
}

// Key presses a key, such as Tab, Enter, Escape, ArrowDown (as KeyboardEvent.key names them) or a text of several.
func (p *Page) Key(names ...string) {
	p.t.Helper()
	keys := map[string]string{
		"Tab": kb.Tab, "Enter": kb.Enter, "Escape": kb.Escape, "Backspace": kb.Backspace, "Delete": kb.Delete,
		"ArrowUp": kb.ArrowUp, "ArrowDown": kb.ArrowDown, "ArrowLeft": kb.ArrowLeft, "ArrowRight": kb.ArrowRight,
		"Home": kb.Home, "End": kb.End, "Space": " ",
	}
	for _, name := range names {
		key, ok := keys[name]
		if !ok {
			key = name
		}
		p.call("press "+name, func(ctx context.Context) error { return chromedp.Do(ctx, chromedp.KeyEvent(key)) })
	}
}

// Type replaces what a field holds, as a person who selects all of it and types, and leaves the field.
func (p *Page) Type(selector, text string) {
	p.t.Helper()
	p.Focus(selector)
	p.Do(fmt.Sprintf(`document.querySelector(%s).select()`, quote(selector)))
	if text == "" {
		p.Key("Delete")
	} else {
		p.insert(text)
	}
	p.Do(`document.activeElement.blur()`)
}

// insert puts a text where the keyboard is.
func (p *Page) insert(text string) {
	p.t.Helper()
	p.call("insert a text", func(ctx context.Context) error {
		_, err := chromedp.Call(ctx, input.InsertText, input.InsertTextParams{Text: text})
		return err
	})
}

// Choose sets a select element to the option with a value.
func (p *Page) Choose(selector, value string) {
	p.t.Helper()
	p.WaitFor(selector)
	p.Do(fmt.Sprintf(`(() => {
		const field = document.querySelector(%s);
		field.value = %s;
		field.dispatchEvent(new Event("input", { bubbles: true }));
		field.dispatchEvent(new Event("change", { bubbles: true }));
	})()`, quote(selector), quote(value)))
}

// Files chooses files in an <input type=file>, which may be hidden.
func (p *Page) Files(selector string, names ...string) {
	p.t.Helper()
	p.until("finding "+selector, fmt.Sprintf(`document.querySelector(%s) !== null`, quote(selector)))
	full := make([]string, len(names))
	for i, name := range names {
		absolute, err := filepath.Abs(name)
		if err != nil {
			p.t.Fatal(err)
		}
		full[i] = absolute
	}
	p.call("choose files", func(ctx context.Context) error {
		return chromedp.Do(ctx, chromedp.SetUploadFiles(chromedp.CSS(selector), full, chromedp.NodeReady))
	})
}

// Paste pastes a text into an element: a paste event, and the text where the keyboard is if the app leaves that to the browser.
func (p *Page) Paste(selector, text string) {
	p.t.Helper()
	p.WaitFor(selector)
	left := Eval[bool](p, fmt.Sprintf(`(() => {
		const element = document.querySelector(%s), data = new DataTransfer();
		element.focus();
		data.setData("text/plain", %s);
		const event = new ClipboardEvent("paste", { clipboardData: data, bubbles: true, cancelable: true, composed: true });
		return element.dispatchEvent(event) && element.matches("input, textarea, [contenteditable]");
	})()`, quote(selector), quote(text)))
	if left {
		p.insert(text)
	}
}

// Drop drops a file on an element, with the events that a drag gives.
func (p *Page) Drop(selector, name, mediaType string, content []byte) {
	p.t.Helper()
	p.WaitFor(selector)
	p.Do(fmt.Sprintf(`(() => {
		const element = document.querySelector(%s), data = new DataTransfer();
		const content = Uint8Array.from(atob(%s), (c) => c.charCodeAt(0));
		data.items.add(new File([content], %s, { type: %s }));
		for (const type of ["dragenter", "dragover", "drop"]) {
			element.dispatchEvent(new DragEvent(type, { dataTransfer: data, bubbles: true, cancelable: true, composed: true }));
		}
	})()`, quote(selector), quote(base64.StdEncoding.EncodeToString(content)), quote(name), quote(mediaType)))
}
