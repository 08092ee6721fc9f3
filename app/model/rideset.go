package model

import (
	"slices"
	"strconv"

	"ratchetmark/internal/lashing"
	"ratchetmark/internal/record"
)

// mostLashings is how many rows of lashings the sheet takes.
const mostLashings = 12

// transportOf returns a copy of how a machine rides, to be changed.
func (o *Opened) transportOf() *record.Transport {
	t := record.Transport{}
	if was := o.Group.Case.Transport; was != nil {
		t = *was
	}
	t.Lashings = slices.Clone(t.Lashings)
	return &t
}

// RideText is what a field shows: what was refused as it was typed, else the
// value in use.
func (o *Opened) RideText(x RideField) string {
	if r, ok := o.rideRefused[x]; ok {
		return r.Text
	}
	t, row := o.transportOf(), x.row()
	text := ""
	switch {
	case x.Row >= len(t.Lashings):
	case x.Row >= 0:
		text = lashingText(&t.Lashings[x.Row], x.Name)
	case row.text != nil:
		text = *row.text(t)
	case row.number != nil:
		text = numberText(*row.number(t))
	case row.flag != nil:
		if b := *row.flag(t); b != nil {
			text = strconv.FormatBool(*b)
		}
	case x.Name == "mass_kg":
		text = numberText(o.Group.Case.Machine.Mass)
	case x.Name == "straps" && t.Straps != nil:
		text = strconv.Itoa(*t.Straps)
	case x.Name == "briefed_on" && t.BriefedOn != nil:
		text = t.BriefedOn.String()
	}
	if text == "" {
		return row.usual
	}
	return text
}

func lashingText(l *record.Lashing, name string) string {
	switch name {
	case "gear":
		return l.Gear
	case "way":
		return l.Way
	case "count":
		return strconv.Itoa(l.Count)
	case "angle":
		return numberText(&l.Angle)
	}
	return numberText(&l.Plan)
}

// RideProblem says why what was typed into a field is not used; empty where it is.
func (o *Opened) RideProblem(x RideField) string { return o.rideRefused[x].Why }

// Ride sets a field. What cannot be read is kept as typed, with the reason, and
// the value in use stays.
func (m *Model) Ride(x RideField, text string) {
	o := m.Case()
	if o == nil {
		return
	}
	t, mass := o.transportOf(), o.Group.Case.Machine.Mass
	if x.Row >= len(t.Lashings) {
		return
	}
	var f Form
	f.setRide(t, &mass, x, text)
	if o.rideRefused == nil {
		o.rideRefused = map[RideField]Refused{}
	}
	if len(f.Problems) > 0 {
		o.rideRefused[x] = Refused{Text: text, Why: f.Problems[0].Message}
		return
	}
	delete(o.rideRefused, x)
	m.rides(o, t, mass)
}

// setRide reads a text into its place.
func (f *Form) setRide(t *record.Transport, mass **record.Kilogram, x RideField, text string) {
	at := record.Path("transport").At(x.Name)
	row := x.row()
	switch {
	case x.Row >= 0:
		f.setLashing(&t.Lashings[x.Row], x.Name, text)
	case row.text != nil:
		*row.text(t) = text
	case row.number != nil:
		*row.number(t) = number[float64](f, at, text)
	case row.flag != nil:
		*row.flag(t) = nil
		if text != "" {
			*row.flag(t) = record.Of(text == "true")
		}
	case x.Name == "mass_kg":
		*mass = number[record.Kilogram](f, at, text)
	case x.Name == "straps":
		t.Straps = f.whole(at, text)
	case x.Name == "briefed_on":
		t.BriefedOn = f.date(at, text)
	}
}

func (f *Form) setLashing(l *record.Lashing, name, text string) {
	at := record.Path("lashings").At(name)
	switch name {
	case "gear":
		l.Gear = text
	case "way":
		l.Way = text
	case "count":
		if n := f.whole(at, text); n != nil {
			l.Count = *n
		} else if len(f.Problems) == 0 {
			f.problem(at, "a number is needed")
		}
	default:
		to := &l.Angle
		if name == "plan" {
			to = &l.Plan
		}
		if x := number[float64](f, at, text); x != nil {
			*to = *x
		} else if len(f.Problems) == 0 {
			f.problem(at, "a number is needed")
		}
	}
}

// rides puts in place how a machine rides, and makes the dossier anew.
func (m *Model) rides(o *Opened, t *record.Transport, mass *record.Kilogram) {
	c := &o.Group.Case
	c.Transport, c.Machine.Mass = t, mass
	for _, f := range []*Form{o.draft, &m.Form} { // a form that corrects the machine must not bring back what was
		if f != nil && f.editing == o {
			f.base.Transport, f.Mass = t, numberText(mass)
		}
	}
	o.Changed = !o.Typed
	o.assess()
	m.keepCase(o)
}

// AddLashing adds a row of lashings: the first time four chains, in pairs.
func (m *Model) AddLashing() {
	o := m.Case()
	if o == nil {
		return
	}
	t := o.transportOf()
	switch n := len(t.Lashings); {
	case n == 0:
		t.Lashings = lashing.FourChains()
	case n < mostLashings:
		t.Lashings = append(t.Lashings, t.Lashings[n-1])
	}
	m.rides(o, t, o.Group.Case.Machine.Mass)
	m.host.Show(RideField{"gear", len(t.Lashings) - 1}.ID())
}

// RemoveLashing takes a row of lashings away.
func (m *Model) RemoveLashing(i int) {
	o := m.Case()
	if o == nil {
		return
	}
	t := o.transportOf()
	if i < 0 || i >= len(t.Lashings) {
		return
	}
	t.Lashings = slices.Delete(t.Lashings, i, i+1)
	if len(t.Lashings) == 0 {
		t.Lashings = nil
	}
	for x := range o.rideRefused {
		if x.Row >= 0 { // what was refused may now belong to another row
			delete(o.rideRefused, x)
		}
	}
	m.rides(o, t, o.Group.Case.Machine.Mass)
	m.host.Show("add-lashing")
}
