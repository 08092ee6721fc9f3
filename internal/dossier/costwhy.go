package dossier

import (
	"fmt"
	"strings"
	"time"

	"ratchetmark/internal/assume"
	"ratchetmark/internal/fatigue"
)

// spreadPart tells which assumption the width of the exposure comes from.
func spreadPart(d *Dossier) CostPart {
	e := d.Exposure
	if e == nil || len(e.Spread) == 0 || e.Relative.Estimate == nil {
		return CostPart{}
	}
	p := CostPart{ID: "spread", Title: "Where the width comes from", Unit: "%"}
	widest := e.Spread[0]
	for _, s := range e.Spread {
		p.Ranges = append(p.Ranges, percentRange(s.Name, sure(s.Low, *e.Relative.Estimate, s.High)))
		if s.High-s.Low > widest.High-widest.Low {
			widest = s
		}
	}
	p.Answer = fmt.Sprintf("Most of it from %s: alone it moves the estimate between %s and %s.", widest.Name, Percent(widest.Low), Percent(widest.High))
	p.Lines = []string{"Each row moves one thing alone and leaves the others at their usual values; the mark is the estimate."}
	return p
}

// basisWords says what load cycles are counted by.
var basisWords = map[fatigue.Basis]string{
	fatigue.ByHours:  "an assumed rate for each counted hour",
	fatigue.ByMoving: "an assumed rate for each hour it moved",
	fatigue.ByCount:  "a count that the machine keeps",
}

func cyclesPart(d *Dossier) CostPart {
	e := d.Exposure
	if e == nil || len(e.Counted) == 0 {
		return CostPart{}
	}
	p := CostPart{ID: "cycles", Title: "From hours to load cycles", Unit: "%"}
	for _, c := range e.Counted {
		r := percentRange("by "+basisWords[c.Basis], c.Relative)
		r.Figures = CountBounds(c.LoadCycles) + " load cycles"
		p.Ranges = append(p.Ranges, r)
	}
	p.Answer = "By " + basisWords[e.Basis] + "."
	if len(e.Counted) > 1 {
		p.Answer = "By " + basisWords[e.Basis] + "; " + agree(e.Counted) + "."
	}
	p.Lines = append(p.Lines, "A load cycle is one raising and lowering. Hours at a standstill made none; a strap that held made one.")
	return p
}

// agree says whether the ways to count allow the same number of load cycles.
func agree(counted []Counted) string {
	low, high := 0., -1.
	for _, c := range counted {
		if c.LoadCycles.High == nil {
			return "the other ways are beside it"
		}
		low = max(low, c.LoadCycles.Low)
		if high < 0 || *c.LoadCycles.High < high {
			high = *c.LoadCycles.High
		}
	}
	if low > high {
		return "the other ways to count do not agree with it, and one of the rates is wrong"
	}
	if Count(low) == Count(high) {
		return "the other ways to count allow as many"
	}
	return "all ways to count agree on " + Count(low) + " to " + Count(high) + " load cycles"
}

func stretchesPart(d *Dossier) CostPart {
	e := d.Exposure
	if e == nil || len(e.Stretches) < 2 {
		return CostPart{}
	}
	p := CostPart{ID: "stretches", Title: "Interval by interval, hire by hire, year by year"}
	p.Table = &CostTable{Caption: "Exposure in percent of the design cycle budget", Head: []string{"Stretch", "At least", "About", "At most"}}
	var most *fatigue.Stretch
	for i := range e.Stretches {
		s := &e.Stretches[i]
		p.Table.Rows = append(p.Table.Rows, append([]string{stretchTitle(s)}, boundsCells(s.Relative.Low, s.Relative.Estimate, s.Relative.High)...))
		if s.Relative.Estimate != nil && s.Kind != "interval" && (most == nil || s.Kind == most.Kind && *s.Relative.Estimate > *most.Relative.Estimate) {
			most = s
		}
	}
	p.Answer = fmt.Sprintf("%d stretches; the hours of an interval are known, when within it they were is not.", len(e.Stretches))
	if most != nil {
		p.Answer = "Most in the " + most.Kind + " " + stretchName(most) + ": " + PercentBounds(most.Relative) + "."
	}
	p.Lines = []string{"A hire or a year has at least the hours that fit nowhere else, and at most those that fit into it; about: as if the machine worked on hire alone, evenly."}
	return p
}

