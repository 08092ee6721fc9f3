package browsertest

import (
	"encoding/json"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
	"unicode"
)

// pages returns the text of a printed document, page by page, and their size in points. The text is in reading order.
func pages(t *testing.T, printed []byte) (texts []string, size string) {
	t.Helper()
	file := filepath.Join(t.TempDir(), "printed.pdf")
	if err := os.WriteFile(file, printed, 0o644); err != nil {
		t.Fatal(err)
	}
	run := func(name string, args ...string) string {
		out, err := exec.Command(name, args...).Output()
		if err != nil {
			t.Fatalf("%s: %v\nhint: install the package poppler-utils", name, err)
		}
		return string(out)
	}
	for line := range strings.Lines(run("pdfinfo", file)) {
		if words, ok := strings.CutPrefix(line, "Page size:"); ok {
			fields := strings.Fields(words)
			width, _ := strconv.ParseFloat(fields[0], 64)
			height, _ := strconv.ParseFloat(fields[2], 64)
			size = fmt.Sprintf("%.0f x %.0f", width, height)
		}
	}
	text := strings.TrimSuffix(run("pdftotext", "-raw", "-enc", "UTF-8", file, "-"), "\f")
	return strings.Split(text, "\f"), size
}

// squeeze leaves the letters, digits and marks of a text without the white space between them: where lines are broken on paper
// does not matter.
func squeeze(text string) string {
	return strings.Map(func(r rune) rune {
		if unicode.IsSpace(r) || unicode.Is(unicode.Cf, r) {
			return -1
		}
		return r
	}, text)
}

// whatIsOpen tells of each part that can be closed whether it is open.
const whatIsOpen = `[...document.querySelectorAll("#sheet details")].map((d) => d.open).join(" ")`

// The sheet prints so that an assessor can file it: what it says and why, what it rests on, what is assumed, the cautions; and
// nothing that only makes sense on a screen. Sizes are those of ISO 216 (A4, 210 mm x 297 mm) and ANSI/ASME Y14.1 (Letter).
func TestPrint(t *testing.T) {
	p := Open(t, Tablet)
	file := filepath.Join(testdata, "demo", "lashed.case.json")
	openFile(p, file)
	before := Eval[string](p, whatIsOpen)
	if !strings.Contains(before, "false") {
		t.Fatal("got every part open on the screen, want one that is closed: it must be open on paper")
	}
	saved := saveResult(p)
	var r struct {
		result
		Exceedances []struct {
			Answer, Title string
			Reasons       []struct{ Text string }
		}
		Told   []struct{ Title, When, Answer string }
		Settle []struct{ Do, Tell, On string }
		Inputs []struct {
			Name, SHA256 string
			Bytes        int
		}
	}
	if err := json.Unmarshal(saved, &r); err != nil {
		t.Fatal(err)
	}
	want := []string{p.Text("#machine"), r.Answers.Summary, r.Answers.Cost, "Method: " + r.Method, "invented example"}
	for _, x := range r.Exceedances {
		for _, reason := range x.Reasons {
			want = append(want, reason.Text)
		}
	}
	for _, told := range r.Told {
		want = append(want, told.Title, told.When, told.Answer)
	}
	for _, ask := range r.Settle {
		want = append(want, ask.Do, ask.Tell)
	}
	for _, in := range r.Inputs {
		size := strings.ReplaceAll(fmt.Sprintf("%d", in.Bytes), ",", "")
		want = append(want, in.Name, in.SHA256, size+"bytes")
	}
	for _, a := range r.Assumptions {
		if a.Group == "" { // what weighs causes is in the result saved as data
			want = append(want, a.Name)
		}
	}
	want = append(want, "Weighed with the usual assumptions of")
	want = append(want, r.Cautions...)
	press(p, "#recorded summary") // the table is drawn when it is opened, or printed
	p.WaitFor("#record td")
	want = append(want, Eval[[]string](p, `[...document.querySelectorAll("#record tbody th, #record td, #record caption, #sheet h2, #sheet h3:not(.part:not(.cost-part) > summary h3, #cost-tell h3), #sheet .finding")].map((e) => e.textContent)`)...)
	press(p, "#recorded summary")
	p.Settle()
	if len(r.Exceedances) == 0 || len(r.Assumptions) == 0 || len(r.Cautions) < 3 || len(want) < 80 {
		t.Fatalf("got %d things to look for, want at least 80", len(want))
	}
	buttons := Eval[[]string](p, `[...document.querySelectorAll("button, label.button, summary:not(.cost-part > summary)")].filter((e) => e.checkVisibility() && !e.closest(".machines")).map((e) => e.innerText)`)
	if len(buttons) < 6 {
		t.Fatalf("got buttons %q, want at least 6", buttons)
	}
	for _, paper := range []struct {
		Paper
		size string
	}{{A4, "595 x 842"}, {Letter, "612 x 792"}} {
		texts, size := pages(t, p.PDF(paper.Paper))
		if !sameSize(size, paper.size) {
			t.Errorf("%s: got pages of %s pt, want %s", paper.Name, size, paper.size)
		}
		for i, text := range texts {
			if len(squeeze(text)) < 40 {
				t.Errorf("%s: got page %d of %d with %q, want no empty page", paper.Name, i+1, len(texts), text)
			}
		}
		printed := squeeze(strings.Join(texts, ""))
		folded := strings.ToLower(printed) // sentences begin with a capital
		for _, words := range want {
			if !strings.Contains(folded, strings.ToLower(squeeze(words))) {
				t.Errorf("%s: got no %q on paper, want it", paper.Name, words)
			}
		}
		for _, words := range buttons {
			if strings.Contains(printed, squeeze(words)) {
				t.Errorf("%s: got %q on paper, want no words of what can only be pressed", paper.Name, words)
			}
		}
	}
	if got := Eval[string](p, whatIsOpen); got != before {
		t.Errorf("got %s of the parts open after printing, want them as they were: %s", got, before)
	}
}

