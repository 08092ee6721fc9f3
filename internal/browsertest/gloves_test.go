package browsertest

import (
	"context"
	"fmt"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/chromedp/cdproto/input"
	"github.com/chromedp/chromedp"
)

// Tap touches the middle of an element and holds it for a while.
func (p *Page) Tap(selector string, hold time.Duration) {
	p.t.Helper()
	p.WaitFor(selector)
	at := Eval[struct {
		X, Y    float64
		Covered string
	}](p, fmt.Sprintf(aim, quote(selector)))
	if at.Covered != "" {
		p.t.Fatalf("%s cannot be touched: it is covered by %s", selector, at.Covered)
	}
	touch := func(kind input.DispatchTouchEventType, points ...*input.TouchPoint) {
		p.call("touch "+selector, func(ctx context.Context) error {
			_, err := chromedp.Call(ctx, input.DispatchTouchEvent, input.DispatchTouchEventParams{Type: kind, TouchPoints: append([]*input.TouchPoint{}, points...)})
			return err
		})
	}
	touch("touchStart", &input.TouchPoint{X: at.X, Y: at.Y})
	time.Sleep(hold)
	touch("touchEnd")
	p.Settle()
}

// more and less are the steppers of a field.
func more(field string) string { return field + " ~ .more" }
func less(field string) string { return ".control:has(" + field + ") > .less" }

// A whole reading is typed with steppers alone, by touch: each begins where the last reading stood, and the sheet follows.
func TestSteppersTypeAReading(t *testing.T) {
	p := Open(t, Phone)
	openFile(p, filepath.Join(testdata, "demo", "lashed.case.json"))
	p.Tap("#read-again", 0)
	p.WaitFor("#r7-powered")
	want := map[string]string{"#r7-powered": "854.3", "#r7-moving": "307.1", "#r7-peak": "812", "#r7-b1-hours": "396.9", "#r7-b2-hours": "264.6"}
	for _, taps := range []struct {
		field      string
		more, less int
	}{
		{"#r7-powered", 3, 0}, {"#r7-moving", 1, 0}, {"#r7-peak", 1, 1}, {"#r7-b1-hours", 2, 0}, {"#r7-b2-hours", 1, 0},
		{"#r7-b3-hours", 1, 1}, {"#r7-b4-hours", 0, 1}, {"#r7-b5-hours", 0, 1}, {"#r7-b6-hours", 0, 1}, {"#r7-b7-hours", 1, 1},
	} {
		for range taps.more {
			p.Tap(more(taps.field), 0)
		}
		for range taps.less {
			p.Tap(less(taps.field), 0)
		}
	}
	sameValues(t, p, "tapped", want)
	if at := value(p, "#r7-at"); len(at) != 16 {
		t.Errorf("got %q as the time of the reading, want now to the minute", at)
	}
	if got := Eval[string](p, "document.activeElement.id"); got != "r7-powered" {
		t.Errorf("got the keyboard on %q, want the steppers to leave it where it was", got)
	}
	p.Tap("#finish", 0)
	p.WaitFor("#sheet")
	if text := p.Text("#recorded .answer"); !strings.Contains(text, "7 readings") {
		t.Errorf("got %q, want 7 readings", text)
	}
}

// A stepper that is held repeats until it is let go, and letting go adds nothing.
func TestSteppersRepeatWhileHeld(t *testing.T) {
	p := openForm(t)
	p.Tap(more("#r1-peak"), 1200*time.Millisecond)
	held := value(p, "#r1-peak")
	p.Do(`new Promise((done) => setTimeout(done, 300))`)
	if got := value(p, "#r1-peak"); got != held || len(held) < 2 || held == "10" {
		t.Errorf("got %s held, %s afterwards, want several steps and no more", held, got)
	}
	p.Tap(less("#r1-peak"), 0)
	if got := value(p, "#r1-peak"); got == held {
		t.Errorf("got %s still after a tap, want 5 less", got)
	}
}

