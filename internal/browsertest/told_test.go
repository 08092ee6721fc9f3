package browsertest

import (
	"path/filepath"
	"strings"
	"testing"
)

// A person follows what is asked for to the form, types a zero check, and sees it among the reasons; it is saved, and gone when taken off.
func TestTypeAZeroCheck(t *testing.T) {
	p := Open(t, Tablet)
	openFile(p, filepath.Join(testdata, "demo", "drifted.case.json"))
	asked := "A zero check"
	if text := p.Text("#settle .asks li .ask-name"); !strings.HasPrefix(text, asked) {
		t.Fatalf("got %q, want %q asked for first", text, asked)
	}
	p.Click("#settle-1-enter")
	p.WaitFor("#k1-kind")
	p.until("the keyboard is in the first field", `document.activeElement.id === "k1-kind"`)
	p.Choose("#k1-kind", "zero")
	p.Type("#k1-shown", "118")
	p.Choose("#k1-at", "2025-08-20T08:10")
	p.Type("#k1-by", "fitter A")
	p.Click("#finish")
	p.WaitFor("#sheet")
	if text := p.Text("#noted"); text != "Cell checked on 20 August 2025, 08:10 UTC, with nothing on the platform: 118 kg shown (fitter A)." {
		t.Errorf("got %q, want the check as it was typed", text)
	}
	p.Click("#piece-1 summary")
	reason := "With nothing on the platform the machine showed 118 kg on 20 August 2025"
	if text := p.Text("#piece-1"); !strings.Contains(text, reason) {
		t.Errorf("got %q, want %q", text, reason)
	}
	if text := p.Text("#settle"); strings.Contains(text, asked) {
		t.Errorf("got %q, want no zero check asked for", text)
	}
	_, saved := p.Download(func() { p.Click("#save-case") })
	if !strings.Contains(string(saved), `"shown_kg": 118`) {
		t.Errorf("got %.200s, want the check in it", saved)
	}
	p.Click("#correct")
	p.WaitFor("#checks-fold")
	if p.Count("#k1-remove") == 0 {
		p.Click("#checks-fold")
	}
	p.Click("#k1-remove")
	p.WaitGone("#k1-kind")
	p.Click("#finish")
	p.WaitFor("#sheet")
	if text := p.Text("#settle .asks li .ask-name"); !strings.HasPrefix(text, asked) || p.Count("#noted li") > 0 {
		t.Errorf("got %q, want the check gone and asked for again", text)
	}
}

// A check that nothing asked for is entered from what the machine recorded; where it showed too little, the sheet no longer
// says that nothing went over.
func TestTypeACheckThatReadsLow(t *testing.T) {
	p := Open(t, Tablet)
	openFile(p, filepath.Join(testdata, "demo", "clean.case.json"))
	if text := p.Text("#summary"); !strings.HasPrefix(text, "The record shows no load over") {
		t.Fatalf("got %q, want nothing over", text)
	}
	p.Click("#tell-check")
	p.WaitFor("#k1-kind")
	p.Choose("#k1-kind", "zero")
	p.Type("#k1-shown", "-80")
	p.Choose("#k1-at", "2026-02-19T12:10")
	p.Click("#finish")
	p.WaitFor("#sheet")
	low := "the load cell showed 80 kg too little with nothing on the platform on 19 February 2026"
	for _, place := range []string{"#summary", "#over .answer"} {
		if text := p.Text(place); !strings.Contains(text, low) || !strings.Contains(text, "cannot be excluded") {
			t.Errorf("got %q, want %q", text, low)
		}
	}
	if text := p.Text("#handover .cautions"); !strings.Contains(text, "This load cell showed 80 kg too little") {
		t.Errorf("got %q, want the check among the cautions", text)
	}
}
