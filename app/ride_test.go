package app

import (
	"strings"
	"testing"

	"ratchetmark/app/model"
)

// section returns the markup of an element by its id, up to the next question.
func section(html, id string) string {
	_, rest, _ := strings.Cut(html, `id="`+id+`"`)
	part, _, _ := strings.Cut(rest, `class="question"`)
	return part
}

// The section opens with its answer, names the rule and what it does not cover,
// and shows the fields only once they are asked for.
func TestRideSection(t *testing.T) {
	m := model.New(shelf{"lash"})
	m.Open([]model.File{{Name: "held-en.case.json"}})
	html := section(page(t, m), "ride")
	for _, want := range []string{
		"How should it ride?", "Held by EN 12195-1:2010: forward 148 %", "One 50 mm ratchet strap with long lever over the rails would read as 609 to 1599 kg",
		"The peak of 812 kg is what one 50 mm ratchet strap with long lever at 60 degrees over the rails gives", "That something would give a load does not say that it did.",
		"beyond anything the type test covers", "does not cover the anchor points", "manual and local law come first", "2 x chain 8 mm, grade 8",
		"from memory", "Make the card", "the one trip with readings raised the peak", "nothing to compare",
	} {
		if !strings.Contains(strings.ToLower(html), strings.ToLower(want)) {
			t.Errorf("got no %q on the sheet", want)
		}
	}
	if strings.Contains(html, `id="ride-gear-1"`) || !strings.Contains(html, `id="ride-device"`) {
		t.Error("got the fields of lashings before they are asked for, or no strap to change")
	}
	m.Unfold("holding-0-0")
	held := m.HeldInputs()
	m.Fill(held[2], "0.9")
	m.Fill(held[0], "6,840")
	html = section(page(t, m), "ride")
	for _, want := range []string{`id="ride-gear-1"`, `id="ride-plan-2"`, "can be read two ways", "friction coefficient is 0.9", "Whether it is held cannot be said yet", "Add lashings"} {
		if !strings.Contains(html, want) {
			t.Errorf("got no %q once it is laid open", want)
		}
	}
}

// Without anything entered the section still answers, and offers four chains.
func TestRideSectionOfNothing(t *testing.T) {
	for _, file := range []struct{ folder, name string }{{"bad", "no-rated-load.case.json"}, {"bad", "no-reading.case.json"}, {"delimited", "template.csv"}} {
		m := model.New(shelf{file.folder})
		m.Open([]model.File{{Name: file.name}})
		m.Unfold("holding-0-0")
		html := section(page(t, m), "ride")
		for _, want := range []string{"Hold it at the tie-down points its maker names", "would read as 305 to 560 kg", "Begin with four chains"} {
			if !strings.Contains(html, want) {
				t.Errorf("%s: got no %q", file.name, want)
			}
		}
	}
}

// The card is a page of its own, in the language that was chosen; what a file
// says is text on it.
func TestCardPage(t *testing.T) {
	m := model.New(shelf{"lash"})
	m.Open([]model.File{{Name: "held-cfr.case.json"}})
	m.Fill(m.LanguageInput(), "de")
	m.ShowCard()
	html := page(t, m)
	for _, want := range []string{"So fährt diese Maschine mit", "NF-32, 6840 kg", "Niemals", `lang="de"`, "nicht geprüft", "Print or save as PDF", "Save as a picture"} {
		if !strings.Contains(html, want) {
			t.Errorf("got no %q on the card", want)
		}
	}
	if strings.Contains(html, `id="sheet"`) {
		t.Error("got the sheet beside the card")
	}
	m = model.New(shelf{"bad"})
	m.Open([]model.File{{Name: "html-in-fields.case.json"}})
	m.ShowCard()
	if html := page(t, m); strings.Contains(html, "<script") || strings.Contains(html, "<img") || !strings.Contains(html, `id="card"`) {
		t.Error("got markup of a file as markup, want it as text")
	}
}