// stretchTitle names a stretch in a table: its kind where it needs one, and days
// in the short form.
func stretchTitle(s *fatigue.Stretch) string {
	days := ""
	if s.From != nil && s.To != nil {
		days = shortDay(*s.From) + " to " + shortDay(*s.To)
		if shortDay(*s.From) == shortDay(*s.To) {
			days = s.From.UTC().Format("2006-01-02, 15:04") + " to " + s.To.UTC().Format("15:04")
		}
	}
	switch {
	case s.Kind == "hire":
		return "Hire: " + s.Title + ", " + days
	case s.Kind == "year":
		return "Year " + s.Title
	case *s.Interval > 0 && days != "":
		return days
	}
	return s.Title
}

func shortDay(t time.Time) string { return t.UTC().Format("2006-01-02") }

// stretchName names a hire by who had it and from when to when.
func stretchName(s *fatigue.Stretch) string {
	if s.Kind != "hire" || s.From == nil || s.To == nil {
		return s.Title
	}
	return "of " + s.Title + " from " + day(*s.From) + " to " + day(*s.To)
}

// notKnown stands in a table where there is no figure.
const notKnown = "not known"

func boundsCells(low float64, estimate, high *float64) []string {
	percent := func(x float64) string { return strings.Replace(Percent(x), "under ", "<", 1) }
	cells := []string{percent(low)}
	for _, x := range []*float64{estimate, high} {
		if x == nil {
			cells = append(cells, notKnown)
			continue
		}
		cells = append(cells, percent(*x))
	}
	return cells
}

func classesPart(d *Dossier) CostPart {
	e := d.Exposure
	if e == nil {
		return CostPart{}
	}
	c := e.Classes
	p := CostPart{ID: "classes", Title: "Classes and equivalents"}
	p.Answer = "Load spectrum class " + e.Class + "; class of use " + c.Use + " so far."
	p.Lines = []string{
		"Load spectrum factor " + FactorBounds(e.FactorKp) + ", by the rated load.",
		"ISO 4301-1:2016 (restated): " + c.Spectrum2016 + " with " + c.Use + ", group A = U + Qp - 3: " + c.Group2016 + ".",
		"ISO 4301-1:1986 (restated): " + c.Spectrum1986 + " with " + c.Use + ", group " + c.Group1986 + ".",
		"Full-load-equivalent hours " + boundsText(e.FullLoadHours, H) + ", class " + c.Hours + " (ISO 4301-1:2016, annex B, restated; made for mechanisms).",
		"Damage-equivalent load, as if every load cycle had carried it: " + KgBounds(e.EquivalentLoad) + ", with slope " + Plain(d.assumed(assume.Slope)) + ".",
		dutyLine(e.DutyRecord),
	}
	return p
}

func dutyLine(duty Duty) string {
	row := fatigue.DutyRecordOf(duty.ID)
	text := fmt.Sprintf("Duty record: %s; factor f1 = %s", row.Words, Plain(row.F1))
	if row.F1 != 1 {
		text += ", with it " + PercentBounds(duty.Relative) + " of the design cycle budget"
	}
	return text + " (ISO 12482:2014, table 1, as an open-access paper gives it; mobile machines are outside its scope, the method is adapted)."
}

// assumed returns an assumption in use.
func (d *Dossier) assumed(id assume.ID) float64 { return d.assumption(id).Value }

func (d *Dossier) assumption(id assume.ID) assume.Assumption {
	for _, a := range d.Assumptions {
		if a.ID == id {
			return a
		}
	}
	return assume.Assumption{}
}
