package dossier_test

import (
	"bytes"
	"strings"
	"testing"

	"ratchetmark/internal/dossier"
)

// The most used up machine comes first, each with its reasons, and no word says
// what is to become of it.
func TestRanking(t *testing.T) {
	var all []dossier.Dossier
	for _, name := range []string{"clean", "lashed", "worked", "drifted", "mixed"} {
		all = append(all, dossiers(t, "demo/"+name+".case.json")...)
	}
	all = append(all, dossiers(t, "bad/no-rated-load.case.json")...) // has no exposure, and no place
	var each []*dossier.Dossier
	for i := range all {
		each = append(each, &all[i])
	}
	p := dossier.Ranking(each)
	if len(p.Ranges) != 5 || len(p.Lines) != 6 {
		t.Fatalf("got %d ranges and %d lines, want 5 and 6", len(p.Ranges), len(p.Lines))
	}
	for i := 1; i < len(p.Ranges); i++ {
		if *p.Ranges[i].Bounds.Estimate > *p.Ranges[i-1].Bounds.Estimate {
			t.Errorf("%s: got it behind %s, want it ahead", p.Ranges[i].Words, p.Ranges[i-1].Words)
		}
		if !strings.HasPrefix(p.Lines[i], p.Ranges[i].Words+": ") {
			t.Errorf("%s: got reasons %q, want its own", p.Ranges[i].Words, p.Lines[i])
		}
	}
	var text bytes.Buffer
	if err := dossier.WriteRanking(&text, all); err != nil {
		t.Fatal(err)
	}
	for _, word := range []string{"keep", "retire", "scrap", "sell", "safe", "remaining"} {
		if strings.Contains(strings.ToLower(text.String()), word) {
			t.Errorf("got the word %q, want no advice", word)
		}
	}
	text.Reset()
	if err := dossier.WriteRanking(&text, all[:1]); err != nil || text.Len() > 0 {
		t.Errorf("one machine: got %q, want nothing", text.String())
	}
}
