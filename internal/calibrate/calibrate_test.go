package calibrate_test

import (
	"bytes"
	"encoding/json"
	"math"
	"strings"
	"testing"

	"ratchetmark/internal/calibrate"
)

// What is said of 1,200 lives with a seed that nothing was adjusted with. The
// bounds are what has to hold, not what is reached: see the figures in
// DEVELOPERS.md.
func TestHolds(t *testing.T) {
	r := calibrate.Run(1200, 7)
	for _, s := range r.Sets {
		f := s.Figures
		if f.Pieces < 100 {
			t.Fatalf("%s: got %d pieces, want enough to tell", s.Name, f.Pieces)
		}
		const most = 0.01
		wrong := *f.FalseWorked.OfOthers.Value()
		if s.Name != "all" { // of some hundred pieces: what may be chance is let pass
			wrong, _ = f.FalseWorked.OfOthers.Interval()
		}
		if wrong > most {
			t.Errorf("%s: got %d of %d that were not work called worked, want at most %v", s.Name, f.FalseWorked.OfOthers.Part, f.FalseWorked.OfOthers.Whole, most)
		}
		sum := 0
		for _, row := range f.Confusion {
			for _, n := range row {
				sum += n
			}
		}
		if sum != f.Pieces {
			t.Errorf("%s: got %d verdicts, want one for each of %d pieces", s.Name, sum, f.Pieces)
		}
	}
	all := r.Sets[0].Figures
	if *all.Cllr > 0.78 || *all.Multi > 1.35 || *all.Off > 0.05 {
		t.Errorf("got Cllr %.3f and %.3f, off by %.3f, want better than 0.78, 1.35 and 0.05", *all.Cllr, *all.Multi, *all.Off)
	}
	if given, wrong := *all.Given.Value(), *all.Wrong.Value(); given < 0.13 || wrong > 0.18 {
		t.Errorf("got verdicts on %.3f of the pieces, %.3f of them wrong, want at least 0.13 and at most 0.18", given, wrong)
	}
	// What was asked for is of the same pieces, and tells more of them.
	if before, after := r.Sets[4].Figures, r.Sets[5].Figures; before.By != after.By || *after.Cllr > *before.Cllr || *after.Brier > *before.Brier || *after.Multi > *before.Multi {
		t.Errorf("got %v pieces with Cllr %.3f, %.3f and Brier %.3f once asked for, want the %v with events and better than %.3f, %.3f and %.3f",
			after.By, *after.Cllr, *after.Multi, *after.Brier, before.By, *before.Cllr, *before.Multi, *before.Brier)
	}
	// More of a record tells more.
	if least, most := r.Sets[1].Figures, r.Sets[4].Figures; *most.Cllr > *least.Cllr || *most.Brier > *least.Brier {
		t.Errorf("got Cllr %.3f and Brier %.3f with the most written down, want them under %.3f and %.3f", *most.Cllr, *most.Brier, *least.Cllr, *least.Brier)
	}
}

// The same seed gives the same report, whatever the number of processors.
func TestDeterministic(t *testing.T) {
	var a, b bytes.Buffer
	one, two := calibrate.Run(60, 3), calibrate.Run(60, 3)
	if err := json.NewEncoder(&a).Encode(one); err != nil {
		t.Fatal(err)
	}
	if err := json.NewEncoder(&b).Encode(two); err != nil {
		t.Fatal(err)
	}
	if a.String() != b.String() {
		t.Error("got two reports that differ, want the same")
	}
	var text bytes.Buffer
	if err := calibrate.WriteText(&text, &one); err != nil {
		t.Fatal(err)
	}
	for _, want := range []string{"false worked", "readings that bracket custody", "verdict by truth"} {
		if !strings.Contains(text.String(), want) {
			t.Errorf("got no %q in the report, want it", want)
		}
	}
	if strings.Contains(text.String(), "NaN") || math.IsNaN(*one.Sets[0].Figures.Brier) {
		t.Error("got a figure that is no number")
	}
}
