package model

import (
	"math"
	"slices"
	"strings"
	"testing"

	"ratchetmark/internal/assume"
	"ratchetmark/internal/capacity"
)

// fieldsOf are all fields of the sheet that are there now.
func fieldsOf(m *Model) (all []Input) {
	persons, items := m.Planned()
	for i := range persons {
		all = append(all, m.PersonInputs(i)...)
	}
	for i := range items {
		all = append(all, m.ItemInputs(i)...)
	}
	for i := range m.Case().Group.Case.Machine.Zones {
		all = append(all, m.ZoneInputs(i)...)
	}
	for i := range m.Lashings() {
		all = append(all, m.LashingInputs(i)...)
	}
	if m.Case().Dossier.Capacity != nil {
		all = append(all, m.CrewInputs()...)
	}
	all = slices.Concat(all, m.RuleInputs(), m.ValueInputs(), m.LoadInput(), m.StructureInputs(), m.StrapInputs(), m.HeldInputs(), m.FurtherInputs(), m.BriefedInputs(), []Input{m.LanguageInput()})
	for _, a := range m.Case().Dossier.Assumptions {
		if !a.Rule {
			all = append(all, m.AssumptionInputs(a)...)
		}
	}
	return all
}

// at returns the field of the sheet with an id.
func at(t *testing.T, m *Model, id string) Input {
	t.Helper()
	all := fieldsOf(m)
	i := slices.IndexFunc(all, func(x Input) bool { return x.ID == id })
	if i < 0 {
		t.Fatalf("got no field %s, want one", id)
	}
	return all[i]
}

// fill types into the field of the sheet with an id.
func fill(t *testing.T, m *Model, id, text string) {
	t.Helper()
	m.Fill(at(t, m, id), text)
}

// assumed sets the usual value of an assumption.
func assumed(t *testing.T, m *Model, id assume.ID, text string) {
	t.Helper()
	fill(t, m, string(id)+"-value", text)
}

// usual puts the usual value of an assumption back.
func usual(m *Model, id assume.ID) { m.Usual(assumedOf(m.Case(), id)) }

// Two people, one of them 118 kg in harness, a grinder and 60 kg of cable, on a
// rated load of 230 kg. By hand: 118 + 4 + 2.5 + 82 + 4 + 3.5 + 60 = 274 kg.
func TestPlanACrew(t *testing.T) {
	m, d := opened(t, lashed())
	m.AddPerson()
	if got := d.shown[len(d.shown)-1]; got != "plan-p1-body" {
		t.Errorf("got the keyboard on %q, want the mass of the person", got)
	}
	if why := at(t, m, "plan-p1-body").Problem; !strings.HasPrefix(why, "still to be typed") {
		t.Errorf("got %q of a blank mass, want it asked for", why)
	}
	fill(t, m, "plan-p1-body", "118")
	fill(t, m, "plan-p1-harness", "2,5")
	m.AddPerson()
	fill(t, m, "plan-p2-body", "82")
	fill(t, m, "plan-p2-name", " second ")
	m.AddItem()
	fill(t, m, "plan-i1-mass", "3.5")
	m.AddItem()
	fill(t, m, "plan-i2-mass", "30")
	m.Press(at(t, m, "plan-i2-count"), 1)
	sum := m.Case().Dossier.Capacity.Plan
	if sum == nil || sum.Total != 274 || sum.Words != "44 kg over the rated load: nothing left, take off at least as much" || sum.Lines[1].Name != "second" {
		t.Errorf("got %+v, want 274 kg, 44 kg over", sum)
	}
	m.RemoveItem(1)
	if sum := m.Case().Dossier.Capacity.Plan; sum.Words != "16 kg left, 6 % of the rated load" {
		t.Errorf("got %q without the cable, want 16 kg left", sum.Words)
	}
	if m.Case().Changed || !m.Case().Asked {
		t.Error("got the record changed by a plan, want it only asked")
	}
	again := reopened(t, d)
	if got, want := result(t, &again.Case().Dossier), result(t, &m.Case().Dossier); got != want || !again.Case().Asked {
		t.Errorf("got %s, want %s", got, want)
	}
	m.RemoveItem(0)
	m.RemovePerson(1)
	m.RemovePerson(0)
	if m.Case().Group.Case.Plan != nil {
		t.Errorf("got %+v, want no plan once all of it is taken off", m.Case().Group.Case.Plan)
	}
}

