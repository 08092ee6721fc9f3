package score_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"ratchetmark/internal/score"
)

func near(t *testing.T, what string, got *float64, want, within float64) {
	t.Helper()
	if got == nil || !(math.Abs(*got-want) <= within) {
		t.Errorf("%s: got %v, want %v within %v", what, show(got), want, within)
	}
}

func show(x *float64) any {
	if x == nil {
		return nil
	}
	return *x
}

// Brier 1950, table 1: ten forecasts of rain or no rain, P = 0.19 (memory).
func TestBrierPublished(t *testing.T) {
	rain := []float64{0.7, 0.9, 0.8, 0.4, 0.2, 0, 0, 0, 0, 0.1}
	fell := []bool{false, true, true, true, false, false, false, false, false, false}
	var all []score.Forecast
	for i, p := range rain {
		f := score.Forecast{P: []float64{p, 1 - p}, Truth: 1}
		if fell[i] {
			f.Truth = 0
		}
		all = append(all, f)
	}
	near(t, "table 1", score.Brier(all), 0.19, 1e-12)
}

func TestBrierLimits(t *testing.T) {
	for _, v := range []struct {
		name  string
		p     []float64
		truth int
		want  float64
	}{
		{"perfect", []float64{0, 1, 0, 0}, 1, 0},
		{"certain and wrong", []float64{0, 1, 0, 0}, 2, 2},
		{"even over four", []float64{0.25, 0.25, 0.25, 0.25}, 0, 0.75}, // 1 - 1/K
		{"none of them, even", []float64{0.25, 0.25, 0.25, 0.25}, score.NoClass, 0.25},
		{"none of them, certain", []float64{1, 0, 0, 0}, score.NoClass, 1},
	} {
		near(t, v.name, score.Brier([]score.Forecast{{P: v.p, Truth: v.truth}}), v.want, 1e-12)
	}
	if got := score.Brier(nil); got != nil {
		t.Errorf("no forecast: got %v, want nil", *got)
	}
}

// A system that always says 1 costs one bit, a perfect one nothing; one of two
// pieces wrong by a factor of 1000 costs log2(1001) for it.
func TestCllrClosedForms(t *testing.T) {
	zero := []float64{0, 0, 0}
	near(t, "always 1", score.Cllr(zero, zero), 1, 1e-12)
	near(t, "certain and right", score.Cllr([]float64{200}, []float64{-200}), 0, 1e-12)
	near(t, "infinite and right", score.Cllr([]float64{math.Inf(1)}, []float64{math.Inf(-1)}), 0, 1e-12)
	near(t, "LR 3 and 1/3", score.Cllr([]float64{math.Log10(3)}, []float64{-math.Log10(3)}), math.Log2(4.0/3), 1e-12)
	near(t, "wrong", score.Cllr([]float64{-3}, []float64{0}), (math.Log2(1001)+1)/2, 1e-12)
	near(t, "infinite and wrong", score.Cllr([]float64{math.Inf(-1)}, []float64{0}), (score.MostLog10*math.Log2(10)+1)/2, 1e-9)
	if got := score.Cllr(nil, zero); got != nil {
		t.Errorf("one list empty: got %v, want nil", *got)
	}
}

// gaussian is the cost of perfectly calibrated Gaussian scores: ln LR is
// normal with variance s² and mean s²/2 under the first, -s²/2 under the second
// proposition (van Leeuwen and Brümmer 2013, memory). Both halves are equal.
func gaussian(s float64) float64 {
	var sum float64
	const h = 1e-3
	for z := -12.0; z <= 12; z += h {
		x := s*s/2 + s*z
		sum += h * math.Exp(-z*z/2) / math.Sqrt(2*math.Pi) * math.Log1p(math.Exp(-x)) / math.Ln2
	}
	return sum
}

