package intake

import "ratchetmark/internal/record"

// How many entries of each kind a case may have beside its record: more than
// fit a plate or a platform.
const (
	maxZones  = 32
	maxInPlan = 100
	maxLoads  = 32
)

func (r *caseReader) zone(n node, at record.Path) (out record.Zone) {
	r.object(n, at, members{
		"name":          func(n node, at record.Path) { out.Name = r.text(n, at) },
		"rated_load_kg": func(n node, at record.Path) { out.RatedLoad = number[record.Kilogram](r, n, at) },
		"persons":       func(n node, at record.Path) { out.Persons = r.whole(n, at) },
	})
	return out
}

func (r *caseReader) plan(n node, at record.Path) *record.Plan {
	if isNull(n) {
		return nil
	}
	var out record.Plan
	r.object(n, at, members{
		"persons": func(n node, at record.Path) { out.Persons = list(r, n, at, maxInPlan, r.planPerson) },
		"items":   func(n node, at record.Path) { out.Items = list(r, n, at, maxInPlan, r.planItem) },
	})
	return &out
}

func (r *caseReader) planPerson(n node, at record.Path) (out record.PlanPerson) {
	r.object(n, at, members{
		"name":     func(n node, at record.Path) { out.Name = r.text(n, at) },
		"body":     func(n node, at record.Path) { out.Body = orZero(number[float64](r, n, at)) },
		"clothing": func(n node, at record.Path) { out.Clothing = orZero(number[float64](r, n, at)) },
		"harness":  func(n node, at record.Path) { out.Harness = orZero(number[float64](r, n, at)) },
		"unit":     func(n node, at record.Path) { out.Unit = r.text(n, at) },
	})
	return out
}

func (r *caseReader) planItem(n node, at record.Path) (out record.PlanItem) {
	r.object(n, at, members{
		"name":  func(n node, at record.Path) { out.Name = r.text(n, at) },
		"mass":  func(n node, at record.Path) { out.Mass = orZero(number[float64](r, n, at)) },
		"count": func(n node, at record.Path) { out.Count = orZero(r.whole(n, at)) },
		"unit":  func(n node, at record.Path) { out.Unit = r.text(n, at) },
	})
	return out
}

func (r *caseReader) crew(n node, at record.Path) *record.Crew {
	if isNull(n) {
		return nil
	}
	var out record.Crew
	r.object(n, at, members{
		"population": func(n node, at record.Path) { out.Population = r.text(n, at) },
		"persons":    func(n node, at record.Path) { out.Persons = r.whole(n, at) },
		"worn_kg":    func(n node, at record.Path) { out.Worn = number[float64](r, n, at) },
		"tools_kg":   func(n node, at record.Path) { out.Tools = number[float64](r, n, at) },
	})
	return &out
}

// loads reads a list of loads; what is none is left out.
func (r *caseReader) loads(n node, at record.Path) (out []record.Kilogram) {
	for _, x := range list(r, n, at, maxLoads, func(n node, at record.Path) *record.Kilogram { return number[record.Kilogram](r, n, at) }) {
		if x != nil {
			out = append(out, *x)
		}
	}
	return out
}

// truth reads yes or no; null is no.
func (r *caseReader) truth(n node, at record.Path) bool {
	yes, ok := n.value.(bool)
	if !ok && !isNull(n) {
		r.wrong(n, at, "true or false")
	}
	return yes
}

// morePaths lists what the rules are held against, where it is stated.
func morePaths(c *record.Case) (out []record.Path) {
	m := record.Path("machine")
	if c.Machine.Region != "" {
		out = append(out, m.At("region"))
	}
	if c.Machine.Edition != "" {
		out = append(out, m.At("edition"))
	}
	for i := range c.Machine.Zones {
		out = append(out, m.At("zones").At(i+1))
	}
	for _, part := range []struct {
		name string
		is   bool
	}{{"plan", c.Plan != nil}, {"crew", c.Crew != nil}, {"thresholds_kg", c.Thresholds != nil}} {
		if part.is {
			out = append(out, record.Path(part.name))
		}
	}
	return out
}
