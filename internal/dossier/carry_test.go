package dossier_test

import (
	"bytes"
	"encoding/json"
	"math"
	"slices"
	"strings"
	"testing"

	"ratchetmark/internal/bodymass"
	"ratchetmark/internal/capacity"
	"ratchetmark/internal/dossier"
	"ratchetmark/internal/record"
)

// assessed reads a file of testdata, changes its case and assesses it.
func assessed(t *testing.T, path string, change func(c *record.Case)) dossier.Dossier {
	t.Helper()
	c := *dossiers(t, path)[0].History.Case
	if change != nil {
		change(&c)
	}
	return dossier.Assess(&c, nil, nil, record.Origins{})
}

const several = "carry/several-rated-loads.case.json"

// The chance of a crew is that of package bodymass, whether it was worked out
// before or not.
func TestCrewChance(t *testing.T) {
	men, _ := bodymass.Of(bodymass.Populations[6]) // at work offshore
	crew := bodymass.Crew{Groups: []bodymass.Group{{Who: men, People: 2}}, Worn: 6.5, Tools: 66}
	want, f := crew.Overloads(300, 100, 120)
	if f != nil {
		t.Fatal(f)
	}
	for range 2 {
		k := assessed(t, several, nil).Capacity
		if k.Crew.Population != bodymass.Populations[6].ID || len(k.Crew.Over) != 2 {
			t.Fatalf("got %+v, want the crew of the case", k.Crew)
		}
		for i, o := range k.Crew.Over {
			if o.Percent != want[i].Percent || math.Abs(o.Chance-want[i].Chance.Value) > 1e-8 || math.Abs(float64(o.Load-want[i].Load)) > 1e-9 {
				t.Errorf("got %+v, want %+v", o, want[i])
			}
		}
	}
}

// Without a crew in the case: the persons of the plate, or as many as the load
// covers, in usual clothing, with the tools of the rule.
func TestUsualCrew(t *testing.T) {
	for _, v := range []struct {
		name   string
		change func(c *record.Case)
		want   string
	}{
		{"plate", func(c *record.Case) { c.Crew = nil }, "2 people drawn from men of 20 years and more, United States, each with 4 kg worn, and 40 kg of tools: "},
		{"no persons on the plate", func(c *record.Case) { c.Crew, c.Machine.Persons = nil, nil }, "3 people drawn from"},
		{"one", func(c *record.Case) {
			c.Crew = &record.Crew{Persons: record.Of(1), Worn: record.Of(0.0), Tools: record.Of(0.0)}
		},
			"One person drawn from men of 20 years and more, United States, each with 0 kg worn, and 0 kg of tools: over 300 kg (100 %) in under 0.1 % of crews; "},
	} {
		k := assessed(t, several, v.change).Capacity
		if got := k.Crew.Line(); !strings.HasPrefix(got, v.want) {
			t.Errorf("%s: got %q, want it to begin with %q", v.name, got, v.want)
		}
	}
}

// What is asked and makes no sense gives a finding beside the record, and takes
// nothing from what is said of it.
func TestAskedFindings(t *testing.T) {
	plain := assessed(t, several, nil)
	for _, v := range []struct {
		name   string
		change func(c *record.Case)
		part   string
		path   record.Path
	}{
		{"no such people", func(c *record.Case) { c.Crew = &record.Crew{Population: "martians"} }, "crew", "crew/population"},
		{"nobody", func(c *record.Case) { c.Crew = &record.Crew{Persons: record.Of(0)} }, "crew", "crew/persons"},
		{"too many people", func(c *record.Case) { c.Crew = &record.Crew{Persons: record.Of(21)} }, "crew", "crew/persons"},
		{"a ton of clothes", func(c *record.Case) { c.Crew = &record.Crew{Worn: record.Of(1000.0)} }, "crew", "crew/worn_kg"},
		{"tools below zero", func(c *record.Case) { c.Crew = &record.Crew{Tools: record.Of(-1.0)} }, "crew", "crew/tools_kg"},
		{"an empty plan", func(c *record.Case) { c.Plan = &record.Plan{} }, "plan", "plan/persons"},
		{"a person of nothing", func(c *record.Case) { c.Plan = &record.Plan{Persons: []record.PlanPerson{{}}} }, "plan", "plan/persons/1/body"},
		{"a load below zero", func(c *record.Case) { c.Thresholds = []record.Kilogram{-1} }, "thresholds_kg", "thresholds_kg/1"},
	} {
		d := assessed(t, several, v.change)
		fs := d.Capacity.About(v.part)
		if len(fs) == 0 || fs[0].Path != v.path || fs[0].Severity != record.Doubt || len(d.Capacity.Asked) != len(fs) {
			t.Errorf("%s: got %+v, want a doubt at %s", v.name, d.Capacity.Asked, v.path)
		}
		if len(d.Findings) != len(plain.Findings) || d.Answers.Summary != plain.Answers.Summary || d.Answers.Over != plain.Answers.Over {
			t.Errorf("%s: got other findings or answers about the record", v.name)
		}
		var text bytes.Buffer
		if err := dossier.WriteText(&text, &d); err != nil || !strings.Contains(strings.Join(strings.Fields(text.String()), " "), strings.Join(strings.Fields(fs[0].Message), " ")) {
			t.Errorf("%s: got no word of %q in the text", v.name, fs[0].Message)
		}
	}
}

