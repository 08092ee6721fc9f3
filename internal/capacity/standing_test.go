package capacity_test

import (
	"math"
	"slices"
	"strings"
	"testing"

	"ratchetmark/internal/assume"
	"ratchetmark/internal/capacity"
	"ratchetmark/internal/record"
)

// at makes a case of a machine that stands under some conditions.
func at(c record.Conditions, own map[string]record.Assumed) *record.Case {
	return &record.Case{Machine: record.Machine{Kind: record.Scissor, RatedLoad: kg(240), Persons: record.Of(2), Conditions: c}, Assumptions: own}
}

func fixed(x float64) record.Assumed { return record.Assumed{Low: x, Value: x, High: x} }

// Region and edition choose the rules; what is not known chooses nothing.
func TestStandingOf(t *testing.T) {
	for _, v := range []struct {
		region, edition string
		want            capacity.Edition
		stated          bool
	}{
		{"", "", capacity.EN2022, false},
		{"Great Britain", "", capacity.EN2022, false},
		{"United States", "", capacity.ANSI, false},
		{"Russia", "", capacity.GOST, false},
		{"Australia", "", capacity.ISO, false},
		{"elsewhere", "", capacity.ISO, false},
		{"everywhere", "", capacity.EN2022, false},
		{"Atlantis", "", capacity.EN2022, false},
		{"France", "decree 47-1592", capacity.Decree1947, true},
		{"", "EN 280:2001 to 2015", capacity.EN2001, true},
		{"Russia", "EN 281", capacity.GOST, false},
	} {
		s := capacity.StandingOf(record.Machine{Conditions: record.Conditions{Region: v.region, Edition: v.edition}})
		if s.Edition != v.want || s.Stated != v.stated {
			t.Errorf("%q, %q: got %s, stated %v, want %s, %v", v.region, v.edition, s.Edition, s.Stated, v.want, v.stated)
		}
		if known := v.region == string(s.Region); known != (v.region != "everywhere" && v.region != "Atlantis") {
			t.Errorf("%q: got region %q", v.region, s.Region)
		}
	}
}

// The persons-plus-tools rule in its editions: EN 280 and ISO 16368, 80 kg and
// 40 kg (from memory); ANSI/SAIA A92.20, 175 lb and 90 lb (from memory); the
// older French rule, decree 47-1592, art. 26a: 165 kg for the first person, 100
// kg for each further one (read). Smallest rated loads by hand.
func TestAssumptionsOfEachEdition(t *testing.T) {
	for _, v := range []struct {
		edition  capacity.Edition
		one, two float64
		window   [2]float64 // 0: none
		stated   string     // of the mass of a person
	}{
		{capacity.EN2022, 120, 200, [2]float64{100, 120}, ""},
		{capacity.EN2001, 120, 200, [2]float64{100, 120}, ""},
		{capacity.ISO, 120, 200, [2]float64{100, 120}, ""},
		{capacity.ANSI, 265 * capacity.KgPerLb, 440 * capacity.KgPerLb, [2]float64{100, 120}, "175 lb"},
		{capacity.GOST, 120, 200, [2]float64{100, 110}, ""},
		{capacity.Decree1947, 165, 265, [2]float64{}, ""},
	} {
		set, findings := capacity.Assumptions(at(record.Conditions{Edition: string(v.edition)}, nil))
		if len(findings) > 0 {
			t.Errorf("%s: got %+v, want no finding", v.edition, findings)
		}
		rule := capacity.RuleOf(set)
		one, _ := rule.Smallest(1)
		two, _ := rule.Smallest(2)
		if math.Abs(float64(one)-v.one) > 1e-9 || math.Abs(float64(two)-v.two) > 1e-9 {
			t.Errorf("%s: got %v and %v kg for one and two persons, want %v and %v", v.edition, one, two, v.one, v.two)
		}
		var window [2]float64
		if from, ok := set.Find(assume.SensingFrom); ok {
			window = [2]float64{from.Value, set.Value(assume.SensingTo)}
		}
		if window != v.window {
			t.Errorf("%s: got the window %v, want %v", v.edition, window, v.window)
		}
		if got := set.Get(assume.PersonMass).Stated; got != v.stated {
			t.Errorf("%s: got the mass of a person stated as %q, want %q", v.edition, got, v.stated)
		}
		for _, a := range set.Rows() {
			if a.Rule && (a.Source == "" || a.Status == "" || a.Name == "" || a.Unit == "" || a.ID == "" || !(a.Least <= a.Value && a.Value <= a.Most)) {
				t.Errorf("%s: got %+v, want every value with a name, a unit, a source and a range that holds it", v.edition, a)
			}
		}
		set.Get(assume.Slope) // what is no rule is there under every edition
	}
}

