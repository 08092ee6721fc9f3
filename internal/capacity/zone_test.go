package capacity_test

import (
	"math/rand/v2"
	"testing"

	"ratchetmark/internal/capacity"
	"ratchetmark/internal/record"
)

var twoZones = capacity.Zones{{Name: "full reach", Rated: 230, Persons: 2}, {Name: "restricted reach", Rated: 300, Persons: 3}}

// By hand: of 6 h from 240 to 320 kg none is certain to be over 300 kg and all
// may be over 230 kg; 1 h from 320 kg is over both.
func TestHoursOverZones(t *testing.T) {
	segments := []record.Segment{closed(0, 240, 50), closed(240, 320, 6), closed(320, 400, 1)}
	o, f := twoZones.HoursOver(segments, 100)
	if f != nil || o.Low != 1 || o.High != 57 || o.Estimate != nil { // 230 kg lies in the first band
		t.Errorf("got %+v, %+v, want 1 to 57 h without an estimate", o, f)
	}
	one := capacity.Zones{{Rated: 240}}
	if o, f := one.HoursOver(segments, 100); f != nil || o.Low != 7 || o.High != 7 || *o.Estimate != 7 {
		t.Errorf("one rated load: got %+v, %+v, want 7 h", o, f)
	}
}

// Whatever part of each band's hours was spent in which zone, and wherever in
// the band: the hours over lie between the bounds.
func TestHoursOverZonesHoldsEveryPlacement(t *testing.T) {
	rng := rand.New(rand.NewPCG(11, 13))
	for range 300 {
		segments := randomSegments(rng)
		o, f := twoZones.HoursOver(segments, 110)
		if f != nil {
			t.Fatal(f.Message)
		}
		var over float64
		for _, s := range segments {
			zone := twoZones[rng.IntN(2)]
			if load, hours := place(rng, s); load > float64(zone.Rated)*1.1 {
				over += hours
			}
		}
		if over < o.Low-1e-9 || over > o.High+1e-9 {
			t.Fatalf("%v: got %v h over, want between %v and %v h", segments, over, o.Low, o.High)
		}
	}
}

func TestSideOf(t *testing.T) {
	for _, v := range []struct {
		from float64
		to   *record.Kilogram
		want capacity.Side
	}{
		{0, kg(230), capacity.WithinAll},
		{0, kg(231), capacity.OverSome},
		{240, kg(300), capacity.OverSome},
		{299, nil, capacity.OverSome},
		{300, kg(400), capacity.OverAll},
		{300, nil, capacity.OverAll},
	} {
		if got, f := twoZones.SideOf(record.Band{From: record.Kilogram(v.from), To: v.to}); f != nil || got != v.want {
			t.Errorf("from %v kg: got %q, %+v, want %q", v.from, got, f, v.want)
		}
	}
}

func TestCheckZones(t *testing.T) {
	for _, v := range []struct {
		name  string
		zones capacity.Zones
		code  string
	}{
		{"consistent", twoZones, ""},
		{"none", nil, "value-out-of-range"},
		{"too little for the persons", capacity.Zones{{Rated: 230, Persons: 3}}, "plate-inconsistent"},
		{"persons not stated, not even one", capacity.Zones{{Rated: 110}}, "plate-inconsistent"},
		{"persons out of range", capacity.Zones{{Rated: 230, Persons: 99}}, "value-out-of-range"},
		{"ten tonnes", capacity.Zones{{Rated: 10_000}}, "value-out-of-range"},
	} {
		code := ""
		for _, f := range v.zones.Check(european) {
			code += f.Code
		}
		if code != v.code {
			t.Errorf("%s: got %q, want %q", v.name, code, v.code)
		}
	}
}
