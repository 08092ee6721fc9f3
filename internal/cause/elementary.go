package cause

import "math"

// Exponentials and logarithms are most of the work of weighing. These two read a
// table and add a short series to it, in half the time of package math natively
// and a third of it as WebAssembly, and give the same bits in both, which those of
// package math do not (Tang, ACM Transactions on Mathematical Software 15 (1989), 144-157, and 16
// (1990), 378-400, from memory).

const (
	expSteps = 64  // of the table of exponentials between two powers of two
	lnSteps  = 128 // of the table of logarithms between 1 and 2
)

var (
	// expTable holds 2 to the power of j/expSteps.
	expTable = func() (t [expSteps]float64) {
		for j := range t {
			t[j] = math.Exp2(float64(j) / expSteps)
		}
		return t
	}()
	// lnTable holds for each step a divisor near its middle, as what to multiply by,
	// and the logarithm of the divisor.
	lnTable = func() (t [lnSteps]struct{ by, ln float64 }) {
		for j := range t {
			t[j].by = 1 / (1 + (float64(j)+0.5)/lnSteps)
			t[j].ln = -math.Log1p(t[j].by - 1)
		}
		return t
	}()
)

// exp returns e to the power of x, to a relative 1e-15.
//
// x = (64·k + j)·ln2/64 + r with |r| < ln2/64 = 0.0109: exp x = 2^k · 2^(j/64) ·
// exp r, of whose series the first term left out is r^7/5040 < 4e-18.
func exp(x float64) float64 {
	const hi, lo = 0x1.62e42feep-7, 0x1.a39ef35793c76p-39 // ln2/64; the first with bits to spare for n
	if !(x > -700 && x < 700) {
		return math.Exp(x)
	}
	n := int64(x * (expSteps * math.Log2E))
	r := x - float64(n)*hi - float64(n)*lo
	r2 := r * r
	series := 1 + r + r2*(1.0/2+r*(1.0/6)+r2*(1.0/24+r*(1.0/120)+r2*(1.0/720)))
	power := math.Float64frombits(uint64(n>>6+1023) << 52)
	return power * expTable[n&(expSteps-1)] * series
}

// ln returns the natural logarithm of x, to 1e-15 absolutely or, where that is
// more, relatively. Next to 1, where the logarithm vanishes, it is not the place for
// what needs all digits of a small one.
//
// x = 2^k · m with 1 ≤ m < 2, m = (1+r)/by with |r| < 1/255: ln x = k·ln2 - ln by +
// ln(1+r), of whose series the first term left out is r^7/7 < 3e-18.
func ln(x float64) float64 {
	const least = 0x1p-1022 // the smallest with all its bits
	if !(x >= least && x <= math.MaxFloat64) {
		return math.Log(x)
	}
	bits := math.Float64bits(x)
	k := int64(bits>>52) - 1023
	t := &lnTable[bits>>(52-7)&(lnSteps-1)]
	r := math.Float64frombits(bits&(1<<52-1)|1023<<52)*t.by - 1
	r2 := r * r
	series := r + r2*(-1.0/2+r*(1.0/3)+r2*(-1.0/4+r*(1.0/5)+r2*(-1.0/6)))
	return float64(k)*math.Ln2 + (t.ln + series)
}

// ln1p returns the natural logarithm of 1+x, x over 0, to a relative 1e-14.
func ln1p(x float64) float64 {
	if x < 0.1 {
		return math.Log1p(x)
	}
	return ln(1 + x)
}
