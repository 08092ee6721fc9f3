package record

import (
	"fmt"
	"slices"
)

var machineRules = []Rule{
	{
		ID: "format-unknown", Severity: Blocking,
		Asks:   "is this a case in a form that is known",
		Effect: "the members may mean something else than they are taken to mean",
		Hint:   "export the case again in the form \"" + Format + "\"",
		find: func(c *Case, hit func(Path, string, string)) {
			if c.Format != Format {
				hit("format", fmt.Sprintf("the format is %q", c.Format), fmt.Sprintf("%q", Format))
			}
		},
	},
	{
		ID: "rated-load-missing", Severity: Blocking,
		Asks:   "is there a rated load to hold the record against",
		Effect: "nothing can be said about loads over the rated load, causes or exposure",
		Hint:   "read the rated load off the machine's plate and enter it",
		find: func(c *Case, hit func(Path, string, string)) {
			if c.Machine.RatedLoad == nil {
				hit("machine/rated_load_kg", "no rated load", "the rated load on the plate, in kg")
			} else if *c.Machine.RatedLoad < leastRated {
				hit("machine/rated_load_kg", "the rated load is "+Number(*c.Machine.RatedLoad)+" kg", "a load of at least "+Number(leastRated)+" kg")
			}
		},
	},
	{
		ID: "persons-out-of-range", Severity: Doubt,
		Asks:   "can the platform carry the stated number of persons",
		Effect: "the rated load is not checked against the persons-plus-tools rule",
		Hint:   "read the number of persons off the plate",
		find: func(c *Case, hit func(Path, string, string)) {
			if p := c.Machine.Persons; p != nil && c.Machine.StatedPersons() == nil {
				hit("machine/persons", fmt.Sprintf("%d persons", *p), fmt.Sprintf("1 to %d", maxPersons))
			}
		},
	},
	{
		ID: "kind-unknown", Severity: Note,
		Asks:   "is the kind of machine one that is told apart",
		Effect: "the assumptions for a machine of any kind are used, with their wide interval",
		Hint:   "choose boom, scissor, mast or other",
		find: func(c *Case, hit func(Path, string, string)) {
			if k := c.Machine.Kind; k != "" && !slices.Contains(Kinds, k) {
				hit("machine/kind", fmt.Sprintf("kind %q", k), "boom, scissor, mast or other")
			}
		},
	},
	{
		ID: "load-sensing-below-rated", Severity: Doubt,
		Asks:   "does the load-sensing system act above the rated load",
		Effect: "the load-sensing mark on the ruler may be wrong; it is used as given",
		Hint:   "compare with the maker's manual",
		find: func(c *Case, hit func(Path, string, string)) {
			s, r := c.Machine.LoadSensing, c.Machine.RatedLoad
			if s != nil && r != nil && *s < *r {
				hit("machine/load_sensing_kg", "load sensing acts at "+Number(*s)+" kg", "at or above the rated load of "+Number(*r)+" kg")
			}
		},
	},
}

// maxPersons is far above what any platform within the scope of the
// persons-plus-tools rule carries; common practice, no source.
const maxPersons = 20

// StatedPersons returns the persons on the plate; nil when not stated or out of range.
func (m Machine) StatedPersons() *int {
	if p := m.Persons; p != nil && *p >= 1 && *p <= maxPersons {
		return p
	}
	return nil
}

// StatedSensing returns the load at which the machine's own load sensing acts;
// nil when not stated or not a load.
func (m Machine) StatedSensing() *Kilogram {
	if s := m.LoadSensing; s != nil && *s > 0 && usable(*s, maxLoad) {
		return s
	}
	return nil
}

// leastRated is the least rated load that is counted with: a load per cent of
// less says nothing. Common practice, no source.
const leastRated Kilogram = 1
