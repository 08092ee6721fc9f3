package lashing_test

import (
	"encoding/json"
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"ratchetmark/internal/lashing"
	"ratchetmark/internal/record"
)

// ask answers a question written as JSON.
func ask(t *testing.T, text string) lashing.Answer {
	t.Helper()
	q, findings, err := lashing.ReadQuery([]byte(text))
	if err != nil {
		t.Fatalf("%s: %v", text, err)
	}
	return lashing.Ask(q, findings)
}

func codes(a lashing.Answer) string {
	var out []string
	for _, f := range a.Findings {
		out = append(out, f.Code+" "+string(f.Path))
	}
	return strings.Join(out, ", ")
}

// Dangerous figures are refused with a reason, or flagged; nothing is worked out
// from what is refused.
func TestDangerousFigures(t *testing.T) {
	for _, v := range []struct {
		text, finding, reason string
		refused               bool
	}{
		{`{"mass_kg":3000,"tension_dan":400,"mu":0.9}`, "value-out-of-range mu", "no row of the table", true},
		{`{"mass_kg":3000,"tension_dan":400,"mu":0}`, "value-out-of-range mu", "", true},
		{`{"mass_kg":3000,"tension_dan":400,"mu":0.3,"angle_deg":5}`, "value-out-of-range angle_deg", "hardly presses", true},
		{`{"mass_kg":3000,"tension_dan":9000,"mu":0.3}`, "value-out-of-range tension_dan", "highest capacity", true},
		{`{"mass_kg":3000,"tension_dan":1500,"mu":0.3}`, "tension-high tension_dan", "long-lever", false},
		{`{"mass_kg":3000,"tension_dan":900,"lc_dan":1000,"mu":0.3}`, "tension-above-half tension_dan", "0.5 of the capacity", true},
		{`{"mass_kg":3000,"tension_dan":400,"mu":0.3,"fs":0.5}`, "value-out-of-range fs", "the rule's own safety", true},
		{`{"mass_kg":3000,"tension_dan":400,"mu":0.3,"lashings":2.5}`, "value-out-of-range lashings", "whole number", true},
		{`{"mass_kg":0,"tension_dan":400,"mu":0.3}`, "value-out-of-range mass_kg", "", true},
		{`{"mass_kg":3000,"mu":0.3}`, "value-missing tension_dan", "", true},
		{`{"mass_kg":"3 t","tension_dan":400,"mu":0.3}`, "value-unreadable mass_kg", "a number", true},
		{`{"mass_kg":3000,"tension_dan":400,"mu":0.3,"direction":"up"}`, "value-unknown direction", "forward, side or rear", true},
		{`{"rule":"my own"}`, "value-unknown rule", "49 CFR 393", true},
		{`{"method":"glue","mass_kg":3000}`, "value-unknown method", "over-platform", true},
		{`{"mass_kg":3000,"tension_dan":400,"mu":0.3,"colour":"red"}`, "member-unknown colour", "", false},
		{`{"method":"direct","mass_kg":3000,"mu":0.5,"lc_dan":20000,"angle_deg":40,"bearing_deg":30}`, "value-out-of-range lc_dan", "16000", true},
		{`{"method":"direct","mass_kg":3000,"mu":0.5,"lc_dan":4000,"angle_deg":40,"bearing_deg":85}`, "value-out-of-range bearing_deg", "across", true},
		{`{"method":"direct","mass_kg":3000,"mu":0.5,"lc_dan":4000,"angle_deg":70,"bearing_deg":30}`, "angle-unusual angle_deg", "65", false},
		{`{"rule":"49 CFR 393","mass_kg":3000,"wll_lb":[6600,90000]}`, "value-out-of-range wll_lb/2", "38000", true},
		{`{"rule":"49 CFR 393","mass_kg":3000}`, "value-missing wll_lb", "", true},
		{`{"method":"over-platform","tension_dan":350,"edge_mu":2}`, "value-out-of-range edge_mu", "", true},
		{`{"method":"over-platform","tension_dan":350,"angle_deg":0}`, "value-out-of-range angle_deg", "", true},
	} {
		a := ask(t, v.text)
		if !strings.Contains(codes(a), v.finding) {
			t.Errorf("%s: got %q, want %s", v.text, codes(a), v.finding)
			continue
		}
		if !slices.ContainsFunc(a.Findings, func(f record.Finding) bool {
			return strings.Contains(f.Expected, v.reason) && f.Message != "" && f.Effect != "" && f.Hint != ""
		}) {
			t.Errorf("%s: got %+v, want %q", v.text, a.Findings, v.reason)
		}
		if answered := a.Required != nil || a.Apparent != nil; answered == v.refused || record.Blocks(a.Findings) != v.refused {
			t.Errorf("%s: got answered %v, want %v", v.text, answered, !v.refused)
		}
	}
}

