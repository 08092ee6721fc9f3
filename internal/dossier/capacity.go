package dossier

import (
	"ratchetmark/internal/assume"
	"ratchetmark/internal/capacity"
	"ratchetmark/internal/record"
)

// Capacity is what the machine may carry, how far the record went over it, and
// what was asked beside the record.
type Capacity struct {
	capacity.Result
	Left  []Left `json:"left_for_tools"`
	Crew  *Crew  `json:"crew"`
	Plan  *Plan  `json:"plan,omitempty"`
	After *After `json:"after_overload"` // nil where nothing went over

	// Asked are the findings about plan, crew and loads that were asked about:
	// they touch nothing that is said of the record.
	Asked []record.Finding `json:"asked_findings,omitempty"`

	drawn Crew // as it is asked, whether or not a chance follows
}

// Drawn returns the crew that is asked about, whether or not it makes sense.
func (k *Capacity) Drawn() Crew { return k.drawn }

// Left is what persons leave of the rated load for tools and materials, in kg.
type Left struct {
	Persons int      `json:"persons"`
	Assumed float64  `json:"assumed_kg"` // with persons of the mass that the rule assumes
	Real    *float64 `json:"real_kg"`    // with persons of the mean of the crew's population, and what they wear
}

// Plan is the case's plan, added up.
type Plan struct {
	capacity.Sum
	Zones []ZoneLeft `json:"zones,omitempty"`
}

// ZoneLeft is what a plan leaves of a further rated load, in kg.
type ZoneLeft struct {
	Name string  `json:"name"`
	Left float64 `json:"left_kg"`
}

// After is what is asked for after an overload.
type After struct {
	Region capacity.Region      `json:"region,omitempty"`
	Own    bool                 `json:"own"` // there are rows for this region; else its law has to be asked
	Rows   []capacity.Statement `json:"asked"`
}

// carryAll works out what the machine may carry.
func (d *Dossier) carryAll(set assume.Set) {
	c := d.History.Case
	k := &Capacity{Result: capacity.Assess(d.History, set)}
	k.Asked = k.Ask(d.History, c.Thresholds)
	k.crew(c, set)
	k.plan(c)
	tidyCapacity(k)
	d.Capacity = k
}

// after adds what is asked for after an overload.
func (k *Capacity) after() {
	a := AfterIn(k.Region)
	k.After = &a
}

// AfterIn returns what is asked for after an overload in a region.
func AfterIn(region capacity.Region) After {
	rows, own := capacity.AfterOverload(region)
	return After{region, own, rows}
}

// plan adds up the case's plan.
func (k *Capacity) plan(c *record.Case) {
	if c.Plan == nil {
		return
	}
	p, fs := capacity.PlanOf(c)
	sum, more := p.Add()
	if fs = append(fs, more...); len(fs) == 0 {
		k.Plan = &Plan{Sum: sum}
		k.planZones(c.Machine)
	}
	k.ask(fs...)
}

func (k *Capacity) planZones(m record.Machine) {
	zones := capacity.ZonesOf(m)
	for _, z := range zones[min(1, len(zones)):] {
		k.Plan.Zones = append(k.Plan.Zones, ZoneLeft{z.Name, float64(z.Rated - k.Plan.Total)})
	}
}

// ask keeps findings about what was asked beside the record: nothing of the
// record is withheld for them.
func (k *Capacity) ask(fs ...record.Finding) {
	for _, f := range fs {
		f.Severity = record.Doubt
		k.Asked = append(k.Asked, f)
	}
}

// About returns the findings about a part of what was asked: "plan", "crew" or
// "thresholds_kg".
func (k *Capacity) About(part string) []record.Finding {
	var out []record.Finding
	for _, f := range k.Asked {
		if f.Path == record.Path(part) || len(f.Path) > len(part) && f.Path[:len(part)+1] == record.Path(part)+"/" {
			out = append(out, f)
		}
	}
	return out
}

// open takes the upper bounds away from what hours are missing for.
func (k *Capacity) open() {
	for i := range k.OverLoads {
		k.OverLoads[i].Unbounded = true
	}
	if z := k.Several; z != nil {
		z.High = nil
		for i := range z.Zones {
			z.Zones[i].High, z.Zones[i].Estimate = nil, nil
		}
	}
}
