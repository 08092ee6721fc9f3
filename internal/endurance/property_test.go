package endurance_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"gonum.org/v1/gonum/integrate/quad"

	"ratchetmark/internal/endurance"
	"ratchetmark/internal/record"
)

var curves = map[string]endurance.Curve{
	"EN 1993-1-9 normal": endurance.EN1993Normal(71, 1.35),
	"EN 1993-1-9 shear":  endurance.EN1993Shear(80, 1),
	"EN 13001 welded":    endurance.EN13001(112, 1.25, true),
	"EN 13001 plain":     endurance.EN13001(140, 1.1, false),
	"IIW":                endurance.IIW(90, 1),
	"one slope":          endurance.OneSlope(7, 125, 2e6),
	"two slopes":         endurance.TwoSlopes(5, 160, 1e6, 9),
	"limited":            endurance.Limited(4, 60, 1e7),
}

// More stress never lasts longer, and no figure is infinite or not a number.
func TestDamageNeverFalls(t *testing.T) {
	for name, c := range curves {
		was := 0.
		for x := 1e-6; x < 1e5; x *= 1.01 {
			d := c.Damage(x)
			if d < was || math.IsInf(d, 0) || math.IsNaN(d) {
				t.Errorf("%s at %v: got %v after %v", name, x, d, was)
			}
			n, ok := c.Endurance(x)
			if ok && (math.IsInf(n, 0) || !(n > 0)) {
				t.Errorf("%s at %v: got endurance %v", name, x, n)
			}
			was = d
		}
		for _, x := range []float64{0, -3, math.NaN(), 1e-300} {
			if n, ok := c.Endurance(x); ok {
				t.Errorf("%s at %v: got %v, want none", name, x, n)
			}
		}
	}
}

// The closed form of the mean against numerical integration between the knees.
func TestMeanDamageAgainstIntegration(t *testing.T) {
	for name, c := range curves {
		for _, ends := range [][2]float64{{0, 20}, {10, 40}, {20, 80}, {50, 60}, {5, 400}, {100, 100.0001}, {70, 70}, {0, 0}} {
			a, b := ends[0], ends[1]
			cuts := []float64{a, b}
			for _, k := range c.Knees() {
				if k > a && k < b {
					cuts = append(cuts, k)
				}
			}
			slices.Sort(cuts)
			var want float64
			for i := 1; i < len(cuts); i++ {
				want += quad.Fixed(c.Damage, cuts[i-1], cuts[i], 60, quad.Legendre{}, 0)
			}
			if b > a {
				want /= b - a
			} else {
				want = c.Damage(a)
			}
			if got := c.MeanDamage(a, b); math.Abs(got-want) > 1e-7*want {
				t.Errorf("%s from %v to %v: got %v, want %v", name, a, b, got, want)
			}
		}
	}
}

// Twice the cycles are twice the damage; the order of rows does not matter; a
// stress k times as high on one slope does k^m times the damage.
func TestScaling(t *testing.T) {
	d := design(t, endurance.Spec{Standard: endurance.StandardEN13001, Category: figure(112)})
	rows := [][2]float64{{100, 1e4}, {60, 2e5}, {30, 3e6}}
	once := sumOf(t, d, rows...).Damage
	var more, higher [][2]float64
	for _, r := range rows {
		more = append(more, [2]float64{r[0], 2 * r[1]})
		higher = append([][2]float64{{2 * r[0], r[1]}}, higher...)
	}
	near(t, "twice the cycles", sumOf(t, d, more...).Damage, 2*once, 1e-12)
	near(t, "twice the stress, other order", sumOf(t, d, higher...).Damage, 8*once, 1e-12)
	factored := design(t, endurance.Spec{Standard: endurance.StandardEN13001, Category: figure(112), GammaFf: figure(2)})
	near(t, "twice gamma_Ff", sumOf(t, factored, rows...).Damage, 8*once, 1e-12)
}