// Where hours are missing, nothing bounds the hours over a load from above, nor
// those over further rated loads.
func TestMissingHoursLeaveNoBound(t *testing.T) {
	d := assessed(t, "demo/clean.case.json", func(c *record.Case) {
		last := len(c.Readings) - 1
		c.Readings = slices.Clone(c.Readings)
		c.Readings[last].Bands = slices.Clone(c.Readings[last].Bands)
		c.Readings[last].Bands[0].Hours = 0 // a counter that ran backwards
		c.Thresholds = []record.Kilogram{100}
		c.Machine.Zones = []record.Zone{{Name: "z", RatedLoad: record.Of(record.Kilogram(450))}}
	})
	e, z := d.Capacity.OverLoads[0], d.Capacity.Several
	if !e.Unbounded || z.High != nil || z.Zones[0].High != nil || z.Zones[1].Estimate != nil {
		t.Errorf("got %+v and %+v, want no upper bounds", e, z)
	}
	if got := dossier.OverLine(e); !strings.Contains(got, "at least") || !strings.Contains(got, "nothing bounds it above") {
		t.Errorf("got %q, want it said", got)
	}
	if got := strings.Join(d.Capacity.ZoneLines(), " "); !strings.Contains(got, "possible not known, because hours are missing") {
		t.Errorf("got %q, want it said", got)
	}
}

// Where nothing went over the machine's rated load, but may have over that of a
// smaller zone, no sentence says that nothing went over.
func TestSmallerZoneIsNeverPassedOver(t *testing.T) {
	zone := func(rated float64) func(c *record.Case) {
		return func(c *record.Case) {
			c.Machine.Zones = []record.Zone{{Name: "deck extended", RatedLoad: record.Of(record.Kilogram(rated))}}
		}
	}
	for _, v := range []struct {
		name  string
		rated float64
		mixed bool
	}{{"smaller, with hours over it", 120, true}, {"smaller, with only the peak over it", 337, true}, {"larger", 500, false}} {
		d := assessed(t, "demo/clean.case.json", zone(v.rated)) // rated 350 kg, peak 338 kg
		for _, answer := range []string{d.Answers.Summary, d.Answers.Over} {
			if got := strings.Contains(answer, "of deck extended, if it was in that zone"); got != v.mixed {
				t.Errorf("%s: got %q, want the zone named: %v", v.name, answer, v.mixed)
			}
		}
		if !strings.Contains(d.Answers.Carry, "It has 2 rated loads.") {
			t.Errorf("%s: got %q, want both rated loads in the answer", v.name, d.Answers.Carry)
		}
	}
}

// What is asked after an overload stands where something went over, by region,
// each row with a source, and never says that the machine may be used.
func TestAfterOverload(t *testing.T) {
	if k := assessed(t, "demo/clean.case.json", nil).Capacity; k.After != nil {
		t.Errorf("nothing over: got %+v, want none", k.After)
	}
	for _, v := range []struct{ region, own, line string }{
		{"Great Britain", "LOLER:1998, reg. 9(3)", "Region: Great Britain."},
		{"France", "French order of 1 March 2004, art. 10 and 11", "Region: France."},
		{"Europe", "Regulation (EU) 2023/1230, Annex III, 4.1.2.3", "Region: Europe."},
		{"Australia", "AS 2550.10", "Region: Australia."},
		{"United States", "WAC 296-869-40010", "Region: United States."},
		{"Russia", "", "No rule of the region (Russia) is listed here"},
		{"", "", "No region is stated"},
	} {
		d := assessed(t, "demo/lashed.case.json", func(c *record.Case) { c.Machine.Region = v.region })
		a := d.Capacity.After
		if a == nil || a.Rows[0].ID != "out-of-use" || a.Own != (v.own != "") || !strings.HasPrefix(a.Line(), v.line) {
			t.Fatalf("%q: got %+v, want rows that begin with keeping it out of use", v.region, a)
		}
		var all string
		for _, row := range a.Rows {
			line := dossier.AskedLine(row)
			if !strings.Contains(line, "Source: ") || row.Who == "" {
				t.Errorf("%q: got %q, want who and a source", v.region, line)
			}
			all += line
		}
		if !strings.Contains(all, v.own) {
			t.Errorf("%q: got %q, want %s among it", v.region, all, v.own)
		}
		for _, bad := range []string{"may be used", "fit for", "safe"} {
			if strings.Contains(all, bad) {
				t.Errorf("%q: got %q in it, want nothing that excuses a machine", v.region, bad)
			}
		}
	}
}

