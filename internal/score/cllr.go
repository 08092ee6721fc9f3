package score

import "math"

// MostLog10 is the largest log10 of a likelihood ratio that is counted: one
// beyond it, or infinite, costs what this one costs, so that a single piece of
// false certainty cannot make the mean infinite.
const MostLog10 = 300.0

// Cllr returns the log-likelihood-ratio cost, in bits, of likelihood ratios
// given as log10: those of pieces for which the first proposition is true, and
// those of pieces for which the second is. 0 is perfect, 1 is what a system
// costs that always says 1, above 1 one does worse than saying nothing.
// It is nil where either list is empty.
//
// Cllr = ½ mean log2(1 + 1/LR) over the first + ½ mean log2(1 + LR) over the
// second. Brümmer and du Preez 2006, Computer Speech and Language 20 (memory).
func Cllr(first, second []float64) *float64 {
	if len(first) == 0 || len(second) == 0 {
		return nil
	}
	a := mean(len(first), func(i int) float64 { return bits(-first[i]) })
	b := mean(len(second), func(i int) float64 { return bits(second[i]) })
	cost := (*a + *b) / 2
	return &cost
}

// bits returns log2(1 + 10^x) without overflow.
func bits(x float64) float64 {
	x = max(min(x, MostLog10), -MostLog10) * math.Ln10
	return (max(x, 0) + math.Log1p(math.Exp(-math.Abs(x)))) / math.Ln2
}

// Log10Ratio returns log10 of the likelihood ratio of one class against all
// others together: posterior odds over prior odds. It is held within
// MostLog10. ok is false where the prior leaves one of the two no chance.
func Log10Ratio(posterior, prior []float64, class int) (ratio float64, ok bool) {
	p, q := posterior[class], prior[class]
	var rest, priorRest float64
	for k := range posterior {
		if k != class {
			rest += posterior[k]
			priorRest += prior[k]
		}
	}
	if q <= 0 || priorRest <= 0 || p+rest <= 0 {
		return 0, false
	}
	ratio = math.Log10(p) - math.Log10(rest) - math.Log10(q) + math.Log10(priorRest)
	return max(min(ratio, MostLog10), -MostLog10), true
}

// Multi returns the log-likelihood-ratio cost of forecasts among K classes, in
// bits: each class counts alike, however many pieces are of it, and the prior
// is taken out of the probabilities. 0 is perfect, log2 K is what a system
// costs that always returns its prior; with two classes it is Cllr. Forecasts
// with NoClass are left out. It is nil where one of the classes has no piece.
//
// (1/K) Σ over classes k of the mean over pieces of k of -log2(w_k / Σ w_j),
// w = posterior / prior. Brümmer and van Leeuwen 2006, Odyssey workshop (memory).
func Multi(all []Forecast, prior []float64) *float64 {
	sum, count := make([]float64, len(prior)), make([]int, len(prior))
	for _, f := range all {
		if f.Truth == NoClass {
			continue
		}
		sum[f.Truth] += surprise(f, prior)
		count[f.Truth]++
	}
	var total float64
	for k, n := range count {
		if n == 0 {
			return nil
		}
		total += sum[k] / float64(n)
	}
	total /= float64(len(prior))
	return &total
}

// surprise is -log2 of the probability that the true class would have under
// equal priors, held within MostLog10.
func surprise(f Forecast, prior []float64) float64 {
	var all float64
	for k, p := range f.P {
		if prior[k] > 0 {
			all += p / prior[k]
		}
	}
	most := MostLog10 * math.Log2(10)
	if all <= 0 || prior[f.Truth] <= 0 {
		return most
	}
	return min(-math.Log2(f.P[f.Truth]/prior[f.Truth]/all), most)
}
