package app

import (
	"strings"
	"testing"

	"ratchetmark/app/model"
)

// The list is not there while nothing is kept; it has each machine, what it
// came to and what can be done with it, and asks in place before it deletes.
func TestRecent(t *testing.T) {
	m := model.New(shelf{"demo"})
	if html := page(t, m); strings.Contains(html, "On this device") {
		t.Error("got a list of nothing, want none")
	}
	names := []string{"clean", "drifted", "lashed", "mixed", "worked"}
	for _, name := range names {
		m.Open([]model.File{{Name: name + ".case.json"}})
	}
	m.GoStart()
	html := page(t, m)
	for _, want := range []string{"On this device", "NF-07, boom lift", "worked, part undecided, changed today at ", "Open: NF-07", "Save: NF-07", "Delete: NF-07", "Save all as one file"} {
		if !strings.Contains(html, want) {
			t.Errorf("got no %q on the start page, want it", want)
		}
	}
	if strings.Contains(html, "recent-search") {
		t.Error("got a search for five machines, want none")
	}
	m.TypeNew()
	m.Form.ID = "<b>T-1</b>"
	m.Changed()
	m.AskDelete(m.Recent[0].Key)
	m.GoStart()
	html = page(t, m)
	for _, want := range []string{"recent-search", "&lt;b&gt;T-1", "delete it from this device?", "Keep it: "} {
		if !strings.Contains(html, want) {
			t.Errorf("got no %q on the start page, want it", want)
		}
	}
	m.Search = "scissor"
	if html = page(t, m); strings.Contains(html, "Open: NF-07") || !strings.Contains(html, " of 6 found") {
		t.Error("got NF-07 among the scissor lifts, want it left out, and the number said")
	}
}
