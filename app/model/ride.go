package model

import (
	"slices"
	"strconv"
	"strings"

	"ratchetmark/internal/lashing"
	"ratchetmark/internal/record"
)

// RideField is something that a person sets about how a machine rides. Row is the
// lashing it belongs to; -1 where it belongs to none.
type RideField struct {
	Name string
	Row  int
}

// ID is the id of the field's element.
func (x RideField) ID() string {
	id := "ride-" + strings.ReplaceAll(x.Name, "_", "-")
	if x.Row >= 0 {
		id += "-" + strconv.Itoa(x.Row+1)
	}
	return id
}

// rideRow is a field: its label, how it is entered, and where it is kept.
type rideRow struct {
	name, label string
	as          Entered
	choices     func() []Choice
	number      func(t *record.Transport) **float64
	text        func(t *record.Transport) *string
	flag        func(t *record.Transport) **bool
	usual       string // shown where nothing is set
}

var yesNo = []Choice{{"false", "no"}, {"true", "yes"}}

// rideRows are the fields that belong to no lashing, in the order of the sheet.
var rideRows = []rideRow{
	{name: "device", label: "Tightened with", as: AsChoice, choices: devices, text: func(t *record.Transport) *string { return &t.Device }, usual: lashing.UsualDevice},
	{name: "route", label: "It goes", as: AsChoice, choices: routes, text: func(t *record.Transport) *string { return &t.Route }, usual: string(lashing.OverRails)},
	{name: "edge", label: "It bends over", as: AsChoice, choices: edges, text: func(t *record.Transport) *string { return &t.Edge }, usual: "rail"},
	{name: "blocked", label: "Block under the platform", as: AsChoice, choices: func() []Choice { return yesNo }, flag: func(t *record.Transport) **bool { return &t.Blocked }, usual: "false"},
	{name: "straps", label: "How many", as: AsWhole, usual: "1"},
	{name: "angle_deg", label: "Angle to the deck", as: AsNumber, number: func(t *record.Transport) **float64 { return &t.Angle }, usual: "60"},

	{name: "mass_kg", label: "Mass of the machine, kg", as: AsNumber},
	{name: "rule", label: "By which rule", as: AsChoice, choices: rules, text: func(t *record.Transport) *string { return &t.Rule }, usual: lashing.EN},
	{name: "friction", label: "Friction under the wheels, 0.01 to 0.6", as: AsNumber, number: func(t *record.Transport) **float64 { return &t.Friction }, usual: "0.3"},
	{name: "lowered", label: "Boom, jib and platform lowered and secured", as: AsChoice, choices: func() []Choice { return append([]Choice{{"", "not said"}}, yesNo...) }, flag: func(t *record.Transport) **bool { return &t.Lowered }},
	{name: "block_dan", label: "Blocks or front wall hold forward, daN", as: AsNumber, number: func(t *record.Transport) **float64 { return &t.Block }},
	{name: "gravity_height_m", label: "Height of its centre of gravity, m", as: AsNumber, number: func(t *record.Transport) **float64 { return &t.Height }},
	{name: "track_m", label: "Track, m", as: AsNumber, number: func(t *record.Transport) **float64 { return &t.Track }},
	{name: "length_m", label: "Length, m", as: AsNumber, number: func(t *record.Transport) **float64 { return &t.Length }},

	{name: "briefed_on", label: "Crews were briefed on", as: AsDay},
	{name: "language", label: "Language of the card", as: AsChoice, choices: languages, text: func(t *record.Transport) *string { return &t.Language }, usual: "en"},

	{name: "gear", label: "What", as: AsChoice, choices: gears},
	{name: "way", label: "How", as: AsChoice, choices: ways},
	{name: "count", label: "How many", as: AsWhole},
	{name: "angle", label: "To the deck, degrees", as: AsNumber},
	{name: "plan", label: "In plan, degrees", as: AsNumber},
}

// Fields of the sheet's section, by the part in which they are shown.
var (
	StrapFields   = rideFields("device", "route", "edge", "blocked", "straps", "angle_deg")
	MachineFields = rideFields("mass_kg", "rule", "friction", "lowered")
	FurtherFields = rideFields("block_dan", "gravity_height_m", "track_m", "length_m")
	BriefedField  = RideField{"briefed_on", -1}
	LanguageField = RideField{"language", -1}
)

// LashingFields are the fields of the i-th row of lashings.
func LashingFields(i int) []RideField {
	var out []RideField
	for _, name := range []string{"gear", "way", "count", "angle", "plan"} {
		out = append(out, RideField{name, i})
	}
	return out
}

func rideFields(names ...string) (out []RideField) {
	for _, name := range names {
		out = append(out, RideField{name, -1})
	}
	return out
}

func (x RideField) row() *rideRow {
	i := slices.IndexFunc(rideRows, func(r rideRow) bool { return r.name == x.Name })
	return &rideRows[i]
}

// Label names the field for a person.
func (x RideField) Label() string { return x.row().label }

// As says what can be entered.
func (x RideField) As() Entered { return x.row().as }

// Choices lists what can be chosen; nil where nothing can.
func (x RideField) Choices() []Choice {
	if x.row().choices == nil {
		return nil
	}
	return x.row().choices()
}
