package fatigue

import (
	"math"

	"ratchetmark/internal/assume"
	"ratchetmark/internal/record"
)

// Against is the exposure under one slope against one budget.
type Against struct {
	Duty     string        `json:"duty"` // light or heavy
	Slope    float64       `json:"slope"`
	Cycles   float64       `json:"design_cycles"`
	Relative record.Bounds `json:"relative"`
}

// Compare returns the exposure under the slopes 3 and 5 against the budgets of
// light and of heavy duty. (slopes: EN 1993-1-9:2005, 7.1, restated; budgets:
// EN 280, 5.2.5.3.3, from memory)
func (u *Use) Compare() []Against {
	var out []Against
	for _, duty := range []struct {
		name string
		id   assume.ID
	}{{"light", assume.DesignCycles}, {"heavy", assume.DesignCyclesHeavy}} {
		for _, m := range []float64{3, 5} {
			budget := u.set.Value(duty.id)
			out = append(out, Against{duty.name, m, budget, u.Relative(m, budget)})
		}
	}
	return out
}

// Spread is what one assumption alone does to the exposure, the others at their
// usual values.
type Spread struct {
	ID   string  `json:"id"`
	Name string  `json:"name"`
	Low  float64 `json:"low"`
	High float64 `json:"high"`
}

// Spread tells which assumption the width of the exposure comes from. It is
// empty where nothing bounds the exposure.
func (u *Use) Spread() []Spread {
	if !u.bounded || u.AtLeast {
		return []Spread{}
	}
	m, budget := u.set.Value(assume.Slope), u.set.Value(assume.DesignCycles)
	of := func(sum, rate float64) float64 { return sum * rate / budget }
	s, rate := u.share.Value, u.rate[usual]
	middle := u.sum(uniform, s, m)
	three, five := u.sum(uniform, s, 3), u.sum(uniform, s, 5)
	out := []Spread{
		{"band", "where in its band each load lay", of(u.sum(lowerEdge, s, m), rate), of(u.sum(upperEdge, s, m), rate)},
		{"rate", u.rateName(), of(middle, u.rate[low]), of(middle, u.rate[high])},
		{"share", u.share.Name, of(u.least(uniform, u.share, m), rate), of(u.most(uniform, u.share, m), rate)},
		{"slope", "slope 3 or 5", of(min(three, five), rate), of(max(three, five), rate)},
	}
	for i := range out { // the last bits of two sums may differ
		out[i].Low, out[i].High = min(out[i].Low, of(middle, rate)), max(out[i].High, of(middle, rate))
	}
	return out
}

func (u *Use) rateName() string {
	switch u.Basis {
	case ByMoving:
		return u.set.Get(assume.CyclesPerMovingHour).Name
	case ByCount:
		return "load cycles counted by the machine"
	}
	return u.set.Get(assume.CyclesPerHour).Name
}

// EquivalentLoad returns the one load, in kg, that does the same damage in as
// many cycles: with r = (Σ h r_i^m / Σ h)^(1/m), it is (r - s)/(1 - s) of the
// rated load. It falls as the share rises, from the mean of order m to the
// plain mean, so that its bounds lie at the ends of the share.
func (u *Use) EquivalentLoad(m float64) record.Bounds {
	hours := u.sumOfHours()
	at := func(where placement, s float64) float64 {
		if hours <= 0 {
			return 0
		}
		if s > 1-1e-6 { // the limit: the plain mean
			return float64(u.rated) * u.sum(where, 0, 1) / hours
		}
		r := math.Pow(u.sum(where, s, m)/hours, 1/m)
		const grain = 1e6 // of a kilogram: below it lie the last bits of r - s
		return math.Round(float64(u.rated)*max((r-s)/(1-s), 0)*grain) / grain
	}
	b := record.Bounds{Low: at(lowerEdge, u.share.High)}
	if u.bounded {
		most := max(at(upperEdge, u.share.Low), b.Low) // rounding of hours that are next to nothing
		b.Estimate, b.High = record.Of(min(max(at(uniform, u.share.Value), b.Low), most)), &most
	}
	return b
}

// DutyRecord is how the use of a machine is known, with the factor f1 by which
// a count of its use is multiplied.
type DutyRecord struct {
	ID, Words string
	F1        float64
}

// DutyRecords are the rows of ISO 12482:2014, table 1, as an open-access paper
// gives them. Mobile machines are outside the scope of that standard: the
// method is adapted here.
var DutyRecords = []DutyRecord{
	{"recorder", "an automatic recorder, as the load bands are", 1.0},
	{"process", "documented, with the process it worked in", 1.1},
	{"production", "documented by what was produced", 1.2},
	{"undocumented", "not documented, estimated", 1.3},
	{"unknown", "not known, as of a machine bought used", 1.5},
}

// DutyRecordOf returns the row with an id; the recorder where there is none.
func DutyRecordOf(id string) DutyRecord {
	for _, r := range DutyRecords {
		if r.ID == id {
			return r
		}
	}
	return DutyRecords[0]
}
