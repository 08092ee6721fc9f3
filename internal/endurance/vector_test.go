package endurance_test

import (
	"encoding/json"
	"math"
	"os"
	"testing"

	"ratchetmark/internal/endurance"
	"ratchetmark/internal/record"
)

// vectors are those of testdata/vectors/endurance.json; their sources stand in
// the file.
type vectors struct {
	Curve  [][5]float64 `json:"ec3_curve"` // category, knee, cut-off, log a of both legs
	Damage []struct {
		Category float64
		Gamma    float64 `json:"gamma_Mf"`
		Spectrum [][2]float64
		N        []*float64
		Damage   float64
	} `json:"ec3_damage"`
	Miner struct {
		K, ND   float64
		SD      float64 `json:"SD_amp"`
		Cycles  [][2]float64
		PerPass float64 `json:"damage_per_pass"`
		Life    float64 `json:"life_cycles"`
		Book    float64
	} `json:"miner_elementary"`
	Hours struct {
		Rated     []float64 `json:"rated_life_h"`
		Hours     []float64
		PerBlock  float64 `json:"damage_per_block"`
		Blocks    float64
		Fractions []float64
		Published []float64
	} `json:"hours_per_band"`
	Mean struct {
		Smin, Smax, Se, Su, Sy, Goodman, Soderberg, Gerber, Static float64
	} `json:"mean_stress"`
}

func load(t *testing.T) vectors {
	t.Helper()
	data, err := os.ReadFile("../../testdata/vectors/endurance.json")
	if err != nil {
		t.Fatal(err)
	}
	var v vectors
	if err := json.Unmarshal(data, &v); err != nil {
		t.Fatal(err)
	}
	return v
}

func near(t *testing.T, what string, got, want, tolerance float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tolerance*math.Max(math.Abs(want), 1e-300)) {
		t.Errorf("%s: got %v, want %v", what, got, want)
	}
}

// All 14 categories: knee, cut-off and both lines log N = log a - m log Δσ.
func TestCategories(t *testing.T) {
	rows := load(t).Curve
	if len(rows) != len(endurance.Categories) {
		t.Fatalf("got %d rows, want %d", len(rows), len(endurance.Categories))
	}
	for i, row := range rows {
		near(t, "category", endurance.Categories[i], row[0], 0)
		c := endurance.EN1993Normal(row[0], 1)
		knees := c.Knees()
		near(t, "knee", knees[0], row[1], 3e-6)
		near(t, "cut-off", knees[1], row[2], 3e-6)
		near(t, "cut-off", c.Cutoff(), row[2], 3e-6)
		high, _ := c.Endurance(2 * row[1])
		near(t, "log a, slope 3", math.Log10(high)+3*math.Log10(2*row[1]), row[3], 1e-5)
		middle, _ := c.Endurance(0.8 * row[1])
		near(t, "log a, slope 5", math.Log10(middle)+5*math.Log10(0.8*row[1]), row[4], 1e-5)
	}
}

// The curve does not jump at its knee, and ends at its cut-off.
func TestKneesAreExact(t *testing.T) {
	for _, category := range endurance.Categories {
		for name, c := range map[string]endurance.Curve{"normal": endurance.EN1993Normal(category, 1.15), "shear": endurance.EN1993Shear(category, 1.15)} {
			for _, knee := range c.Knees() {
				above, _ := c.Endurance(knee * (1 + 1e-12))
				if at, ok := c.Endurance(knee); !ok || math.Abs(at-above) > 1e-9*at {
					t.Errorf("%s %v: got %v at the knee and %v above, want the same", name, category, at, above)
				}
			}
			if n, ok := c.Endurance(c.Cutoff()); !ok || math.Abs(n-1e8) > 1e-6*1e8 {
				t.Errorf("%s %v: got %v at the cut-off, want 1e8", name, category, n)
			}
			if n, ok := c.Endurance(c.Cutoff() * (1 - 1e-9)); ok {
				t.Errorf("%s %v: got %v below the cut-off, want none", name, category, n)
			}
		}
	}
	// EN 1993-1-9:2005, 7.1 (2): the cut-off for shear is 0.457 times the category.
	near(t, "shear cut-off", endurance.EN1993Shear(100, 1).Cutoff(), 45.7, 1e-3)
}

func figure(x float64) *float64 { return &x }

