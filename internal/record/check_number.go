package record

// Limits beyond which a value is a slip of reading or typing. They are set far
// outside what machines show; common practice, no source.
const (
	maxLoad  Kilogram = 100_000
	maxHours Hour     = 200_000 // more than 22 years without a break
	maxMass  Kilogram = 200_000 // of the machine itself
)

var numberRules = []Rule{
	{
		ID: "value-not-a-number", Severity: Blocking,
		Asks:   "is every value an ordinary number",
		Effect: "the value cannot be used; what rests on it is withheld",
		Hint:   "read the value off the machine again",
		find: func(c *Case, hit func(Path, string, string)) {
			eachValue(c, func(at place, v, _ float64) {
				if !Finite(v) {
					hit(at.path(), "the value is not a finite number", "an ordinary number")
				}
			})
		},
	},
	{
		ID: "value-negative", Severity: Blocking,
		Asks:   "is no hour, load or mass below zero",
		Effect: "the value cannot be used; what rests on it is withheld",
		Hint:   "read the value off the machine again; a load shown below zero means the cell's zero needs a check",
		find: func(c *Case, hit func(Path, string, string)) {
			eachValue(c, func(at place, v, _ float64) {
				if Finite(v) && v < 0 {
					hit(at.path(), "the value is "+Number(v), "0 or more")
				}
			})
		},
	},
	{
		ID: "value-beyond-range", Severity: Blocking,
		Asks:   "is every value within what a machine can show",
		Effect: "the value cannot be used; what rests on it is withheld",
		Hint:   "look for a lost decimal mark or a different unit",
		find: func(c *Case, hit func(Path, string, string)) {
			eachValue(c, func(at place, v, most float64) {
				if Finite(v) && v > most {
					hit(at.path(), "the value is "+Number(v), "at most "+Number(most))
				}
			})
		},
	},
}

// place is where a value stands, cheap to carry until its path is asked for.
type place struct {
	list   string
	i, j   int // of the entry and of its band; -1 for none
	member string
}

func (p place) path() Path {
	at := Path(p.list)
	if p.i >= 0 {
		at = at.At(p.i + 1)
	}
	if p.j >= 0 {
		at = at.At("bands").At(p.j + 1)
	}
	return at.At(p.member)
}

// eachValue visits every load, mass and hour of the case with the most it may
// be, those of readings in which every value is within its range left out.
func eachValue(c *Case, visit func(at place, v, most float64)) {
	load := func(at place, v *Kilogram, most Kilogram) {
		if v != nil {
			visit(at, float64(*v), float64(most))
		}
	}
	hour := func(at place, v *Hour, most Hour) {
		if v != nil {
			visit(at, float64(*v), float64(most))
		}
	}
	load(place{"machine", -1, -1, "rated_load_kg"}, c.Machine.RatedLoad, maxLoad)
	load(place{"machine", -1, -1, "load_sensing_kg"}, c.Machine.LoadSensing, maxLoad)
	load(place{"machine", -1, -1, "mass_kg"}, c.Machine.Mass, maxMass)
	for i := range c.Readings {
		r := &c.Readings[i]
		if inRange(r) {
			continue
		}
		hour(place{"readings", i, -1, "powered_h"}, r.Powered, maxHours)
		hour(place{"readings", i, -1, "moving_h"}, r.Moving, maxHours)
		load(place{"readings", i, -1, "peak_kg"}, r.Peak, maxLoad)
		for j := range r.Bands {
			b := &r.Bands[j]
			load(place{"readings", i, j, "from_kg"}, &b.From, maxLoad)
			load(place{"readings", i, j, "to_kg"}, b.To, maxLoad)
			hour(place{"readings", i, j, "hours"}, &b.Hours, maxHours)
		}
	}
	for i := range c.Events {
		load(place{"events", i, -1, "load_kg"}, c.Events[i].Load, maxLoad)
	}
	for i := range c.Daily {
		hour(place{"daily", i, -1, "powered_h"}, c.Daily[i].Powered, maxHours)
		hour(place{"daily", i, -1, "moving_h"}, c.Daily[i].Moving, maxHours)
	}
}

// inRange reports whether every value of a reading is one a machine can show.
func inRange(r *Reading) bool {
	for j := range r.Bands {
		b := &r.Bands[j]
		if !(b.From >= 0 && b.From <= maxLoad && b.Hours >= 0 && b.Hours <= maxHours) || b.To != nil && !(*b.To >= 0 && *b.To <= maxLoad) {
			return false
		}
	}
	return within(r.Powered, maxHours) && within(r.Moving, maxHours) && within(r.Peak, maxLoad)
}

func within[T ~float64](v *T, most T) bool { return v == nil || *v >= 0 && *v <= most }

func readingPath(i int) Path { return Path("readings").At(i + 1) }

func bandPath(i, j int) Path { return readingPath(i).At("bands").At(j + 1) }
