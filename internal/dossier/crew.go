package dossier

import (
	"slices"
	"sync"

	"ratchetmark/internal/assume"
	"ratchetmark/internal/bodymass"
	"ratchetmark/internal/capacity"
	"ratchetmark/internal/record"
)

// Crew is how probable it is that people drawn from a population are over the
// rated load with what they wear and have with them.
type Crew struct {
	Population string        `json:"population"`
	People     string        `json:"people"` // the population in words
	Mean       float64       `json:"mean_kg"`
	Source     assume.Source `json:"source"`
	Persons    int           `json:"persons"`
	Worn       float64       `json:"worn_kg"` // by each of them
	Tools      float64       `json:"tools_kg"`
	Over       []Chance      `json:"over"`
}

// Chance is the probability that a crew is over a load.
type Chance struct {
	Percent float64         `json:"pct"`
	Load    record.Kilogram `json:"load_kg"`
	Chance  float64         `json:"chance"`
	Error   float64         `json:"error"` // of the computation, for these people
}

// usualPopulation is taken where a case names none.
var usualPopulation = bodymass.Populations[0]

// UsualWorn is what each person of a crew wears where a case does not say, in
// kg: usual work clothing, without a source.
var UsualWorn = capacity.Allowances[0].Usual

// crewOf returns the crew of a case: what it says, else the persons of the
// plate, or as many as the rated load covers, with the tools of the rule.
func (k *Capacity) crewOf(c *record.Case, set assume.Set) Crew {
	own := c.Crew
	if own == nil {
		own = &record.Crew{}
	}
	out := Crew{Population: own.Population, Persons: max(k.PersonsWithin, 1), Worn: UsualWorn, Tools: set.Value(assume.ToolsMass)}
	if k.Persons != nil {
		out.Persons = *k.Persons
	}
	if out.Population == "" {
		out.Population = usualPopulation.ID
	}
	if own.Persons != nil {
		out.Persons = *own.Persons
	}
	if own.Worn != nil {
		out.Worn = *own.Worn
	}
	if own.Tools != nil {
		out.Tools = *own.Tools
	}
	return out
}

// crew works out the chances of a crew, and what persons of its mean leave for tools.
func (k *Capacity) crew(c *record.Case, set assume.Set) {
	crew := k.crewOf(c, set)
	k.drawn = crew
	i := slices.IndexFunc(bodymass.Populations, func(p bodymass.Population) bool { return p.ID == crew.Population })
	if i < 0 {
		k.left(set, nil)
		at := record.Path("crew/population")
		k.ask(record.Finding{
			Code: "population-unknown", Path: at, Where: at.Words(), Message: "the group of people " + crew.Population + " is not known here",
			Expected: "one of those on the sheet", Effect: "no chance is worked out", Hint: "choose one on the sheet",
		})
		return
	}
	p := bodymass.Populations[i]
	crew.People, crew.Mean, crew.Source = p.Name, p.Mean, p.Source
	real := p.Mean + crew.Worn
	k.left(set, &real)
	over, f := chances(chanceKey{crew.Population, crew.Persons, crew.Worn, crew.Tools, k.Rated})
	if f != nil {
		if f.Path == "crew/group/1" { // there is but one group
			f.Path = "crew/persons"
			f.Where = f.Path.Words()
		}
		if f.Path != "machine/rated_load_kg" { // that is said of the machine
			k.ask(*f)
		}
		return
	}
	crew.Over = over
	k.Crew = &crew
}

// left works out what persons leave for tools; nothing of a rated load that
// makes no sense.
func (k *Capacity) left(set assume.Set, real *float64) {
	most := max(k.PersonsWithin, 1)
	if k.Persons != nil {
		most = *k.Persons
	}
	rule := capacity.RuleOf(set)
	mass := rule.Further
	if real != nil {
		mass = *real
	}
	all, _ := capacity.LeftForTools(k.Rated, min(most, int(assume.PersonCount.Most)), rule, mass)
	for _, l := range all {
		row := Left{Persons: l.Persons, Assumed: l.Assumed}
		if real != nil {
			row.Real = record.Of(l.Real)
		}
		k.Left = append(k.Left, row)
	}
}

// chanceKey is what a chance depends on.
type chanceKey struct {
	population  string
	persons     int
	worn, tools float64
	rated       record.Kilogram
}

// worked holds chances that were worked out before: that of three people takes
// as long as all the rest of an assessment, and a stream of cases asks for the
// same ones.
var worked = struct {
	sync.Mutex
	chances map[chanceKey][]Chance
}{chances: map[chanceKey][]Chance{}}

// mostWorked is how many chances are held at once.
const mostWorked = 512

// chances returns the probabilities that a crew is over the rated load and over
// 120 % of it.
func chances(key chanceKey) ([]Chance, *record.Finding) {
	worked.Lock()
	defer worked.Unlock()
	if got, ok := worked.chances[key]; ok {
		return got, nil
	}
	i := slices.IndexFunc(bodymass.Populations, func(p bodymass.Population) bool { return p.ID == key.population })
	who, f := bodymass.Of(bodymass.Populations[i])
	if f != nil {
		return nil, f
	}
	crew := bodymass.Crew{Groups: []bodymass.Group{{Who: who, People: key.persons}}, Worn: key.worn, Tools: key.tools}
	all, f := crew.Overloads(key.rated, 100, 120)
	if f != nil {
		return nil, f
	}
	var out []Chance
	for _, o := range all {
		out = append(out, Chance{o.Percent, o.Load, tidy(o.Chance.Value), tidy(o.Chance.Error)})
	}
	if len(worked.chances) >= mostWorked {
		clear(worked.chances)
	}
	worked.chances[key] = out
	return out, nil
}
