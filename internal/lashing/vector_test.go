package lashing_test

import (
	"encoding/json"
	"fmt"
	"math"
	"os"
	"testing"

	"ratchetmark/internal/lashing"
	"ratchetmark/internal/record"
)

// vector is a row of testdata/vectors.json; its source stands in the row.
type vector struct {
	ID        string  `json:"id"`
	Mass      float64 `json:"m_kg"`
	N         float64
	T         float64 `json:"T_daN"`
	STF       float64 `json:"STF_daN"`
	Mu        float64
	Alpha     float64 `json:"alpha_deg"`
	SinAlpha  float64 `json:"sin_alpha"`
	C         float64
	K         float64
	Fs        float64
	FMu       float64 `json:"f_mu"`
	Shortfall float64 `json:"shortfall_pct"`
	Securing  float64 `json:"securing_daN"`
	Chains    float64
	Acting    float64 `json:"forward_acting"`
	LC        float64 `json:"LC_daN"`
	OK        *bool
	Required  float64 `json:"required_daN"`
	Most      float64 `json:"most_available_daN"`
	W         float64 `json:"W_lb"`
	WLL       float64 `json:"WLL_lb"`
	Each      float64 `json:"WLL_each_lb"`
	CountedEa float64 `json:"counted_each_lb"`
	Counted   float64 `json:"counted_lb"`
	Least     float64 `json:"required_lb"`
	Needed    map[string]int
	Published any
	Source    string
}

const kgPerPound = 0.45359237

func of(x float64) *float64 { return &x }

// judged says for each vector what the command answers to it. A vector without
// a row fails, and so does a row without a vector.
var judged = map[string]func(t *testing.T, v vector){
	"over-top, forward, no safety factor": func(t *testing.T, v vector) {
		a := lashing.Ask(lashing.Query{Mass: &v.Mass, Tension: &v.T, Mu: &v.Mu, Angle: &v.Alpha, Lashings: &v.N, K: &v.K, Fs: &v.Fs}, nil)
		figure(t, "shortfall", a.Shortfall, v.Shortfall, 0.05)
		if *a.OK || lashing.RuleOf(lashing.EN).Forward != v.C {
			t.Errorf("got held at %v g, want not at %v", lashing.RuleOf(lashing.EN).Forward, v.C)
		}
	},
	"one over-top strap": func(t *testing.T, v vector) {
		if got := lashing.OverTopAdds(v.K, v.Mu, v.Alpha, v.T); !near(got, v.Securing, 1e-9) {
			t.Errorf("got %v daN, want %v", got, v.Securing)
		}
	},
	"inclined lashing": func(t *testing.T, v vector) {
		alpha := math.Asin(v.SinAlpha) * 180 / math.Pi
		if got := lashing.OverTopAdds(v.K, v.Mu, alpha, v.T); !near(got, v.Securing, 1e-9) {
			t.Errorf("got %v daN, want %v", got, v.Securing)
		}
	},
	"machine on four chains, forward": func(t *testing.T, v vector) {
		if rule := lashing.RuleOf(lashing.EN); rule.FMu != v.FMu || rule.Forward != v.C {
			t.Errorf("got %v and %v, want %v and %v", rule.FMu, rule.Forward, v.FMu, v.C)
		}
		a := lashing.Ask(lashing.Query{Method: lashing.MethodDirect, Mass: &v.Mass, Mu: &v.Mu, LC: &v.LC, Lashings: &v.Acting}, nil)
		figure(t, "required", a.Required, v.Required, 0.5)
		figure(t, "most available", a.MostAvailable, v.Most, 0.5)
		if a.OK == nil || *a.OK != *v.OK {
			t.Errorf("got ok %v, want %v", a.OK, *v.OK)
		}
	},
	"US count": func(t *testing.T, v vector) {
		a := lashing.Ask(lashing.Query{Rule: lashing.CFR, Mass: of(v.W * kgPerPound), WLL: []float64{v.WLL}}, nil)
		if a.Needed == nil || float64(*a.Needed) != v.N {
			t.Errorf("got %v tie-downs, want %v", a.Needed, v.N)
		}
	},
	"EN friction lashing, 2000 kg": func(t *testing.T, v vector) {
		for at, want := range v.Needed {
			var direction string
			var mu float64
			if _, err := fmt.Sscanf(at, "%s mu%g", &direction, &mu); err != nil {
				t.Fatal(err)
			}
			a := lashing.Ask(lashing.Query{Mass: &v.Mass, Tension: &v.STF, Mu: &mu, Angle: &v.Alpha, Direction: direction}, nil)
			if a.Needed == nil || *a.Needed != want {
				t.Errorf("%s: got %v lashings, want %d", at, a.Needed, want)
			}
		}
	},
	"US direct chains": func(t *testing.T, v vector) {
		all := []float64{v.Each, v.Each, v.Each, v.Each}
		a := lashing.Ask(lashing.Query{Rule: lashing.CFR, Method: lashing.MethodDirect, Mass: of(v.W * kgPerPound), WLL: all}, nil)
		figure(t, "required", a.RequiredLb, v.Least, 0.01)
		figure(t, "counted", a.CountedLb, v.Counted, 0.01)
		if float64(len(all)) != v.Chains || v.CountedEa != v.Each/2 || a.OK == nil || *a.OK != *v.OK {
			t.Errorf("got ok %v, want %v", a.OK, *v.OK)
		}
	},
}

func figure(t *testing.T, name string, got *float64, want, by float64) {
	t.Helper()
	if got == nil || !near(*got, want, by) {
		t.Errorf("%s: got %v, want %v", name, got, want)
	}
}

func TestVectors(t *testing.T) {
	data, err := os.ReadFile("testdata/vectors.json")
	if err != nil {
		t.Fatal(err)
	}
	var file struct{ Vectors []vector }
	if err := json.Unmarshal(data, &file); err != nil {
		t.Fatal(err)
	}
	seen := map[string]bool{}
	for _, v := range file.Vectors {
		judge := judged[v.ID]
		if judge == nil || v.Source == "" {
			t.Errorf("%s: got no judge or no source, want both", v.ID)
			continue
		}
		seen[v.ID] = true
		t.Run(v.ID, func(t *testing.T) { judge(t, v) })
	}
	for id := range judged {
		if !seen[id] {
			t.Errorf("%s: got no such vector, want it", id)
		}
	}
}

// The shortfall of GDV's example is "just about 40 %" in its own words.
func Example() {
	a := lashing.Ask(lashing.Query{Mass: of(3000), Tension: of(200), Mu: of(0.38), Angle: of(90), Lashings: of(2), Fs: of(1)}, []record.Finding{})
	fmt.Printf("%.0f %% short\n", *a.Shortfall)
	// Output: 40 % short
}
