package capacity

import (
	"ratchetmark/internal/assume"
	"ratchetmark/internal/record"
)

// Details are what a [Result] says beyond the hours over shares of the rated
// load. What cannot be said is nil or left out.
type Details struct {
	Region      Region      `json:"region,omitempty"` // not stated where it is empty
	Edition     Edition     `json:"edition"`
	Stated      bool        `json:"edition_stated"`       // else the usual one of the region
	Shares      []Share     `json:"shares"`               // load-sensing window and tests of the edition
	Stage       *Stage      `json:"peak_stage"`           // how far over the rated load the peak lies
	Marks       []Mark      `json:"marks"`                // smallest rated loads for 1, 2, 3 ... persons
	Edges       []Worth     `json:"band_edges"`           // what each edge is worth in persons
	ExceededFor []Exceeded  `json:"exceeded_for"`         // loads exceeded for shares of the counted hours
	OverLoads   []Exceeding `json:"over_loads,omitempty"` // hours over the loads asked about
	Apart       *Spread     `json:"estimates_apart"`
	Several     *ZonesOver  `json:"several_rated_loads,omitempty"`
}

// Spread is where the two estimates differ most.
type Spread struct {
	Load  record.Kilogram `json:"load_kg"`
	Hours float64         `json:"hours"`
}

// shares of the hours for which the load that was exceeded is named.
var exceededFor = []float64{0.01, 0.05}

// details works out what a history says beyond the hours over shares.
func details(h record.History, set assume.Set, segments []record.Segment) Details {
	s := StandingOf(h.Case.Machine)
	rules, rule := s.Rules.Under(set), RuleOf(set)
	d := Details{Region: s.Region, Edition: s.Edition, Stated: s.Stated}
	d.Shares, _ = rules.SharesOf(h.Rated) // none of a load that makes no sense
	if peak := HighestPeak(h); peak != nil {
		if stage, f := rules.StageOf(*peak, h.Rated); f == nil {
			d.Stage = &stage
		}
	}
	d.Marks, _ = rule.Marks(shown(h))
	if len(h.Case.Readings) > 0 {
		d.Edges, _ = EdgeWorths(h.Case.Readings[len(h.Case.Readings)-1].Bands, rule.Further)
	}
	d.Several = zonesOver(h, segments, rule)
	return d
}

// shown is the highest load that the marks reach up to.
func shown(h record.History) record.Kilogram {
	most := 1.6 * h.Rated
	if peak := HighestPeak(h); peak != nil {
		most = max(most, *peak)
	}
	return most
}

// smooth fills in what the two estimates of the loads within bands say.
func (r *Result) smooth(loads Loads) {
	if loads.Hours() <= 0 {
		return
	}
	for i := range r.HoursOver {
		o := &r.HoursOver[i]
		if e, f := loads.Over(shareOf(r.Rated, float64(o.Percent))); f == nil && o.Estimate != nil {
			o.Smooth = e.Smooth
		}
	}
	for _, share := range exceededFor {
		if e, f := loads.ExceededFor(share); f == nil {
			r.ExceededFor = append(r.ExceededFor, e)
		}
	}
	if at, hours := loads.MostApart(); hours > 0 {
		r.Apart = &Spread{at, hours}
	}
}

// Ask adds the hours over loads that were asked about, and says of each that
// makes no sense why.
func (r *Result) Ask(h record.History, asked []record.Kilogram) []record.Finding {
	if len(asked) == 0 {
		return nil
	}
	var out []record.Finding
	loads := NewLoads(h.Life())
	for i, load := range asked {
		e, f := loads.Over(load)
		switch {
		case f != nil:
			f.Path = record.Path("thresholds_kg").At(i + 1)
			f.Where, f.Severity = f.Path.Words(), record.Doubt
			out = append(out, *f)
		case loads.Hours() > 0:
			r.OverLoads = append(r.OverLoads, e)
		}
	}
	return out
}
