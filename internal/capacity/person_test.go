package capacity_test

import (
	"math"
	"strings"
	"testing"

	"ratchetmark/internal/capacity"
	"ratchetmark/internal/record"
)

var european = capacity.PersonRule{First: 80, Further: 80, Tools: 40}

func TestWorthOf(t *testing.T) {
	for _, v := range []struct {
		load, person float64
		words        string
		equal        float64
	}{
		{0, 80, "0 kg", 0},
		{79, 80, "79 kg", 79.0 / 80},
		{80, 80, "one person", 1},
		{120, 80, "one person + 40 kg", 1.5},
		{200, 80, "2 persons + 40 kg", 2.5},
		{240, 80, "3 persons", 3},
		{320, 90.3, "3 persons + 49 kg", 320 / 90.3}, // mean of men, NHANES 2021 to 2023
		{3 * 175 * capacity.KgPerLb, 175 * capacity.KgPerLb, "3 persons", 3},
	} {
		w, f := capacity.WorthOf(record.Kilogram(v.load), v.person)
		if f != nil || w.Words() != v.words || math.Abs(w.Equal-v.equal) > 1e-9 {
			t.Errorf("%v kg: got %q, %v, %+v, want %q, %v", v.load, w.Words(), w.Equal, f, v.words, v.equal)
		}
	}
}

// n persons are n persons, whatever the last bit of the division says.
func TestWorthOfWholePersons(t *testing.T) {
	for _, person := range []float64{80, 90.3, 77.9, 90.94, 175 * capacity.KgPerLb} {
		var load float64
		for n := 1; n <= 20; n++ {
			load += person // added up, as a crew is
			if w, f := capacity.WorthOf(record.Kilogram(load), person); f != nil || w.Persons != n || w.Rest > 1e-6 {
				t.Errorf("%d x %v kg: got %d persons + %v kg, %+v, want %d", n, person, w.Persons, w.Rest, f, n)
			}
		}
	}
}

func TestEdgeWorths(t *testing.T) {
	bands := []record.Band{{From: 200}, {From: 0, To: kg(120), Hours: 3}, {From: 120, To: kg(200), Hours: 1}}
	got, f := capacity.EdgeWorths(bands, 80)
	if f != nil || len(got) != 3 || got[0].Load != 0 || got[1].Words() != "one person + 40 kg" || got[2].Words() != "2 persons + 40 kg" {
		t.Errorf("got %+v, %+v, want the edges 0, 120, 200 kg once each", got, f)
	}
	if got, f := capacity.EdgeWorths([]record.Band{{From: 100, To: kg(50)}}, 80); f != nil || len(got) != 0 {
		t.Errorf("a reversed band: got %v, %+v, want nothing", got, f)
	}
}

func TestMarks(t *testing.T) {
	marks, f := european.Marks(300)
	if f != nil || len(marks) != 3 || marks[0] != (capacity.Mark{At: 120, Words: "one person + 40 kg"}) || marks[2] != (capacity.Mark{At: 280, Words: "3 persons + 40 kg"}) {
		t.Errorf("got %+v, %+v, want marks at 120, 200, 280 kg", marks, f)
	}
	marks, _ = capacity.PersonRule{First: 165, Further: 100}.Marks(300)
	if len(marks) != 2 || marks[1] != (capacity.Mark{At: 265, Words: "2 persons"}) {
		t.Errorf("decree 47-1592: got %+v, want marks at 165 and 265 kg", marks)
	}
	if marks, _ := european.Marks(100_000); len(marks) != 20 {
		t.Errorf("got %d marks, want no more than 20", len(marks))
	}
}

func TestLeftForTools(t *testing.T) {
	left, f := capacity.LeftForTools(230, 3, european, 90.3)
	if f != nil {
		t.Fatal(f.Message)
	}
	for i, want := range [][2]float64{{150, 139.7}, {70, 49.4}, {-10, -40.9}} { // 230 - n·80, 230 - n·90.3
		if math.Abs(left[i].Assumed-want[0])+math.Abs(left[i].Real-want[1]) > 1e-9 {
			t.Errorf("%d persons: got %v and %v kg left, want %v", left[i].Persons, left[i].Assumed, left[i].Real, want)
		}
	}
}