func TestCllrOfCalibratedGaussians(t *testing.T) {
	d := rand.New(rand.NewPCG(7, 1))
	for _, s := range []float64{0.5, 1, 2, 4} {
		var first, second, shifted, steep []float64
		for range 40_000 {
			x, y := s*s/2+s*d.NormFloat64(), -s*s/2+s*d.NormFloat64()
			first, second = append(first, x/math.Ln10), append(second, y/math.Ln10)
		}
		want := gaussian(s)
		near(t, "calibrated", score.Cllr(first, second), want, 0.012)
		near(t, "least", score.LeastCllr(first, second), want, 0.014)
		for i := range first {
			shifted, steep = append(shifted, first[i]+1), append(steep, 3*first[i])
		}
		moved := make([]float64, len(second))
		for i := range second {
			moved[i] = second[i] + 1
		}
		near(t, "least, shifted", score.LeastCllr(shifted, moved), *score.LeastCllr(first, second), 1e-9)
		if got := *score.Cllr(shifted, moved); got < want+0.05 {
			t.Errorf("deviation %v, shifted by a factor of ten: got %v, want well over %v", s, got, want)
		}
		for i := range moved {
			moved[i] = 3 * second[i]
		}
		if got := *score.Cllr(steep, moved); got < want+0.003 {
			t.Errorf("deviation %v, three times too sure: got %v, want over %v", s, got, want)
		}
	}
}

func TestLeastCllr(t *testing.T) {
	near(t, "told apart", score.LeastCllr([]float64{0.1, 0.2}, []float64{-5, 0}), 0, 1e-12)
	near(t, "told apart the wrong way round", score.LeastCllr([]float64{-1}, []float64{1}), 1, 1e-12)
	near(t, "all alike", score.LeastCllr([]float64{2, 2}, []float64{2}), 1, 1e-12)
	// by hand: from below miss, hit, miss, hit: the middle two are one pool of ratio 1
	near(t, "one pool", score.LeastCllr([]float64{1, 3}, []float64{0, 2}), 0.5, 1e-12)
}

func TestMulti(t *testing.T) {
	prior := []float64{0.4, 0.3, 0.2, 0.1}
	var same []score.Forecast
	for k := range 4 {
		same = append(same, score.Forecast{P: prior, Truth: k})
	}
	near(t, "always the prior", score.Multi(same, prior), 2, 1e-12) // log2 4
	near(t, "one left out", score.Multi(append(same, score.Forecast{P: []float64{1, 0, 0, 0}, Truth: score.NoClass}), prior), 2, 1e-12)
	if got := score.Multi(same[:3], prior); got != nil {
		t.Errorf("a class without a piece: got %v, want nil", *got)
	}
	wrong := score.Multi([]score.Forecast{{P: []float64{0, 1}, Truth: 0}, {P: []float64{0, 1}, Truth: 1}}, []float64{0.5, 0.5})
	near(t, "certain and wrong", wrong, score.MostLog10*math.Log2(10)/2, 1e-9)
}

// With two classes the multi-class cost is Cllr, whatever the prior.
func TestMultiOfTwoIsCllr(t *testing.T) {
	d := rand.New(rand.NewPCG(3, 1))
	prior := []float64{0.15, 0.85}
	var all []score.Forecast
	var first, second []float64
	for range 500 {
		p := d.Float64()
		f := score.Forecast{P: []float64{p, 1 - p}, Truth: d.IntN(2)}
		all = append(all, f)
		x, ok := score.Log10Ratio(f.P, prior, 0)
		if !ok {
			t.Fatalf("got no ratio for %v", f)
		}
		if f.Truth == 0 {
			first = append(first, x)
		} else {
			second = append(second, x)
		}
	}
	near(t, "two classes", score.Multi(all, prior), *score.Cllr(first, second), 1e-9)
}

func TestLog10Ratio(t *testing.T) {
	for _, v := range []struct {
		name      string
		posterior []float64
		prior     []float64
		want      float64
		ok        bool
	}{
		{"the prior says 1", []float64{0.7, 0.2, 0.1}, []float64{0.7, 0.2, 0.1}, 0, true},
		{"odds 9 on odds 1/3", []float64{0.9, 0.05, 0.05}, []float64{0.25, 0.5, 0.25}, math.Log10(27), true},
		{"certain", []float64{1, 0, 0}, []float64{0.5, 0.25, 0.25}, score.MostLog10, true},
		{"ruled out", []float64{0, 1, 0}, []float64{0.5, 0.25, 0.25}, -score.MostLog10, true},
		{"no prior", []float64{0, 1, 0}, []float64{0, 0.5, 0.5}, 0, false},
		{"no rival", []float64{1, 0, 0}, []float64{1, 0, 0}, 0, false},
		{"nothing left", []float64{0, 0, 0}, []float64{0.5, 0.25, 0.25}, 0, false},
	} {
		got, ok := score.Log10Ratio(v.posterior, v.prior, 0)
		if ok != v.ok || math.Abs(got-v.want) > 1e-12 {
			t.Errorf("%s: got %v, %v, want %v, %v", v.name, got, ok, v.want, v.ok)
		}
	}
}