// EN 13001-3-1: the exact sum is s·(γ Δσ_max/Δσ_c)^m, the class errs upwards,
// and a history at its limit range has used just that.
func TestHistory(t *testing.T) {
	rng := rand.New(rand.NewPCG(3, 1))
	for range 200 {
		welded := rng.IntN(2) == 0
		m := 5.
		if welded {
			m = 3
		}
		d := design(t, endurance.Spec{Standard: endurance.StandardEN13001, Category: figure(112), GammaMf: figure(1.25), Welded: &welded})
		var rows [][2]float64
		for range 1 + rng.IntN(5) {
			rows = append(rows, [2]float64{5 + 200*rng.Float64(), math.Pow(10, 2+3.5*rng.Float64())})
		}
		s := sumOf(t, d, rows...)
		h := endurance.HistoryOf(s.Terms, 112, 1.25, welded)
		near(t, "sum", s.Damage, h.Parameter*math.Pow(1.25*h.Largest/112, m), 1e-9)
		if h.Class == "beyond S9" {
			continue
		}
		if upTo := math.Pow(h.Use, m); s.Damage > upTo*(1+1e-9) {
			t.Errorf("%v: got sum %v, want at most that of the class, %v", rows, s.Damage, upTo)
		}
	}
	// By hand: 2e6 cycles of one range are s = 1, class S7, and the limit is the
	// category over the factor.
	one := endurance.HistoryOf([]endurance.Term{{Range: 50, Cycles: 2e6}}, 100, 1.25, true)
	if one.Class != "S7" || one.Parameter != 1 || one.Limit != 80 || one.Use != 0.625 {
		t.Errorf("got %+v, want S7, 1, 80 and 0.625", one)
	}
	if none := endurance.HistoryOf(nil, 100, 1.25, true); none.Class != "S0" || none.Use != 0 {
		t.Errorf("no cycles: got %+v, want S0 and no use", none)
	}
}

// EN 1993-1-9:2005, table 3.1.
func TestGammaMf(t *testing.T) {
	for words, want := range map[[2]string]float64{
		{"damage tolerant", "low"}: 1, {"damage tolerant", "high"}: 1.15, {"safe life", "low"}: 1.15, {"safe life", "high"}: 1.35,
	} {
		if got, ok := endurance.GammaMf(words[0], words[1]); !ok || got != want {
			t.Errorf("%v: got %v, want %v", words, got, want)
		}
	}
	d := design(t, endurance.Spec{Standard: endurance.StandardEN1993, Category: figure(71)})
	if d.GammaMf != 1.35 {
		t.Errorf("nothing chosen: got %v, want the most careful", d.GammaMf)
	}
}

// Lognormal, mean 1, coefficient of variation 0.3: nine of ten draws lie within.
func TestCriticalSum(t *testing.T) {
	low, high := endurance.CriticalSum()
	rng := rand.New(rand.NewPCG(4, 4))
	sigma := math.Sqrt(math.Log(1.09))
	inside, sum := 0, 0.
	const draws = 200_000
	for range draws {
		x := math.Exp(sigma*rng.NormFloat64() - sigma*sigma/2)
		sum += x
		if x >= low && x <= high {
			inside++
		}
	}
	if share := float64(inside) / draws; math.Abs(share-0.9) > 0.005 || math.Abs(sum/draws-1) > 0.005 {
		t.Errorf("got %v within %v to %v, want 0.9", share, low, high)
	}
}