// Static test: 125 %, and 150 % for machines moved by hand (Regulation (EU)
// 2023/1230, Annex III, 4.1.2.3, read); 150 % for a scissor lift that senses
// only when raising (ANSI/SAIA A92.20, restated).
func TestConditionsChooseTestLoads(t *testing.T) {
	for _, v := range []struct {
		name string
		c    record.Conditions
		want float64
	}{
		{"Europe", record.Conditions{Region: "Europe"}, 125},
		{"Europe, moved by hand", record.Conditions{Region: "Europe", ByHand: true}, 150},
		{"United States", record.Conditions{Region: "United States"}, 0},
		{"United States, raising only", record.Conditions{Region: "United States", RaisingOnly: true}, 150},
		{"Europe, raising only", record.Conditions{Region: "Europe", RaisingOnly: true}, 125},
	} {
		set, _ := capacity.Assumptions(at(v.c, nil))
		row, ok := set.Find(capacity.StaticTest.ID())
		if row.Value != v.want || ok != (v.want > 0) {
			t.Errorf("%s: got %v, want %v", v.name, row.Value, v.want)
		}
	}
}

// Every value can be set for a case, stays set under another edition that has
// it, and is a finding under one that has not.
func TestEveryRuleCanBeSet(t *testing.T) {
	for _, e := range capacity.Editions {
		usual, _ := capacity.Assumptions(at(record.Conditions{Edition: string(e.Edition)}, nil))
		for _, a := range usual.Rows() {
			if !a.Rule {
				continue
			}
			x := (a.Least + a.Value) / 2
			if a.Least == a.Value {
				x = (a.Most + a.Value) / 2
			}
			set, findings := capacity.Assumptions(at(record.Conditions{Edition: string(e.Edition)}, map[string]record.Assumed{string(a.ID): fixed(x)}))
			if got := set.Get(a.ID); len(findings) > 0 || got.Value != x || !got.Edited {
				t.Errorf("%s, %s: got %+v and %+v, want %v in place", e.Edition, a.ID, got, findings, x)
			}
		}
	}
	_, findings := capacity.Assumptions(at(record.Conditions{Edition: "decree 47-1592"}, map[string]record.Assumed{"load_sensing_to_pct": fixed(110)}))
	if len(findings) != 1 || findings[0].Code != "assumption-refused" {
		t.Errorf("got %+v, want the window refused where the rules have none", findings)
	}
}

// What a case sets itself is in the shares of the rated load, in pounds too.
func TestRulesUnder(t *testing.T) {
	own := map[string]record.Assumed{"load_sensing_to_pct": fixed(115), "person_mass_kg": fixed(200 * capacity.KgPerLb)}
	c := at(record.Conditions{Region: "United States"}, own)
	set, _ := capacity.Assumptions(c)
	rules := capacity.StandingOf(c.Machine).Rules.Under(set)
	to, _ := rules.Get(capacity.WindowTo)
	first, _ := rules.Get(capacity.FirstPerson)
	further, _ := rules.Get(capacity.FurtherPerson)
	if to.Value != 115 || math.Abs(first.Value-200) > 1e-9 || math.Abs(further.Value-200) > 1e-9 {
		t.Errorf("got up to %v %%, %v and %v lb, want 115 %% and 200 lb for every person", to.Value, first.Value, further.Value)
	}
	if from, to := capacity.Sensing(record.Lay(c), set); from != 240 || math.Abs(float64(to)-276) > 1e-9 {
		t.Errorf("got the window %v to %v, want 240 to 276 kg", from, to)
	}
}

