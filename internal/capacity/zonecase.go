package capacity

import (
	"fmt"

	"ratchetmark/internal/record"
)

// ZonesOf returns the rated loads of a machine: first that of the machine, then
// the further ones that can be used. Without a further one there are none.
func ZonesOf(m record.Machine) Zones {
	if m.RatedLoad == nil || len(m.Zones) == 0 || len(m.Zones)+1 > int(ZoneCount.Most) {
		return nil
	}
	zones := Zones{{Name: "the machine", Rated: *m.RatedLoad, Persons: stated(m.StatedPersons())}}
	for i, z := range m.Zones {
		zone, ok := zoneOf(z, i)
		if !ok {
			return nil // what the others would say is not known without it
		}
		zones = append(zones, zone)
	}
	if _, _, f := zones.Span(); f != nil {
		return nil
	}
	return zones
}

func zoneOf(z record.Zone, i int) (Zone, bool) {
	if z.RatedLoad == nil {
		return Zone{}, false
	}
	out := Zone{Name: z.Name, Rated: *z.RatedLoad, Persons: stated(z.Persons)}
	if out.Name == "" {
		out.Name = fmt.Sprintf("further rated load %d", i+1)
	}
	return out, true
}

func stated(n *int) int {
	if n == nil {
		return 0
	}
	return *n
}

// checkZones says what keeps the further rated loads of a machine from being
// used, and what they do to its conclusions.
func checkZones(m *record.Machine, rule PersonRule) []record.Finding {
	var out []record.Finding
	all := record.Path("machine/zones")
	if f := ZoneCount.Check(float64(len(m.Zones)+1), all); f != nil {
		return append(out, doubt(*f))
	}
	for i, z := range m.Zones {
		at := all.At(i + 1)
		zone, ok := zoneOf(z, i)
		if !ok {
			out = append(out, record.Finding{
				Code: "zone-without-load", Severity: record.Doubt, Path: at, Where: at.Words(),
				Message: "no rated load", Expected: "the rated load on the plate, in kg",
				Effect: zonesUnused, Hint: "enter it or take the line off",
			})
			continue
		}
		for _, f := range (Zones{zone}).Check(rule) {
			f.Path = at
			f.Where = at.Words()
			out = append(out, doubt(f))
		}
		if m.RatedLoad != nil && zone.Rated < *m.RatedLoad {
			out = append(out, record.Finding{
				Code: "zone-below-rated", Severity: record.Doubt, Path: at, Where: at.Words(),
				Message:  fmt.Sprintf("the rated load of %s is %s kg", zone.Name, record.Number(zone.Rated)),
				Expected: fmt.Sprintf("not less than the machine's %s kg, against which pieces that went over and exposure are worked out", record.Number(*m.RatedLoad)),
				Effect:   "hours between the two may have been over it: the record does not tell in which zone",
				Hint:     "to hold everything against the smaller one, state that as the rated load of the machine",
			})
		}
	}
	return out
}

const zonesUnused = "none of the further rated loads is used"

// doubt says of a value of a zone that the rest of the sheet stands without it.
func doubt(f record.Finding) record.Finding {
	if f.Code == "value-out-of-range" {
		f.Severity, f.Effect = record.Doubt, zonesUnused
	}
	return f
}

// ZoneOver is one rated load of a machine that has several, with the hours over it.
type ZoneOver struct {
	Name     string          `json:"name"`
	Rated    record.Kilogram `json:"rated_load_kg"`
	Persons  int             `json:"persons,omitempty"`                // 0: not stated
	Smallest record.Kilogram `json:"smallest_rated_load_kg,omitempty"` // by the rule, for those persons
	Low      float64         `json:"low_h"`
	Estimate *float64        `json:"estimate_h"`
	High     *float64        `json:"high_h"` // nil where hours are missing from the record
}

// ZonesOver are the rated loads of a machine that has several. The record does
// not know in which zone a load was carried: certain are only the hours over
// the largest, possible all those over the smallest.
type ZonesOver struct {
	Zones []ZoneOver `json:"zones"`
	Low   float64    `json:"low_h"`
	High  *float64   `json:"high_h"`
	Bands []ZoneBand `json:"bands"`
}

// ZoneBand says on which side of the rated loads a band with hours lies.
type ZoneBand struct {
	From record.Kilogram  `json:"from_kg"`
	To   *record.Kilogram `json:"to_kg"`
	Side Side             `json:"side"`
}

// zonesOver holds the hours of a history against each rated load of a machine;
// nil where there is one.
func zonesOver(h record.History, segments []record.Segment, rule PersonRule) *ZonesOver {
	zones := ZonesOf(h.Case.Machine)
	all, f := zones.HoursOver(segments, 100)
	if zones == nil || f != nil {
		return nil
	}
	out := &ZonesOver{Low: all.Low, High: &all.High}
	for _, z := range zones {
		o := HoursOver(segments, z.Rated, 100)
		row := ZoneOver{Name: z.Name, Rated: z.Rated, Persons: z.Persons, Low: o.Low, Estimate: o.Estimate, High: &o.High}
		if z.Persons > 0 {
			row.Smallest, _ = rule.Smallest(z.Persons) // 0 where the persons make no sense
		}
		out.Zones = append(out.Zones, row)
	}
	for _, b := range lifeBands(h) {
		if side, f := zones.SideOf(b); f == nil {
			out.Bands = append(out.Bands, ZoneBand{b.From, b.To, side})
		}
	}
	return out
}

// lifeBands returns the bands of a life that have hours, each once, in order of load.
func lifeBands(h record.History) []record.Band {
	var out []record.Band
	for _, v := range h.Life() {
		for _, b := range v.Bands {
			if b.Hours > 0 && !hasBand(out, b) {
				out = append(out, b)
			}
		}
	}
	return record.Sorted(out)
}

func hasBand(all []record.Band, b record.Band) bool {
	for _, x := range all {
		if x.SameEdges(b) {
			return true
		}
	}
	return false
}
