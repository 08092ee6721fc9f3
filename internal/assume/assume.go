// Package assume is the table of what no record gives and a conclusion still
// needs: each with its usual value, the interval it may lie in, and a source.
//
// A case may carry its own values; [For] puts them in place of the usual ones
// and says so.
package assume

import (
	"fmt"
	"slices"

	"ratchetmark/internal/record"
)

// ID names an assumption.
type ID string

// The assumptions.
const (
	PersonMass      ID = "person_mass_kg"
	ToolsMass       ID = "tools_mass_kg"
	SensingFrom     ID = "load_sensing_from_pct"
	SensingTo       ID = "load_sensing_to_pct"
	CyclesPerHour   ID = "cycles_per_hour"
	SelfWeightShare ID = "self_weight_share"
	DesignCycles    ID = "design_cycles"
	Slope           ID = "slope"

	CyclesPerMovingHour ID = "cycles_per_moving_hour"
	DesignCyclesHeavy   ID = "design_cycles_heavy"
	StressCycles        ID = "stress_cycles_per_load_cycle"
	RoadFrequency       ID = "road_frequency_hz"
	RoadDamping         ID = "road_damping"
	RoadStowed          ID = "road_stowed_stress"
	RoadTime            ID = "road_share_of_transit"
	RoadSpeed           ID = "road_speed_kmh"
)

// Status says how a value is known.
type Status string

// The statuses.
const (
	Read     Status = "read in the named source"
	Restated Status = "read in a restatement of the named source"
	Memory   Status = "from memory, not seen: check it"
	Guess    Status = "an assumption without a source"
)

// Assumption is a row of the table.
type Assumption struct {
	ID     ID      `json:"id"`
	Name   string  `json:"name"`
	Unit   string  `json:"unit"`
	Value  float64 `json:"value"`
	Low    float64 `json:"low"`
	High   float64 `json:"high"`
	Source string  `json:"source"`
	Status Status  `json:"status"`
	Edited bool    `json:"edited"`
	Stated string  `json:"stated,omitempty"` // the usual value as its document states it, where that is in another unit
	Group  string  `json:"group,omitempty"`  // what it is for, where that is one thing
	Rule   bool    `json:"-"`                // one of the rules that the machine is held against
	Least  float64 `json:"-"`                // the least and most that make sense
	Most   float64 `json:"-"`
	Fixed  bool    `json:"-"` // a chosen figure: no interval
	kinds  map[record.Kind][3]float64
}

// table holds the usual values. Low, usual and high by kind of machine stand in kinds.
var table = []Assumption{
	{ID: PersonMass, Rule: true, Name: "mass of a person", Unit: "kg", Value: 80, Low: 80, High: 80, Least: 30, Most: 250, Fixed: true,
		Source: "EN 280-1:2022, 4.2; ISO 16368", Status: Memory},
	{ID: ToolsMass, Rule: true, Name: "least mass of tools and materials", Unit: "kg", Value: 40, Low: 40, High: 40, Least: 0, Most: 5000, Fixed: true,
		Source: "EN 280-1:2022, 4.2; ISO 16368", Status: Memory},
	{ID: SensingFrom, Rule: true, Name: "load sensing acts from", Unit: "% of rated load", Value: 100, Low: 100, High: 100, Least: 50, Most: 200, Fixed: true,
		Source: "ANSI/SAIA A92.20 (restated); EN 280-1:2022, 4.4.1.2", Status: Memory},
	{ID: SensingTo, Rule: true, Name: "load sensing acts before", Unit: "% of rated load", Value: 120, Low: 120, High: 120, Least: 100, Most: 300, Fixed: true,
		Source: "ANSI/SAIA A92.20 (restated); EN 280-1:2022, 4.4.1.2", Status: Memory},
	{ID: CyclesPerHour, Name: "load cycles per counted hour", Unit: "1/h", Value: 5, Low: 2, High: 12, Least: 0.01, Most: 1000,
		Source: "usual value EN 280, 5.2.5.3.3; the interval is an assumption", Status: Memory},
	{ID: SelfWeightShare, Name: "self-weight share of the stress range", Unit: "1", Least: 0, Most: 1,
		Source: "none", Status: Guess,
		kinds: map[record.Kind][3]float64{
			record.Boom:    {0.30, 0.50, 0.70},
			record.Scissor: {0.15, 0.35, 0.55},
			record.Mast:    {0.10, 0.30, 0.50},
			record.Other:   {0.10, 0.40, 0.70},
		}},
	{ID: DesignCycles, Name: "design load cycles", Unit: "cycles", Value: 40_000, Low: 40_000, High: 40_000, Least: 1, Most: 1e9, Fixed: true,
		Source: "EN 280, 5.2.5.3.3: 40 000 light intermittent duty, 100 000 heavy duty", Status: Memory},
	{ID: Slope, Name: "slope m of the S-N curve", Unit: "1", Value: 3, Low: 3, High: 3, Least: 1, Most: 15, Fixed: true,
		Source: "EN 1993-1-9:2005, 7.1, normal stress up to 5e6 cycles", Status: Restated},
	{ID: DesignCyclesHeavy, Name: "design load cycles of heavy duty", Unit: "cycles", Value: 100_000, Low: 100_000, High: 100_000, Least: 1, Most: 1e9, Fixed: true,
		Source: "EN 280, 5.2.5.3.3", Status: Memory},
	{ID: CyclesPerMovingHour, Name: "load cycles per moving hour", Unit: "1/h", Value: 15, Low: 5, High: 40, Least: 0.01, Most: 1000,
		Source: "none", Status: Guess},
	{ID: StressCycles, Name: "stress cycles per load cycle", Unit: "1", Value: 1, Low: 1, High: 2, Least: 1, Most: 100,
		Source: "EN 280, 5.2.5.3.3: there may be several; the interval is an assumption", Status: Memory},
	{ID: RoadFrequency, Name: "lowest frequency of the stowed machine on the road", Unit: "Hz", Value: 5, Low: 2, High: 15, Least: 0.5, Most: 100,
		Source: "none", Status: Guess},
	{ID: RoadDamping, Name: "damping of that mode, share of critical", Unit: "1", Value: 0.05, Low: 0.02, High: 0.1, Least: 0.002, Most: 0.5,
		Source: "none", Status: Guess},
	{ID: RoadStowed, Name: "stress of its own weight when stowed, share of that at work", Unit: "1", Value: 0.2, Low: 0.05, High: 0.5, Least: 0, Most: 1,
		Source: "none", Status: Guess},
	{ID: RoadTime, Name: "share of transit custody spent driving", Unit: "1", Value: 0.6, Low: 0.2, High: 1, Least: 0, Most: 1,
		Source: "none", Status: Guess},
	{ID: RoadSpeed, Name: "mean speed on the road", Unit: "km/h", Value: 50, Low: 30, High: 80, Least: 1, Most: 130,
		Source: "none", Status: Guess},
}

