package dossier

import (
	"ratchetmark/internal/record"
)

// CostPart is a part of the reasoning about what use has cost the structure, in
// the form in which the sheet and the terminal show it.
type CostPart struct {
	ID, Title, Answer string
	Unit              string // of the ranges
	Ranges            []CostRange
	Table             *CostTable
	Lines             []string
}

// CostRange is a figure with its bounds, in the unit of its part.
type CostRange struct {
	Words, Figures string
	Bounds         record.Bounds
}

// CostTable is a table of words.
type CostTable struct {
	Caption string
	Head    []string
	Rows    [][]string
}

// costParts lists what makes the parts, in the order in which they are shown.
// One that has nothing to say gives a part without a title.
var costParts = []func(d *Dossier) CostPart{
	claimPart, staticPart, spreadPart, cyclesPart, stretchesPart, classesPart, detailPart, roadPart, forecastPart,
}

// CostParts returns the reasoning behind the answer, part by part.
func CostParts(d *Dossier) []CostPart {
	var out []CostPart
	for _, part := range costParts {
		if p := part(d); p.Title != "" {
			out = append(out, p)
		}
	}
	return out
}

// Main returns the exposure against both budgets and under both slopes.
func Main(d *Dossier) CostPart {
	p := CostPart{ID: "main", Title: "Exposure", Answer: d.Answers.Cost, Unit: "%"}
	for _, a := range d.Exposure.Against {
		words := a.Duty + " duty, " + Count(a.Cycles) + " load cycles, slope " + Plain(a.Slope)
		p.Ranges = append(p.Ranges, percentRange(words, a.Relative))
	}
	return p
}

// percentRange makes a range in percent of a share.
func percentRange(words string, b record.Bounds) CostRange {
	return CostRange{words, PercentBounds(b), b.Scale(100, 100, 100)}
}

// sure turns two figures with an estimate between them into bounds.
func sure(low, estimate, high float64) record.Bounds {
	return record.Bounds{Low: low, Estimate: &estimate, High: &high}
}