// What the format document asks for, by hand.
func TestAnswers(t *testing.T) {
	// (0.8 - 0.3)·2943·1.25 = 1839.375 daN; each 2·0.3·sin 60·400 = 207.846: 9 straps.
	a := ask(t, `{"rule":"EN 12195-1:2010","method":"over-top","mass_kg":3000,"tension_dan":400,"mu":0.3,"angle_deg":60,"direction":"forward","lashings":null,"block_dan":0,"k":2,"fs":null}`)
	if *a.Needed != 9 || !near(*a.Required, 1839.38, 0.01) || a.Available != nil || a.OK != nil || a.Shortfall != nil || len(a.Findings) != 0 {
		t.Errorf("got %+v, want 9 for 1839.38 daN", a)
	}
	a = ask(t, `{"mass_kg":3000,"tension_dan":400,"mu":0.3,"angle_deg":60,"lashings":9}`)
	if !*a.OK || *a.Shortfall != 0 || !near(*a.Available, 9*207.846, 0.01) {
		t.Errorf("got %+v, want it held", a)
	}
	if a = ask(t, `{"mass_kg":3000,"tension_dan":400,"mu":0.3,"angle_deg":60,"block_dan":1471.5}`); *a.Needed != 0 {
		t.Errorf("blocked forward: got %d, want none", *a.Needed)
	}
	if a = ask(t, `{"mass_kg":3000,"tension_dan":400,"mu":0.3,"angle_deg":60,"block_dan":5000,"direction":"rear"}`); *a.Needed == 0 {
		t.Error("blocked forward, to the rear: got none needed, want some")
	}
	// A pair, 40 degrees to the deck, 30 in plan: (0.8 - 0.375)·9025.2 / (2·(cos 40·cos 30 + 0.375·sin 40)).
	a = ask(t, `{"method":"direct","mass_kg":9200,"mu":0.5,"angle_deg":40,"bearing_deg":30,"lc_dan":4000}`)
	if want := 0.425 * 9025.2 / (2 * (math.Cos(40*math.Pi/180)*math.Cos(30*math.Pi/180) + 0.375*math.Sin(40*math.Pi/180))); !near(*a.NeededLC, want, 0.01) {
		t.Errorf("got %v daN, want %v", *a.NeededLC, want)
	}
	a = ask(t, `{"method":"over-platform","tension_dan":350,"straps":1,"angle_deg":90,"edge_mu":0.2}`)
	if a.Apparent == nil || a.Apparent.High != 713.56 || a.Apparent.Low != 356.78 || a.Settled.Low != 0 {
		t.Errorf("got %+v, want up to 713.56 kg", a.Apparent)
	}
}

// More lashings hold more, more friction needs fewer, and an answer is never
// without a meaning.
func TestAnswerProperties(t *testing.T) {
	rng := rand.New(rand.NewPCG(7, 9))
	for range 3000 {
		mass, tension, mu, alpha := 100+rng.Float64()*20000, 100+rng.Float64()*900, 0.05+rng.Float64()*0.5, 30+rng.Float64()*60
		needed := func(mass, tension, mu, alpha float64) int {
			a := lashing.Ask(lashing.Query{Mass: &mass, Tension: &tension, Mu: &mu, Angle: &alpha}, nil)
			return *a.Needed
		}
		n := needed(mass, tension, mu, alpha)
		if needed(mass*1.1, tension, mu, alpha) < n || needed(mass, tension*1.1, mu, alpha) > n || needed(mass, tension, mu+0.03, alpha) > n || needed(mass, tension, mu, 90) > n {
			t.Fatalf("%v kg, %v daN, %v, %v degrees: got %d lashings, want it to rise and fall with each", mass, tension, mu, alpha, n)
		}
		for _, count := range []float64{float64(n), float64(n - 1)} {
			if count < 1 || count > 40 {
				continue
			}
			a := lashing.Ask(lashing.Query{Mass: &mass, Tension: &tension, Mu: &mu, Angle: &alpha, Lashings: &count}, nil)
			if want := count == float64(n); *a.OK != want || (*a.Shortfall > 0.01) == want && *a.Shortfall > 0.01 {
				t.Fatalf("%v of %d lashings: got ok %v and %v %% short", count, n, *a.OK, *a.Shortfall)
			}
		}
	}
}

// Whatever is asked, the answer can be written and holds together.
func FuzzAsk(f *testing.F) {
	for _, seed := range []string{
		`{"rule":"EN 12195-1:2010","method":"over-top","mass_kg":3000,"tension_dan":400,"mu":0.3,"angle_deg":60,"direction":"forward","lashings":null,"block_dan":0,"k":2,"fs":null}`,
		`{"method":"direct","mass_kg":9200,"mu":0.5,"lc_dan":1500,"lashings":2}`, `{"method":"over-platform","tension_dan":350,"straps":2,"angle_deg":45,"edge_mu":0.3}`,
		`{"rule":"49 CFR 393","mass_kg":6350,"wll_lb":[6600,6600,6600,6600],"method":"direct","length_m":7,"blocked":true}`,
		`{}`, `null`, `[]`, `{"mass_kg":1e400}`, `{"mu":-0}`, `{"lashings":1e300,"mass_kg":3000,"tension_dan":400,"mu":0.3}`, `{"WLL_LB":[1]}`,
	} {
		f.Add([]byte(seed))
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		q, findings, err := lashing.ReadQuery(data)
		if err != nil {
			return
		}
		a := lashing.Ask(q, findings)
		text, err := json.Marshal(a)
		if err != nil {
			t.Fatalf("got %v, want an answer that can be written: %+v", err, a)
		}
		blocked := record.Blocks(a.Findings)
		if answered := a.Required != nil || a.Apparent != nil; answered == blocked {
			t.Errorf("got answered %v and blocked %v, want one of them: %s", answered, blocked, text)
		}
		if a.Needed != nil && *a.Needed < 0 || a.Shortfall != nil && *a.Shortfall < 0 {
			t.Errorf("got a negative figure: %s", text)
		}
		if r := a.Apparent; r != nil && !(0 <= r.Low && r.Low <= r.Estimate && r.Estimate <= r.High) {
			t.Errorf("got a range out of order: %s", text)
		}
	})
}
