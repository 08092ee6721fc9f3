package dossier

import (
	"ratchetmark/internal/lashing"
	"ratchetmark/internal/record"
	"ratchetmark/internal/trips"
)

// transport works out how the machine rides.
func transport(d *Dossier, c *record.Case) *Transport {
	over, device, findings := lashing.OverOf(c)
	t := &Transport{Over: over, Device: device, Matches: []Match{}, Findings: append([]record.Finding{}, findings...)}
	t.strap(d)
	t.matches(d)
	t.hold(c)
	t.All = trips.Of(d.History)
	t.Trips = tripsOf(t.All, c)
	return t
}

func (t *Transport) strap(d *Dossier) {
	apparent := tidyReading(t.Over.Apparent())
	t.Strap = Strap{
		Device: t.Device.ID, Route: string(t.Over.Route), Straps: t.Over.Straps, AngleDeg: t.Over.AngleDeg, Blocked: t.Over.Blocked,
		Apparent: apparent, Settled: tidyReading(apparent.After(lashing.Settled)),
		Source: t.Device.Source.String(), Status: string(t.Device.Source.Status),
	}
	if rated := d.History.Rated; rated > 0 {
		of := func(kg record.Kilogram) float64 { return tidy(100 * float64(kg/rated)) }
		t.Strap.Percent = &Percents{of(apparent.Low), of(apparent.Estimate), of(apparent.High)}
	}
}

// matches lists what would give the peak, where it lies over the rated load.
func (t *Transport) matches(d *Dossier) {
	if peakPercent(d) <= 100 {
		return
	}
	for _, m := range lashing.Matches(record.Kilogram(*d.Capacity.Peak), t.Over.Edge.Usual) {
		t.Matches = append(t.Matches, Match{m.Device.ID, m.Straps, m.AngleDeg, tidy(m.Tension)})
	}
}

func (t *Transport) hold(c *record.Case) {
	if c.Transport == nil || len(c.Transport.Lashings) == 0 {
		return
	}
	check := lashing.MachineOf(c).Check()
	t.Check = &check
	t.Findings = append(t.Findings, check.Findings...)
	h := &Held{Rule: check.Rule.ID, OK: check.Holds(), Margins: []HeldMargin{}, NotCovered: lashing.NotCovered}
	for _, m := range check.Margins {
		h.Margins = append(h.Margins, heldMargin(string(m.Direction), m.Needed, m.Held))
	}
	if check.Tip != nil {
		m := heldMargin("tipping to the side", check.Tip.Needed, check.Tip.Held)
		h.Tipping = &m
	}
	if check.Downforce != nil {
		m := heldMargin("up", check.Downforce.Needed, check.Downforce.Held)
		h.Downforce = &m
	}
	if a := check.Aggregate; a != nil {
		h.Aggregate = &HeldCount{tidy(a.Required), tidy(a.Counted), a.Number, a.Least}
	}
	t.Held = h
}

func heldMargin(direction string, needed, held float64) HeldMargin {
	m := HeldMargin{Direction: direction, Needed: tidy(needed), Held: tidy(held)}
	if needed > 0 {
		m.Percent = record.Of(tidy(100 * held / needed))
	}
	return m
}

func tripsOf(all []trips.Trip, c *record.Case) Trips {
	out := Trips{Total: tidyRate(trips.Total(all)), ByHaulier: []TripGroup{}, List: []Trip{}}
	for _, g := range trips.ByHaulier(all) {
		out.ByHaulier = append(out.ByHaulier, TripGroup{g.Haulier, g.Crew, tidyRate(g.Rate)})
	}
	for _, x := range all {
		trip := Trip{From: x.From, To: x.To, Haulier: x.Haulier, Crew: x.Crew, Bracketed: x.Bracketed, Why: x.Why, Rose: x.Rose}
		if x.Rose {
			trip.Peak = record.Of(float64(x.Peak))
		}
		out.List = append(out.List, trip)
	}
	if c.Transport != nil && c.Transport.BriefedOn != nil {
		before, after := trips.Around(all, c.Transport.BriefedOn.Time)
		out.Briefing = &Briefing{*c.Transport.BriefedOn, tidyRate(before), tidyRate(after), trips.Compared(before, after)}
	}
	return out
}

func tidyRate(r trips.Rate) trips.Rate {
	if r.PerTrip != nil {
		r.PerTrip = record.Of(tidy(*r.PerTrip))
	}
	r.Low, r.High = tidy(r.Low), tidy(r.High)
	return r
}

func tidyReading(r lashing.Reading) lashing.Reading {
	cut := func(x record.Kilogram) record.Kilogram { return record.Kilogram(tidy(float64(x))) }
	return lashing.Reading{Low: cut(r.Low), Estimate: cut(r.Estimate), High: cut(r.High)}
}
