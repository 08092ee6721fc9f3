package capacity

import (
	"math"
	"strconv"

	"ratchetmark/internal/assume"
	"ratchetmark/internal/record"
)

// Allowance is a mass that a person carries on the body, in kg.
type Allowance struct {
	ID, Name           string
	Low, Usual, High   float64
	Source             assume.Source
	OnlyWhereItIsAsked bool // as fall protection: not on every platform
}

// Allowances are usual masses of what a person wears. They have no source:
// weigh what is worn where it matters.
var Allowances = []Allowance{
	{ID: "clothing", Name: "work clothing, boots and helmet", Low: 2, Usual: 4, High: 7, Source: unsourced},
	{ID: "harness", Name: "harness with lanyard", Low: 1.5, Usual: 2.5, High: 5, Source: unsourced, OnlyWhereItIsAsked: true},
}

var unsourced = assume.Source{Document: "none", Status: assume.Guess}

// Person is one person of a plan.
type Person struct {
	Name                    string
	Body, Clothing, Harness Mass
}

// Item is tools or materials of a plan.
type Item struct {
	Name  string
	Mass  Mass // of one
	Count int  // 0 counts as 1
}

// Plan is who and what shall go up.
type Plan struct {
	Rated   record.Kilogram
	Allowed int // persons on the plate; 0: not stated
	Persons []Person
	Items   []Item
}

// PlanLine is one person or item of a plan that was added up.
type PlanLine struct {
	Name   string          `json:"name"`
	Person bool            `json:"person"`
	Mass   record.Kilogram `json:"mass_kg"`
	Sum    record.Kilogram `json:"sum_kg"` // with all lines before it
	Alone  bool            `json:"alone"`  // over the rated load on its own
	Over   bool            `json:"over"`   // the plan is over the rated load from this line on
}

// Sum is a plan added up against the rated load.
type Sum struct {
	Lines       []PlanLine      `json:"lines"`
	Total       record.Kilogram `json:"total_kg"`
	Left        record.Kilogram `json:"left_kg"`    // below zero: over the rated load
	LeftPercent float64         `json:"left_pct"`   // of the rated load
	FirstOver   int             `json:"first_over"` // line that takes the plan over the rated load; -1: none
	Surplus     int             `json:"surplus"`    // persons more than the plate allows
	Words       string          `json:"words"`
}

// Add adds up a plan. Where a value makes no sense there are findings and
// nothing is added up.
func (p Plan) Add() (Sum, []record.Finding) {
	if fs := p.check(); len(fs) > 0 {
		return Sum{}, fs
	}
	s := Sum{FirstOver: -1}
	for _, m := range p.Persons {
		s.add(PlanLine{Name: m.Name, Person: true, Mass: m.Mass()}, p.Rated)
	}
	for _, it := range p.Items {
		s.add(PlanLine{Name: it.Name, Mass: it.Mass.Kilograms() * record.Kilogram(max(it.Count, 1))}, p.Rated)
	}
	s.Left = p.Rated - s.Total
	s.LeftPercent = 100 * float64(s.Left/p.Rated)
	if p.Allowed > 0 {
		s.Surplus = max(len(p.Persons)-p.Allowed, 0)
	}
	s.Words = s.words(p)
	return s, nil
}

// Mass returns the mass of a person with what is worn.
func (m Person) Mass() record.Kilogram {
	return m.Body.Kilograms() + m.Clothing.Kilograms() + m.Harness.Kilograms()
}

// grain is what is lost by adding up pounds, in kg: rounding, not load.
const grain = 1e-6

// add appends a line.
func (s *Sum) add(l PlanLine, rated record.Kilogram) {
	s.Total += l.Mass
	l.Sum = s.Total
	l.Alone = l.Mass > rated+grain
	if l.Over = l.Sum > rated+grain; l.Over && s.FirstOver < 0 {
		s.FirstOver = len(s.Lines)
	}
	s.Lines = append(s.Lines, l)
}

func (p Plan) check() []record.Finding {
	var out []record.Finding
	add := func(f *record.Finding) {
		if f != nil {
			out = append(out, *f)
		}
	}
	add(assume.RatedLoads.Check(float64(p.Rated), "machine/rated_load_kg"))
	add(assume.PersonCount.Check(float64(len(p.Persons)), "plan/persons"))
	if p.Allowed != 0 {
		add(assume.PersonCount.Check(float64(p.Allowed), "machine/persons"))
	}
	for i, m := range p.Persons {
		at := record.Path("plan/persons").At(i + 1)
		add(assume.PersonLoad.Check(float64(m.Body.Kilograms()), at.At("body")))
		add(worn.Check(float64(m.Clothing.Kilograms()), at.At("clothing")))
		add(worn.Check(float64(m.Harness.Kilograms()), at.At("harness")))
	}
	for i, it := range p.Items {
		at := record.Path("plan/items").At(i + 1)
		add(assume.ItemLoad.Check(float64(it.Mass.Kilograms()), at.At("mass")))
		add(itemCount.Check(float64(it.Count), at.At("count")))
	}
	return out
}

var (
	worn      = assume.Limits("mass of what is worn", "kg", 0, 50, "check the mass and its unit")
	itemCount = assume.Limits("number of items", "", 0, 10_000, "enter how many there are")
)

// words says what is left. What is left is rounded down, what is over up, so
// that the words never promise more than there is.
func (s Sum) words(p Plan) string {
	kg := func(x float64) string { return strconv.FormatFloat(x, 'f', 0, 64) + " kg" }
	var text string
	switch left := float64(s.Left); {
	case left < -grain:
		text = kg(math.Ceil(-left-grain)) + " over the rated load: nothing left, take off at least as much"
	case left < 1-grain:
		text = "nothing left: the plan reaches the rated load"
	default:
		text = kg(math.Floor(left+grain)) + " left, " + strconv.FormatFloat(math.Floor(s.LeftPercent+grain), 'f', 0, 64) + " % of the rated load"
	}
	if s.Surplus > 0 {
		text += "; the plate allows " + persons(p.Allowed) + ", the plan has " + strconv.Itoa(len(p.Persons))
	}
	return text
}
