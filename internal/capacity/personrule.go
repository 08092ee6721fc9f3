package capacity

import (
	"math"
	"strconv"

	"ratchetmark/internal/assume"
	"ratchetmark/internal/record"
)

// PersonRule is the rule by which a rated load covers persons with tools and
// materials; masses in kg. Under most editions First and Further are the same.
type PersonRule struct {
	First, Further, Tools float64
}

// base is what the rule asks for over n further persons.
func (p PersonRule) base() float64 { return p.First - p.Further + p.Tools }

// check refuses a rule that gives no sensible figure.
func (p PersonRule) check() *record.Finding {
	at := record.Path("rules")
	return assume.First(
		rangeOf(FirstPerson).Check(p.First, at.At(string(FirstPerson))),
		rangeOf(FurtherPerson).Check(p.Further, at.At(string(FurtherPerson))),
		rangeOf(Tools).Check(p.Tools, at.At(string(Tools))),
	)
}

// Smallest returns the smallest rated load in kg for n persons.
//
// EN 280-1:2022, 4.2: m = n·mp + me (from memory); decree 47-1592, art. 26a:
// one mass for the first person, another for each further one (read).
func (p PersonRule) Smallest(n int) (record.Kilogram, *record.Finding) {
	if f := assume.First(p.check(), assume.PersonCount.Check(float64(n), "machine/persons")); f != nil {
		return 0, f
	}
	return SmallestRatedLoad(n, p.Further, p.base()), nil
}

// Within returns how many persons a load covers; 0 when not even one.
func (p PersonRule) Within(load record.Kilogram) (int, *record.Finding) {
	if f := assume.First(p.check(), assume.AnyLoad.Check(float64(load), "load_kg")); f != nil {
		return 0, f
	}
	if float64(load) < p.First+p.Tools {
		return 0, nil
	}
	return PersonsWithin(load, p.Further, p.base()), nil
}

// Worth is a load as persons and what is left over.
type Worth struct {
	Load    record.Kilogram `json:"load_kg"`
	Persons int             `json:"persons"` // whole persons
	Rest    float64         `json:"rest_kg"` // kg beside them, less than a person
	Equal   float64         `json:"-"`       // the load in persons, with its fraction
}

// WorthOf returns how many persons of a mass in kg a load is worth, and the kg
// left over. It says nothing of who or what was on the platform.
func WorthOf(load record.Kilogram, person float64) (Worth, *record.Finding) {
	if f := assume.First(assume.AnyLoad.Check(float64(load), "load_kg"), assume.PersonLoad.Check(person, "person_kg")); f != nil {
		return Worth{}, f
	}
	equal := float64(load) / person
	n := math.Floor(equal + 1e-9) // so that 3 x 79.378664725 kg are 3 persons
	return Worth{load, int(n), max(float64(load)-n*person, 0), equal}, nil
}

// Words writes the worth of a load as "2 persons + 40 kg".
func (w Worth) Words() string {
	rest := strconv.FormatFloat(math.Round(w.Rest), 'f', 0, 64) + " kg"
	switch {
	case w.Persons == 0:
		return rest
	case math.Round(w.Rest) == 0:
		return persons(w.Persons)
	}
	return persons(w.Persons) + " + " + rest
}

// Mark is a load with words, for the load ruler.
type Mark struct {
	At    record.Kilogram `json:"load_kg"`
	Words string          `json:"words"`
}

// Marks returns the smallest rated loads for 1, 2, 3 … persons up to a load,
// as marks "2 persons + 40 kg"; at most as many as persons fit a platform.
func (p PersonRule) Marks(upTo record.Kilogram) ([]Mark, *record.Finding) {
	if f := assume.First(p.check(), assume.AnyLoad.Check(float64(upTo), "load_kg")); f != nil {
		return nil, f
	}
	var out []Mark
	for n := 1; n <= int(assume.PersonCount.Most); n++ {
		at, _ := p.Smallest(n) // both were checked
		if at > upTo {
			break
		}
		out = append(out, Mark{at, p.words(n)})
	}
	return out, nil
}

// words writes what the rule asks for: "2 persons + 40 kg".
func (p PersonRule) words(n int) string {
	if p.First != p.Further || p.Tools == 0 {
		return persons(n)
	}
	return persons(n) + " + " + strconv.FormatFloat(math.Round(p.Tools), 'f', 0, 64) + " kg"
}

// EdgeWorths returns what each band edge is worth, in order of load, each edge once.
func EdgeWorths(bands []record.Band, person float64) ([]Worth, *record.Finding) {
	var out []Worth
	seen := map[record.Kilogram]bool{}
	for _, b := range record.Sorted(record.Countable(bands)) {
		edges := []record.Kilogram{b.From}
		if !b.Open() {
			edges = append(edges, *b.To)
		}
		for _, e := range edges {
			if seen[e] {
				continue
			}
			seen[e] = true
			w, f := WorthOf(e, person)
			if f != nil {
				return nil, f
			}
			out = append(out, w)
		}
	}
	return out, nil
}
