package app

import (
	"strings"
	"testing"

	"ratchetmark/app/model"
	"ratchetmark/internal/dossier"
)

// sheetOf opens files of the demo and shows the first.
func sheetOf(folder string, names ...string) *model.Model {
	m := model.New(shelf{folder})
	for _, n := range names {
		m.Open([]model.File{{Name: n}})
	}
	m.Choose(0)
	return m
}

// Each part of the reasoning stands on the sheet with its title and its answer;
// the ranking only beside other machines, the form only when it is asked for.
func TestCostParts(t *testing.T) {
	m := sheetOf("demo", "lashed.case.json")
	html := page(t, m)
	for _, p := range dossier.CostParts(&m.Case().Dossier) {
		for _, want := range []string{`id="cost-` + p.ID + `"`, escaped(p.Title), escaped(p.Answer)} {
			if !strings.Contains(html, want) {
				t.Errorf("%s: got no %s on the sheet, want it", p.ID, want)
			}
		}
		for _, line := range p.Lines {
			if !strings.Contains(html, escaped(line)) {
				t.Errorf("%s: got no %q on the sheet, want it", p.ID, line)
			}
		}
	}
	for what, unwanted := range map[string]string{"a ranking": `id="cost-fleet"`, "the form": `id="told-claim"`} {
		if strings.Contains(html, unwanted) {
			t.Errorf("got %s, want none yet", what)
		}
	}
	m = sheetOf("demo", "lashed.case.json", "clean.case.json")
	if html := page(t, m); !strings.Contains(html, `id="cost-fleet"`) {
		t.Error("got no ranking of two machines, want one")
	}
}

// The form shows what is told, and what is wrong with it.
func TestStructureForm(t *testing.T) {
	m := sheetOf("structure", "crack.case.json")
	m.Unfold("tell-0-0")
	html := page(t, m)
	for _, want := range []string{`id="told-claim"`, `id="told-category"`, `id="told-assessment"`} {
		if !strings.Contains(html, want) {
			t.Errorf("got no %s, want it", want)
		}
	}
	for _, f := range m.StructureInputs() {
		if f.ID == "told-category" {
			m.Fill(f, "strong")
		}
	}
	if html := page(t, m); !strings.Contains(html, `aria-invalid="true"`) || !strings.Contains(html, "is not a number") {
		t.Error("got nothing said of a category that is no number")
	}
}

// escaped writes words as the renderer does.
func escaped(words string) string {
	return strings.NewReplacer("&", "&amp;", "'", "&#39;", "<", "&lt;", ">", "&gt;", `"`, "&#34;").Replace(words)
}