// The keys of a field: the arrows step, with Shift tenfold, Enter goes on; steppers are no stops on the way but have names.
func TestFormKeys(t *testing.T) {
	p := openForm(t)
	p.Focus("#rated")
	p.Key("ArrowUp", "ArrowUp", "ArrowDown", "ArrowUp")
	sameValues(t, p, "arrows", map[string]string{"#rated": "20"})
	p.Key("Enter")
	p.Key("2")
	p.Key("Tab")
	sameValues(t, p, "Enter", map[string]string{"#persons": "2"})
	if got := Eval[string](p, "document.activeElement.id"); got != "sensing" {
		t.Errorf("got the keyboard on %q after Tab, want sensing", got)
	}
	p.Do(`document.querySelector("#r1-powered").dispatchEvent(new KeyboardEvent("keydown", { key: "ArrowUp", shiftKey: true, bubbles: true, cancelable: true }))`)
	sameValues(t, p, "Shift", map[string]string{"#r1-powered": "1.0"})
	for selector, want := range map[string]string{
		"#r1-powered":       "decimal next",
		"#persons":          "numeric next",
		more("#r1-peak"):    "-1 Peak: 5 kg more",
		less("#r1-powered"): "-1 Powered hours: 0.1 less",
	} {
		got := Eval[string](p, fmt.Sprintf(`(() => { const e = document.querySelector(%s);
			return e.matches("input") ? e.getAttribute("inputmode") + " " + e.getAttribute("enterkeyhint") : e.getAttribute("tabindex") + " " + e.ariaLabel; })()`, quote(selector)))
		if got != want {
			t.Errorf("%s: got %q, want %q", selector, got, want)
		}
	}
	steps := 0
	for p.Focus("#id"); steps < 60 && Eval[string](p, "document.activeElement.id") != "finish"; steps++ {
		p.Key("Enter")
	}
	if want := Eval[int](p, `[...document.querySelectorAll("#typing input, #typing select")].filter((e) => e.checkVisibility()).length`); steps != want {
		t.Errorf("got %d times Enter from the first field to the end, want %d", steps, want)
	}
}

// chord presses a key with Control (2 to the browser), and Shift (8) if asked.
func chord(p *Page, key string, shift bool) {
	p.t.Helper()
	modifiers, code := int64(2), int64(strings.ToUpper(key)[0])
	if shift {
		modifiers |= 8
	}
	for _, kind := range []input.DispatchKeyEventType{"rawKeyDown", "keyUp"} {
		p.call("press a chord", func(ctx context.Context) error {
			_, err := chromedp.Call(ctx, input.DispatchKeyEvent, input.DispatchKeyEventParams{
				Type: kind, Key: key, Code: "Key" + strings.ToUpper(key), Modifiers: modifiers, WindowsVirtualKeyCode: code,
			})
			return err
		})
	}
	p.Settle()
}

