package bodymass_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"ratchetmark/internal/bodymass"
	"ratchetmark/internal/record"
)

func crewOf(n int, d bodymass.Distribution) bodymass.Crew {
	return bodymass.Crew{Groups: []bodymass.Group{{Who: d, People: n}}}
}

// Crews of random men of 18 to 64 years, body only, over n·80 + 40 kg and over
// 120 % of it (computed by resampling records of single people): one man 9 and
// 2.6 %, two 23 and 4.3 %, three 36 and 5.5 %.
//
// Tolerance: half a percent point, and half a digit of the published figure.
// Ours are men of 20 years and more, without an upper limit, of later years,
// and of percentiles rather than of records.
func TestPublishedCrews(t *testing.T) {
	for _, v := range []struct {
		people                 int
		rated, enhanced, digit float64 // in percent; half a digit of the first
	}{
		{1, 9, 2.6, 0.5}, {2, 23, 4.3, 0.5}, {3, 36, 5.5, 0.5},
	} {
		o, f := crewOf(v.people, bodymass.Men()).Overloads(record.Kilogram(80*v.people+40), 100, 120)
		if f != nil {
			t.Fatal(f.Message)
		}
		over, far := 100*o[0].Chance.Value, 100*o[1].Chance.Value
		t.Logf("%d men: %.2f %% over %v kg, %.2f %% over %v kg, within %.3f %%", v.people, over, o[0].Load, far, o[1].Load, 100*o[1].Chance.Error)
		if math.Abs(over-v.rated) > 0.5+v.digit || math.Abs(far-v.enhanced) > 0.5+0.05 {
			t.Errorf("%d men: got %.2f %% and %.2f %%, want %v %% and %v %%", v.people, over, far, v.rated, v.enhanced)
		}
	}
}

// Against drawing crews one by one, with a seed: within four standard errors
// and the stated error.
func TestAgainstResampling(t *testing.T) {
	rng := rand.New(rand.NewPCG(59, 61))
	mix, _ := bodymass.Men().Mix(0.8, bodymass.Women())
	masses := func(d bodymass.Distribution) []float64 { // at even shares
		out := make([]float64, 20_000)
		for i := range out {
			out[i], _ = d.Quantile((float64(i) + 0.5) / float64(len(out)))
		}
		return out
	}
	men, mixed := masses(bodymass.Men()), masses(mix)
	for _, v := range []struct {
		men, mixed  int
		worn, tools float64
		load        float64
	}{
		{2, 0, 0, 0, 200}, {2, 0, 6.5, 20, 230}, {0, 3, 4, 0, 280}, {1, 2, 4, 40, 336}, {2, 4, 4, 40, 600},
	} {
		crew := bodymass.Crew{Groups: []bodymass.Group{{Who: bodymass.Men(), People: v.men}, {Who: mix, People: v.mixed}}, Worn: v.worn, Tools: v.tools}
		got, f := crew.Exceeds(record.Kilogram(v.load))
		if f != nil {
			t.Fatal(f.Message)
		}
		const draws = 200_000
		var over float64
		for range draws {
			sum := v.tools
			for range v.men {
				sum += men[rng.IntN(len(men))] + v.worn
			}
			for range v.mixed {
				sum += mixed[rng.IntN(len(mixed))] + v.worn
			}
			if sum > v.load {
				over++
			}
		}
		p := over / draws
		if limit := 4*math.Sqrt(p*(1-p)/draws) + got.Error; math.Abs(got.Value-p) > limit {
			t.Errorf("%+v: got %v, want %v ± %v", v, got.Value, p, limit)
		}
	}
}

// The stated error holds against a sum that is integrated far more finely:
// P(A + B > L) = 1 - ∫ f(x) F(L - x) dx in steps of 0.01 kg.
func TestStatedErrorHolds(t *testing.T) {
	men, women := bodymass.Men(), bodymass.Women()
	for _, load := range []float64{130, 163.3, 200, 240, 281.7} {
		crew := bodymass.Crew{Groups: []bodymass.Group{{Who: men, People: 1}, {Who: women, People: 1}}}
		got, _ := crew.Exceeds(record.Kilogram(load))
		const step = 0.01
		var within float64
		for x := step / 2; x < load; x += step {
			within += women.Density(x) * men.Below(load-x) * step
		}
		if off := math.Abs(got.Value - (1 - within)); off > got.Error || got.Error > 2e-4 {
			t.Errorf("%v kg: got %v, off by %v, want at most %v, that at most 2e-4", load, got.Value, off, got.Error)
		}
	}
}

func TestExceedsProperties(t *testing.T) {
	men := bodymass.Men()
	for n := 1; n <= 20; n++ {
		before := bodymass.Chance{Value: 1}
		for load := 0.0; load <= 5000; load += 303.3 {
			got, f := crewOf(n, men).Exceeds(record.Kilogram(load))
			if f != nil || got.Value < 0 || got.Value > 1 || got.Value > before.Value+before.Error+got.Error {
				t.Fatalf("%d men over %v kg: got %+v after %+v, %+v, want a probability that falls", n, load, got, before, f)
			}
			before = got
		}
	}
	one, _ := crewOf(1, men).Exceeds(118.8) // the 90th percentile of the table
	if math.Abs(one.Value-0.1) > 1e-9 {
		t.Errorf("one man over 118.8 kg: got %v, want 0.1", one.Value)
	}
	heavy := bodymass.Crew{Groups: crewOf(1, men).Groups, Tools: 300}
	if got, _ := heavy.Exceeds(230); got.Value != 1 || got.Error != 0 {
		t.Errorf("tools alone over the load: got %+v, want certain", got)
	}
}

