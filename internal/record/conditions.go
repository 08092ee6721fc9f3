package record

// Conditions say by which rules a machine is held against its record, as far as
// that is known. Which regions and editions there are is told by package
// capacity.
type Conditions struct {
	Region      string `json:"region,omitempty"`              // where the machine is used
	Edition     string `json:"edition,omitempty"`             // of the document it was built to
	ByHand      bool   `json:"moved_by_hand,omitempty"`       // nothing but people move it
	RaisingOnly bool   `json:"senses_only_raising,omitempty"` // senses the load only when raising from the lowest position
	Zones       []Zone `json:"zones,omitempty"`               // further rated loads
}

// Zone is a further rated load of the plate: for a part of the machine's reach,
// or for a state of its platform such as an extended deck.
type Zone struct {
	Name      string    `json:"name"`
	RatedLoad *Kilogram `json:"rated_load_kg"`
	Persons   *int      `json:"persons"`
}

// Plan is who and what shall go up, as a person wrote it down.
type Plan struct {
	Persons []PlanPerson `json:"persons,omitempty"`
	Items   []PlanItem   `json:"items,omitempty"`
}

// PlanPerson is one person of a plan, with what is worn.
type PlanPerson struct {
	Name     string  `json:"name,omitempty"`
	Body     float64 `json:"body"`
	Clothing float64 `json:"clothing,omitempty"`
	Harness  float64 `json:"harness,omitempty"`
	Unit     string  `json:"unit,omitempty"` // "lb", else kg
}

// PlanItem is tools or materials of a plan.
type PlanItem struct {
	Name  string  `json:"name,omitempty"`
	Mass  float64 `json:"mass"` // of one
	Count int     `json:"count,omitempty"`
	Unit  string  `json:"unit,omitempty"` // "lb", else kg
}

// Crew is a crew that is drawn from a group of people; nil is the usual value.
type Crew struct {
	Population string   `json:"population,omitempty"` // id of package bodymass
	Persons    *int     `json:"persons,omitempty"`
	Worn       *float64 `json:"worn_kg,omitempty"`  // by each person
	Tools      *float64 `json:"tools_kg,omitempty"` // of all
}
