package dossier_test

import (
	"encoding/json"
	"fmt"
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
	f.Add([]byte(`{"format":"ratchetmark case 1","machine":{"rated_load_kg":200,"in_service":"2024-01-01"},"readings":[{"at":"2025-01-01T00:00:00Z","moving_h":90,"peak_kg":900,"bands":[{"from_kg":0,"to_kg":150,"hours":100},{"from_kg":150,"to_kg":null,"hours":3}]}],` +
		`"custody":[{"from":"2024-06-01T00:00:00Z","to":"2024-06-01T09:00:00Z","holder":"transit","who":""}],` +
		`"structure":{"cycles_from":"count","load_cycles":1e9,"stress_range_mpa":2000,"curve":{"slope":20,"range_or_amplitude_at":[0.1,1]},"maker_test_kg":1,"disposal":"9999-12-31","claim":"crack"}}`))
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
		for what, b := range everyBounds(e) {
			ordered(what, b.Low, b.Estimate, b.High)
		}
		for _, s := range e.Claim.Shares {
			if *s.Exposure.High > 1 {
				t.Fatalf("%s: got a share of %v, want at most all", s.Group, *s.Exposure.High)
			}
		}
		for _, p := range append(dossier.CostParts(d), dossier.Main(d)) {
			if text := fmt.Sprint(p); strings.Contains(text, "NaN") || strings.Contains(text, "Inf") {
				t.Fatalf("%s: got %s, want words and numbers", p.ID, text)
			}
		}
	}
	for _, x := range d.Exceedances {
		if x.Verdict == cause.Worked && (x.Ratio.Low < 1 || x.Posterior.Worked < 0.7 || x.Hours != nil && x.Hours.Low == 0) {
			t.Fatalf("got %+v, want nobody accused lightly", x)
		}
		if r := x.Ratio; !(0 <= r.Low && r.Low <= r.Value && r.Value <= r.High && r.Against != x.Leader) {
			t.Fatalf("got a ratio of %+v for %s, want it within its range and against another", r, x.Leader)
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

// everyBounds lists the bounds of an exposure beyond the fixed ones.
func everyBounds(e *dossier.Exposure) map[string]record.Bounds {
	out := map[string]record.Bounds{"equivalent load": e.EquivalentLoad, "full-load hours": e.FullLoadHours, "duty record": e.DutyRecord.Relative}
	for i, a := range e.Against {
		out[fmt.Sprint("against ", i)] = a.Relative
	}
	for _, c := range e.Counted {
		out["cycles by "+string(c.Basis)], out["exposure by "+string(c.Basis)] = c.LoadCycles, c.Relative
	}
	for i, s := range e.Stretches {
		out[fmt.Sprint(s.Kind, i)] = s.Relative
	}
	for _, s := range e.Claim.Shares {
		out["share of "+string(s.Group)] = s.Exposure
	}
	for i, f := range e.Forecast {
		out[fmt.Sprint("forecast ", i)], out[fmt.Sprint("rate ", i)] = f.Relative, f.PerYear
	}
	if e.Detail != nil {
		out["detail"] = e.Detail.Damage
	}
	if e.Road != nil {
		out["road"], out["against work"] = e.Road.Index, e.Road.Against
	}
	return out
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
