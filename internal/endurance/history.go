package endurance

import (
	"math"
	"strconv"
)

// History is a stress history held against EN 13001-3-1.
type History struct {
	Largest   float64 `json:"largest_range_mpa"`
	Parameter float64 `json:"history_parameter"` // s_m
	Class     string  `json:"class"`             // S0 to S9
	Limit     float64 `json:"limit_range_mpa"`   // of the class; 0 beyond S9
	Use       float64 `json:"use"`               // largest range over the limit; 0 beyond S9
}

// HistoryOf classes a history. Its parameter is s_m = ν·k_m, with
// ν = Σn/2e6 and k_m = Σ(n/Σn)(Δσ/Δσ_max)^m. (EN 13001-3-1, restated)
func HistoryOf(terms []Term, category, gammaMf float64, welded bool) History {
	m := slopeEN13001(welded)
	var h History
	for _, t := range terms {
		if t.Cycles > 0 {
			h.Largest = max(h.Largest, t.Range)
		}
	}
	if h.Largest <= 0 {
		h.Class = "S0"
	}
	for _, t := range terms {
		if h.Largest > 0 {
			h.Parameter += t.Cycles / atCategory * math.Pow(t.Range/h.Largest, m)
		}
	}
	for i := range 10 {
		upTo := math.Pow(2, float64(i)-7) // S0..S9; the lambda table of EN 1991-3 confirms the bounds
		if h.Parameter <= upTo {
			h.Class = "S" + strconv.Itoa(i)
			h.Limit = LimitRange(category, gammaMf, upTo, m)
			h.Use = h.Largest / h.Limit
			return h
		}
	}
	h.Class = "beyond S9"
	return h
}

// LimitRange returns Δσ_Rd = Δσ_c/(γ_mf·s_m^(1/m)) for a stress history
// parameter above 0. (EN 13001-3-1, restated)
func LimitRange(category, gammaMf, s, m float64) float64 {
	return category / (gammaMf * math.Pow(s, 1/m))
}
