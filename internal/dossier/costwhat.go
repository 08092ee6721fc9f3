package dossier

import (
	"fmt"

	"ratchetmark/internal/assume"
	"ratchetmark/internal/cause"
	"ratchetmark/internal/endurance"
	"ratchetmark/internal/fatigue"
	"ratchetmark/internal/record"
)

// claimPart answers whether this can have caused that.
func claimPart(d *Dossier) CostPart {
	e := d.Exposure
	p := CostPart{ID: "claim", Title: "Could this have caused that?", Unit: "%"}
	if told := d.structure(); e == nil && told.Claim != "" && d.Capacity != nil { // a peak alone may answer it
		p.Answer = d.claimWords(Claim{Damage: told.Claim, Part: told.Part})
		return p
	}
	if e == nil {
		return CostPart{}
	}
	p.Answer = e.Claim.Words
	for _, s := range e.Claim.Shares {
		if *s.Exposure.High > 0 {
			p.Ranges = append(p.Ranges, percentRange(GroupPhrase(s.Group), s.Exposure))
		}
	}
	if len(p.Ranges) > 1 {
		p.Lines = append(p.Lines, "A tie-down is one load cycle at least, and at most as many as its hours would make; what is undecided may belong to each cause that is not ruled out.")
	}
	if len(p.Ranges) > 0 {
		p.Lines = append(p.Lines, "A share of the exposure is no proof: damage also comes from corrosion, collision, a fault of making, or a single load that no counter kept.")
	}
	return p
}

// staticPart says what the highest load asked of the structure once.
func staticPart(d *Dossier) CostPart {
	s := d.Static
	if s == nil {
		return CostPart{}
	}
	p := CostPart{ID: "static", Title: "What the highest load asked once"}
	p.Answer = fmt.Sprintf("%s, %s of the rated load. %s", cause.LoadOver(s.Peak, d.History.Rated), cause.SharePercent(s.Percent/100), s.Words)
	for _, t := range s.Tests {
		side := "not reached"
		if t.Passed {
			side = "gone over"
		}
		p.Lines = append(p.Lines, fmt.Sprintf("%s, %s = %s: %s (%s).", Capital(t.Name), Percent(t.Percent/100), Kg(float64(t.Load)), side, t.Source))
	}
	for _, x := range s.Examine {
		p.Lines = append(p.Lines, Capital(x.What)+"; by "+x.Whom+".")
	}
	if mayBe(d, cause.Lashed) {
		p.Lines = append(p.Lines, fatigue.TieDown...)
	}
	return p
}

// detailPart gives the damage of a detail, where a stress range is known.
func detailPart(d *Dossier) CostPart {
	e := d.Exposure
	if e == nil {
		return CostPart{}
	}
	p := CostPart{ID: "detail", Title: "Damage of a detail"}
	x := e.Detail
	if x == nil {
		p.Answer = "Not worked out: it needs the stress range of the detail at rated load, from the maker or a calculation, and its category."
		return p
	}
	low, high := endurance.CriticalSum()
	p.Answer = "Miner's sum " + FactorBounds(x.Damage) + " for " + Plain(x.StressRange) + " MPa at rated load."
	p.Lines = []string{
		"Curve: " + x.Curve + ".",
		fmt.Sprintf("In tests the sum at failure scatters: nine of ten lie between %.2f and %.2f (JCSS Probabilistic Model Code, read).", low, high),
		"An index: no sequence of loads, no corrosion, no earlier damage. No mean-stress correction: a detail as welded has none.",
	}
	if h := x.History; h != nil {
		line := fmt.Sprintf("Stress history class %s (EN 13001-3-1, restated): parameter %s", h.Class, FactorText(h.Parameter))
		if h.Limit > 0 {
			line += fmt.Sprintf(", limit range %.0f MPa, largest range %.0f MPa", h.Limit, h.Largest)
		}
		p.Lines = append(p.Lines, line+".")
	}
	if len(x.Terms) > 0 {
		p.Table = &CostTable{Caption: "The terms of the estimate", Head: []string{"Loads", "Range, MPa", "Cycles", "Endured", "Share"}}
		for _, t := range x.Terms {
			endured := "no damage"
			if t.Endurance != nil {
				endured = Count(*t.Endurance)
			}
			p.Table.Rows = append(p.Table.Rows, []string{BandText(t.From, &t.To), digits(t.Range, 1), Count(t.Cycles), endured, Percent(t.Share)})
		}
	}
	return p
}

