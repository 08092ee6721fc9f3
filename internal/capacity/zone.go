package capacity

import (
	"ratchetmark/internal/assume"
	"ratchetmark/internal/record"
)

// Zone is a rated load that holds for a part of the machine's reach or for a
// state of its platform: full reach, restricted reach, deck extended.
type Zone struct {
	Name    string
	Rated   record.Kilogram
	Persons int // as the plate states; 0: not stated
}

// Zones are all the rated loads of one machine. The record does not know in
// which zone a load was carried.
type Zones []Zone

// Check holds each zone against the persons-plus-tools rule and names what
// keeps the zones from being used. Zones from ZoneCount.Least to ZoneCount.Most.
func (z Zones) Check(rule PersonRule) []record.Finding {
	var out []record.Finding
	if f := ZoneCount.Check(float64(len(z)), "zones"); f != nil {
		return append(out, *f)
	}
	for i, zone := range z {
		at := record.Path("zones").At(i + 1)
		f := assume.RatedLoads.Check(float64(zone.Rated), at.At("rated_load_kg"))
		if f == nil && zone.Persons != 0 {
			f = assume.PersonCount.Check(float64(zone.Persons), at.At("persons"))
		}
		if f != nil {
			out = append(out, *f)
			continue
		}
		out = append(out, CheckRated(zone.Rated, max(zone.Persons, 1), rule, at.At("rated_load_kg"))...)
	}
	return out
}

// ZoneCount is how many rated loads one machine may have. No source.
var ZoneCount = assume.Limits("number of rated loads", "", 1, 8, "enter each rated load of the plate once")

// Span returns the zones with the smallest and the largest rated load.
func (z Zones) Span() (least, most Zone, f *record.Finding) {
	if f := ZoneCount.Check(float64(len(z)), "zones"); f != nil {
		return least, most, f
	}
	least, most = z[0], z[0]
	for i, zone := range z {
		if f := assume.RatedLoads.Check(float64(zone.Rated), record.Path("zones").At(i+1).At("rated_load_kg")); f != nil {
			return least, most, f
		}
		if zone.Rated < least.Rated {
			least = zone
		}
		if zone.Rated > most.Rated {
			most = zone
		}
	}
	return least, most, nil
}

// HoursOver bounds the hours over a percentage of the rated load when the zone
// of each hour is not known: certain are only those over that of the largest
// rated load, possible all those over that of the smallest. Between different
// rated loads there is no estimate.
func (z Zones) HoursOver(segments []record.Segment, pct int) (Over, *record.Finding) {
	least, most, f := z.Span()
	if f = assume.First(f, assume.AnyPercent.Check(float64(pct), "pct")); f != nil {
		return Over{}, f
	}
	o := HoursOver(segments, least.Rated, pct)
	if most.Rated != least.Rated {
		o.Low = HoursOver(segments, most.Rated, pct).Low
		o.Estimate = nil
	}
	return o, nil
}

// Side says on which side of the machine's rated loads a band lies.
type Side string

// The sides.
const (
	WithinAll Side = "within the rated load in every zone"
	OverSome  Side = "over a rated load in some zones or by a part of the band"
	OverAll   Side = "over the rated load in every zone"
)

// SideOf returns on which side of the rated loads a band lies. A band from the
// largest rated load up is over all of them.
func (z Zones) SideOf(b record.Band) (Side, *record.Finding) {
	least, most, f := z.Span()
	if f != nil {
		return "", f
	}
	switch {
	case b.From >= most.Rated:
		return OverAll, nil
	case !b.Open() && *b.To <= least.Rated:
		return WithinAll, nil
	}
	return OverSome, nil
}
