package assume_test

import (
	"math"
	"slices"
	"testing"

	"ratchetmark/internal/assume"
	"ratchetmark/internal/record"
)

func of(kind record.Kind, own map[string]record.Assumed) *record.Case {
	return &record.Case{Machine: record.Machine{Kind: kind}, Assumptions: own}
}

// EN 280, 5.2.5.3.3 (from memory): light intermittent duty is 10 years of 40
// weeks of 20 hours with 5 load cycles an hour. The usual rate and the usual
// budget have to agree with that.
func TestUsualBudget(t *testing.T) {
	set, _ := assume.For(of(record.Boom, nil))
	if got, want := set.Value(assume.DesignCycles), 10*40*20*set.Value(assume.CyclesPerHour); got != want || want != 40_000 {
		t.Errorf("got %v cycles, want %v", got, want)
	}
}

// EN 280-1:2022, 4.2 and 4.4.1.2, ISO 16368 (from memory); the window also as
// ANSI/SAIA A92.20 is restated.
func TestUsualValues(t *testing.T) {
	set, findings := assume.For(of(record.Boom, nil))
	if len(findings) > 0 {
		t.Errorf("got findings %v, want none", findings)
	}
	for id, want := range map[assume.ID]float64{
		assume.PersonMass: 80, assume.ToolsMass: 40, assume.SensingFrom: 100, assume.SensingTo: 120, assume.Slope: 3,
	} {
		if got := set.Value(id); got != want {
			t.Errorf("%s: got %v, want %v", id, got, want)
		}
	}
}

func TestEveryRowIsWhole(t *testing.T) {
	for _, kind := range append(slices.Clone(record.Kinds), "", "crane") {
		set, _ := assume.For(of(kind, nil))
		for _, r := range set.Rows() {
			if r.Name == "" || r.Unit == "" || r.Source == "" || r.Status == "" || r.Edited {
				t.Errorf("%s: got %+v, want a name, a unit, a source, a status, and not edited", r.ID, r)
			}
			if !(r.Least <= r.Low && r.Low <= r.Value && r.Value <= r.High && r.High <= r.Most) {
				t.Errorf("%s of %q: got %v..%v..%v within %v..%v, want them in order", r.ID, kind, r.Low, r.Value, r.High, r.Least, r.Most)
			}
			if r.Fixed && r.Low != r.High {
				t.Errorf("%s: got an interval, want none of a chosen figure", r.ID)
			}
			if fault := r.Fault(record.Assumed{Low: r.Low, Value: r.Value, High: r.High}); fault != "" {
				t.Errorf("%s: got %q of its own value, want nothing", r.ID, fault)
			}
		}
	}
}

// The self-weight share differs by kind; a kind that is not known gets the
// widest interval.
func TestKinds(t *testing.T) {
	share := func(kind record.Kind) [3]float64 {
		set, _ := assume.For(of(kind, nil))
		r := set.Get(assume.SelfWeightShare)
		return [3]float64{r.Low, r.Value, r.High}
	}
	other := share(record.Other)
	for _, kind := range record.Kinds {
		s := share(kind)
		if s[0] < other[0] || s[2] > other[2] {
			t.Errorf("%s: got %v, want it within %v", kind, s, other)
		}
	}
	if share(record.Boom) == share(record.Scissor) {
		t.Errorf("boom and scissor: got %v for both, want them apart", share(record.Boom))
	}
	for _, kind := range []record.Kind{"", "crane"} {
		if got := share(kind); got != other {
			t.Errorf("%q: got %v, want %v", kind, got, other)
		}
	}
}

