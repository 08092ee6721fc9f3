package batch

import (
	"fmt"
	"maps"
	"reflect"
	"slices"
	"strings"

	"ratchetmark/internal/record"
)

// Source names a file that a case was read from.
type Source struct {
	Name   string
	SHA256 string
	Bytes  int64
}

// Grouped is all that the files say about one machine.
type Grouped struct {
	Record
	Sources []Source
}

// Group brings together the records of one machine from different files.
// Records within one file stay apart: a stream holds one case a line.
func Group(batches []Batch) []Grouped { return Join(nil, batches) }

// Join adds what further files say to groups that stand already.
func Join(groups []Grouped, batches []Batch) []Grouped {
	for _, b := range batches {
		source := Source{b.Name, b.SHA256, b.Bytes}
		own := len(groups) // groups from here on are of this file
		var joined []int
		for _, r := range b.Records {
			i := sameMachine(groups[:own], joined, r)
			if i < 0 {
				groups = append(groups, Grouped{Record: r.apart(), Sources: []Source{source}})
				continue
			}
			groups[i].join(r, source)
			joined = append(joined, i)
		}
	}
	return groups
}

// apart returns a record that can be added to without changing r.
func (r Record) apart() Record {
	c := &r.Case
	c.Readings, c.Custody = slices.Clip(c.Readings), slices.Clip(c.Custody)
	c.Events, c.Daily = slices.Clip(c.Events), slices.Clip(c.Daily)
	c.Checks, c.TieDowns = slices.Clip(c.Checks), slices.Clip(c.TieDowns)
	r.Findings = slices.Clip(r.Findings)
	r.Origins = maps.Clone(r.Origins)
	if r.Origins == nil {
		r.Origins = record.Origins{}
	}
	return r
}

// sameMachine finds the group of an earlier file that a record belongs to, one
// that has not taken a record of this file yet; -1 without one.
func sameMachine(groups []Grouped, joined []int, r Record) int {
	id := FoldID(r.Case.Machine.ID)
	for i := range groups {
		if id != "" && !slices.Contains(joined, i) && FoldID(groups[i].Case.Machine.ID) == id {
			return i
		}
	}
	return -1
}

// FoldID makes names of machines that differ only in case or blanks alike.
func FoldID(id string) string { return strings.ToLower(strings.Join(strings.Fields(id), " ")) }

// join adds a record from another file.
func (g *Grouped) join(r Record, source Source) {
	g.Sources = append(g.Sources, source)
	offset := len(g.Case.Readings)
	for i, reading := range r.Case.Readings {
		if j := twin(g.Case.Readings[:offset], reading); j >= 0 {
			at := record.Path("readings").At(j + 1)
			g.Findings = append(g.Findings, record.Finding{
				Code: "reading-twice", Severity: record.Note, Path: at, Where: at.Words(), File: source.Name,
				Message: "the same reading stands in " + source.Name + " as well", Expected: "each reading once",
				Effect: "none; it is counted once",
			})
			continue
		}
		g.Case.Readings = append(g.Case.Readings, reading)
		g.move("readings", r.Origins, i+1, len(g.Case.Readings))
	}
	g.Findings = append(g.Findings, r.Findings...)
	g.joinMachine(r.Case.Machine, source)
	g.Case.Custody = joined(g.Case.Custody, r.Case.Custody)
	g.Case.Events = joined(g.Case.Events, r.Case.Events)
	g.Case.Daily = joined(g.Case.Daily, r.Case.Daily)
	g.joinTold(r)
	if g.Case.Note == "" {
		g.Case.Note = r.Case.Note
	}
	if g.Case.Assumptions == nil {
		g.Case.Assumptions = r.Case.Assumptions
	}
	if g.Case.Plan == nil && g.Case.Crew == nil && g.Case.Thresholds == nil {
		g.Case.Plan, g.Case.Crew, g.Case.Thresholds = r.Case.Plan, r.Case.Crew, r.Case.Thresholds
	}
	if g.Case.Structure == nil {
		g.Case.Structure = r.Case.Structure
	}
	if g.Case.Transport == nil {
		g.Case.Transport = r.Case.Transport
	}
}

// move takes over the origins of an entry of a list that got another number.
func (g *Grouped) move(list record.Path, from record.Origins, number, to int) {
	old, new := list.At(number), list.At(to)
	for path, at := range from {
		if path == old || strings.HasPrefix(string(path), string(old)+"/") {
			g.Origins[new+path[len(old):]] = at
		}
	}
}

// twin returns the index of an equal reading, -1 without one.
func twin(readings []record.Reading, r record.Reading) int {
	for i := range readings {
		if !r.At.IsZero() && readings[i].At.Equal(r.At) && reflect.DeepEqual(readings[i].Bands, r.Bands) && reflect.DeepEqual(readings[i].Peak, r.Peak) {
			return i
		}
	}
	return -1
}

// joinMachine fills in what the first file did not say; where the files
// differ, the first counts.
func (g *Grouped) joinMachine(m record.Machine, source Source) {
	mine := &g.Case.Machine
	if mine.Kind == "" {
		mine.Kind = m.Kind
	}
	fill(g, "rated_load_kg", &mine.RatedLoad, m.RatedLoad, source)
	fill(g, "persons", &mine.Persons, m.Persons, source)
	fill(g, "load_sensing_kg", &mine.LoadSensing, m.LoadSensing, source)
	fill(g, "mass_kg", &mine.Mass, m.Mass, source)
	if mine.InService == nil {
		mine.InService = m.InService
	}
	if reflect.DeepEqual(mine.Conditions, record.Conditions{}) {
		mine.Conditions = m.Conditions
	}
}

func fill[T comparable](g *Grouped, member string, mine **T, other *T, source Source) {
	switch {
	case other == nil:
	case *mine == nil:
		*mine = other
	case **mine != *other:
		at := record.Path("machine").At(member)
		g.Findings = append(g.Findings, record.Finding{
			Code: "value-differs", Severity: record.Doubt, Path: at, Where: at.Words(), File: source.Name,
			Message:  fmt.Sprintf("%v in %s, %v in %s", **mine, g.Sources[0].Name, *other, source.Name),
			Expected: "one value for the machine", Effect: "the first value is used", Hint: "correct one of the two",
		})
	}
}

// joined appends what is not there yet.
func joined[T any](mine, other []T) []T {
	for _, o := range other {
		twice := false
		for _, m := range mine {
			if reflect.DeepEqual(m, o) {
				twice = true
				break
			}
		}
		if !twice {
			mine = append(mine, o)
		}
	}
	return mine
}
