package model

import (
	"strings"

	"ratchetmark/internal/card"
	"ratchetmark/internal/dossier"
	"ratchetmark/internal/lashing"
	"ratchetmark/internal/record"
	"ratchetmark/internal/trips"
)

// ShowCard shows the page for the transport crew of the machine on the sheet.
func (m *Model) ShowCard() {
	if m.Case() != nil {
		m.Page = CardPage
		m.host.Show("card")
	}
}

// SaveCard saves the card as a picture, which is made on the device.
func (m *Model) SaveCard(svg string) {
	if o := m.Case(); o != nil {
		m.host.Save(fileName(o.Group.Case.Machine.ID)+".card.svg", "image/svg+xml", []byte(svg))
	}
}

// Trips returns the trips of all machines on the sheet.
func (m *Model) Trips() (all []trips.Trip, machines int) {
	for _, o := range m.Opened {
		if own := o.Dossier.Transport.All; len(own) > 0 {
			all = append(all, own...)
			machines++
		}
	}
	return all, machines
}

// Card returns the page for the transport crew.
func (m *Model) Card() card.Card {
	o := m.Case()
	d, lang := &o.Dossier, card.English
	t := d.Transport
	if own := o.Group.Case.Transport; own != nil {
		lang = card.LangOf(own.Language)
	}
	f := card.Facts{Machine: dossier.Name(d), Upright: d.Machine.Kind == record.Scissor || d.Machine.Kind == record.Mast}
	if mass := o.Group.Case.Machine.Mass; mass != nil {
		f.MassKg = float64(*mass)
	}
	if t.Over.Route != lashing.NotOver {
		f.Straps, f.LowKg, f.HighKg = t.Over.Straps, float64(t.Strap.Apparent.Low), float64(t.Strap.Apparent.High)
		if t.Strap.Percent != nil {
			f.HighPercent = t.Strap.Percent.High
		}
	}
	m.cardHold(&f, o)
	all, _ := m.Trips()
	for i := range all {
		all[i].Crew = ""
	}
	for _, g := range trips.ByHaulier(all) {
		f.Trips = append(f.Trips, card.Trips{Haulier: g.Haulier, Raised: g.Rate.Raised, Trips: g.Rate.Trips, Unread: g.Rate.Unread})
	}
	return card.Of(f, lang)
}

// cardHold says on the card what holds the machine.
func (m *Model) cardHold(f *card.Facts, o *Opened) {
	if own := o.Group.Case.Transport; own != nil {
		for _, l := range own.Lashings {
			if gear := lashing.GearOf(l.Gear); gear != nil {
				kind, size := kindOf(gear)
				f.Lashings = append(f.Lashings, card.Lashing{Count: l.Count, Kind: kind, Size: size, Way: l.Way, AngleDeg: l.Angle, PlanDeg: l.Plan})
			}
		}
	}
	check := o.Dossier.Transport.Check
	if check == nil || len(check.Margins) == 0 {
		return
	}
	f.Worked, f.Held, f.Rule = true, check.Holds(), check.Rule.ID
	for i, margin := range check.Margins {
		f.Percents[i] = margin.Percent
	}
}

// kindOf divides the name of a lashing into its kind and its size.
func kindOf(g *lashing.Gear) (kind, size string) {
	for _, k := range []struct{ kind, name string }{{"web", "webbing "}, {"chain", "chain "}, {"rope", "wire rope "}} {
		if rest, ok := strings.CutPrefix(g.Name, k.name); ok {
			size, _, _ = strings.Cut(rest, ",")
			return k.kind, size
		}
	}
	return "web", g.Name
}