func TestCrewQuantile(t *testing.T) {
	for n := 1; n <= 4; n++ {
		crew := bodymass.Crew{Groups: crewOf(n, bodymass.Men()).Groups, Worn: 4, Tools: 12}
		for _, p := range []float64{0.05, 0.5, 0.95, 0.99} {
			load, f := crew.Quantile(p)
			if f != nil {
				t.Fatal(f.Message)
			}
			if got, _ := crew.Exceeds(load); math.Abs(got.Value-(1-p)) > 1e-4 {
				t.Errorf("%d men: got %v over the load that %v stay under, want %v", n, got.Value, p, 1-p)
			}
		}
	}
}

func TestCrewRefuses(t *testing.T) {
	men := bodymass.Men()
	for _, v := range []struct {
		name, found string
		crew        bodymass.Crew
		load        float64
	}{
		{"nobody", "number of persons is 0", bodymass.Crew{}, 200},
		{"fewer than nobody", "number of people of a group is -1", crewOf(-1, men), 200},
		{"a crowd", "number of people of a group is 21", crewOf(21, men), 200},
		{"two groups that make a crowd", "number of persons is 30", bodymass.Crew{Groups: []bodymass.Group{{Who: men, People: 15}, {Who: men, People: 15}}}, 200},
		{"no masses", "nothing says what these people weigh", crewOf(1, bodymass.Distribution{}), 200},
		{"load that is not a number", "load is not a number", crewOf(1, men), math.NaN()},
		{"load below zero", "load is -1 kg", crewOf(1, men), -1},
		{"tools below zero", "mass of tools and materials is -5 kg", bodymass.Crew{Groups: crewOf(1, men).Groups, Tools: -5}, 200},
		{"worn without end", "mass of what each person wears is not a number", bodymass.Crew{Groups: crewOf(1, men).Groups, Worn: math.Inf(1)}, 200},
	} {
		got, f := v.crew.Exceeds(record.Kilogram(v.load))
		if f == nil || f.Message != v.found || f.Expected == "" || f.Hint == "" || got.Value != 0 {
			t.Errorf("%s: got %+v, %+v, want %q with expected and hint, and no number", v.name, got, f, v.found)
		}
	}
	for _, rated := range []float64{79, 10_000, -1, math.NaN()} {
		if o, f := crewOf(1, men).Overloads(record.Kilogram(rated), 100); f == nil || o != nil {
			t.Errorf("rated load %v kg: got %v, want a finding", rated, o)
		}
	}
	if o, f := crewOf(1, men).Overloads(200, 0); f == nil || o != nil {
		t.Errorf("0 %% of the rated load: got %v, want a finding", o)
	}
	if load, f := crewOf(1, men).Quantile(1); f == nil || load != 0 {
		t.Errorf("certainty: got %v kg, want a finding", load)
	}
}

// Whatever the crew: a probability, or a finding.
func FuzzCrew(f *testing.F) {
	f.Add(2, 1, 0.8, 4.0, 40.0, 280.0)
	f.Add(0, 0, 0.0, 0.0, 0.0, 0.0)
	f.Add(20, 0, 1.0, 50.0, 5000.0, 1e5)
	f.Add(1, 1, math.NaN(), math.Inf(1), -1.0, math.NaN())
	f.Fuzz(func(t *testing.T, men, mixed int, share, worn, tools, load float64) {
		mix, _ := bodymass.Men().Mix(share, bodymass.Women())
		crew := bodymass.Crew{Groups: []bodymass.Group{{Who: bodymass.Men(), People: men}, {Who: mix, People: mixed}}, Worn: worn, Tools: tools}
		got, finding := crew.Exceeds(record.Kilogram(load))
		if finding == nil && !(got.Value >= 0 && got.Value <= 1 && got.Error >= 0 && got.Error < 0.1) {
			t.Errorf("got %+v, want a probability with a small error", got)
		}
		if finding != nil && got != (bodymass.Chance{}) {
			t.Errorf("got %+v beside %s, want no number", got, finding.Message)
		}
	})
}

func BenchmarkTwoMen(b *testing.B) {
	crew := crewOf(2, bodymass.Men())
	for b.Loop() {
		crew.Exceeds(200)
	}
}

func BenchmarkThreeMixed(b *testing.B) {
	mix, _ := bodymass.Men().Mix(0.8, bodymass.Women())
	crew := bodymass.Crew{Groups: crewOf(3, mix).Groups, Worn: 4}
	for b.Loop() {
		crew.Exceeds(280)
	}
}

func BenchmarkFiveMixed(b *testing.B) {
	mix, _ := bodymass.Men().Mix(0.8, bodymass.Women())
	crew := bodymass.Crew{Groups: crewOf(5, mix).Groups, Worn: 4}
	for b.Loop() {
		crew.Exceeds(440)
	}
}

func BenchmarkTwentyMen(b *testing.B) {
	crew := crewOf(20, bodymass.Men())
	for b.Loop() {
		crew.Exceeds(1640)
	}
}

func BenchmarkQuantile(b *testing.B) {
	crew := crewOf(2, bodymass.Men())
	for b.Loop() {
		crew.Quantile(0.95)
	}
}
