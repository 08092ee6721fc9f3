package record

// Structure is what somebody tells of the structure and of what is asked about
// it. All of it may be missing.
type Structure struct {
	CyclesFrom  string    `json:"cycles_from,omitempty"`      // hours (usual), moving or count
	LoadCycles  *float64  `json:"load_cycles,omitempty"`      // a counter of the machine, over its life
	DutyRecord  string    `json:"duty_record,omitempty"`      // how the use is known; see fatigue.DutyRecords
	StressRange *float64  `json:"stress_range_mpa,omitempty"` // of the detail, at rated load
	Curve       *Curve    `json:"curve,omitempty"`            // of the detail
	MakerTest   *Kilogram `json:"maker_test_kg,omitempty"`    // a load that the maker says it bears
	Disposal    *Date     `json:"disposal,omitempty"`         // planned
	Claim       string    `json:"claim,omitempty"`            // crack or bent: what is claimed
	Part        string    `json:"part,omitempty"`             // where
}

// Curve says which S-N curve a detail has, in the members of the command that
// works out damage. Stresses in MPa.
type Curve struct {
	Standard    string       `json:"standard,omitempty"`
	Category    *float64     `json:"category,omitempty"`
	Stress      string       `json:"stress,omitempty"`
	Concept     string       `json:"concept,omitempty"`
	Consequence string       `json:"consequence,omitempty"`
	GammaMf     *float64     `json:"gamma_mf,omitempty"`
	GammaFf     *float64     `json:"gamma_ff,omitempty"`
	Welded      *bool        `json:"welded,omitempty"`
	Slope       *float64     `json:"slope,omitempty"`
	At          *[2]*float64 `json:"range_or_amplitude_at,omitempty"`
	Below       string       `json:"below,omitempty"`
	SlopeBelow  *float64     `json:"slope_below,omitempty"`
}