// sameSize compares sizes in points, a point more or less.
func sameSize(got, want string) bool {
	var a, b, c, d int
	if _, err := fmt.Sscanf(got+" "+want, "%d x %d %d x %d", &a, &b, &c, &d); err != nil {
		return false
	}
	return a-c <= 1 && c-a <= 1 && b-d <= 1 && d-b <= 1
}

// The button prints the page, once.
func TestPrintButton(t *testing.T) {
	p := Open(t, Phone)
	openFile(p, filepath.Join(testdata, "demo", "clean.case.json"))
	p.Do(`window.print = () => { window.printed = (window.printed ?? 0) + 1 }`)
	p.Click("#print")
	p.until("the page prints", "window.printed > 0")
	p.Settle()
	if got := Eval[int](p, "window.printed"); got != 1 {
		t.Errorf("got the page printed %d times, want once", got)
	}
}

// Every demo sheet prints within the paper's width on both papers: what is too wide would be cut off.
func TestPrintIsNotCutOff(t *testing.T) {
	p := Open(t, Tablet)
	p.Click("#example")
	p.WaitFor("#sheet")
	for i := 1; i <= p.Count(".machines button"); i++ {
		p.Show(Media{})
		press(p, fmt.Sprintf("#machine-%d", i))
		p.Settle()
		p.Show(Media{Print: true})
		for name, width := range map[string]int64{"a4": 695, "letter": 717} { // 210 mm and 216 mm less the margins of 13 mm, at 96 px to 25.4 mm
			p.Resize(Viewport{Width: width, Height: 1000, Scale: 1})
			p.Do(`dispatchEvent(new Event("beforeprint"))`)
			if wide := sideways(p); wide != "" {
				t.Errorf("machine %d, %s: got %s", i, name, wide)
			}
			p.Do(`dispatchEvent(new Event("afterprint"))`)
		}
	}
}
