package dossier_test

import (
	"slices"
	"strings"
	"testing"
	"time"

	"ratchetmark/internal/record"
)

// check makes a check of the load shown on a day of 2026.
func check(on string, shown, mass record.Kilogram) record.LoadCheck {
	at, _ := time.Parse(time.DateOnly, on)
	k := record.LoadCheck{At: at, Kind: record.ZeroCheck, Shown: &shown}
	if mass > 0 {
		k.Kind, k.Mass = record.MassCheck, &mass
	}
	return k
}

// Where a check showed too little, nothing says that no load went over; where the latest
// of a kind is wrong, the cautions name it.
func TestCellThatReadsWrongly(t *testing.T) {
	for _, v := range []struct {
		name, path                    string
		checks                        []record.LoadCheck
		summary, over, caution, never string
	}{
		{"sound", "demo/clean.case.json", []record.LoadCheck{check("2026-02-19", 1, 0), check("2026-02-19", 190, 200)},
			"The record shows no load over", "Nothing went over the rated load.", "", "load cell"},
		{"zero too low", "demo/clean.case.json", []record.LoadCheck{check("2026-02-19", -80, 0)},
			"No load over the rated 350 kg was kept, but a real one cannot be excluded, because the load cell showed 80 kg too little with nothing on the platform on 19 February 2026. Keep it out of use",
			"a real overload cannot be excluded", "showed 80 kg too little", "no load over the rated 350 kg: "},
		{"gain too low", "demo/clean.case.json", []record.LoadCheck{check("2026-02-19", 0, 0), check("2026-02-19", 60, 200)},
			"140 kg too little with 200 kg on the platform", "a real overload cannot be excluded", "showed 140 kg too little with 200 kg", "Nothing went over"},
		{"set since", "demo/clean.case.json", []record.LoadCheck{check("2026-02-19", -80, 0), check("2026-02-20", 0, 0)},
			"a real one cannot be excluded", "a real overload cannot be excluded", "", "until the cell has been set"},
		{"too high", "demo/clean.case.json", []record.LoadCheck{check("2026-02-19", 118, 0)},
			"kg. The load cell showed 118 kg too much with nothing on the platform on 19 February 2026: have it set", "Nothing went over the rated load.", "showed 118 kg too much with nothing on the platform", "excluded"},
		{"over and too high", "demo/lashed.case.json", []record.LoadCheck{check("2026-02-19", 118, 0)},
			"has examined it, and the load cell, which showed 118 kg too much with nothing on the platform on 19 February 2026, has been set and checked again.", "pieces went over", "showed 118 kg too much", "excluded"},
		{"over and too low", "demo/lashed.case.json", []record.LoadCheck{check("2026-02-19", -80, 0)},
			"True loads may have been higher, because the load cell showed 80 kg too little", "pieces went over", "showed 80 kg too little", "cannot be excluded"},
	} {
		d := assessed(t, v.path, func(c *record.Case) { c.Checks = v.checks })
		if !strings.Contains(d.Answers.Summary, v.summary) {
			t.Errorf("%s: got %q, want %q", v.name, d.Answers.Summary, v.summary)
		}
		if !strings.Contains(d.Answers.Over, v.over) {
			t.Errorf("%s: got %q, want %q", v.name, d.Answers.Over, v.over)
		}
		if both := d.Answers.Summary + d.Answers.Over; strings.Contains(both, v.never) {
			t.Errorf("%s: got %q, want no %q", v.name, both, v.never)
		}
		named := slices.ContainsFunc(d.Cautions, func(c string) bool {
			return strings.HasPrefix(c, "This load cell") && strings.Contains(c, v.caution)
		})
		if named != (v.caution != "") {
			t.Errorf("%s: got cautions %q, want %q", v.name, d.Cautions, v.caution)
		}
	}
}

// Of many checks the latest are told of, whatever their order in the case, and how
// many there are besides.
func TestManyChecks(t *testing.T) {
	first, _ := time.Parse(time.DateOnly, "2026-01-01")
	d := assessed(t, "demo/clean.case.json", func(c *record.Case) {
		c.Checks = nil
		for i := range 30 {
			c.Checks = append(c.Checks, check(first.AddDate(0, 0, (i*7)%30).Format(time.DateOnly), 1, 0))
		}
	})
	if n := len(d.Noted); n != 9 {
		t.Fatalf("got %d sentences, want eight checks and one of how many more", n)
	}
	if !strings.Contains(d.Noted[0], "23 January 2026") || !strings.Contains(d.Noted[7], "30 January 2026") || !strings.HasSuffix(d.Noted[8], "in the case too: 22.") {
		t.Errorf("got %q, want the checks of 23 to 30 January and 22 more", d.Noted)
	}
}
