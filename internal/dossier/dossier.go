// Package dossier brings together what the other packages conclude about one
// machine: data first, printers second. The browser app and the command show
// the same [Dossier], so their figures are the same.
package dossier

import (
	"ratchetmark/internal/assume"
	"ratchetmark/internal/capacity"
	"ratchetmark/internal/cause"
	"ratchetmark/internal/fatigue"
	"ratchetmark/internal/record"
)

// Method names the version of the computation a dossier was made by.
const Method = "ratchetmark 0.2.0"

// Input is a file that a dossier rests on.
type Input struct {
	Name   string `json:"name"`
	SHA256 string `json:"sha256"`
	Bytes  int64  `json:"bytes"`
}

// Dossier is the whole result for one machine.
type Dossier struct {
	Method      string              `json:"method"`
	Inputs      []Input             `json:"inputs"`
	Machine     record.Machine      `json:"machine"`
	Note        string              `json:"note,omitempty"`  // the case's own note
	Noted       []string            `json:"noted,omitempty"` // checks of the load shown and tie-downs, in sentences
	Answers     Answers             `json:"answers"`
	Findings    []record.Finding    `json:"findings"`
	Capacity    *Capacity           `json:"capacity"` // nil without a rated load
	Exceedances []Exceedance        `json:"exceedances"`
	Told        []Told              `json:"told"`          // the exceedances, those together of which the same came
	Settle      []Settle            `json:"settle"`        // what to ask for, best first
	Exposure    *Exposure           `json:"exposure"`      // nil without a rated load or hours
	Static      *fatigue.Static     `json:"static_demand"` // nil without a peak over the rated load
	Transport   *Transport          `json:"transport"`
	Assumptions []assume.Assumption `json:"assumptions"`
	Cautions    []string            `json:"cautions"`

	History record.History `json:"-"`
}

// Assess makes the dossier of a case. The findings of reading the case come
// first, those of checking it after.
func Assess(c *record.Case, inputs []Input, reading []record.Finding, origins record.Origins) Dossier {
	return assess(c, inputs, reading, origins, nil)
}

func assess(c *record.Case, inputs []Input, reading []record.Finding, origins record.Origins, others cause.Habits) Dossier {
	set, refused := capacity.Assumptions(c)
	findings := append([]record.Finding{}, reading...)
	findings = append(findings, record.Check(c)...)
	findings = append(findings, capacity.CheckPlate(c, set)...)
	findings = append(findings, capacity.CheckConditions(c, set)...)
	findings = append(findings, refused...)
	findings = append(findings, structureFindings(c.Structure)...)
	origins.Place(findings)

	d := Dossier{
		Method: Method, Inputs: inputs, Machine: c.Machine, Note: c.Note, Noted: noted(c),
		Findings: findings, Exceedances: []Exceedance{}, Told: []Told{}, Settle: []Settle{}, Assumptions: set.Rows(),
		History: record.Lay(c),
	}
	if d.Inputs == nil {
		d.Inputs = []Input{}
	}
	d.refuseSmall()
	if d.History.Rated > 0 && len(c.Readings) > 0 {
		d.conclude(set, others)
		origins.Place(d.Findings)
	}
	d.openBounds()
	d.Transport = transport(&d, c)
	d.Cautions = cautions(&d)
	d.Answers = answers(&d)
	return d
}

// conclude fills in what needs a rated load.
func (d *Dossier) conclude(set assume.Set, others cause.Habits) {
	d.carryAll(set)
	for _, o := range cause.Weigh(d.History, set, others) {
		d.Exceedances = append(d.Exceedances, exceedance(o, d.History.Rated))
	}
	if len(d.Exceedances) > 0 {
		d.besides()
		d.Told, d.Settle = d.tell(), d.settle()
		d.Capacity.after()
	}
	d.Exposure, d.Static = d.expose(set), d.static()
	d.Findings = append(d.Findings, basisFinding(d.structure(), d.Exposure)...)
}

// openBounds takes the upper bounds away where hours are missing from the
// record: what is left is what there was at least.
func (d *Dossier) openBounds() {
	if d.Capacity == nil || d.Capacity.Counted > 0 && incomplete(d) == "" {
		return
	}
	for i := range d.Capacity.HoursOver {
		o := &d.Capacity.HoursOver[i]
		o.Unbounded, o.Estimate, o.Smooth = true, nil, nil
	}
	d.Capacity.open()
}

// Blocked reports whether a finding withholds a conclusion.
func (d *Dossier) Blocked() bool { return record.Blocks(d.Findings) }
