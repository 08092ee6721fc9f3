package record

import (
	"math"
	"slices"
	"time"
)

// LoadKind says what lay on the platform when the load shown was checked.
type LoadKind string

// The kinds of check.
const (
	ZeroCheck LoadKind = "zero"       // nothing at all
	MassCheck LoadKind = "known_mass" // a mass that is known by itself
)

// LoadKinds lists the kinds of check a case file may name.
var LoadKinds = []LoadKind{ZeroCheck, MassCheck}

// LoadCheck is what the machine showed with a known load on its platform. A
// load shown may lie below zero.
type LoadCheck struct {
	At    time.Time `json:"at,omitzero"`
	Kind  LoadKind  `json:"kind"`
	Shown *Kilogram `json:"shown_kg"`
	Mass  *Kilogram `json:"mass_kg"` // that lay on the platform; nil with nothing on it
	By    string    `json:"by,omitempty"`
	Note  string    `json:"note,omitempty"`
}

// On returns the mass that lay on the platform; 0 with nothing on it.
func (k LoadCheck) On() Kilogram {
	if k.Kind == MassCheck && k.Mass != nil {
		return *k.Mass
	}
	return 0
}

// Off returns by how much the load shown was too high; below zero where it was
// too low. It is for checks of [Case.UsableChecks].
func (k LoadCheck) Off() Kilogram { return *k.Shown - k.On() }

// wrongFrom is the share of the rated load by which a sound cell is hardly off: a
// limit of this program, not of a standard.
const wrongFrom = 0.05

// Wrong reports whether the load shown was further off than a sound cell's is, for
// a rated load over 0. It is for checks of [Case.UsableChecks].
func (k LoadCheck) Wrong(rated Kilogram) bool {
	return math.Abs(float64(k.Off())) > wrongFrom*float64(rated)
}

// usable reports whether a check says what was shown, with what, and when.
func (k LoadCheck) usable(c *Case) bool {
	return slices.Contains(LoadKinds, k.Kind) && !k.At.IsZero() && c.nearReadings(k.At) &&
		k.Shown != nil && Finite(*k.Shown) && math.Abs(float64(*k.Shown)) <= float64(maxLoad) && k.massFits()
}

// massFits reports whether the mass goes with the kind of check: none with
// nothing on the platform, else one over 0.
func (k LoadCheck) massFits() bool {
	switch k.Kind {
	case ZeroCheck:
		return k.Mass == nil || *k.Mass == 0
	case MassCheck:
		return k.Mass != nil && *k.Mass > 0 && usable(*k.Mass, maxLoad)
	}
	return true
}

// UsableChecks returns the checks that can be reckoned with, in order of time.
func (c *Case) UsableChecks() []LoadCheck {
	var out []LoadCheck
	for _, k := range c.Checks {
		if k.usable(c) {
			out = append(out, k)
		}
	}
	SortStable(out, func(a, b LoadCheck) int { return a.At.Compare(b.At) })
	return out
}

// Known says how something is known.
type Known string

// The ways to know how a machine was tied down.
const (
	Seen     Known = "seen"  // by whoever wrote it down
	Pictured Known = "photo" // on a photo of the loaded machine
	Papers   Known = "paper" // from the delivery note or another paper
	ToldOf   Known = "told"  // by the crew
)

// Knowns lists the ways a case file may name.
var Knowns = []Known{Seen, Pictured, Papers, ToldOf}

// TieDown is what is known of how the machine was tied down on one trip. Which
// trip it was is told by the custody entry that the time lies in.
type TieDown struct {
	At   time.Time `json:"at,omitzero"`
	Over *bool     `json:"over_platform"` // whether a strap or chain went over the platform
	How  Known     `json:"how"`
	Note string    `json:"note,omitempty"`
}

// usable reports whether a tie-down says when it was, whether it went over the
// platform, and how that is known.
func (t TieDown) usable(c *Case) bool {
	return !t.At.IsZero() && c.nearReadings(t.At) && t.Over != nil && slices.Contains(Knowns, t.How)
}

// Tied is a tie-down with the trip that it was on.
type Tied struct {
	TieDown
	Trip int // index in custody; -1 where custody names no trip
}

// Tied returns the tie-downs that can be reckoned with, in order of time, each
// with its trip.
func (c *Case) Tied() []Tied {
	var out []Tied
	for _, t := range c.TieDowns {
		if t.usable(c) {
			out = append(out, Tied{t, c.tripAt(t.At)})
		}
	}
	SortStable(out, func(a, b Tied) int { return a.At.Compare(b.At) })
	return out
}

// besideTrip is how far from a trip the time of its tie-down may lie: it is
// often that of the delivery note or the photo. An assumption.
const besideTrip = 24 * time.Hour

// tripAt returns the index of the custody entry of the trip at a time: the
// nearest, at most besideTrip away; -1 without one.
func (c *Case) tripAt(t time.Time) int {
	best, least := -1, besideTrip
	for i, u := range c.Custody {
		if u.Holder != Transit || !u.usable() {
			continue
		}
		if d := max(u.From.Sub(t), t.Sub(u.To), 0); d < least || d == least && best < 0 {
			best, least = i, d
		}
	}
	return best
}

// farOff is how long before or after every reading a time is taken for a slip.
const farOff = 5 * 365 * 24 * time.Hour

// nearReadings reports whether a time lies after the machine was put into
// service and within five years of a dated reading; of a case without dates,
// nobody can say.
func (c *Case) nearReadings(t time.Time) bool {
	if s := c.Machine.InService; s != nil && t.Before(s.Time) {
		return false
	}
	dated := false
	for _, r := range c.Readings {
		if r.At.IsZero() {
			continue
		}
		if dated = true; t.Sub(r.At).Abs() <= farOff {
			return true
		}
	}
	return !dated
}
