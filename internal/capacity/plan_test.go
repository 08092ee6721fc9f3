package capacity_test

import (
	"math"
	"strings"
	"testing"

	"ratchetmark/internal/capacity"
	"ratchetmark/internal/record"
)

func kilos(x float64) capacity.Mass  { return capacity.Mass{Value: x, Unit: capacity.Kg} }
func pounds(x float64) capacity.Mass { return capacity.Mass{Value: x, Unit: capacity.Lb} }

func person(name string, body, clothing, harness float64) capacity.Person {
	return capacity.Person{Name: name, Body: kilos(body), Clothing: kilos(clothing), Harness: kilos(harness)}
}

// The pound is 0.45359237 kg by definition of 1959 (from memory).
func TestKilograms(t *testing.T) {
	if got := pounds(175).Kilograms(); math.Abs(float64(got)-79.37866475) > 1e-12 {
		t.Errorf("175 lb: got %v kg, want 79.37866475 kg", got)
	}
	if got := (capacity.Mass{Value: 3}).Kilograms(); got != 3 {
		t.Errorf("no unit: got %v kg, want 3 kg", got)
	}
}

// Invented crews. By hand: 91 + 4 + 2.5 = 97.5 kg; 97.5 + 84.5 = 182 kg.
func TestPlanAdd(t *testing.T) {
	two := []capacity.Person{person("A", 91, 4, 2.5), person("B", 78, 4, 2.5)}
	for _, v := range []struct {
		name  string
		plan  capacity.Plan
		total float64
		over  int
		words string
	}{
		{"some left", capacity.Plan{Rated: 230, Allowed: 2, Persons: two, Items: []capacity.Item{{Name: "drill", Mass: kilos(8)}}},
			190, -1, "40 kg left, 17 % of the rated load"},
		{"rounded down", capacity.Plan{Rated: 230, Persons: two, Items: []capacity.Item{{Mass: kilos(8.5)}}},
			190.5, -1, "39 kg left, 17 % of the rated load"},
		{"exactly nothing left", capacity.Plan{Rated: 230, Persons: two, Items: []capacity.Item{{Mass: kilos(12), Count: 4}}},
			230, -1, "nothing left: the plan reaches the rated load"},
		{"less than a kilogram left", capacity.Plan{Rated: 230, Persons: two, Items: []capacity.Item{{Mass: kilos(47.5)}}},
			229.5, -1, "nothing left: the plan reaches the rated load"},
		{"an item too many", capacity.Plan{Rated: 230, Persons: two, Items: []capacity.Item{{Mass: kilos(40)}, {Mass: kilos(8.2)}, {Mass: kilos(1)}}},
			231.2, 3, "2 kg over the rated load: nothing left, take off at least as much"},
		{"a person too many", capacity.Plan{Rated: 180, Allowed: 1, Persons: two},
			182, 1, "2 kg over the rated load: nothing left, take off at least as much; the plate allows one person, the plan has 2"},
		{"within the load, over the persons", capacity.Plan{Rated: 230, Allowed: 1, Persons: two},
			182, -1, "48 kg left, 20 % of the rated load; the plate allows one person, the plan has 2"},
		{"pounds up to the plate", capacity.Plan{Rated: 440 * capacity.KgPerLb, Persons: []capacity.Person{{Body: pounds(175)}, {Body: pounds(175)}}, Items: []capacity.Item{{Mass: pounds(90)}}},
			440 * capacity.KgPerLb, -1, "nothing left: the plan reaches the rated load"},
	} {
		s, fs := v.plan.Add()
		if len(fs) > 0 {
			t.Errorf("%s: got %+v, want no finding", v.name, fs)
			continue
		}
		if math.Abs(float64(s.Total)-v.total) > 1e-9 || s.FirstOver != v.over || s.Words != v.words {
			t.Errorf("%s: got %v kg, line %d, %q, want %v kg, line %d, %q", v.name, s.Total, s.FirstOver, s.Words, v.total, v.over, v.words)
		}
		for i, l := range s.Lines {
			if l.Over != (v.over >= 0 && i >= v.over) || l.Person != (i < len(v.plan.Persons)) || l.Alone {
				t.Errorf("%s, line %d: got %+v, want over from line %d on", v.name, i, l, v.over)
			}
		}
	}
}