// Set is the table with a machine's kind and a case's own values put in.
type Set struct {
	rows []Assumption
}

// Rows returns the rows in the order of the table.
func (s Set) Rows() []Assumption { return s.rows }

// Get returns one row. It panics on an ID that is not in the table.
func (s Set) Get(id ID) Assumption {
	r, ok := s.Find(id)
	if !ok {
		panic("assume: no assumption " + string(id))
	}
	return r
}

// Find returns one row; ok is false where the set has none.
func (s Set) Find(id ID) (row Assumption, ok bool) {
	for _, r := range s.rows {
		if r.ID == id {
			return r, true
		}
	}
	return Assumption{}, false
}

// Value returns the value in use of one assumption.
func (s Set) Value(id ID) float64 { return s.Get(id).Value }

// For returns the assumptions for a case: the usual ones for its kind of
// machine, with the case's own put in place. An own value that is unknown,
// unordered or out of range is a finding, and the usual one stays. Rules, where
// they are given, stand in place of those of the table.
func For(c *record.Case, rules ...Assumption) (Set, []record.Finding) {
	set := Set{rows: usual(c.Machine.Kind, rules)}
	var findings []record.Finding
	for i := range set.rows {
		row := &set.rows[i]
		own, ok := c.Assumptions[string(row.ID)]
		if !ok {
			continue
		}
		if fault := row.Fault(own); fault != "" {
			findings = append(findings, refused(string(row.ID), fault, row.Expected()))
			continue
		}
		if own.Low != row.Low || own.Value != row.Value || own.High != row.High {
			row.Low, row.Value, row.High, row.Edited = own.Low, own.Value, own.High, true
		}
	}
	for _, id := range sortedKeys(c.Assumptions) {
		if _, ok := set.Find(ID(id)); !ok {
			findings = append(findings, refused(id, "there is no such assumption", "one of the assumptions listed on the sheet"))
		}
	}
	return set, findings
}

func usual(kind record.Kind, rules []Assumption) []Assumption {
	rows := slices.Clone(rules)
	for _, row := range slices.Concat(table, causeTable) {
		if len(rules) == 0 || !row.Rule {
			rows = append(rows, row)
		}
	}
	for i := range rows {
		if rows[i].kinds == nil {
			continue
		}
		v, ok := rows[i].kinds[kind]
		if !ok {
			v = rows[i].kinds[record.Other]
		}
		rows[i].Low, rows[i].Value, rows[i].High = v[0], v[1], v[2]
	}
	return rows
}

// With puts one of the three values, told by part ("low", "value" or "high"),
// in place. A chosen figure has no interval: all three follow its value. The
// interval is widened where the value would lie outside of it.
func (a Assumption) With(own record.Assumed, part string, x float64) record.Assumed {
	switch {
	case a.Fixed:
		return record.Assumed{Low: x, Value: x, High: x}
	case part == "low":
		own.Low = x
	case part == "high":
		own.High = x
	default:
		own.Value, own.Low, own.High = x, min(own.Low, x), max(own.High, x)
	}
	return own
}

// Fault says what is wrong with an own value; empty when nothing is.
func (a Assumption) Fault(own record.Assumed) string {
	for _, v := range []float64{own.Low, own.Value, own.High} {
		if !record.Finite(v) || v < a.Least || v > a.Most {
			return fmt.Sprintf("%s is %s", a.Name, record.Number(v))
		}
	}
	if a.Fixed && (own.Low != own.Value || own.High != own.Value) {
		return fmt.Sprintf("%s is a chosen figure and has no interval", a.Name)
	}
	if own.Low > own.Value || own.Value > own.High {
		return fmt.Sprintf("%s runs from %s over %s to %s", a.Name, record.Number(own.Low), record.Number(own.Value), record.Number(own.High))
	}
	return ""
}

// Expected says what values make sense.
func (a Assumption) Expected() string {
	text := fmt.Sprintf("from %s to %s", record.Number(a.Least), record.Number(a.Most))
	if a.Unit != "1" {
		text += " " + a.Unit
	}
	if a.Fixed {
		return "one figure " + text
	}
	return "low, value and high in ascending order, " + text
}

func refused(id, message, expected string) record.Finding {
	at := record.Path("assumptions").At(id)
	return record.Finding{
		Code: "assumption-refused", Severity: record.Doubt, Path: at, Where: at.Words(),
		Message: message, Expected: expected,
		Effect: "the usual value is used instead",
		Hint:   "correct the value on the sheet",
	}
}
