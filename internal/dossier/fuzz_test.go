package dossier_test

import (
	"encoding/json"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"ratchetmark/internal/batch"
	"ratchetmark/internal/cause"
	"ratchetmark/internal/dossier"
	"ratchetmark/internal/intake"
	"ratchetmark/internal/lashing"
	"ratchetmark/internal/record"
)

// Whatever was read: the dossier can be written, holds no number that is none,
// keeps its bounds in order, and accuses nobody.
func FuzzAssess(f *testing.F) {
	err := filepath.WalkDir(testdata, func(path string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		data, err := os.ReadFile(path)
		if err == nil && len(data) < 20_000 {
			f.Add(data)
		}
		return err
	})
	if err != nil {
		f.Fatal(err)
	}
	f.Add([]byte(`{"format":"ratchetmark case 1","machine":{"rated_load_kg":1e-310},"readings":[{"peak_kg":221,"bands":[{"from_kg":0,"to_kg":null,"hours":5e-324}]}]}`))
	f.Add([]byte(`{"format":"ratchetmark case 1","machine":{"rated_load_kg":1},"readings":[{"peak_kg":100000,"bands":[{"from_kg":0,"to_kg":null,"hours":200000}]}],"assumptions":{"slope":{"low":15,"value":15,"high":15},"design_cycles":{"low":1,"value":1,"high":1}}}`))
	f.Fuzz(func(t *testing.T, data []byte) {
		got, err := intake.ReadBytes("x", data)
		if err != nil {
			return
		}
		for _, d := range dossier.From([]batch.Batch{got}) {
			var line strings.Builder
			if err := dossier.WriteJSON(&line, &d); err != nil {
				t.Fatalf("got %v, want it written", err)
			}
			if !json.Valid([]byte(line.String())) || strings.Count(line.String(), "\n") != 1 {
				t.Fatalf("got %s, want one line of JSON", line.String())
			}
			if err := dossier.WriteText(io.Discard, &d); err != nil {
				t.Fatal(err)
			}
			sound(t, &d)
		}
	})
}

// sound checks what holds for every dossier.
func sound(t *testing.T, d *dossier.Dossier) {
	t.Helper()
	rides(t, d.Transport)
	ordered := func(what string, low float64, estimate, high *float64) {
		if estimate != nil && (*estimate < low || high != nil && *estimate > *high) || high != nil && *high < low || low < 0 {
			t.Fatalf("%s: got %v, %v, %v, want them in order", what, low, estimate, high)
		}
	}
	if c := d.Capacity; c != nil {
		for _, o := range c.HoursOver {
			ordered("hours over", o.Low, o.Estimate, &o.High)
			if o.High > c.Counted*(1+1e-8) {
				t.Fatalf("got %v h over %d %% of %v h counted", o.High, o.Percent, c.Counted)
			}
		}
		if m := c.MeanLoad; m != nil {
			ordered("mean load", m.Low, m.Estimate, m.High)
		}
	}
	if e := d.Exposure; e != nil {
		ordered("cycles", e.LoadCycles.Low, e.LoadCycles.Estimate, e.LoadCycles.High)
		ordered("exposure", e.Relative.Low, e.Relative.Estimate, e.Relative.High)
		ordered("spectrum factor", e.FactorKp.Low, e.FactorKp.Estimate, e.FactorKp.High)
	}
	for _, x := range d.Exceedances {
		if x.Verdict == cause.Worked {
			t.Fatalf("got %+v, want nobody accused", x)
		}
		if x.Hours != nil {
			ordered("hours", x.Hours.Low, &x.Hours.Estimate, &x.Hours.High)
		}
	}
	for what, text := range map[string]string{
		"summary": d.Answers.Summary, "recorded": d.Answers.Recorded, "carry": d.Answers.Carry, "over": d.Answers.Over, "cost": d.Answers.Cost,
	} {
		if text == "" || strings.Contains(text, "NaN") || strings.Contains(text, "Inf") && !strings.Contains(text, "Infinity") {
			t.Fatalf("%s: got %q, want words and numbers", what, text)
		}
	}
}

// rides checks what holds of how every machine rides.
func rides(t *testing.T, r *dossier.Transport) {
	t.Helper()
	for _, x := range []lashing.Reading{r.Strap.Apparent, r.Strap.Settled} {
		if !(0 <= x.Low && x.Low <= x.Estimate && x.Estimate <= x.High && x.High < 1e9) {
			t.Fatalf("got a load on the cell of %v, want it in order", x)
		}
	}
	if h := r.Held; h != nil && h.OK && (len(h.Margins) != 3 || record.Blocks(r.Check.Findings)) {
		t.Fatalf("got held with %+v, want nothing called held that was not worked out", h)
	}
	total := r.Trips.Total
	if total.Trips+total.Unread != len(r.Trips.List) || total.Raised > total.Trips || !(0 <= total.Low && total.Low <= total.High && total.High <= 1) {
		t.Fatalf("got %+v of %d trips, want them add up", total, len(r.Trips.List))
	}
}
