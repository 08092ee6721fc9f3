package vibration

import "math"

// Crossings returns how often a second the response crosses zero upwards, and
// how often it peaks: E0 = √(m2/m0), EP = √(m4/m2). (Rice 1944)
func (m Moments) Crossings() (zero, peaks float64) {
	return math.Sqrt(m[2] / m[0]), math.Sqrt(m[3] / m[2])
}

// NarrowBand returns Σ amplitude^k a second as if every peak lay on a slowly
// changing sine: E0·(√(2 m0))^k·Γ(1+k/2). It errs on the side of damage.
// (Miles 1954, Bendat 1964, from memory)
func (m Moments) NarrowBand(k float64) float64 {
	if !m.live() {
		return 0
	}
	zero, _ := m.Crossings()
	return zero * math.Pow(math.Sqrt(2*m[0]), k) * math.Gamma(1+k/2)
}

// Dirlik are the weights of Dirlik's density of rainflow amplitudes.
// (T. Dirlik, Application of computers in fatigue analysis, University of
// Warwick 1985, closed form)
type Dirlik struct{ Gamma, Xm, D1, D2, D3, Q, R float64 }

// Dirlik returns the weights of a response.
func (m Moments) Dirlik() Dirlik {
	var d Dirlik
	d.Gamma = m[2] / math.Sqrt(m[0]*m[3])
	d.Xm = m[1] / m[0] * math.Sqrt(m[2]/m[3])
	d.D1 = 2 * (d.Xm - d.Gamma*d.Gamma) / (1 + d.Gamma*d.Gamma)
	d.R = (d.Gamma - d.Xm - d.D1*d.D1) / (1 - d.Gamma - d.D1 + d.D1*d.D1)
	d.D2 = (1 - d.Gamma - d.D1 + d.D1*d.D1) / (1 - d.R)
	d.D3 = 1 - d.D1 - d.D2
	d.Q = 1.25 * (d.Gamma - d.D3 - d.D2*d.R) / d.D1
	return d
}

// MeanPower returns the mean of amplitude^k for an rms of 1.
func (d Dirlik) MeanPower(k float64) float64 {
	return d.D1*math.Pow(d.Q, k)*math.Gamma(1+k) +
		math.Pow(math.Sqrt2, k)*math.Gamma(1+k/2)*(d.D2*math.Pow(math.Abs(d.R), k)+d.D3)
}

// Rainflow returns Σ amplitude^k a second by Dirlik's density; that of the
// narrow band where the response is so narrow that the density has no weights.
func (m Moments) Rainflow(k float64) float64 {
	if !m.live() {
		return 0
	}
	_, peaks := m.Crossings()
	x := peaks * math.Pow(m[0], k/2) * m.Dirlik().MeanPower(k)
	if math.IsNaN(x) || math.IsInf(x, 0) || x < 0 {
		return m.NarrowBand(k)
	}
	return x
}

// live reports whether there is any response at all.
func (m Moments) live() bool { return m[0] > 0 && m[2] > 0 && m[3] > 0 }
