package app

import (
	"regexp"
	"strings"
	"testing"

	"ratchetmark/app/model"
)

// laidOpen renders the sheet of a file with every part of what it may carry
// laid open.
func laidOpen(t *testing.T, folder, name string, change func(m *model.Model)) string {
	t.Helper()
	m := model.New(shelf{folder})
	m.Open([]model.File{{Name: name}})
	for _, part := range []string{"rules", "planner", "any", "crews", "worth"} {
		m.Unfold(part + "-0-0")
	}
	if change != nil {
		change(m)
	}
	return page(t, m)
}

// Every part of what a machine may carry opens with its answer, and shows its
// fields once it is laid open.
func TestCarryParts(t *testing.T) {
	html := laidOpen(t, "carry", "several-rated-loads.case.json", nil)
	for _, want := range []string{
		"It has 3 rated loads.",
		"Rules: EN 280-1:2022; Great Britain", `id="region"`, `id="edition"`, `id="zone-2-rated"`, `id="static_test_pct-value"`, "DGUV Information 208-019, 4.1",
		"Plan a crew: 25 kg left, 8 % of the rated load", `id="plan-p2-body"`, `id="plan-i2-count"`, "together 274.4 kg",
		"Hours over any load. Over 250 kg: between 2.0 and 20.0 h", `id="any-load"`, "The two estimates differ by at most",
		"A crew of 2 drawn at random is over the rated load in 11 % of cases", `id="crew-population"`, "HSE RR342",
		"200 kg to 320 kg:", "2 persons + 40 kg to 4 persons", "One person of 80 kg leaves 220 kg; of 97.4 kg 202 kg.",
		"After an overload: what is asked, and of whom", "LOLER:1998, reg. 9(3)",
	} {
		if !strings.Contains(html, strings.ReplaceAll(want, "'", "&#39;")) {
			t.Errorf("got no %q on the sheet, want it", want)
		}
	}
}

// Folded, none of the fields is there, and what is asked after an overload is
// open only where something went over.
func TestCarryIsCalm(t *testing.T) {
	for name, open := range map[string]bool{"lashed.case.json": true, "clean.case.json": false} {
		m := model.New(shelf{"demo"})
		m.Open([]model.File{{Name: name}})
		html := page(t, m)
		for _, id := range []string{"region", "any-load", "crew-population", "add-person"} {
			if strings.Contains(html, `id="`+id+`"`) {
				t.Errorf("%s: got the field %s on a folded sheet, want none", name, id)
			}
		}
		part := html[strings.Index(html, `id="after"`):]
		if got := strings.Contains(part[:strings.Index(part, ">")], "open"); got != open {
			t.Errorf("%s: got the list after an overload open: %v, want %v", name, got, open)
		}
		m.Unfold(map[bool]string{true: "after-over-0-0", false: "after-0-0"}[open])
		part = page(t, m)
		part = part[strings.Index(part, `id="after"`):]
		if got := strings.Contains(part[:strings.Index(part, ">")], "open"); got == open {
			t.Errorf("%s: got the list open: %v once it was turned, want %v", name, got, !open)
		}
	}
}

// What makes no sense is said beside its field, never as a figure.
func TestCarryProblems(t *testing.T) {
	html := laidOpen(t, "carry", "pounds.case.json", func(m *model.Model) { m.AddPerson() })
	for _, want := range []string{
		"Plan a crew: not added up yet", "still to be typed; expected from 30 to 400 kg",
		"load is -5 kg; expected from 0 to 100000 kg", "the group of people martians is not known here", "martians (not known here)", "set for this case",
	} {
		if !strings.Contains(html, want) {
			t.Errorf("got no %q on the sheet, want it", want)
		}
	}
}

// No id stands twice on a sheet that is laid open: labels and the keyboard need
// them apart.
func TestSheetIDsAreUnique(t *testing.T) {
	for _, name := range []string{"several-rated-loads.case.json", "pounds.case.json"} {
		html := laidOpen(t, "carry", name, func(m *model.Model) { m.Unfold("assumptions-0-0") })
		seen := map[string]bool{}
		for _, id := range regexp.MustCompile(` id="([^"]*)"`).FindAllStringSubmatch(html, -1) {
			if seen[id[1]] {
				t.Errorf("%s: got id %q twice, want it once", name, id[1])
			}
			seen[id[1]] = true
		}
		if len(seen) < 40 {
			t.Errorf("%s: got %d ids, want those of all fields", name, len(seen))
		}
	}
}

// Machines without a rated load have no figures of it, but rules to choose.
func TestCarryWithoutRatedLoad(t *testing.T) {
	html := laidOpen(t, "bad", "no-rated-load.case.json", nil)
	if !strings.Contains(html, `id="region"`) || strings.Contains(html, `id="planner"`) || strings.Contains(html, `id="crews"`) {
		t.Error("got a planner or a crew without a rated load, or no rules")
	}
}
