package model

import (
	"fmt"

	"ratchetmark/internal/record"
)

// Part is a part of the form: the machine, or a list of like lines.
type Part string

// The parts of the form. Their values are the steps of a [record.Path].
const (
	OfMachine Part = "machine"
	OfReading Part = "readings"
	OfBand    Part = "bands" // of a reading
	OfCustody Part = "custody"
	OfEvent   Part = "events"
	OfDay     Part = "daily"
	OfCheck   Part = "checks"
	OfTieDown Part = "tie_downs"
)

// Entered says what is entered into a field.
type Entered int

// What can be entered into a field.
const (
	AsText Entered = iota
	AsNumber
	AsWhole  // a number without decimals
	AsTime   // date and time of day, UTC
	AsDay    // a date
	AsChoice // one of some words
)

// row is a field of the form: one row for each in [rows].
type row struct {
	part  Part
	name  string // last step of the path
	id    string // last part of the id of its element
	label string
	as    Entered
	step  float64                         // what one press of a stepper adds; 0 where there are none
	text  func(f *Form, i, j int) *string // nil in a list, where the cell tells
	cell  int
}

// rows are all fields, in the order in which they are shown. The steps are what
// plates and screens of such machines usually count in.
var rows = []row{
	{OfMachine, "id", "id", "Name or number", AsText, 0, func(f *Form, _, _ int) *string { return &f.ID }, 0},
	{OfMachine, "kind", "kind", "Kind", AsChoice, 0, func(f *Form, _, _ int) *string { return &f.Kind }, 0},
	{OfMachine, "rated_load_kg", "rated", "Rated load, kg", AsNumber, 10, func(f *Form, _, _ int) *string { return &f.Rated }, 0},
	{OfMachine, "persons", "persons", "Persons", AsWhole, 1, func(f *Form, _, _ int) *string { return &f.Persons }, 0},
	{OfMachine, "load_sensing_kg", "sensing", "Load sensing acts at, kg", AsNumber, 10, func(f *Form, _, _ int) *string { return &f.Sensing }, 0},
	{OfMachine, "in_service", "in-service", "In service since", AsDay, 0, func(f *Form, _, _ int) *string { return &f.InService }, 0},

	{OfReading, "at", "at", "Read at (UTC)", AsTime, 0, func(f *Form, i, _ int) *string { return &f.Readings[i].At }, 0},
	{OfReading, "powered_h", "powered", "Powered hours", AsNumber, 0.1, func(f *Form, i, _ int) *string { return &f.Readings[i].Powered }, 0},
	{OfReading, "moving_h", "moving", "Moving hours", AsNumber, 0.1, func(f *Form, i, _ int) *string { return &f.Readings[i].Moving }, 0},
	{OfReading, "peak_kg", "peak", "Peak, kg", AsNumber, 5, func(f *Form, i, _ int) *string { return &f.Readings[i].Peak }, 0},
	{OfReading, "peak_at", "peak-at", "Peak set at (UTC)", AsTime, 0, func(f *Form, i, _ int) *string { return &f.Readings[i].PeakAt }, 0},

	{OfBand, "from_kg", "from", "From, kg", AsNumber, 5, func(f *Form, i, j int) *string { return &f.Readings[i].Bands[j].From }, 0},
	{OfBand, "to_kg", "to", "To, kg", AsNumber, 5, func(f *Form, i, j int) *string { return &f.Readings[i].Bands[j].To }, 0},
	{OfBand, "hours", "hours", "Hours", AsNumber, 0.1, func(f *Form, i, j int) *string { return &f.Readings[i].Bands[j].Hours }, 0},

	{OfCustody, "holder", "holder", "In whose hands", AsChoice, 0, nil, 0},
	{OfCustody, "from", "from", "From (UTC)", AsTime, 0, nil, 1},
	{OfCustody, "to", "to", "To (UTC)", AsTime, 0, nil, 2},
	{OfCustody, "who", "who", "Who", AsText, 0, nil, 3},
	{OfCustody, "note", "note", "Note", AsText, 0, nil, 4},

	{OfEvent, "kind", "kind", "What happened", AsChoice, 0, nil, 0},
	{OfEvent, "at", "at", "At (UTC)", AsTime, 0, nil, 1},
	{OfEvent, "load_kg", "load", "Load, kg", AsNumber, 5, nil, 2},
	{OfEvent, "note", "note", "Note", AsText, 0, nil, 3},

	{OfDay, "date", "date", "Day", AsDay, 0, nil, 0},
	{OfDay, "powered_h", "powered", "Powered hours", AsNumber, 0.1, nil, 1},
	{OfDay, "moving_h", "moving", "Moving hours", AsNumber, 0.1, nil, 2},

	{OfCheck, "kind", "kind", "On the platform", AsChoice, 0, nil, 0},
	{OfCheck, "mass_kg", "mass", "Its mass, kg", AsNumber, 5, nil, 3},
	{OfCheck, "shown_kg", "shown", "Load shown, kg", AsNumber, 1, nil, 2},
	{OfCheck, "at", "at", "Checked at (UTC)", AsTime, 0, nil, 1},
	{OfCheck, "by", "by", "Checked by", AsText, 0, nil, 4},
	{OfCheck, "note", "note", "Note", AsText, 0, nil, 5},

	{OfTieDown, "over_platform", "over", "Over the platform", AsChoice, 0, nil, 0},
	{OfTieDown, "how", "how", "How that is known", AsChoice, 0, nil, 1},
	{OfTieDown, "at", "at", "A time within the trip (UTC)", AsTime, 0, nil, 2},
	{OfTieDown, "note", "note", "Note", AsText, 0, nil, 3},
}

