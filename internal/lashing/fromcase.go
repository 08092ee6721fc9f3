package lashing

import (
	"fmt"

	"ratchetmark/internal/record"
)

// Usual is a strap over the platform of which nothing was said.
const (
	UsualDevice = "web-50"
	UsualAngle  = 60.0
	UsualMu     = 0.3 // steel: what a deck has unless it is known to be better
)

// OverOf returns the strap over the platform that a case names, the usual one
// where it names none, with what of it cannot be used; that takes its usual value.
func OverOf(c *record.Case) (o Over, device *Device, findings []record.Finding) {
	t := c.Transport
	if t == nil {
		t = &record.Transport{}
	}
	at := record.Path("transport")
	unknown := func(name, found, expected string) {
		here := at.At(name)
		findings = append(findings, caution(here, "value-unknown", fmt.Sprintf("found %q", clipped(found)), expected, "the usual one is taken instead", "choose one that is listed"))
	}
	if device = DeviceOf(t.Device); device == nil {
		if t.Device != "" {
			unknown("device", t.Device, "a device that is listed")
		}
		device = DeviceOf(UsualDevice)
	}
	o = Over{Low: device.Low, Usual: device.Usual, High: device.High, Straps: 1, AngleDeg: UsualAngle, Edge: EdgeOf(t.Edge), Route: OverRails}
	if t.Route != "" {
		if r := Route(t.Route); r.known() {
			o.Route = r
		} else {
			unknown("route", t.Route, "rails, floor, mount or none")
		}
	}
	if t.Angle != nil {
		if f := flats.check(*t.Angle, at.At("angle_deg")); f != nil {
			findings = append(findings, instead(*f))
		} else {
			o.AngleDeg = *t.Angle
		}
	}
	if t.Straps != nil {
		if f := straps.check(float64(*t.Straps), at.At("straps")); f != nil {
			findings = append(findings, instead(*f))
		} else {
			o.Straps = *t.Straps
		}
	}
	o.Blocked = t.Blocked != nil && *t.Blocked
	return o, device, findings
}

// instead turns a refused figure into a doubt: the usual one stands in for it.
func instead(f record.Finding) record.Finding {
	f.Severity, f.Effect = record.Doubt, "the usual value is taken instead"
	return f
}

// MachineOf returns the machine on its vehicle as a case names it.
func MachineOf(c *record.Case) Machine {
	m := Machine{Rule: EN, Mu: UsualMu}
	if c.Machine.Mass != nil {
		m.Mass = *c.Machine.Mass
	}
	t := c.Transport
	if t == nil {
		return m
	}
	if RuleOf(t.Rule) != nil {
		m.Rule = t.Rule
	}
	set := func(to *float64, from *float64) {
		if from != nil {
			*to = *from
		}
	}
	set(&m.Mu, t.Friction)
	set(&m.Block, t.Block)
	set(&m.Height, t.Height)
	set(&m.Track, t.Track)
	set(&m.LengthM, t.Length)
	m.Lowered = t.Lowered
	for _, l := range t.Lashings {
		m.Sets = append(m.Sets, Set{Gear: l.Gear, Way: Way(l.Way), Count: l.Count, AngleDeg: l.Angle, PlanDeg: l.Plan})
	}
	return m
}

// FourChains are the lashings that a person begins with: two chains to the
// front, two to the rear.
func FourChains() []record.Lashing {
	return []record.Lashing{
		{Gear: "chain-8", Way: string(ToFront), Count: 2, Angle: 40, Plan: 30},
		{Gear: "chain-8", Way: string(ToRear), Count: 2, Angle: 40, Plan: 30},
	}
}
