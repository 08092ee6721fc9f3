package capacity_test

import (
	"encoding/json"
	"math"
	"slices"
	"strings"
	"testing"

	"ratchetmark/internal/capacity"
	"ratchetmark/internal/record"
)

// assess assesses an invented case under its rules.
func assess(c *record.Case) capacity.Result {
	set, _ := capacity.Assumptions(c)
	return capacity.Assess(record.Lay(c), set)
}

// The machine of 240 kg with a peak of 400 kg, by hand: 400 kg are 167 % and
// beyond the tests; marks up to 400 kg; edges of the last reading.
func TestDetails(t *testing.T) {
	r := assess(machine())
	if r.Edition != capacity.EN2022 || r.Stated || r.Region != "" {
		t.Errorf("got %s, %v, %q, want the usual edition, not stated, and no region", r.Edition, r.Stated, r.Region)
	}
	var shares []float64
	for _, s := range r.Shares {
		shares = append(shares, float64(s.Load))
	}
	if want := []float64{240, 264, 288, 300, 360}; !slices.EqualFunc(shares, want, func(a, b float64) bool { return math.Abs(a-b) < 1e-9 }) {
		t.Errorf("got shares at %v, want %v", shares, want)
	}
	if r.Stage == nil || r.Stage.Over != 150 {
		t.Errorf("got %+v, want the peak beyond 150 %%", r.Stage)
	}
	if len(r.Marks) != 4 || r.Marks[1] != (capacity.Mark{At: 200, Words: "2 persons + 40 kg"}) || r.Marks[3].At != 360 {
		t.Errorf("got marks %+v, want 120, 200, 280 and 360 kg", r.Marks)
	}
	if len(r.Edges) != 4 || r.Edges[2].Persons != 3 || r.Edges[2].Rest != 0 { // 0, 200, 240, 320 kg
		t.Errorf("got edges %+v, want 240 kg worth 3 persons", r.Edges)
	}
	// 73 h: 1 % is 0.73 h of the 1 h from 320 to 400 kg, uniform 400 - 0.73·80.
	if e := r.ExceededFor[0]; e.Share != 0.01 || e.Low != 320 || *e.High != 400 || math.Abs(*e.Uniform-341.6) > 1e-6 || !(*e.Smooth > 320 && *e.Smooth < 341.6) {
		t.Errorf("got %+v, want 320 to 400 kg, 341.6 kg uniform and less smooth", e)
	}
	if a := r.Apart; a == nil || a.Hours <= 0 || a.Hours > 0.385*60 {
		t.Errorf("got %+v, want a difference of up to 0.385 of a band's hours", a)
	}
	for _, o := range r.HoursOver {
		if o.Smooth == nil || *o.Smooth < o.Low-1e-9 || *o.Smooth > o.High+1e-9 {
			t.Errorf("over %d %%: got %v by the smooth curve, want it within %v to %v", o.Percent, o.Smooth, o.Low, o.High)
		}
	}
	if r.Several != nil {
		t.Errorf("got %+v, want no zones of one rated load", r.Several)
	}
}

// Loads that are asked about: within a band, at an edge, in the open band; one
// that makes no sense is a finding and no number.
func TestAsk(t *testing.T) {
	c := machine()
	h := record.Lay(c)
	r := assess(c)
	fs := r.Ask(h, []record.Kilogram{280, 320, 350, -5, record.Kilogram(math.NaN()), 200_000})
	if len(fs) != 3 || fs[0].Path != "thresholds_kg/4" || fs[0].Severity != record.Doubt {
		t.Errorf("got %+v, want three doubts, the first at the fourth load", fs)
	}
	if len(r.OverLoads) != 3 {
		t.Fatalf("got %+v, want three loads", r.OverLoads)
	}
	// 280 kg halves the 6 h from 240 to 320 kg; 1 h lies above it.
	for i, want := range [][3]float64{{1, 4, 7}, {1, 1, 1}, {0, 0.625, 1}} {
		e := r.OverLoads[i]
		if math.Abs(e.Low-want[0])+math.Abs(*e.Uniform-want[1])+math.Abs(e.High-want[2]) > 1e-9 {
			t.Errorf("over %v kg: got %v, %v, %v h, want %v", e.Load, e.Low, *e.Uniform, e.High, want)
		}
	}
	c.Readings[0].Peak, c.Readings[1].Peak = nil, nil
	r = assess(c)
	r.Ask(record.Lay(c), []record.Kilogram{350})
	if e := r.OverLoads[0]; e.Uniform != nil || e.Smooth != nil || e.Low != 0 || e.High != 1 {
		t.Errorf("in the open band without a peak: got %+v, want 0 to 1 h without an estimate", e)
	}
}

