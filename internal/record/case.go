package record

import "time"

// Format is the value of a case file's "format" member.
const Format = "ratchetmark case 1"

// Case is all that is known of one machine. Everything but the rated load and
// one reading may be missing; a missing value is nil, a zero is a recorded zero.
type Case struct {
	Format      string             `json:"format"`
	Note        string             `json:"note,omitempty"`
	Machine     Machine            `json:"machine"`
	Readings    []Reading          `json:"readings"`
	Custody     []Custody          `json:"custody,omitempty"`
	Events      []Event            `json:"events,omitempty"`
	Daily       []Daily            `json:"daily,omitempty"`
	Checks      []LoadCheck        `json:"checks,omitempty"`
	TieDowns    []TieDown          `json:"tie_downs,omitempty"`
	Assumptions map[string]Assumed `json:"assumptions,omitempty"`
	Plan        *Plan              `json:"plan,omitempty"`
	Crew        *Crew              `json:"crew,omitempty"`
	Thresholds  []Kilogram         `json:"thresholds_kg,omitempty"` // loads over which the hours are asked for
	Structure   *Structure         `json:"structure,omitempty"`
	Transport   *Transport         `json:"transport,omitempty"`
}

// Assumed is a value that no record gives, with the interval it may lie in.
type Assumed struct {
	Low   float64 `json:"low"`
	Value float64 `json:"value"`
	High  float64 `json:"high"`
}

// Kind is the kind of machine.
type Kind string

// The kinds of machine that are told apart.
const (
	Boom    Kind = "boom"
	Scissor Kind = "scissor"
	Mast    Kind = "mast"
	Other   Kind = "other"
)

// Kinds lists the kinds a case file may name.
var Kinds = []Kind{Boom, Scissor, Mast, Other}

// Machine is what the plate and the papers say.
type Machine struct {
	ID          string    `json:"id"`
	Kind        Kind      `json:"kind"`
	RatedLoad   *Kilogram `json:"rated_load_kg"`
	Persons     *int      `json:"persons"`
	LoadSensing *Kilogram `json:"load_sensing_kg"` // load at which the load-sensing system acts
	Mass        *Kilogram `json:"mass_kg"`         // of the machine itself
	InService   *Date     `json:"in_service,omitempty"`
	Conditions
}

// Reading is the machine's counters at one moment.
type Reading struct {
	At      time.Time  `json:"at,omitzero"`
	Powered *Hour      `json:"powered_h"`
	Moving  *Hour      `json:"moving_h"`
	Bands   []Band     `json:"bands,omitempty"`
	Peak    *Kilogram  `json:"peak_kg"`
	PeakAt  *time.Time `json:"peak_at"`
}

// Band is a load interval [From, To) with the hours spent in it.
// A nil To is a band open upwards.
type Band struct {
	From  Kilogram  `json:"from_kg"`
	To    *Kilogram `json:"to_kg"`
	Hours Hour      `json:"hours"`
}

// Open reports whether the band has no upper edge.
func (b Band) Open() bool { return b.To == nil }

// SameEdges reports whether two bands count the same loads.
func (b Band) SameEdges(c Band) bool {
	if b.From != c.From || b.Open() != c.Open() {
		return false
	}
	return b.Open() || *b.To == *c.To
}

// Holder says in whose hands a machine was.
type Holder string

// The hands a machine can be in.
const (
	Hire     Holder = "hire"
	Transit  Holder = "transit"
	Depot    Holder = "depot"
	Workshop Holder = "workshop"
)

// Holders lists the holders a case file may name.
var Holders = []Holder{Hire, Transit, Depot, Workshop}

// Custody says who had the machine from when to when.
type Custody struct {
	From   time.Time `json:"from"`
	To     time.Time `json:"to"`
	Holder Holder    `json:"holder"`
	Who    string    `json:"who"`
	Note   string    `json:"note,omitempty"`
}

// EventKind says what happened at a moment.
type EventKind string

// The events a case file may name.
const (
	OverloadAlarm EventKind = "overload_alarm"
	TiltAlarm     EventKind = "tilt_alarm"
	PowerOn       EventKind = "power_on"
	PowerOff      EventKind = "power_off"
	PeakRise      EventKind = "peak_rise"
)

// EventKinds lists the kinds of event a case file may name.
var EventKinds = []EventKind{OverloadAlarm, TiltAlarm, PowerOn, PowerOff, PeakRise}

// Event is something the machine logged at a moment.
type Event struct {
	At   time.Time `json:"at"`
	Kind EventKind `json:"kind"`
	Load *Kilogram `json:"load_kg"`
	Note string    `json:"note,omitempty"`
}

// Daily is the use of one day.
type Daily struct {
	Date    Date  `json:"date"`
	Powered *Hour `json:"powered_h"`
	Moving  *Hour `json:"moving_h"`
}