// What cannot be read stays as it was typed, says why, and counts as not given.
func TestUnreadableAsk(t *testing.T) {
	m, _ := opened(t, lashed())
	m.AddPerson()
	body := func() Input { return at(t, m, "plan-p1-body") }
	for _, text := range []string{"heavy", "1,234", "12 stone"} {
		m.Fill(body(), text)
		if body().Text != text || body().Problem == "" || m.Unread("plan-") != 1 || m.Case().Dossier.Capacity.Plan != nil {
			t.Errorf("%q: got %q standing, problem %q, want it kept and said", text, body().Text, body().Problem)
		}
	}
	m.Press(body(), 1)
	if body().Text != "12 stone" {
		t.Errorf("got %q after a step, want what cannot be read to stay", body().Text)
	}
	m.Fill(body(), "5")
	if why := body().Problem; !strings.Contains(why, "is 5 kg; expected from 30 to 400 kg") {
		t.Errorf("got %q, want the range", why)
	}
	m.Fill(body(), "90,50")
	if body().Problem != "" || m.Unread("plan-") != 0 || body().Text != "90,50" || m.Case().Dossier.Capacity.Plan.Total != 94.5 {
		t.Errorf("got %q, %+v, want 94.5 kg", body().Problem, m.Case().Dossier.Capacity.Plan)
	}
}

// The unit of a line leaves what was typed; usual clothing that was not typed
// follows. 200 lb and 9 lb are 94.8 kg.
func TestPlanInPounds(t *testing.T) {
	m, _ := opened(t, lashed())
	m.AddPerson()
	fill(t, m, "plan-p1-body", "200")
	fill(t, m, "plan-p1-unit", "lb")
	if got := float64(m.Case().Dossier.Capacity.Plan.Total); math.Abs(got-209*capacity.KgPerLb) > 1e-6 {
		t.Errorf("got %v kg, want 209 lb", got)
	}
	if got := at(t, m, "plan-p1-body").Words(); got != "Body, lb" {
		t.Errorf("got label %q, want the unit in it", got)
	}
	m.AddPerson()
	if p := m.Case().Group.Case.Plan.Persons[1]; p.Unit != "lb" || p.Clothing != 9 {
		t.Errorf("got %+v, want the next person in pounds too", p)
	}
}

// A load that is asked about is kept, and gone when the field is emptied.
func TestAskLoad(t *testing.T) {
	m, d := opened(t, lashed())
	fill(t, m, "any-load", "250,5")
	if all := m.Case().Dossier.Capacity.OverLoads; len(all) != 1 || all[0].Load != 250.5 {
		t.Errorf("got %+v, want 250.5 kg", all)
	}
	if got := at(t, reopened(t, d), "any-load").Text; got != "250.5" {
		t.Errorf("got %q in another page, want 250.5", got)
	}
	fill(t, m, "any-load", "-5")
	if why := at(t, m, "any-load").Problem; !strings.Contains(why, "-5 kg") {
		t.Errorf("got %q, want it refused", why)
	}
	fill(t, m, "any-load", "")
	if c := m.Case().Group.Case; len(c.Thresholds) != 0 || at(t, m, "any-load").Problem != "" {
		t.Errorf("got %v, want none", c.Thresholds)
	}
}

// The crew of the statistic: usual values until others are set, and again when
// a field is emptied.
func TestAskCrew(t *testing.T) {
	m, _ := opened(t, lashed())
	line := func() string { return m.Case().Dossier.Capacity.Crew.Line() }
	usual := line()
	fill(t, m, "crew-persons", "3")
	fill(t, m, "crew-population", "england-women")
	if got := line(); !strings.HasPrefix(got, "3 people drawn from women, England 2022") {
		t.Errorf("got %q, want three women", got)
	}
	fill(t, m, "crew-persons", "0")
	if why := at(t, m, "crew-persons").Problem; !strings.Contains(why, "number of persons is 0") {
		t.Errorf("got %q, want zero persons refused", why)
	}
	fill(t, m, "crew-persons", "")
	fill(t, m, "crew-population", "us-men")
	if got := line(); got != usual {
		t.Errorf("got %q, want the usual crew again", got)
	}
}