// Undo and redo, by keys and by buttons, take back typing as well as bands and readings, and put the keyboard where it was.
func TestUndoByKeysAndButtons(t *testing.T) {
	p := openForm(t)
	focus := func(when, want string) {
		t.Helper()
		p.Settle()
		if got := Eval[string](p, "document.activeElement.id"); got != want {
			t.Errorf("%s: got the keyboard on %q, want %q", when, got, want)
		}
	}
	if !Eval[bool](p, `document.querySelector("#undo").disabled && document.querySelector("#redo").disabled`) {
		t.Error("got something to undo in an empty form")
	}
	p.Type("#r1-b1-to", "80")
	p.Focus("#r1-b3-hours")
	p.Key("1", "2", "Backspace", "5")
	p.Click("#r1-b3-remove")
	p.WaitText("#undo", "Undo: remove band 3")
	p.Click("#add-reading")
	p.WaitText("#undo", "Undo: add a reading")

	chord(p, "z", false)
	p.WaitGone("#r2-powered")
	focus("reading undone", "add-reading")
	chord(p, "z", false)
	sameValues(t, p, "band back", map[string]string{"#r1-b3-hours": "15", "#r1-b1-to": "80", "#r1-b2-from": "80"})
	focus("band back", "r1-b3-hours")
	chord(p, "z", false)
	sameValues(t, p, "typing undone", map[string]string{"#r1-b3-hours": "", "#r1-b1-to": "80"})
	p.Click("#undo")
	sameValues(t, p, "edge undone", map[string]string{"#r1-b1-to": "", "#r1-b2-from": ""})
	focus("edge undone", "r1-b1-to")
	p.WaitText("#redo", "Redo: reading 1, band 1, upper edge")

	chord(p, "y", false)
	chord(p, "Z", true)
	sameValues(t, p, "typing redone", map[string]string{"#r1-b3-hours": "15", "#r1-b1-to": "80"})
	p.Click("#redo")
	p.WaitGone("#r1-b4-hours")
	p.Click("#redo")
	p.WaitFor("#r2-powered")
	focus("reading redone", "r2-powered")
	p.Type("#r2-powered", "7")
	if !Eval[bool](p, `document.querySelector("#redo").disabled`) {
		t.Error("got something to redo after typing, want nothing")
	}
}

// Undo and redo on the sheet, by a real keyboard and by buttons: typing is taken back by field, lines come back with what was
// typed into them, what is folded away is laid open, and the keyboard is where it was.
func TestUndoOnTheSheet(t *testing.T) {
	p := Open(t, Tablet)
	openFile(p, filepath.Join(testdata, "demo", "lashed.case.json"))
	at := func(when, want string) {
		t.Helper()
		p.Settle()
		if got := Eval[string](p, "document.activeElement.id"); got != want {
			t.Errorf("%s: got the keyboard on %q, want %q", when, got, want)
		}
	}
	p.WaitGone(".steps-bar")
	p.Click("#rules > summary")
	p.Click("#add-zone")
	p.WaitFor("#zone-1-name")
	p.WaitText("#undo", "Undo: add zone 1")
	p.Click("#add-zone")
	p.WaitFor("#zone-2-rated")
	p.Focus("#zone-2-rated")
	p.Key("1", "5", "x", "Backspace", "0")
	p.WaitText("#undo", "Undo: rated load of zone 2")
	p.WaitText("#findings+ul", "the rated load of further rated load 2 is 150 kg")
	p.Focus("#zone-2-persons")
	p.Key("t", "w", "o")
	p.WaitText("#zone-2-persons-problem", "is not a number")
	if got := Eval[string](p, `document.querySelector("#said").textContent`); !strings.Contains(got, "Persons: ") || !strings.Contains(got, "is not a number") {
		t.Errorf("got %q said, want what is wrong", got)
	}
	p.Click("#zone-1-remove")
	p.WaitGone("#zone-2-rated")
	sameValues(t, p, "a line above removed", map[string]string{"#zone-1-rated": "150", "#zone-1-persons": "two"})
	p.Click("#rules > summary")

	chord(p, "z", false)
	p.WaitFor("#zone-2-persons")
	at("removal undone", "zone-1-name")
	sameValues(t, p, "removal undone", map[string]string{"#zone-2-rated": "150", "#zone-2-persons": "two", "#zone-1-rated": ""})
	chord(p, "z", false)
	at("typing undone", "zone-2-persons")
	sameValues(t, p, "typing undone", map[string]string{"#zone-2-rated": "150", "#zone-2-persons": ""})
	p.Click("#undo")
	at("typing undone", "zone-2-rated")
	sameValues(t, p, "typing undone", map[string]string{"#zone-2-rated": ""})
	p.WaitText("#redo", "Redo: rated load of zone 2")
	chord(p, "Z", true)
	chord(p, "y", false)
	sameValues(t, p, "typing redone", map[string]string{"#zone-2-rated": "150", "#zone-2-persons": "two"})
	for range 4 {
		chord(p, "z", false)
	}
	p.WaitGone("#zone-1-name")
	if !Eval[bool](p, `document.querySelector("#undo").disabled`) || strings.Contains(p.Text("#findings+ul"), "changed by hand") {
		t.Errorf("got %q to undo, findings %q, want the machine as it was opened", p.Text("#undo"), p.Text("#findings+ul"))
	}
	smallTargets(t, p, ".steps-bar")

	p.Focus("#ride-straps")
	p.Key("End", "2", "ArrowUp", "Enter")
	at("next field", "ride-angle-deg")
	p.WaitText("#strap", "12 x")
	p.WaitText("#undo", "Undo: number of straps")
	if !Eval[bool](p, `document.querySelector("#redo").disabled`) {
		t.Error("got something to redo after typing, want nothing")
	}
	p.Key("ArrowRight")
	p.WaitText("#undo", "Undo: angle to the deck")
	chord(p, "z", false)
	chord(p, "z", false)
	at("strap undone", "ride-straps")
	sameValues(t, p, "strap undone", map[string]string{"#ride-straps": "1", "#ride-angle-deg": "60"})
}