func TestRefusals(t *testing.T) {
	point := &[2]*float64{figure(125), figure(2e6)}
	no := false
	for name, v := range map[string]struct {
		spec endurance.Spec
		at   record.Path
	}{
		"nothing":                  {endurance.Spec{}, "curve/slope"},
		"unknown standard":         {endurance.Spec{Standard: "EN 1", Category: figure(71)}, "curve/standard"},
		"no category":              {endurance.Spec{Standard: endurance.StandardEN1993}, "curve/category"},
		"category out of range":    {endurance.Spec{Standard: endurance.StandardEN1993, Category: figure(-71)}, "curve/category"},
		"factor not a number":      {endurance.Spec{Standard: endurance.StandardEN1993, Category: figure(71), GammaMf: figure(math.NaN())}, "curve/gamma_mf"},
		"words of no concept":      {endurance.Spec{Standard: endurance.StandardEN1993, Category: figure(71), Concept: "hope"}, "curve/concept"},
		"shear of another":         {endurance.Spec{Standard: endurance.StandardIIW, Category: figure(71), Stress: "shear"}, "curve/stress"},
		"unknown stress":           {endurance.Spec{Standard: endurance.StandardIIW, Category: figure(71), Stress: "odd"}, "curve/stress"},
		"standard and slope":       {endurance.Spec{Standard: endurance.StandardIIW, Category: figure(71), Slope: figure(3)}, "curve/slope"},
		"no point":                 {endurance.Spec{Slope: figure(3)}, "curve/range_or_amplitude_at"},
		"half a point":             {endurance.Spec{Slope: figure(3), At: &[2]*float64{figure(125), nil}}, "curve/range_or_amplitude_at"},
		"below unknown":            {endurance.Spec{Slope: figure(3), At: point, Below: "maybe"}, "curve/below"},
		"no second slope":          {endurance.Spec{Slope: figure(3), At: point, Below: "slope"}, "curve/slope_below"},
		"correction as welded":     {endurance.Spec{Slope: figure(3), At: point, MeanStress: "goodman", Ultimate: figure(600)}, "curve/mean_stress"},
		"correction of a category": {endurance.Spec{Standard: endurance.StandardEN1993, Category: figure(71), Welded: &no, MeanStress: "gerber", Ultimate: figure(600)}, "curve/mean_stress"},
		"correction unknown":       {endurance.Spec{Slope: figure(3), At: point, Welded: &no, MeanStress: "wish"}, "curve/mean_stress"},
		"no ultimate strength":     {endurance.Spec{Slope: figure(3), At: point, Welded: &no, MeanStress: "gerber"}, "curve/ultimate_mpa"},
	} {
		_, findings := v.spec.Read("curve")
		if len(findings) == 0 || findings[0].Path != v.at || findings[0].Severity != record.Blocking || findings[0].Expected == "" || findings[0].Hint == "" {
			t.Errorf("%s: got %+v, want one at %s", name, findings, v.at)
		}
	}
}

func TestRowsRefused(t *testing.T) {
	no := false
	plain := design(t, endurance.Spec{Slope: figure(3), At: &[2]*float64{figure(125), figure(2e6)}})
	corrected := design(t, endurance.Spec{Slope: figure(3), At: &[2]*float64{figure(125), figure(2e6)}, Welded: &no, MeanStress: "goodman", Ultimate: figure(600)})
	for name, v := range map[string]struct {
		d   endurance.Design
		row endurance.Row
	}{
		"no cycles":          {plain, endurance.Row{Range: figure(3)}},
		"no range":           {plain, endurance.Row{Cycles: figure(3)}},
		"negative":           {plain, endurance.Row{Range: figure(-3), Cycles: figure(3)}},
		"infinite":           {plain, endurance.Row{Range: figure(3), Cycles: figure(math.Inf(1))}},
		"mean uncorrected":   {plain, endurance.Row{Range: figure(3), Cycles: figure(3), Mean: figure(40)}},
		"mean too high":      {corrected, endurance.Row{Range: figure(3), Cycles: figure(3), Mean: figure(600)}},
		"beyond all strains": {corrected, endurance.Row{Range: figure(9e4), Cycles: figure(3), Mean: figure(599)}},
	} {
		var s endurance.Sum
		if f := v.d.Add(&s, v.row, func() record.Path { return "spectrum/1" }); f == nil || len(s.Terms) > 0 {
			t.Errorf("%s: got %+v and %d terms, want a finding and none", name, f, len(s.Terms))
		}
	}
	// By hand: 100 MPa about a mean of 300 of 600 MPa count as 200.
	var s endurance.Sum
	if f := corrected.Add(&s, endurance.Row{Range: figure(100), Cycles: figure(1), Mean: figure(300)}, nil); f != nil {
		t.Fatal(f.Message)
	}
	near(t, "Goodman by hand", *s.Terms[0].Endurance, 2e6*math.Pow(125./200, 3), 1e-12)
}

// EN 1993-1-9:2005, 7.1: category 71 at 71 MPa endures two million cycles.
func ExampleEN1993Normal() {
	c := endurance.EN1993Normal(71, 1)
	n, _ := c.Endurance(71)
	_, below := c.Endurance(28)
	fmt.Printf("%.0f cycles at 71 MPa, knee %.1f MPa, cut-off %.1f MPa, any at 28 MPa: %v\n", n, c.Knees()[0], c.Cutoff(), below)
	// Output: 2000000 cycles at 71 MPa, knee 52.3 MPa, cut-off 28.7 MPa, any at 28 MPa: false
}