// Each band stands against each rated load, and each number of persons leaves
// what it leaves: by hand, 300 - 80, 300 - 160, and with 97.44 kg each.
func TestBandsAndPersonsOfSeveralLoads(t *testing.T) {
	k := assessed(t, several, nil).Capacity
	want := "Bands: 0 to 100 kg and 100 to 200 kg within the rated load in every zone; 200 to 320 kg and 320 to 450 kg over a rated load in some zones or by a part of the band."
	if !slices.Contains(k.ZoneLines(), want) {
		t.Errorf("got %q, want %q among them", k.ZoneLines(), want)
	}
	if got, want := k.LeftLines(80), []string{"One person of 80 kg leaves 220 kg; of 97.4 kg 202 kg.", "2 persons of 80 kg leave 140 kg; of 97.4 kg 105 kg."}; !slices.Equal(got, want) {
		t.Errorf("got %q, want %q", got, want)
	}
	k = assessed(t, several, func(c *record.Case) { c.Machine.RatedLoad = record.Of(record.Kilogram(150)) }).Capacity
	if got := k.LeftLines(80)[1]; got != "2 persons of 80 kg leave nothing: over by 10 kg; of 97.4 kg over by 45 kg." {
		t.Errorf("got %q, want nothing left", got)
	}
}

// Rules that a case changes are in the cautions too.
func TestCautionFollowsTheTests(t *testing.T) {
	for _, v := range []struct {
		name string
		c    record.Conditions
		peak float64 // of 230 kg
		want string
	}{
		{"usual", record.Conditions{}, 350, "beyond anything the type test covers (150 % of the rated load; EN 280, 5.4.1.6, from memory"},
		{"usual, above the static test", record.Conditions{}, 300, "above the static test load (125 %"},
		{"moved by hand", record.Conditions{ByHand: true}, 300, ""},
		{"no test is listed", record.Conditions{Edition: "ISO 16368"}, 350, "beyond anything the type test covers (150 %"},
	} {
		d := assessed(t, "demo/lashed.case.json", func(c *record.Case) {
			c.Machine.Conditions = v.c
			c.Readings = c.Readings[:1]
			c.Readings[0].Peak = record.Of(record.Kilogram(v.peak))
		})
		all := strings.Join(d.Cautions, "\n")
		if v.want == "" && strings.Contains(all, "test load (") || !strings.Contains(all, v.want) {
			t.Errorf("%s: got %q, want %q", v.name, all, v.want)
		}
	}
}

// Region, edition and own values change the figures: 2 persons in pounds ask
// for 199.6 kg, under the decree for 265 kg.
func TestEditionChangesTheAnswer(t *testing.T) {
	for edition, want := range map[capacity.Edition]string{
		capacity.EN2022: "30 kg more than the rule asks for", capacity.ANSI: "30 kg more than the rule asks for", capacity.Decree1947: "35 kg less than the rule asks for",
	} {
		d := assessed(t, "demo/lashed.case.json", func(c *record.Case) { c.Machine.Edition = string(edition) })
		if !strings.Contains(d.Answers.Carry, want) {
			t.Errorf("%s: got %q, want %q", edition, d.Answers.Carry, want)
		}
		if _, err := json.Marshal(d); err != nil {
			t.Error(err)
		}
	}
}

func TestChanceText(t *testing.T) {
	for p, want := range map[float64]string{0: "0 %", 1: "100 %", 0.9999: "over 99 %", 0.0004: "under 0.1 %", 0.0071: "0.71 %", 0.0471: "4.7 %", 0.23: "23 %"} {
		if got := dossier.ChanceText(p); got != want {
			t.Errorf("%v: got %q, want %q", p, got, want)
		}
	}
}
