package browsertest

import (
	"encoding/xml"
	"fmt"
	"io"
	"path/filepath"
	"strings"
	"testing"
)

// slide moves a slider as a finger does.
func slide(p *Page, selector, value string) {
	p.t.Helper()
	p.Do(`(() => {
		const slider = document.querySelector(` + quote(selector) + `);
		slider.value = ` + quote(value) + `;
		slider.dispatchEvent(new Event("input", { bubbles: true }));
	})()`)
	p.Settle()
}

// drawn returns what is drawn of the load on the cell and of the machine.
func rideDrawn(p *Page) string {
	return Eval[string](p, `[...document.querySelectorAll("#ride .figure .picture > div")].filter((e) => e.checkVisibility()).map((e) => e.innerHTML).join("")`)
}

func set(p *Page, selector, value string) {
	p.t.Helper()
	p.Choose(selector, value)
	p.Settle()
}

// Whoever changes the strap sees the load on the cell move, in words and in
// the drawing, on a tablet and a phone.
func TestStrapMoves(t *testing.T) {
	for _, size := range []Viewport{Tablet, Phone} {
		t.Run(size.Name, func(t *testing.T) {
			p := Open(t, size)
			openFile(p, filepath.Join(testdata, "demo", "lashed.case.json"))
			was, words := rideDrawn(p), p.Text("#strap")
			if !strings.Contains(words, "305 to 560 kg") {
				t.Errorf("got %q at the beginning, want 305 to 560 kg", words)
			}
			for _, step := range []struct {
				what string
				do   func()
				want string
			}{
				{"a long lever", func() { set(p, "#ride-device", "web-50-long") }, "609 to 1599 kg"},
				{"vertical", func() { slide(p, "#ride-angle-deg", "90") }, "90\u00b0"},
				{"two straps", func() { p.Type("#ride-straps", "2"); p.Settle() }, "2 x 50 mm"},
				{"a rough edge", func() { set(p, "#ride-edge", "rough") }, "2 x 50 mm"},
				{"a block", func() { set(p, "#ride-blocked", "true") }, "with a block under it"},
				{"over the floor", func() { set(p, "#ride-route", "floor") }, "over the floor"},
				{"nothing", func() { set(p, "#ride-route", "none") }, "Nothing goes over the platform"},
			} {
				step.do()
				now, said := rideDrawn(p), p.Text("#strap")+" "+p.Text("#ride .fields.knobs")
				if now == was || p.Text("#strap") == words && step.what != "vertical" || !strings.Contains(said, step.want) {
					t.Errorf("%s: got %q, want %q and another drawing", step.what, said, step.want)
				}
				was, words = now, p.Text("#strap")
			}
			if strings.Contains(p.Text("#ride-answer"), "NaN") || p.Count("#crash") > 0 {
				t.Error("got a fault, want none")
			}
		})
	}
}

// The machine is held or not, by the rule that is chosen; dangerous figures are
// refused with their reason; all of it is kept on the device and in the case.
func TestMachineHeld(t *testing.T) {
	p := Open(t, Tablet)
	openFile(p, filepath.Join(testdata, "demo", "lashed.case.json"))
	press(p, "#holding > summary")
	p.WaitFor("#add-lashing")
	p.Click("#add-lashing")
	p.WaitFor("#ride-gear-2")
	set(p, "#ride-lowered", "true")
	if got := p.Text("#held"); !strings.Contains(got, "Held by EN 12195-1:2010: forward 148 %, rear 237 %, sideways 170 %") {
		t.Errorf("got %q, want it held", got)
	}
	set(p, "#ride-gear-2", "chain-6")
	p.Type("#ride-mass-kg", "15800")
	p.Settle()
	if got := p.Text("#held"); !strings.Contains(got, "NOT held") || !strings.Contains(rideHTML(p), "not held") {
		t.Errorf("got %q, want it not held in words and drawing", got)
	}
	p.Type("#ride-friction", "0.9")
	p.Settle()
	if got := p.Text("#ride-findings"); !strings.Contains(got, "friction coefficient is 0.9") || !strings.Contains(got, "no row of the table") || strings.Contains(p.Text("#held"), "forward") {
		t.Errorf("got %q and %q, want the friction refused and nothing worked out", got, p.Text("#held"))
	}
	p.Type("#ride-friction", "slippery")
	p.Settle()
	if got := p.Text("#ride-friction-problem"); got == "" || Eval[string](p, `document.querySelector("#ride-friction").value`) != "slippery" {
		t.Errorf("got %q, want it said and what was typed kept", got)
	}
	p.Type("#ride-friction", "0,45")
	p.Type("#ride-mass-kg", "6840")
	p.Settle()
	set(p, "#ride-rule", "49 CFR 393")
	if got := p.Text("#held") + p.Text("#not-covered"); !strings.Contains(got, "49 CFR 393") || !strings.Contains(got, "does not cover the anchor points") {
		t.Errorf("got %q, want the rule and what it does not cover", got)
	}
	held := p.Text("#held")
	_, saved := p.Download(func() { p.Click("#save-case") })
	for _, want := range []string{`"rule": "49 CFR 393"`, `"friction": 0.45`, `"gear": "chain-6"`} {
		if !strings.Contains(string(saved), want) {
			t.Errorf("got no %s in the saved case", want)
		}
	}
	p.Go("/")
	p.WaitReady()
	p.WaitFor(".kept li")
	press(p, ".kept li button[id^=open-]")
	p.WaitFor("#ride")
	if got := p.Text("#held"); got != held {
		t.Errorf("opened again: got %q, want %q", got, held)
	}
}

