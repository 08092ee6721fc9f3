package record

// Transport is how a machine rides, as far as a person said it: what would go
// over its platform, and what holds it. A missing figure is nil.
type Transport struct {
	Device  string   `json:"device,omitempty"` // what a strap over the platform is tightened with
	Route   string   `json:"route,omitempty"`  // where it goes
	Straps  *int     `json:"straps,omitempty"`
	Angle   *float64 `json:"angle_deg,omitempty"` // of the strap to the deck
	Edge    string   `json:"edge,omitempty"`      // what it bends over
	Blocked *bool    `json:"blocked,omitempty"`   // a block is under the platform

	Rule      string    `json:"rule,omitempty"`
	Friction  *float64  `json:"friction,omitempty"`  // under the wheels
	Block     *float64  `json:"block_dan,omitempty"` // what blocks or the front wall hold forward
	Height    *float64  `json:"gravity_height_m,omitempty"`
	Track     *float64  `json:"track_m,omitempty"`
	Length    *float64  `json:"length_m,omitempty"`
	Lowered   *bool     `json:"lowered,omitempty"` // the platform and what lifts it are lowered and secured
	Lashings  []Lashing `json:"lashings,omitempty"`
	BriefedOn *Date     `json:"briefed_on,omitempty"` // the day the crews were briefed
	Language  string    `json:"language,omitempty"`   // of the card
}

// Lashing is a row of equal lashings that hold a machine.
type Lashing struct {
	Gear  string  `json:"gear"`
	Way   string  `json:"way"`
	Count int     `json:"count"`
	Angle float64 `json:"angle_deg"` // to the deck
	Plan  float64 `json:"plan_deg"`  // in plan, to the length of the vehicle
}