// The machine on the sheet is read again: a press opens its form with a reading that is dated, has its bands and says what
// stood there last time; a counter below that is pointed out at once and stands in nobody's way.
func TestReadAgainFromTheSheet(t *testing.T) {
	p := Open(t, Tablet)
	openFile(p, filepath.Join(testdata, "demo", "lashed.case.json"))
	p.Click("#read-again")
	p.WaitFor("#r7-powered")
	p.Settle()
	if got := Eval[string](p, "document.activeElement.id"); got != "r7-powered" {
		t.Errorf("got the keyboard on %q, want r7-powered", got)
	}
	p.WaitText("#r7-powered-hint", "last time 854")
	p.Key("8", "5", "3")
	p.WaitText("#r7-powered-hint", "less than last time (854): counters never run backwards")
	p.WaitText("#r7-live", "Powered hours: less than last time.")
	p.Key("ArrowUp")
	sameValues(t, p, "stepped", map[string]string{"#r7-powered": "853.1"})
	if got := Eval[string](p, `document.querySelector("#r7-live").getAttribute("role")`); got != "status" {
		t.Errorf("got role %q of the running total, want status", got)
	}
	p.Type("#r7-peak", "100")
	p.Type("#r7-b6-hours", "1")
	p.WaitText("#r7-live", "The peak, 100 kg, lies below 450 kg")
	if p.Count("#r1-powered") > 0 || !strings.Contains(p.Text("#r1-fold"), "245.4 powered hours") {
		t.Errorf("got %q, want the first reading folded with its figures", p.Text("#r1-fold"))
	}
	for j := 1; j <= 7; j++ {
		p.Type(fmt.Sprintf("#r7-b%d-hours", j), "1")
	}
	p.Click("#finish")
	p.WaitFor("#sheet")
	r := resultOf(t, saveResult(p))
	if !slices.ContainsFunc(r.Findings, func(f struct{ Code, Where, Message string }) bool { return f.Code == "counter-backwards" }) {
		t.Errorf("got findings %v, want counter-backwards among them", r.Findings)
	}
}