func TestOwnValues(t *testing.T) {
	usual := record.Assumed{Low: 2, Value: 5, High: 12}
	for _, v := range []struct {
		name   string
		id     assume.ID
		own    record.Assumed
		edited bool
		fault  string
	}{
		{"put in place", assume.CyclesPerHour, record.Assumed{Low: 3, Value: 4, High: 6}, true, ""},
		{"at the least and the most", assume.CyclesPerHour, record.Assumed{Low: 0.01, Value: 1, High: 1000}, true, ""},
		{"the usual one", assume.CyclesPerHour, usual, false, ""},
		{"below the least", assume.CyclesPerHour, record.Assumed{Low: 0, Value: 4, High: 6}, false, "load cycles per counted hour is 0"},
		{"above the most", assume.CyclesPerHour, record.Assumed{Low: 3, Value: 4, High: 1001}, false, "load cycles per counted hour is 1001"},
		{"not a number", assume.CyclesPerHour, record.Assumed{Low: 3, Value: math.NaN(), High: 6}, false, "load cycles per counted hour is NaN"},
		{"low above the value", assume.CyclesPerHour, record.Assumed{Low: 5, Value: 4, High: 6}, false, "load cycles per counted hour runs from 5 over 4 to 6"},
		{"value above high", assume.CyclesPerHour, record.Assumed{Low: 3, Value: 7, High: 6}, false, "load cycles per counted hour runs from 3 over 7 to 6"},
		{"an interval of a chosen figure", assume.Slope, record.Assumed{Low: 3, Value: 3, High: 5}, false, "slope m of the S-N curve is a chosen figure and has no interval"},
		{"unknown", "mood", record.Assumed{Low: 3, Value: 4, High: 6}, false, "there is no such assumption"},
	} {
		set, findings := assume.For(of(record.Boom, map[string]record.Assumed{string(v.id): v.own}))
		fault := ""
		for _, f := range findings {
			fault = f.Message
			if f.Code != "assumption-refused" || f.Path != record.Path("assumptions/"+string(v.id)) || f.Severity != record.Doubt {
				t.Errorf("%s: got %+v, want a doubt at the assumption", v.name, f)
			}
		}
		if fault != v.fault || len(findings) > 1 {
			t.Errorf("%s: got %q, want %q", v.name, fault, v.fault)
		}
		if v.id == "mood" {
			continue
		}
		r := set.Get(v.id)
		if r.Edited != v.edited || v.edited && (record.Assumed{Low: r.Low, Value: r.Value, High: r.High}) != v.own {
			t.Errorf("%s: got %+v, want edited %v", v.name, r, v.edited)
		}
		if !v.edited && v.id == assume.CyclesPerHour && (r.Low != 2 || r.Value != 5 || r.High != 12) {
			t.Errorf("%s: got %+v, want the usual value to stay", v.name, r)
		}
	}
}

// An own value of one case must not leak into the next.
func TestTableStays(t *testing.T) {
	assume.For(of(record.Boom, map[string]record.Assumed{"cycles_per_hour": {Low: 3, Value: 4, High: 6}}))
	set, _ := assume.For(of(record.Boom, nil))
	if r := set.Get(assume.CyclesPerHour); r.Value != 5 || r.Edited {
		t.Errorf("got %+v, want the usual value", r)
	}
}

func TestWith(t *testing.T) {
	set, _ := assume.For(of(record.Boom, nil))
	rate, slope := set.Get(assume.CyclesPerHour), set.Get(assume.Slope)
	own := record.Assumed{Low: 2, Value: 5, High: 12}
	for _, v := range []struct {
		row  assume.Assumption
		part string
		x    float64
		want record.Assumed
	}{
		{rate, "low", 3, record.Assumed{Low: 3, Value: 5, High: 12}},
		{rate, "high", 9, record.Assumed{Low: 2, Value: 5, High: 9}},
		{rate, "value", 6, record.Assumed{Low: 2, Value: 6, High: 12}},
		{rate, "value", 1, record.Assumed{Low: 1, Value: 1, High: 12}},
		{rate, "value", 20, record.Assumed{Low: 2, Value: 20, High: 20}},
		{slope, "value", 5, record.Assumed{Low: 5, Value: 5, High: 5}},
		{slope, "low", 5, record.Assumed{Low: 5, Value: 5, High: 5}},
	} {
		if got := v.row.With(own, v.part, v.x); got != v.want {
			t.Errorf("%s %s %v: got %v, want %v", v.row.ID, v.part, v.x, got, v.want)
		}
	}
}

func TestUnknownIDPanics(t *testing.T) {
	defer func() {
		if recover() == nil {
			t.Error("got no panic, want one")
		}
	}()
	set, _ := assume.For(of(record.Boom, nil))
	set.Get("mood")
}

// Findings must not depend on the order of a map.
func TestFindingsInOrder(t *testing.T) {
	own := map[string]record.Assumed{}
	for _, id := range []string{"m", "a", "z", "c", "x", "b"} {
		own[id] = record.Assumed{}
	}
	_, findings := assume.For(of(record.Boom, own))
	var got []string
	for _, f := range findings {
		got = append(got, string(f.Path))
	}
	if len(got) != 6 || !slices.IsSorted(got) {
		t.Errorf("got %v, want six in order", got)
	}
}