// Region and edition choose the rules, change the record's result and are kept.
func TestChooseRegion(t *testing.T) {
	m, d := opened(t, lashed())
	fill(t, m, "region", "United States")
	o := m.Case()
	if k := o.Dossier.Capacity; k.Edition != capacity.ANSI || k.After.Region != capacity.UnitedStates || !o.Changed {
		t.Errorf("got %s, %+v, changed %v, want the American rules", k.Edition, k.After, o.Changed)
	}
	const person = "person_mass_kg-value"
	stands := func() string { return at(t, m, person).Text }
	if got := stands(); got != "175" {
		t.Errorf("got %q, want 175 lb", got)
	}
	fill(t, m, person, "200,0")
	if got := ruleOf(t, m, assume.PersonMass); math.Abs(got.Value-90.718474) > 1e-6 || !got.Edited || stands() != "200,0" {
		t.Errorf("got %+v, %q, want 200 lb as typed", got, stands())
	}
	fill(t, m, person, "2000")
	if a := at(t, m, person); stands() != "2000" || a.Problem == "" || math.Abs(ruleOf(t, m, assume.PersonMass).Value-90.718474) > 1e-6 {
		t.Errorf("got %q, problem %q, want 2000 lb refused as it was typed", stands(), a.Problem)
	}
	m.Reset(at(t, m, person))
	if a := at(t, m, person); stands() != "175" || a.Resets || a.Problem != "" {
		t.Errorf("got %q, problem %q, want the usual value again", stands(), a.Problem)
	}
	fill(t, m, person, "200")
	fill(t, m, person, "175")
	if got := ruleOf(t, m, assume.PersonMass); got.Edited || len(unread(m.Case().typed)) != 0 {
		t.Errorf("got %+v, want the usual value where it is typed", got)
	}
	fill(t, m, "edition", "decree 47-1592")
	fill(t, m, "by-hand", "yes")
	again := reopened(t, d)
	if got := again.Case().Group.Case.Machine.Conditions; got.Region != "United States" || got.Edition != "decree 47-1592" || !got.ByHand {
		t.Errorf("got %+v in another page, want region and edition kept", got)
	}
}

func ruleOf(t *testing.T, m *Model, id assume.ID) assume.Assumption {
	t.Helper()
	for _, a := range m.Case().Dossier.Assumptions {
		if a.ID == id {
			return a
		}
	}
	t.Fatalf("got no %s among the rules", id)
	return assume.Assumption{}
}

// Further rated loads are added, typed and taken off; the state in the list of
// machines does not pass over a smaller one.
func TestZones(t *testing.T) {
	m, _ := opened(t, fileOf("demo", "clean.case.json"))
	if got := m.Case().State(); got != "nothing over" {
		t.Fatalf("got %q, want nothing over", got)
	}
	m.AddZone()
	fill(t, m, "zone-1-name", "deck extended")
	fill(t, m, "zone-1-rated", "120")
	fill(t, m, "zone-1-persons", "1")
	if got := m.Case().State(); got != "perhaps over, by zone" {
		t.Errorf("got %q, want the smaller zone named", got)
	}
	if z := m.Case().Dossier.Capacity.Several; len(z.Zones) != 2 || z.Zones[1].Persons != 1 {
		t.Errorf("got %+v, want two rated loads", z)
	}
	m.AddZone()
	m.RemoveZone(0)
	if z := m.Case().Group.Case.Machine.Zones; len(z) != 1 || z[0].Name != "" || at(t, m, "zone-1-name").Text != "" {
		t.Errorf("got %+v, want the second line, blank", z)
	}
	for m.MoreZones() {
		m.AddZone()
	}
	if n := len(m.Case().Group.Case.Machine.Zones); n != 7 {
		t.Errorf("got %d further rated loads, want 7", n)
	}
}

// What is asked on the sheet never reaches into another copy of the case: the
// form that corrects it, or what was kept before.
func TestAskingCopies(t *testing.T) {
	m, _ := opened(t, fileOf("carry", "several-rated-loads.case.json"))
	before := m.Case().Group.Case
	fill(t, m, "plan-p1-body", "70")
	fill(t, m, "any-load", "111")
	fill(t, m, "zone-1-rated", "333")
	fill(t, m, "crew-persons", "1")
	if before.Plan.Persons[0].Body != 118 || before.Thresholds[0] != 250 || *before.Machine.Zones[0].RatedLoad != 450 || *before.Crew.Persons != 2 {
		t.Errorf("got %+v, want the copy as it was", before)
	}
	m.Correct()
	m.Form.Readings[0].Peak = "420"
	m.Changed()
	m.Finish()
	c := m.Case().Group.Case
	if c.Plan.Persons[0].Body != 70 || c.Thresholds[0] != 111 || *c.Machine.Zones[0].RatedLoad != 333 {
		t.Errorf("got %+v after a correction, want what was asked to stay", c)
	}
}

// A machine without a rated load has no planner, but its rules can be chosen.
func TestAskWithoutRatedLoad(t *testing.T) {
	m, _ := opened(t, fileOf("bad", "no-rated-load.case.json"))
	fill(t, m, "region", "France")
	if got := m.Case().Group.Case.Machine.Region; got != "France" {
		t.Errorf("got %q, want France", got)
	}
	(&Model{}).Fill(Input{}, "x") // without a machine nothing happens
}
