package record

// Bounds is a figure that is not known exactly: never below Low, never above
// High, and an estimate between them. Estimate is nil where nothing supports
// one, High is nil where nothing bounds the figure from above.
type Bounds struct {
	Low      float64  `json:"low"`
	Estimate *float64 `json:"estimate"`
	High     *float64 `json:"high"`
}

// Scale multiplies the three figures by three factors of zero or more.
func (b Bounds) Scale(low, estimate, high float64) Bounds {
	out := Bounds{Low: b.Low * low}
	if b.Estimate != nil {
		out.Estimate = Of(*b.Estimate * estimate)
	}
	if b.High != nil {
		out.High = Of(*b.High * high)
	}
	return out
}