func TestCheckRatedUnderTwoMasses(t *testing.T) {
	old := capacity.PersonRule{First: 165, Further: 100}
	if fs := capacity.CheckRated(265, 2, old, "machine/rated_load_kg"); len(fs) != 0 {
		t.Errorf("265 kg: got %+v, want nothing", fs)
	}
	fs := capacity.CheckRated(230, 2, old, "machine/rated_load_kg")
	if want := "at least 265 kg for 2 persons: 165 kg for the first and 100 kg for each further one"; len(fs) != 1 || fs[0].Expected != want {
		t.Errorf("230 kg: got %+v, want %q", fs, want)
	}
}

// Whatever makes no sense is a finding with found, expected and hint, and no number.
func TestOutOfRange(t *testing.T) {
	left := func(rated float64, n int, real float64) func() (float64, *record.Finding) {
		return func() (float64, *record.Finding) {
			l, f := capacity.LeftForTools(record.Kilogram(rated), n, european, real)
			return float64(len(l)), f
		}
	}
	loads := capacity.NewLoads([]record.Interval{{Bands: []record.Band{{From: 0, To: kg(100), Hours: 2}}}})
	for _, v := range []struct {
		name, found string
		do          func() (float64, *record.Finding)
	}{
		{"no persons", "number of persons is 0", left(200, 0, 80)},
		{"persons below zero", "number of persons is -1", left(200, -1, 80)},
		{"rated load below one person", "rated load is 79 kg", left(79, 1, 80)},
		{"ten tonnes", "rated load is 10000 kg", left(10_000, 2, 80)},
		{"rated load below zero", "rated load is -200 kg", left(-200, 2, 80)},
		{"not a number", "rated load is not a number", left(math.NaN(), 2, 80)},
		{"without end", "rated load is not a number", left(math.Inf(1), 2, 80)},
		{"person of nothing", "mass of a person is 0 kg", left(200, 2, 0)},
		{"smallest for none", "number of persons is 0", func() (float64, *record.Finding) { x, f := european.Smallest(0); return float64(x), f }},
		{"a rule of nothing", "mass of the first person is 0 kg", func() (float64, *record.Finding) { x, f := capacity.PersonRule{}.Smallest(1); return float64(x), f }},
		{"persons within no number", "load is not a number", func() (float64, *record.Finding) {
			n, f := european.Within(record.Kilogram(math.NaN()))
			return float64(n), f
		}},
		{"worth of a load below zero", "load is -1 kg", func() (float64, *record.Finding) { w, f := capacity.WorthOf(-1, 80); return w.Equal, f }},
		{"marks without end", "load is not a number", func() (float64, *record.Finding) {
			m, f := european.Marks(record.Kilogram(math.Inf(1)))
			return float64(len(m)), f
		}},
		{"shares of nothing", "rated load is 0 kg", func() (float64, *record.Finding) {
			s, f := capacity.Choose(capacity.Choice{Edition: capacity.EN2022}).SharesOf(0)
			return float64(len(s)), f
		}},
		{"hours over no number", "load is not a number", func() (float64, *record.Finding) {
			e, f := loads.Over(record.Kilogram(math.NaN()))
			return e.High, f
		}},
		{"load exceeded for 120 %", "share is 1.2", func() (float64, *record.Finding) { e, f := loads.ExceededFor(1.2); return e.Low, f }},
		{"no hours", "no hours", func() (float64, *record.Finding) { e, f := capacity.NewLoads(nil).ExceededFor(0.01); return e.Low, f }},
		{"no zones", "number of rated loads is 0", func() (float64, *record.Finding) { o, f := capacity.Zones{}.HoursOver(nil, 100); return o.High, f }},
		{"zone below one person", "rated load is 50 kg", func() (float64, *record.Finding) {
			o, f := capacity.Zones{{Rated: 50}}.HoursOver(nil, 100)
			return o.High, f
		}},
	} {
		x, f := v.do()
		if f == nil || !strings.Contains(f.Message, v.found) || f.Expected == "" || f.Hint == "" || f.Effect == "" || f.Where == "" {
			t.Errorf("%s: got %+v, want %q with expected, effect, hint and place", v.name, f, v.found)
		}
		if x != 0 {
			t.Errorf("%s: got %v, want no number", v.name, x)
		}
	}
}