// Field is one field of a form: a row, and which line of its part. I and J count
// from 0; J is the band of reading I.
type Field struct {
	*row
	I, J int
}

// Fields returns the fields of a line of a part. Give 0 for what does not count.
func Fields(part Part, i, j int) []Field {
	var out []Field
	for k := range rows {
		if rows[k].part == part {
			out = append(out, Field{&rows[k], i, j})
		}
	}
	return out
}

// FieldOf returns one field of a line of a part; name is the last step of its
// path. It panics when there is none of this name.
func FieldOf(part Part, name string, i, j int) Field {
	for _, x := range Fields(part, i, j) {
		if x.name == name {
			return x
		}
	}
	panic("no field " + name + " in " + string(part))
}

// idPrefix begins the ids of the fields of a line.
var idPrefix = map[Part]string{OfReading: "r", OfCustody: "c", OfEvent: "e", OfDay: "d", OfCheck: "k", OfTieDown: "t"}

// LineID makes the id of an element that belongs to a line of a part.
func LineID(part Part, i, j int, name string) string {
	switch part {
	case OfMachine:
		return name
	case OfBand:
		return fmt.Sprintf("r%d-b%d-%s", i+1, j+1, name)
	}
	return fmt.Sprintf("%s%d-%s", idPrefix[part], i+1, name)
}

// ID returns the id of the field's element.
func (x Field) ID() string { return LineID(x.part, x.I, x.J, x.id) }

// Label returns the field's words.
func (x Field) Label() string { return x.label }

// As says what is entered into the field.
func (x Field) As() Entered { return x.as }

// By returns what one press of a stepper adds; 0 where there are none.
func (x Field) By() float64 { return x.step }

// Path returns the field's place in the case.
func (x Field) Path() record.Path {
	switch x.part {
	case OfMachine:
		return record.Path(x.part).At(x.name)
	case OfBand:
		return record.Path(OfReading).At(x.I + 1).At(string(OfBand)).At(x.J + 1).At(x.name)
	}
	return record.Path(x.part).At(x.I + 1).At(x.name)
}

// isEdge reports whether the field is an edge of a band.
func (x Field) isEdge() bool { return x.part == OfBand && x.name != "hours" }

// Lines returns how many lines a part has; for bands, of reading i.
func (f *Form) Lines(part Part, i int) int {
	switch part {
	case OfMachine:
		return 1
	case OfReading:
		return len(f.Readings)
	case OfBand:
		if i < 0 || i >= len(f.Readings) {
			return 0
		}
		return len(f.Readings[i].Bands)
	}
	return len(*f.list(part))
}

// slot finds the text of a field; nil when its line is not there any more.
func (f *Form) slot(x Field) *string {
	line := x.I
	if x.part == OfBand {
		line = x.J
	}
	if line < 0 || line >= f.Lines(x.part, x.I) {
		return nil
	}
	if x.text == nil {
		return &(*f.list(x.part))[line][x.cell]
	}
	return x.text(f, x.I, x.J)
}

// Typed returns what stands in a field.
func (f *Form) Typed(x Field) string {
	if text := f.slot(x); text != nil {
		return *text
	}
	return ""
}