// Who had the machine is typed, and the sheet reasons with it; taking the line off takes that back.
func TestCustodyIsTyped(t *testing.T) {
	p := openForm(t)
	p.Type("#rated", "230")
	for j, band := range [][2]string{{"90", "10"}, {"230", "5"}, {"", "0"}} {
		p.Type(fmt.Sprintf("#r1-b%d-to", j+1), band[0])
		p.Type(fmt.Sprintf("#r1-b%d-hours", j+1), band[1])
	}
	p.Click("#r1-b4-remove")
	p.Choose("#r1-at", "2026-03-02T08:00")
	p.Type("#r1-powered", "15")
	p.Type("#r1-peak", "200")
	p.Click("#add-reading")
	p.WaitFor("#r2-powered")
	p.Choose("#r2-at", "2026-03-02T10:00")
	p.Type("#r2-powered", "15")
	p.Type("#r2-peak", "800")
	p.Choose("#r2-peak-at", "2026-03-02T09:00")
	for j, hours := range []string{"10", "5", "0"} {
		p.Type(fmt.Sprintf("#r2-b%d-hours", j+1), hours)
	}
	transit := func() bool {
		t.Helper()
		p.Click("#finish")
		p.WaitFor("#sheet")
		return Eval[bool](p, `document.querySelector("#sheet").textContent.includes("in transit for")`)
	}
	if transit() {
		t.Error("got a trip that nobody typed")
	}
	p.Click("#correct")
	p.WaitFor("#typing")
	p.Click("#add-custody")
	p.WaitFor("#c1-holder")
	p.Settle()
	if got := Eval[string](p, "document.activeElement.id"); got != "c1-holder" {
		t.Errorf("got the keyboard on %q, want c1-holder", got)
	}
	p.Choose("#c1-from", "2026-03-02T10:00")
	p.Choose("#c1-to", "2026-03-02T08:00")
	p.WaitText("#c1-to-hint", "does not come after the beginning")
	p.Click("#finish")
	p.WaitText("#problems", "custody entry 1, holder: choose")
	problemAt(t, p, "#c1-holder", "choose hire, transit, depot or workshop")
	p.Choose("#c1-holder", "transit")
	p.Choose("#c1-from", "2026-03-02T07:00")
	p.Choose("#c1-to", "2026-03-02T11:00")
	p.Type("#c1-who", "invented haulier")
	p.Click("#events-fold")
	p.Click("#add-events")
	p.WaitFor("#e1-kind")
	p.Choose("#e1-kind", "overload_alarm")
	p.Choose("#e1-at", "2026-03-02T09:00")
	p.Click("#daily-fold")
	p.Click("#add-daily")
	p.WaitFor("#d1-date")
	p.Choose("#d1-date", "2026-03-02")
	p.Type("#d1-powered", "0,5")
	if !transit() {
		t.Errorf("got %q, want the sheet to reason with the trip", p.Text("#sheet"))
	}
	_, saved := p.Download(func() { p.Click("#save-case") })
	for _, want := range []string{"invented haulier", `"kind": "overload_alarm"`, `"powered_h": 0.5`} {
		if !strings.Contains(string(saved), want) {
			t.Errorf("got %s, want %s in it", saved, want)
		}
	}
	p.Click("#correct")
	p.Click("#c1-remove")
	p.WaitGone("#c1-holder")
	if transit() {
		t.Error("got a trip that was taken off")
	}
}