func design(t *testing.T, s endurance.Spec) endurance.Design {
	t.Helper()
	d, findings := s.Read("curve")
	if len(findings) > 0 {
		t.Fatalf("got %+v, want a curve", findings)
	}
	return d
}

func sumOf(t *testing.T, d endurance.Design, rows ...[2]float64) endurance.Sum {
	t.Helper()
	var s endurance.Sum
	for _, row := range rows {
		if f := d.Add(&s, endurance.Row{Range: &row[0], Cycles: &row[1]}, func() record.Path { return "spectrum" }); f != nil {
			t.Fatal(f.Message)
		}
	}
	s.Close()
	return s
}

func TestDamageByStandard(t *testing.T) {
	for _, v := range load(t).Damage {
		d := design(t, endurance.Spec{Standard: endurance.StandardEN1993, Category: &v.Category, GammaMf: &v.Gamma})
		s := sumOf(t, d, v.Spectrum...)
		near(t, "damage", s.Damage, v.Damage, 1e-9)
		var shares float64
		for i, term := range s.Terms {
			shares += term.Share
			if (term.Endurance == nil) != (v.N[i] == nil) {
				t.Errorf("row %d: got %v, want %v", i, term.Endurance, v.N[i])
				continue
			}
			if term.Endurance != nil {
				near(t, "endurance", *term.Endurance, *v.N[i], 1e-9)
			}
		}
		near(t, "shares", shares, 1, 1e-12)
	}
}

// Haibach, Betriebsfestigkeit, 2006, p. 271: 2 167 330 cycles.
func TestMinerElementary(t *testing.T) {
	v := load(t).Miner
	d := design(t, endurance.Spec{Slope: &v.K, At: &[2]*float64{&v.SD, &v.ND}, Below: "same slope"})
	s := sumOf(t, d, v.Cycles...)
	var all float64
	for _, row := range v.Cycles {
		all += row[1]
	}
	near(t, "damage of a pass", s.Damage, v.PerPass, 1e-9)
	near(t, "cycles", all/s.Damage, v.Life, 1e-9)
	near(t, "the book", all/s.Damage, v.Book, 1e-5)
}

// Hours against rated lives add up as cycles do.
func TestHoursPerBand(t *testing.T) {
	v := load(t).Hours
	var s endurance.Sum
	for i, h := range v.Hours {
		s.Add(0, h, &v.Rated[i])
	}
	s.Close()
	near(t, "damage of a block", s.Damage, v.PerBlock, 1e-9)
	near(t, "blocks", 1/s.Damage, v.Blocks, 1e-9)
	near(t, "published", 1/s.Damage, v.Published[0], 1e-8)
	for i, term := range s.Terms {
		near(t, "fraction", term.Share, v.Fractions[i], 1e-9)
		near(t, "published fraction", term.Share, v.Published[i+1], 1e-6)
	}
}

// Bhandari, Design of Machine Elements, example 5.17. The factor by which both
// amplitude and mean can grow is where the corrected amplitude reaches Se.
func TestMeanStress(t *testing.T) {
	v := load(t).Mean
	amplitude, mean := (v.Smax-v.Smin)/2, (v.Smax+v.Smin)/2
	grow := func(correct func(mean, strength float64) (float64, bool), strength float64) float64 {
		low, high := 0., strength/mean
		for range 200 {
			mid := (low + high) / 2
			factor, ok := correct(mid*mean, strength)
			if ok && mid*amplitude*factor < v.Se {
				low = mid
			} else {
				high = mid
			}
		}
		return low
	}
	near(t, "Goodman", grow(endurance.Goodman, v.Su), v.Goodman, 1e-9)
	near(t, "Soderberg", grow(endurance.Goodman, v.Sy), v.Soderberg, 1e-9) // the same line, to the yield strength
	near(t, "Gerber", grow(endurance.Gerber, v.Su), v.Gerber, 1e-9)
	near(t, "static", v.Sy/v.Smax, v.Static, 1e-12)
	for _, correct := range []func(_, _ float64) (float64, bool){endurance.Goodman, endurance.Gerber} {
		if f, ok := correct(600, 600); ok {
			t.Errorf("mean at the ultimate strength: got %v, want none", f)
		}
		if f, ok := correct(-50, 600); !ok || f != 1 {
			t.Errorf("compression: got %v, want 1", f)
		}
	}
}