func rideHTML(p *Page) string {
	return Eval[string](p, `document.querySelector("#ride .reasoning").innerHTML`)
}

// The card prints on one page of either paper, in every language, with what must
// never be done and with no words of what can only be pressed.
func TestCardPrintsOnOnePage(t *testing.T) {
	p := Open(t, Tablet)
	p.Click("#example")
	p.WaitFor("#sheet")
	press(p, "#machine-3")
	p.Settle()
	press(p, "#holding > summary")
	p.WaitFor("#add-lashing")
	p.Click("#add-lashing")
	p.WaitFor("#ride-gear-2")
	for _, rows := range []int{2, 5, 12} { // twelve are the most there can be
		for p.Count("#holding .line") < rows {
			press(p, "#add-lashing")
			p.Settle()
		}
		press(p, "#show-card")
		p.WaitFor("#card")
		onOnePage(t, p)
		press(p, "#leave-card")
		p.WaitFor("#sheet")
	}
}

// onOnePage prints the card that is shown in every language on either paper.
func onOnePage(t *testing.T, p *Page) {
	t.Helper()
	for lang, never := range map[string]string{"en": "Never ratchet over the platform", "de": "Nie über Plattform", "fr": "Ne jamais sangler", "es": "Nunca pasar cintas"} {
		set(p, "#ride-language", lang)
		p.WaitText("#card", never)
		for _, paper := range []struct {
			Paper
			size string
		}{{A4, "595 x 842"}, {Letter, "612 x 792"}} {
			texts, size := pages(t, p.PDF(paper.Paper))
			if len(texts) != 1 || !sameSize(size, paper.size) {
				t.Errorf("%s, %s: got %d pages of %s, want one of %s", lang, paper.Name, len(texts), size, paper.size)
			}
			bare := func(text string) string { return strings.ReplaceAll(squeeze(text), "-", "") } // a hyphen at the end of a line is not read back
			printed := bare(strings.Join(texts, ""))
			want := Eval[[]string](p, `[...document.querySelectorAll(".card-sheet h1, .card-sheet h2, .card-sheet li, .card-foot")].map((e) => e.textContent)`)
			if len(want) < 20 {
				t.Fatalf("got %d things to look for, want 20", len(want))
			}
			for _, words := range want {
				if !strings.Contains(printed, bare(words)) {
					t.Errorf("%s, %s: got no %q on paper", lang, paper.Name, words)
				}
			}
			for _, words := range []string{"Save as a picture", "Back to the sheet", "Language of the card"} {
				if strings.Contains(printed, bare(words)) {
					t.Errorf("%s, %s: got %q on paper, want no words of what can only be pressed", lang, paper.Name, words)
				}
			}
		}
	}
}

// The card is saved as a picture that was made on the device and stands by itself.
func TestCardPicture(t *testing.T) {
	p := Open(t, Phone)
	openFile(p, filepath.Join(testdata, "lash", "held-en.case.json"))
	p.Click("#show-card")
	p.WaitFor("#card")
	name, svg := p.Download(func() { p.Click("#save-card") })
	if name != "NF-31.card.svg" {
		t.Errorf("got %s, want NF-31.card.svg", name)
	}
	words := ""
	for dec := xml.NewDecoder(strings.NewReader(string(svg))); ; {
		token, err := dec.Token()
		if err == io.EOF {
			break
		}
		if err != nil {
			t.Fatalf("got %v, want well-formed XML", err)
		}
		if text, ok := token.(xml.CharData); ok {
			words += string(text) + " "
		}
	}
	for _, want := range Eval[[]string](p, `[...document.querySelectorAll(".card-sheet h1, .card-sheet h2, .card-sheet li")].map((e) => e.textContent)`) {
		if !strings.Contains(squeeze(words), squeeze(want)) {
			t.Errorf("got no %q in the picture", want)
		}
	}
	if strings.Contains(string(svg), "http://") && strings.Count(string(svg), "http") != strings.Count(string(svg), "http://www.w3.org/2000/svg") {
		t.Error("got an address in the picture, want none to be fetched")
	}
}

// The section fits every width without being moved sideways, its parts laid open.
func TestRideFits(t *testing.T) {
	p := Open(t, Tablet)
	openFile(p, filepath.Join(testdata, "lash", "held-cfr.case.json"))
	press(p, "#holding > summary")
	p.WaitFor("#add-lashing")
	for _, width := range []int64{320, 390, 768, 1024, 1400} {
		p.Resize(Viewport{Name: fmt.Sprint(width), Width: width, Height: 900, Scale: 1})
		p.Settle()
		if wide := sideways(p); wide != "" {
			t.Errorf("%d px: got %s", width, wide)
		}
	}
	p.Click("#show-card")
	p.WaitFor("#card")
	for _, width := range []int64{320, 390, 768, 1400} {
		p.Resize(Viewport{Name: fmt.Sprint(width), Width: width, Height: 900, Scale: 1})
		p.Settle()
		if wide := sideways(p); wide != "" {
			t.Errorf("card, %d px: got %s", width, wide)
		}
	}
}
