package simulate_test

import (
	"math"
	"testing"

	"ratchetmark/internal/simulate"
)

// Every row says what it is, and draws what it says: within its limits, with
// the mean of its shape.
func TestParameters(t *testing.T) {
	seen := map[string]bool{}
	all := simulate.Parameters()
	if len(all) < 80 {
		t.Fatalf("got %d parameters, want the whole table", len(all))
	}
	for i, p := range all {
		if seen[p.Name] || p.Name == "" || p.Why == "" || p.Per == "" {
			t.Errorf("row %d: got %+v, want a name of its own, what it is drawn for, and why", i, p)
		}
		seen[p.Name] = true
		if !(p.Low <= p.High) || math.IsInf(p.High, 0) || p.Shape == simulate.LogUniform && p.Low <= 0 {
			t.Errorf("%s: got %v to %v, want limits that fit its shape", p.Name, p.Low, p.High)
			continue
		}
		const n = 4000
		var sum, square float64
		for _, x := range simulate.Draw(i, n) {
			if x < p.Low || x > p.High*(1+1e-12) {
				t.Fatalf("%s: got %v, want %v to %v", p.Name, x, p.Low, p.High)
			}
			sum += x
			square += x * x
		}
		mean := sum / n
		error := math.Sqrt(max(square/n-mean*mean, 0) / n)
		near(t, p.Name+", mean", mean, meanOf(p), 4.5*error+1e-9)
	}
}

func meanOf(p simulate.Parameter) float64 {
	if p.Shape == simulate.LogUniform && p.High > p.Low {
		return (p.High - p.Low) / math.Log(p.High/p.Low)
	}
	return (p.Low + p.High) / 2
}