// A region, an edition and further rated loads that make no sense are findings;
// none of them blocks what the record says.
func TestCheckConditions(t *testing.T) {
	zone := func(name string, rated *record.Kilogram, persons *int) record.Zone {
		return record.Zone{Name: name, RatedLoad: rated, Persons: persons}
	}
	for _, v := range []struct {
		name string
		c    record.Conditions
		want []string
	}{
		{"nothing stated", record.Conditions{}, nil},
		{"all known", record.Conditions{Region: "France", Edition: "EN 280-1:2022", Zones: []record.Zone{zone("a", kg(300), record.Of(3))}}, nil},
		{"no such region", record.Conditions{Region: "europe"}, []string{"region-unknown machine/region"}},
		{"no such edition", record.Conditions{Edition: "EN 280"}, []string{"edition-unknown machine/edition"}},
		{"without a load", record.Conditions{Zones: []record.Zone{zone("a", nil, nil)}}, []string{"zone-without-load machine/zones/1"}},
		{"ten tonnes", record.Conditions{Zones: []record.Zone{zone("a", kg(10_000), nil)}}, []string{"value-out-of-range machine/zones/1"}},
		{"zero persons are not stated", record.Conditions{Zones: []record.Zone{zone("a", kg(300), record.Of(0))}}, nil},
		{"too many persons", record.Conditions{Zones: []record.Zone{zone("a", kg(300), record.Of(21))}}, []string{"value-out-of-range machine/zones/1"}},
		{"too small for its persons", record.Conditions{Zones: []record.Zone{zone("a", kg(250), record.Of(3))}}, []string{"plate-inconsistent machine/zones/1"}},
		{"smaller than the machine's", record.Conditions{Zones: []record.Zone{zone("a", kg(300), nil), zone("b", kg(150), record.Of(1))}}, []string{"zone-below-rated machine/zones/2"}},
		{"too many", record.Conditions{Zones: make([]record.Zone, 8)}, []string{"value-out-of-range machine/zones"}},
	} {
		c := at(v.c, nil)
		set, _ := capacity.Assumptions(c)
		var got []string
		for _, f := range capacity.CheckConditions(c, set) {
			got = append(got, f.Code+" "+string(f.Path))
			if f.Severity == record.Blocking || f.Where == "" || f.Message == "" || f.Expected == "" || f.Effect == "" || f.Hint == "" {
				t.Errorf("%s: got %+v, want it whole and not blocking", v.name, f)
			}
		}
		if !slices.Equal(got, v.want) {
			t.Errorf("%s: got %q, want %q", v.name, got, v.want)
		}
	}
}

// A plate in pounds is read in whole kilograms: 440 lb are 199.58 kg.
func TestPlateInPounds(t *testing.T) {
	for rated, want := range map[float64]string{200: "", 199.6: "", 199.2: "", 199: "at least 199.58 kg for 2 persons of 79.38 kg with 40.82 kg of tools and materials"} {
		c := at(record.Conditions{Region: "United States"}, nil)
		c.Machine.RatedLoad = kg(rated)
		set, _ := capacity.Assumptions(c)
		got := ""
		for _, f := range capacity.CheckPlate(c, set) {
			got = f.Expected
		}
		if got != want {
			t.Errorf("%v kg: got %q, want %q", rated, got, want)
		}
	}
}

// A rated load of ten tonnes is a slip of the hand: a finding, and no figures
// of persons and tools.
func TestRatedLoadOfTenTonnes(t *testing.T) {
	c := machine()
	c.Machine.RatedLoad = kg(10_000)
	set, _ := capacity.Assumptions(c)
	fs := capacity.CheckPlate(c, set)
	if len(fs) != 1 || fs[0].Severity != record.Doubt || !strings.Contains(fs[0].Message, "10000 kg") {
		t.Errorf("got %+v, want one doubt about 10000 kg", fs)
	}
	r := capacity.Assess(record.Lay(c), set)
	if r.SmallestRated != 0 || r.Spare != 0 || r.PersonsWithin != 0 || r.Shares != nil || r.Stage != nil {
		t.Errorf("got %+v, want no figure that stands on the rule", r)
	}
}

// No rule asks for a window of load sensing in the decree of 1947.
func TestNoSensing(t *testing.T) {
	c := at(record.Conditions{Edition: "decree 47-1592"}, nil)
	set, _ := capacity.Assumptions(c)
	if from, to := capacity.Sensing(record.Lay(c), set); from != 0 || to != 0 {
		t.Errorf("got %v to %v, want none", from, to)
	}
	c.Machine.LoadSensing = kg(264)
	if from, to := capacity.Sensing(record.Lay(c), set); from != 264 || to != 264 {
		t.Errorf("got %v to %v, want the machine's own 264 kg", from, to)
	}
}