// roadPart sets the vibration on the road beside the work.
func roadPart(d *Dossier) CostPart {
	if d.Exposure == nil || d.Exposure.Road == nil {
		return CostPart{}
	}
	r := d.Exposure.Road
	p := CostPart{ID: "road", Title: "On the road: an index of vibration", Unit: "%"}
	index := closedBelow(r.Index, mostIndex)
	p.Answer = fmt.Sprintf("%s, %s in transit: an index of about %s of the design cycle budget, beside %s by work.", tripCount(r.Trips), H(r.Hours), Percent(*r.Index.Estimate), orLow(d.Exposure.Relative))
	p.Ranges = []CostRange{percentRange("vibration on the road, an index", index), percentRange("work, as above", d.Exposure.Relative)}
	if index.High == nil {
		p.Ranges[0].Figures = fmt.Sprintf("%s to more than %s, about %s", Percent(index.Low), Percent(mostIndex), Percent(*index.Estimate))
	}
	p.Lines = []string{
		fmt.Sprintf("%s, %.2f g rms integrated, as published; the stowed machine as one mode of %s Hz with %s of critical damping.", r.Profile, r.Level, Plain(d.assumed(assume.RoadFrequency)), Percent(d.assumed(assume.RoadDamping))),
		"About: " + Percent(r.Dirlik) + " by Dirlik's method, " + Percent(r.Narrow) + " as a narrow band. The bounds also hold two other published spectra and every assumption named.",
		"Between the bounds lies all that its frequency, its damping and its stress when stowed may be: only a measurement on the stowed machine would narrow them.",
		"An index, for comparing only: nothing was measured on this machine, and the pull of a strap over the platform is not in it.",
	}
	return p
}

// mostIndex is up to where an index is shown as a figure: far beyond the budget
// it says no more than that nothing bounds it.
const mostIndex = 1

// closedBelow takes away an upper bound that lies too high to mean anything.
func closedBelow(b record.Bounds, most float64) record.Bounds {
	if b.High != nil && *b.High > most {
		b.High = nil
	}
	return b
}

// orLow writes the estimate of a share, or its low where there is none.
func orLow(b record.Bounds) string {
	if b.Estimate == nil {
		return "at least " + Percent(b.Low)
	}
	return Percent(*b.Estimate)
}

func tripCount(n int) string {
	if n == 1 {
		return "One trip"
	}
	return fmt.Sprintf("%d trips", n)
}

// forecastPart carries the machine's own rate of use on to a date.
func forecastPart(d *Dossier) CostPart {
	if d.Exposure == nil || len(d.Exposure.Forecast) == 0 {
		return CostPart{}
	}
	p := CostPart{ID: "forecast", Title: "By a date to come", Unit: "%"}
	p.Ranges = []CostRange{percentRange("now", d.Exposure.Relative)}
	for _, f := range d.Exposure.Forecast {
		p.Ranges = append(p.Ranges, percentRange(f.Why+", "+day(f.At.Time), f.Relative))
	}
	f := d.Exposure.Forecast[len(d.Exposure.Forecast)-1]
	p.Answer = fmt.Sprintf("At its own rate of use, %s by %s (%s).", PercentBounds(f.Relative), day(f.At.Time), f.Why)
	p.Lines = []string{
		"Its own rate: " + PercentBounds(f.PerYear) + " of the design cycle budget a year, from " + f.Rests + ".",
		"Use to come may differ, and reaching the budget is no failure as staying below it is no proof. Five and seven years are common practice, without a source.",
	}
	return p
}