// Where hours are missing nothing bounds a figure: it is null in JSON.
func TestExceedingJSON(t *testing.T) {
	e := capacity.Exceeding{Load: 250, Low: 1, Uniform: record.Of(2.0), Smooth: record.Of(3.0), High: 4}
	for _, v := range []struct {
		unbounded bool
		want      string
	}{
		{false, `{"load_kg":250,"low_h":1,"uniform_h":2,"smooth_h":3,"high_h":4}`},
		{true, `{"load_kg":250,"low_h":1,"uniform_h":null,"smooth_h":null,"high_h":null}`},
	} {
		e.Unbounded = v.unbounded
		if got, err := json.Marshal(e); err != nil || string(got) != v.want {
			t.Errorf("got %s, %v, want %s", got, err, v.want)
		}
	}
}

// Three rated loads, by hand: 7 h over 240 kg; of the 6 h from 240 to 320 kg
// none is certain over 300 kg; over 150 kg all but the lowest band for certain.
func TestSeveralRatedLoads(t *testing.T) {
	c := machine()
	c.Machine.Zones = []record.Zone{{Name: "restricted reach", RatedLoad: kg(300), Persons: record.Of(3)}, {RatedLoad: kg(200)}}
	several := assess(c).Several
	if several == nil || len(several.Zones) != 3 {
		t.Fatalf("got %+v, want three rated loads", several)
	}
	for i, want := range []struct {
		name      string
		smallest  record.Kilogram
		low, high float64
	}{{"the machine", 200, 7, 7}, {"restricted reach", 280, 1, 7}, {"further rated load 2", 0, 13, 13}} {
		z := several.Zones[i]
		if z.Name != want.name || z.Smallest != want.smallest || z.Low != want.low || *z.High != want.high {
			t.Errorf("got %+v with at most %v h, want %+v", z, *z.High, want)
		}
	}
	if several.Low != 1 || *several.High != 13 {
		t.Errorf("got %v to %v h, want 1 to 13 h", several.Low, *several.High)
	}
	var sides []string
	for _, b := range several.Bands {
		sides = append(sides, strings.Fields(string(b.Side))[0])
	}
	if want := []string{"within", "over", "over", "over"}; !slices.Equal(sides, want) || several.Bands[3].Side != capacity.OverAll || several.Bands[1].Side != capacity.OverSome {
		t.Errorf("got %+v, want the first within all and the last over all", several.Bands)
	}
	for name, zones := range map[string][]record.Zone{
		"without a load": {{Name: "a"}, {RatedLoad: kg(300)}}, "ten tonnes": {{RatedLoad: kg(10_000)}}, "too many": make([]record.Zone, 8), "none": {},
	} {
		c.Machine.Zones = zones
		if got := assess(c).Several; got != nil {
			t.Errorf("%s: got %+v, want none used", name, got)
		}
	}
}

// A plan of a case is that of a person: units, names and counts as written; a
// unit that is not known is a finding, and nothing is added up.
func TestPlanOf(t *testing.T) {
	c := machine()
	c.Plan = &record.Plan{
		Persons: []record.PlanPerson{{Name: "A", Body: 118, Clothing: 4, Harness: 2.5}, {Body: 176, Clothing: 9, Unit: "lb"}},
		Items:   []record.PlanItem{{Name: "grinder", Mass: 6}, {Name: "cable", Mass: 30, Count: 2}},
	}
	p, fs := capacity.PlanOf(c)
	sum, more := p.Add()
	// 124.5 + 185·0.45359237 + 6 + 60 = 274.41458845 kg
	if len(fs)+len(more) > 0 || math.Abs(float64(sum.Total)-274.41458845) > 1e-9 || sum.FirstOver != 3 || p.Allowed != 2 {
		t.Errorf("got %+v, %+v, %+v, want 274.41 kg, over with the cable", sum, fs, more)
	}
	c.Plan.Items[0].Unit = "stone"
	if _, fs := capacity.PlanOf(c); len(fs) != 1 || fs[0].Path != "plan/items/1" || !strings.Contains(fs[0].Message, "stone") {
		t.Errorf("got %+v, want a finding about the unit", fs)
	}
}