// A plate in pounds is filled to the pound without going over it.
func TestPlanFillsPlatesInPounds(t *testing.T) {
	for n := 1; n <= 6; n++ {
		plan := capacity.Plan{Rated: record.Kilogram(175*float64(n)+90) * capacity.KgPerLb}
		for range n {
			plan.Persons = append(plan.Persons, capacity.Person{Body: pounds(168.3), Clothing: pounds(6.7)})
		}
		plan.Items = []capacity.Item{{Mass: pounds(29.9)}, {Mass: pounds(60.1)}}
		if s, fs := plan.Add(); len(fs) > 0 || s.FirstOver >= 0 || s.Words != "nothing left: the plan reaches the rated load" {
			t.Errorf("%d persons: got line %d, %q, %+v, want nothing left and no line over", n, s.FirstOver, s.Words, fs)
		}
		plan.Items[0].Mass = pounds(30)
		if s, _ := plan.Add(); s.FirstOver != n+1 {
			t.Errorf("%d persons and a tenth of a pound: got line %d, want line %d over", n, s.FirstOver, n+1)
		}
	}
}

func TestPlanLineOverAlone(t *testing.T) {
	s, fs := capacity.Plan{Rated: 120, Persons: []capacity.Person{person("A", 80, 0, 0)}, Items: []capacity.Item{{Name: "pallet", Mass: kilos(121)}}}.Add()
	if len(fs) > 0 || s.Lines[0].Alone || !s.Lines[1].Alone || s.FirstOver != 1 {
		t.Errorf("got %+v, %+v, want the pallet over on its own", s, fs)
	}
}

func TestPlanRefuses(t *testing.T) {
	one := []capacity.Person{person("A", 80, 0, 0)}
	for _, v := range []struct {
		name, found string
		plan        capacity.Plan
	}{
		{"nobody", "number of persons is 0", capacity.Plan{Rated: 230}},
		{"rated load below one person", "rated load is 60 kg", capacity.Plan{Rated: 60, Persons: one}},
		{"ten tonnes", "rated load is 10000 kg", capacity.Plan{Rated: 10_000, Persons: one}},
		{"not a number", "mass of an item is not a number", capacity.Plan{Rated: 230, Persons: one, Items: []capacity.Item{{Mass: kilos(math.NaN())}}}},
		{"item below zero", "mass of an item is -3 kg", capacity.Plan{Rated: 230, Persons: one, Items: []capacity.Item{{Mass: kilos(-3)}}}},
		{"count below zero", "number of items is -1", capacity.Plan{Rated: 230, Persons: one, Items: []capacity.Item{{Count: -1}}}},
		{"person of 900 kg", "mass of a person is 900 kg", capacity.Plan{Rated: 230, Persons: []capacity.Person{person("A", 900, 0, 0)}}},
		{"harness below zero", "mass of what is worn is -2 kg", capacity.Plan{Rated: 230, Persons: []capacity.Person{person("A", 80, 4, -2)}}},
		{"plate for no sensible number", "number of persons is 99", capacity.Plan{Rated: 230, Allowed: 99, Persons: one}},
	} {
		s, fs := v.plan.Add()
		if len(fs) != 1 || fs[0].Message != v.found || fs[0].Expected == "" || fs[0].Hint == "" {
			t.Errorf("%s: got %+v, want %q with expected and hint", v.name, fs, v.found)
		}
		if s.Total != 0 || s.Lines != nil || s.Words != "" {
			t.Errorf("%s: got %+v, want nothing added up", v.name, s)
		}
	}
}

func TestAllowances(t *testing.T) {
	for _, a := range capacity.Allowances {
		if !(0 <= a.Low && a.Low <= a.Usual && a.Usual <= a.High) || a.Source.Status == "" || a.Name == "" {
			t.Errorf("got %+v, want ordered values with name and status", a)
		}
	}
}

// Whatever is added up: no text with a number that means nothing, and the sum
// of the lines is the total.
func FuzzPlan(f *testing.F) {
	f.Add(230.0, 91.0, 4.0, 8.0, 2)
	f.Add(199.58, 79.37866475, 0.0, 40.8, 1)
	f.Add(math.NaN(), -1.0, math.Inf(1), 1e308, -4)
	f.Fuzz(func(t *testing.T, rated, body, worn, item float64, count int) {
		plan := capacity.Plan{Rated: record.Kilogram(rated), Allowed: 2, Persons: []capacity.Person{person("A", body, worn, 0), person("B", 80, 4, 0)},
			Items: []capacity.Item{{Name: "item", Mass: pounds(item), Count: count}}}
		s, fs := plan.Add()
		text := s.Words
		for _, x := range fs {
			text += x.Message + x.Expected
		}
		if strings.Contains(text, "NaN") || strings.Contains(text, "Inf") || text == "" {
			t.Errorf("got %q, want words with sensible numbers", text)
		}
		var sum record.Kilogram
		for _, l := range s.Lines {
			sum += l.Mass
		}
		if len(fs) == 0 && (math.Abs(float64(sum-s.Total)) > 1e-6 || (s.FirstOver >= 0) != (s.Left < -1e-6)) {
			t.Errorf("got %+v, want lines that add up and a line that goes over", s)
		}
	})
}
