package endurance

import "math"

// Term is a row of a spectrum with what it adds to Miner's sum.
type Term struct {
	Range     float64  `json:"range_mpa"`
	Cycles    float64  `json:"cycles"`
	Endurance *float64 `json:"endurance"` // nil: this range does no damage
	Damage    float64  `json:"damage"`
	Share     float64  `json:"share"` // of the sum
}

// Sum is Miner's sum with its terms.
type Sum struct {
	Damage float64 `json:"damage"`
	Terms  []Term  `json:"terms"`
}

// Add adds a row: cycles of a range that endures n of them, or does no damage
// where n is nil. (Palmgren 1924, Miner 1945)
func (s *Sum) Add(stressRange, cycles float64, n *float64) {
	t := Term{Range: stressRange, Cycles: cycles, Endurance: n}
	if n != nil {
		t.Damage = cycles / *n
		s.Damage += t.Damage
	}
	s.Terms = append(s.Terms, t)
}

// Close works out the share of each term in the sum.
func (s *Sum) Close() {
	if s.Damage <= 0 {
		return
	}
	for i := range s.Terms {
		s.Terms[i].Share = s.Terms[i].Damage / s.Damage
	}
}

// CriticalSum returns the Miner sums between which nine of ten specimens fail:
// lognormal with mean 1 and coefficient of variation 0.3, from the 5th to the
// 95th percentile. (JCSS Probabilistic Model Code, read)
func CriticalSum() (low, high float64) {
	const cov, z = 0.3, 1.6448536269514722 // z: 95th percentile of the standard normal distribution
	sigma := math.Sqrt(math.Log(1 + cov*cov))
	mu := -sigma * sigma / 2
	return math.Exp(mu - z*sigma), math.Exp(mu + z*sigma)
}
