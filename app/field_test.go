package app

import (
	"regexp"
	"strings"
	"testing"

	"ratchetmark/app/model"
)

var (
	controls  = regexp.MustCompile(`<(?:input|select) [^>]*id="([^"]*)"[^>]*>`)
	describes = regexp.MustCompile(`aria-describedby="([^"]*)"`)
	allIDs    = regexp.MustCompile(` id="([^"]*)"`)
)

// allFields lays every field of the sheet open, with a problem in each question.
func allFields() *model.Model {
	m := model.New(shelf{"carry"})
	m.Open([]model.File{{Name: "several-rated-loads.case.json"}})
	for _, part := range []string{"rules", "planner", "any", "crews", "worth", "tell", "holding", "assumed-", "assumed-causes"} {
		m.Unfold(m.FoldKey(part, 0))
	}
	m.AddZone()
	m.AddLashing()
	m.Fill(m.PersonInputs(0)[1], "heavy")
	m.Fill(m.StructureInputs()[1], "a lot")
	m.Fill(m.HeldInputs()[2], "slippery")
	m.Fill(m.LashingInputs(1)[2], "two")
	for _, a := range m.Case().Dossier.Assumptions {
		if a.ID == "cycles_per_hour" {
			m.Fill(m.AssumptionInputs(a)[0], "few")
		}
	}
	return m
}

// Every field, of the form and of the sheet, is marked up alike: it has a label,
// says whether it can be read, and names what is said about it, which is there.
func TestFieldsAreAlike(t *testing.T) {
	form := again(t)
	form.Type(model.FieldOf(model.OfReading, "peak_kg", 6, 0), "high")
	form.Finish()
	for name, c := range map[string]struct {
		m                *model.Model
		fields, problems int
	}{"sheet": {allFields(), 90, 5}, "form": {form, 40, 1}} {
		html := page(t, c.m)
		ids := map[string]bool{}
		for _, id := range allIDs.FindAllStringSubmatch(html, -1) {
			ids[id[1]] = true
		}
		fields, problems := controls.FindAllStringSubmatch(html, -1), 0
		for _, f := range fields {
			tag, id := f[0], f[1]
			if !strings.Contains(html, `<label for="`+id+`">`) {
				t.Errorf("%s: got no label for %s", name, id)
			}
			about := describes.FindStringSubmatch(tag)
			if about == nil {
				t.Errorf("%s: got %s, want it to name what is said about it", name, tag)
				continue
			}
			for _, ref := range strings.Fields(about[1]) {
				if !ids[ref] {
					t.Errorf("%s: %s names %s, which is not there", name, id, ref)
				}
			}
			wrong := strings.Contains(about[1], id+"-problem")
			if wrong {
				problems++
			}
			if wrong != strings.Contains(tag, `aria-invalid="true"`) || wrong != ids[id+"-problem"] {
				t.Errorf("%s: got %s, problem there %v, want both or neither", name, tag, ids[id+"-problem"])
			}
		}
		if len(fields) < c.fields || problems < c.problems {
			t.Errorf("%s: got %d fields with %d problems, want at least %d and %d", name, len(fields), problems, c.fields, c.problems)
		}
	}
}

// Undo and redo stand on the sheet once something was set, and say what they do.
func TestUndoOnTheSheetIsShown(t *testing.T) {
	m := model.New(shelf{"demo"})
	m.Open([]model.File{{Name: "lashed.case.json"}})
	if html := page(t, m); strings.Contains(html, `id="undo"`) {
		t.Error("got undo on a sheet on which nothing was set")
	}
	m.Unfold(m.FoldKey("rules", 0))
	m.AddZone()
	m.AddZone()
	m.Fill(m.ZoneInputs(1)[1], "120")
	html := page(t, m)
	for _, want := range []string{"Undo: rated load of zone 2", `id="undo"`, `id="redo"`, `aria-label="Rated load: 10 kg more"`} {
		if !strings.Contains(html, want) {
			t.Errorf("got no %q, want it", want)
		}
	}
	m.Undo()
	if html := page(t, m); !strings.Contains(html, "Redo: rated load of zone 2") || !strings.Contains(html, "Undone: rated load of zone 2.") {
		t.Error("got nothing said of what was undone, or nothing to redo")
	}
}

// A slider says what it stands at; a field left blank says what that counts as.
func TestWhatAFieldSays(t *testing.T) {
	m := allFields()
	m.Fill(m.StrapInputs()[4], "")
	m.Fill(m.StrapInputs()[5], "75")
	html := page(t, m)
	for _, want := range []string{"Angle to the deck: 75\u00b0", `placeholder="usual: 1"`, `type="range"`, `min="5"`, `max="90"`, `step="5"`} {
		if !strings.Contains(html, want) {
			t.Errorf("got no %s, want it", want)
		}
	}
}
