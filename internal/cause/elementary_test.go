package cause

import (
	"math"
	"math/rand/v2"
	"runtime"
	"testing"
)

// Exponentials and logarithms against those of package math, whose error is
// under a unit in the last place: over the whole range, and at its ends.
func TestElementary(t *testing.T) {
	rng := rand.New(rand.NewPCG(5, 6))
	relative := func(x float64) {
		if got, want := exp(x), math.Exp(x); !(math.Abs(got-want) <= 1e-15*want) && got != want {
			t.Fatalf("exp(%v): got %v, want %v", x, got, want)
		}
	}
	either := func(x float64) {
		if got, want := ln(x), math.Log(x); !(math.Abs(got-want) <= 1e-15*max(1, math.Abs(want))) && got != want {
			t.Fatalf("ln(%v): got %v, want %v", x, got, want)
		}
	}
	for range 200_000 {
		relative(1500*rng.Float64() - 750)
		relative(rng.NormFloat64())
		either(math.Exp(1500*rng.Float64() - 750))
		either(1 + 0.1*rng.NormFloat64())
		either(rng.Float64())
	}
	for j := range 65 { // at the steps of the tables
		x := float64(j) * math.Ln2 / 64
		for _, at := range []float64{x, math.Nextafter(x, 2), math.Nextafter(x, -2)} {
			relative(at)
			relative(-at)
		}
		for _, at := range []float64{1 + float64(j)/64, math.Nextafter(1+float64(j)/64, 0)} {
			either(at)
			either(at / 1024)
		}
	}
	for _, x := range []float64{0, 700, -700, 745, -745.2, 1e300, -1e300, math.Inf(1), math.Inf(-1)} {
		relative(x)
	}
	for _, x := range []float64{0, 1, 5e-324, 0x1p-1022, math.MaxFloat64, math.Inf(1)} {
		either(x)
	}
	if !math.IsNaN(exp(math.NaN())) || !math.IsNaN(ln(math.NaN())) || !math.IsNaN(ln(-1)) {
		t.Error("got a number of what has none, want none")
	}
}

// Both give the same bits natively and as WebAssembly: what they are is written
// here, and the test can be run as either. Processors that fuse a product with a
// sum differ.
func TestSameBits(t *testing.T) {
	if runtime.GOARCH != "amd64" && runtime.GOARCH != "wasm" {
		t.Skip("got a processor that may fuse, want one that does not")
	}
	rng, sum := rand.New(rand.NewPCG(7, 8)), uint64(0)
	for range 100_000 {
		x := 40*rng.Float64() - 20
		sum = 31*sum + math.Float64bits(exp(x))
		sum = 31*sum + math.Float64bits(ln(1e6*rng.Float64()))
	}
	if want := uint64(0xc461c28b2680a4cf); sum != want {
		t.Errorf("got bits that add up to %#x, want %#x", sum, want)
	}
}

func BenchmarkExp(b *testing.B) {
	x, sum := -0.1, 0.0
	for b.Loop() {
		sum += exp(x)
		x = -3.1 - x
	}
	sink = sum
}

func BenchmarkMathExp(b *testing.B) {
	x, sum := -0.1, 0.0
	for b.Loop() {
		sum += math.Exp(x)
		x = -3.1 - x
	}
	sink = sum
}

func BenchmarkLn(b *testing.B) {
	x, sum := 0.1, 0.0
	for b.Loop() {
		sum += ln(x)
		x = 3.1 - x
	}
	sink = sum
}

func BenchmarkMathLog(b *testing.B) {
	x, sum := 0.1, 0.0
	for b.Loop() {
		sum += math.Log(x)
		x = 3.1 - x
	}
	sink = sum
}

var sink float64
