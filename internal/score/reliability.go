package score

import "math"

// Decile is the probabilities from From to To (the last includes 1), how many
// there were, their mean, and of how many the event happened. Mean and Share
// are nil where there were none.
type Decile struct {
	From, To float64
	Count    int
	Happened int
	Mean     *float64
	Share    *float64
}

// Reliability sorts probabilities into ten equal ranges. Where they are right,
// Share is near Mean in each.
func Reliability(p []float64, happened []bool) [10]Decile {
	var out [10]Decile
	var sum [10]float64
	for i, x := range p {
		k := int(max(min(math.Floor(x*10+1e-12), 9), 0))
		out[k].Count++
		sum[k] += x
		if happened[i] {
			out[k].Happened++
		}
	}
	for k := range out {
		d := &out[k]
		d.From, d.To = float64(k)/10, float64(k+1)/10
		if d.Count > 0 {
			m := sum[k] / float64(d.Count)
			d.Mean, d.Share = &m, Share{d.Happened, d.Count}.Value()
		}
	}
	return out
}

// Off returns the mean distance between Mean and Share, each decile weighted
// by its number: the expected calibration error. It is nil where all are empty.
func Off(deciles [10]Decile) *float64 {
	var sum float64
	n := 0
	for _, d := range deciles {
		if d.Count > 0 {
			sum += float64(d.Count) * math.Abs(*d.Mean-*d.Share)
			n += d.Count
		}
	}
	if n == 0 {
		return nil
	}
	sum /= float64(n)
	return &sum
}

// Happens returns of each forecast the probability of one class and whether it
// was the true one, for Reliability.
func Happens(all []Forecast, class int) (p []float64, happened []bool) {
	for _, f := range all {
		p = append(p, f.P[class])
		happened = append(happened, f.Truth == class)
	}
	return p, happened
}
