package capacity_test

import (
	"math"
	"testing"
	"time"

	"ratchetmark/internal/capacity"
	"ratchetmark/internal/record"
)

// machine makes an invented case of two readings: the second adds 2 h from 200
// to 240 kg, 6 h from 240 to 320 kg and 1 h above, with a peak of 400 kg.
func machine() *record.Case {
	reading := func(month time.Month, peak float64, hours ...float64) record.Reading {
		r := record.Reading{At: time.Date(2026, month, 2, 8, 0, 0, 0, time.UTC), Peak: kg(peak)}
		for i, h := range hours {
			b := record.Band{From: []record.Kilogram{0, 200, 240, 320}[i], Hours: record.Hour(h)}
			if i < 3 {
				b.To = kg([]float64{200, 240, 320}[i])
			}
			r.Bands = append(r.Bands, b)
		}
		return r
	}
	return &record.Case{
		Format:   record.Format,
		Machine:  record.Machine{ID: "T-01", RatedLoad: kg(240), Persons: record.Of(2)},
		Readings: []record.Reading{reading(2, 230, 50, 4, 0, 0), reading(3, 400, 60, 6, 6, 1)},
	}
}

func TestAssess(t *testing.T) {
	r := capacity.Assess(record.Lay(machine()), usual())
	if r.Rated != 240 || *r.Persons != 2 || r.SmallestRated != 200 || r.Spare != 40 || r.PersonsWithin != 2 {
		t.Errorf("plate: got %+v, want 240 kg for 2 persons, 40 kg over the smallest 200 kg", r)
	}
	if *r.Peak != 400 || math.Abs(*r.PeakPercent-100*400.0/240) > 1e-9 {
		t.Errorf("peak: got %v kg, %v %%, want 400 kg, 166.67 %%", *r.Peak, *r.PeakPercent)
	}
	if r.Counted != 73 { // 60 + 6 + 6 + 1
		t.Errorf("counted: got %v h, want 73 h", r.Counted)
	}
	// At 240, 264, 288, 300 and 360 kg. The 6 h lie in [240, 320), the 1 h in
	// [320, 400): estimates 7, 6·56/80+1, 6·32/80+1, 6·20/80+1, 1·40/80.
	for i, want := range [][3]float64{{7, 7, 7}, {1, 5.2, 7}, {1, 3.4, 7}, {1, 2.5, 7}, {0, 0.5, 1}} {
		o := r.HoursOver[i]
		if got := [3]float64{o.Low, *o.Estimate, o.High}; math.Abs(got[0]-want[0])+math.Abs(got[1]-want[1])+math.Abs(got[2]-want[2]) > 1e-9 {
			t.Errorf("over %d %%: got %v, want %v", o.Percent, got, want)
		}
	}
}

// Before the second reading the peak was 230 kg: the first 4 h from 200 to
// 240 kg cannot have been higher, only the 2 h of the change can.
func TestEarlierPeakBoundsEarlierHours(t *testing.T) {
	c := machine()
	c.Machine.RatedLoad = kg(231)
	r := capacity.Assess(record.Lay(c), usual())
	if got := r.HoursOver[0].High; got != 9 { // 2 + 6 + 1, not 4 + 2 + 6 + 1
		t.Errorf("got at most %v h, want 9 h", got)
	}
}

func TestAssessWithLittle(t *testing.T) {
	c := machine()
	c.Machine.Persons = record.Of(99)
	c.Readings[0].Peak, c.Readings[1].Peak = nil, nil
	r := capacity.Assess(record.Lay(c), usual())
	if r.Persons != nil || r.SmallestRated != 0 || r.Spare != 0 {
		t.Errorf("persons out of range: got %+v, want none", r)
	}
	if r.Peak != nil || r.PeakPercent != nil {
		t.Errorf("no peak: got %v, want none", r.Peak)
	}
	if o := r.HoursOver[4]; o.Estimate != nil || o.Low != 0 || o.High != 1 {
		t.Errorf("open band without a peak, over 360 kg: got %+v, want 0 to 1 h without an estimate", o)
	}
	if r.MeanLoad.High != nil {
		t.Errorf("mean load: got at most %v kg, want no bound", *r.MeanLoad.High)
	}
	c.Readings = c.Readings[:1]
	c.Readings[0].Bands = nil
	r = capacity.Assess(record.Lay(c), usual())
	if r.Counted != 0 || r.MeanLoad != nil || r.HoursOver[0].High != 0 {
		t.Errorf("no bands: got %+v, want nothing counted", r)
	}
}

func TestHighestPeakIsThatOfAnyReading(t *testing.T) {
	c := machine()
	c.Readings[0].Peak, c.Readings[1].Peak = kg(500), kg(400)
	if got := capacity.HighestPeak(record.Lay(c)); *got != 500 {
		t.Errorf("got %v kg, want 500 kg", *got)
	}
}

func TestCheckPlate(t *testing.T) {
	for _, v := range []struct {
		name     string
		rated    *record.Kilogram
		persons  *int
		expected string
	}{
		{"two persons fit", kg(200), record.Of(2), ""},
		{"one kg short of two persons", kg(199), record.Of(2), "at least 200 kg for 2 persons of 80 kg with 40 kg of tools and materials"},
		{"three persons do not fit", kg(200), record.Of(3), "at least 280 kg for 3 persons of 80 kg with 40 kg of tools and materials"},
		{"one person fits, none stated", kg(120), nil, ""},
		{"not even one", kg(119), nil, "at least 120 kg for one person of 80 kg with 40 kg of tools and materials"},
		{"persons out of range count as not stated", kg(119), record.Of(99), "at least 120 kg for one person of 80 kg with 40 kg of tools and materials"},
		{"no rated load", nil, record.Of(2), ""},
		{"rated load below zero", kg(-1), record.Of(2), ""},
		{"not a number", kg(math.NaN()), record.Of(2), ""},
	} {
		c := &record.Case{Machine: record.Machine{RatedLoad: v.rated, Persons: v.persons}}
		expected := ""
		for _, f := range capacity.CheckPlate(c, usual()) {
			expected = f.Expected
			if f.Code != "plate-inconsistent" || f.Severity != record.Doubt || f.Path != "machine/rated_load_kg" {
				t.Errorf("%s: got %+v, want a doubt at the rated load", v.name, f)
			}
		}
		if expected != v.expected {
			t.Errorf("%s: got %q, want %q", v.name, expected, v.expected)
		}
	}
}