// What is touched in the form is 56 px high and, but for fields that take words, as wide; figures are large; nothing overlaps
// and nothing needs sideways scrolling on a phone, at 200 % zoom of a tablet and at 400 % of a desk.
func TestFormForGloves(t *testing.T) {
	p := Open(t, Phone)
	openFile(p, filepath.Join(testdata, "demo", "lashed.case.json"))
	p.Click("#read-again")
	p.WaitFor("#r7-powered")
	p.Click("#r7-edges")
	for _, part := range []string{"events", "daily"} {
		p.Click("#" + part + "-fold")
		p.Click("#add-" + part)
	}
	p.Type("#r7-powered", "1")
	p.Type("#r7-b7-to", "1,234")
	p.Click("#finish")
	p.WaitFor("#problems p")
	for _, size := range []Viewport{Phone, {Width: 320, Height: 800, Scale: 1, Touch: true}, {Width: 590, Height: 410, Scale: 2, Touch: true}, {Width: 820, Height: 1180, Scale: 1, Touch: true}, Tablet} {
		p.Resize(size)
		if wide := sideways(p); wide != "" {
			t.Errorf("%d px: got a page that scrolls sideways: %s", size.Width, wide)
		}
		faults := Eval[[]string](p, `(() => {
			const all = [...document.querySelectorAll("#typing button, #typing input, #typing select")].filter((e) => e.checkVisibility());
			const boxes = all.map((e) => [e, e.getBoundingClientRect()]), faults = [];
			for (const [e, box] of boxes) {
				const name = e.id || e.ariaLabel;
				if (box.height < 56 || e.matches(".step") && box.width < 56) faults.push(name + " is " + box.width + " x " + box.height);
				if (e.matches(".number input") && (parseFloat(getComputedStyle(e).fontSize) < 20 || box.width < 64)) faults.push(name + " is small: " + box.width);
			}
			const flow = boxes.filter(([e]) => !e.closest(".steps-bar"));
			for (let i = 0; i < flow.length; i++) for (let j = i + 1; j < flow.length; j++) {
				const [a, p] = flow[i], [b, q] = flow[j];
				if (p.left < q.right && q.left < p.right && p.top < q.bottom && q.top < p.bottom) faults.push((a.id || a.ariaLabel) + " overlaps " + (b.id || b.ariaLabel));
			}
			return faults;
		})()`)
		if len(faults) > 0 {
			t.Errorf("%d px: got %s", size.Width, strings.Join(faults[:min(len(faults), 8)], "; "))
		}
	}
	checkContrast(t, p, "form")
}

// TestFormFigures prints how long a key takes to the frame that shows it, with ten readings of twelve bands. It passes or fails
// nothing: a clock is no test.
func TestFormFigures(t *testing.T) {
	if !*figures {
		t.Skip("measures only with -figures")
	}
	p := openForm(t)
	for range 8 {
		press(p, "#r1-add-band")
	}
	for j := 1; j <= 11; j++ {
		p.Type(fmt.Sprintf("#r1-b%d-to", j), fmt.Sprint(50*j))
	}
	for n := 2; n <= 10; n++ {
		press(p, "#add-reading")
		p.WaitFor(fmt.Sprintf("#r%d-powered", n))
	}
	for _, factor := range slowdowns {
		p.Throttle(factor)
		times := keyTimes(p, "#r10-b6-hours")
		fmt.Printf("%-46s %9.0f ms\n", fmt.Sprintf("a key in a form of 10 x 12 bands, %gx slower", factor), median(times))
	}
	p.Throttle(1)
	fmt.Printf("%-46s %9d\n", "elements in that form", p.Count("#typing *"))
	p.Go("/")
	p.WaitReady()
	openFile(p, filepath.Join(testdata, "demo", "lashed.case.json"))
	unfold(p, "#assumed-use")
	for _, factor := range slowdowns {
		p.Throttle(factor)
		fmt.Printf("%-46s %9.0f ms\n", fmt.Sprintf("a key in an assumption of the sheet, %gx slower", factor), median(keyTimes(p, "#cycles_per_hour-value")))
	}
	p.Throttle(1)
}

// keyTimes are the times, in ms, from a key in a field to the frame that shows it.
func keyTimes(p *Page, field string) []float64 {
	p.t.Helper()
	return Eval[[]float64](p, `(async () => {
		const field = document.querySelector(`+quote(field)+`), times = [];
		for (let i = 0; i < 15; i++) {
			await new Promise((done) => setTimeout(done, 50));
			const begin = performance.now();
			field.value = String(i + 1);
			field.dispatchEvent(new Event("input", { bubbles: true }));
			await new Promise((done) => requestAnimationFrame(() => { const c = new MessageChannel(); c.port1.onmessage = done; c.port2.postMessage(0); }));
			times.push(performance.now() - begin);
		}
		return times;
	})()`)
}