var calls = []score.Call{
	{0, 0}, {0, 0}, {0, score.Undecided}, {0, 1},
	{1, 1}, {1, 0}, {1, score.Undecided}, {1, score.Undecided},
	{score.NoClass, 0}, {score.NoClass, score.Undecided},
}

func TestConfusion(t *testing.T) {
	want := [][]int{{2, 1, 1}, {1, 1, 2}, {1, 0, 1}}
	got := score.Confusion(calls, 2)
	for i := range want {
		for j := range want[i] {
			if got[i][j] != want[i][j] {
				t.Errorf("truth %d, verdict %d: got %d, want %d", i, j, got[i][j], want[i][j])
			}
		}
	}
}

func TestFalseCalls(t *testing.T) {
	f := score.FalseCalls(calls, 0)
	if f.OfOthers != (score.Share{Part: 2, Whole: 6}) || f.OfVerdicts != (score.Share{Part: 2, Whole: 4}) {
		t.Errorf("got %+v, want 2 of 6 and 2 of 4", f)
	}
	if u := score.UndecidedShare(calls); u != (score.Share{Part: 4, Whole: 10}) {
		t.Errorf("undecided: got %+v, want 4 of 10", u)
	}
	if v := score.FalseCalls(nil, 0).OfVerdicts.Value(); v != nil {
		t.Errorf("no verdicts: got %v, want nil", *v)
	}
}

// Newcombe 1998, Statistics in Medicine 17, table I, method 3 (memory).
func TestIntervalPublished(t *testing.T) {
	for _, v := range []struct {
		share     score.Share
		low, high float64
	}{
		{score.Share{Part: 81, Whole: 263}, 0.2553, 0.3662},
		{score.Share{Part: 15, Whole: 148}, 0.0624, 0.1605},
		{score.Share{Part: 0, Whole: 20}, 0, 0.1611},
		{score.Share{Part: 1, Whole: 29}, 0.0061, 0.1718},
		{score.Share{}, 0, 1},
	} {
		low, high := v.share.Interval()
		near(t, "low", &low, v.low, 5e-5)
		near(t, "high", &high, v.high, 5e-5)
	}
}

func TestReliability(t *testing.T) {
	p := []float64{0, 0.05, 0.1, 0.1, 0.3, 0.95, 1}
	d := score.Reliability(p, []bool{false, true, false, true, true, true, true})
	for k, want := range map[int][2]int{0: {2, 1}, 1: {2, 1}, 3: {1, 1}, 5: {0, 0}, 9: {2, 2}} {
		if d[k].Count != want[0] || d[k].Happened != want[1] {
			t.Errorf("decile %d: got %d of %d, want %d of %d", k, d[k].Happened, d[k].Count, want[1], want[0])
		}
	}
	near(t, "mean", d[9].Mean, 0.975, 1e-12)
	near(t, "share", d[0].Share, 0.5, 1e-12)
	if d[5].Mean != nil || d[5].Share != nil {
		t.Errorf("an empty decile: got %+v, want no figures", d[5])
	}
	near(t, "off", score.Off(d), (2*0.475+2*0.4+0.7+2*0.025)/7, 1e-12)
	if got := score.Off([10]score.Decile{}); got != nil {
		t.Errorf("no probabilities: got %v, want nil", *got)
	}
}

// Probabilities that are right come out so: events drawn with them.
func TestReliabilityOfRightProbabilities(t *testing.T) {
	d := rand.New(rand.NewPCG(11, 1))
	var p []float64
	var happened []bool
	for range 50_000 {
		x := d.Float64()
		p, happened = append(p, x), append(happened, d.Float64() < x)
	}
	for _, k := range score.Reliability(p, happened) {
		low, high := score.Share{Part: k.Happened, Whole: k.Count}.Interval()
		if width := high - low; *k.Mean < low-width || *k.Mean > high+width {
			t.Errorf("from %v: got a share of %v, want about %v", k.From, *k.Share, *k.Mean)
		}
	}
}
