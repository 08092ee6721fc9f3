package lashing

import (
	"math"

	"ratchetmark/internal/record"
)

// Way is how a lashing runs.
type Way string

// The ways of a lashing. A front one runs from the machine to the deck ahead of
// it and holds it against moving rearward; a rear one against moving forward.
const (
	ToFront Way = "front"
	ToRear  Way = "rear"
	OverTop Way = "over" // over the chassis, from side to side of the deck
)

// Ways lists the ways in the order in which they are offered.
var Ways = []Way{ToFront, ToRear, OverTop}

// Set is a number of equal lashings: of direct ones half run to the left and
// half to the right.
type Set struct {
	Gear     string
	Way      Way
	Count    int
	AngleDeg float64 // to the deck
	PlanDeg  float64 // of a direct lashing: in plan, to the length of the vehicle
}

// Machine is a machine on its vehicle, with what holds it.
type Machine struct {
	Rule    string
	Mass    record.Kilogram
	Mu      float64
	Block   float64 // what blocks or the front wall hold forward, daN
	Sets    []Set
	Height  float64 // of the centre of gravity above the deck, m; 0 is not known
	Track   float64 // between the outer wheels, m; 0 is not known
	LengthM float64 // of the machine, m; 0 is not known
	Lowered *bool   // platform and what lifts it lowered and secured; nil is not known
}

// Margin is how a machine is held in one direction, in daN.
type Margin struct {
	Direction              Direction
	Needed                 float64
	Friction, Over, Direct float64 // what friction, over-top and direct lashings hold
	Block                  float64
	Held                   float64 // all of it
	Percent                float64 // held, of what is needed
}

// Holds reports whether the machine is held.
func (m Margin) Holds() bool { return m.Held >= m.Needed-1e-9 }

// Check is the whole answer of a rule for a machine.
type Check struct {
	Rule      *Rule
	Lowered   bool     // platform and what lifts it are said to be lowered and secured
	Margins   []Margin // in the order of [Directions]; nil where nothing was worked out
	Tip       *Tip     // nil where height and track are not known
	Aggregate *Aggregate
	Downforce *Margin // upwards: 20 % of the weight, 49 CFR 393.102
	Findings  []record.Finding
}

// Holds reports whether everything that was worked out is met.
func (c Check) Holds() bool {
	if len(c.Margins) == 0 {
		return false
	}
	for _, m := range c.Margins {
		if !m.Holds() {
			return false
		}
	}
	return !record.Blocks(c.Findings) && (c.Tip == nil || c.Tip.Holds()) && (c.Aggregate == nil || c.Aggregate.Holds()) && (c.Downforce == nil || c.Downforce.Holds())
}

// Tip is a machine against tipping over to its side, in daN·m.
type Tip struct{ Needed, Held float64 }

// Holds reports whether it does not tip.
func (t Tip) Holds() bool { return t.Held >= t.Needed-1e-9 }

// Check works out how a machine is held by its rule. Beside direct lashings only
// the rule's share of the friction counts, under over-top ones as well: mixing
// them is a choice of this program on the cautious side.
func (m Machine) Check() Check {
	c := Check{Rule: RuleOf(m.Rule), Lowered: m.Lowered != nil && *m.Lowered}
	if c.Rule == nil {
		c.Rule = &Rules[0]
	}
	c.Findings = m.findings(c.Rule)
	if record.Blocks(c.Findings) {
		return c
	}
	for _, d := range Directions {
		c.Margins = append(c.Margins, m.margin(c.Rule, d))
	}
	if m.Height > 0 && m.Track > 0 {
		c.Tip = m.tip(c.Rule)
	}
	if c.Rule.ID == CFR {
		c.Aggregate, c.Downforce = m.aggregate(), m.downforce(c.Rule)
	}
	return c
}

func (m Machine) mixed() bool {
	for _, s := range m.Sets {
		if s.Way != OverTop {
			return true
		}
	}
	return false
}

// margin is the balance of EN 12195-1:2010, 5.4 and 5.5, as GDV prints it:
// c·G <= mu·G + (2/fs)·mu·n·FT·sin alpha + n·LC·(X + fmu·mu·Z)/L + BC.
func (m Machine) margin(r *Rule, d Direction) Margin {
	g, fmu := Weight(m.Mass), 1.0
	if m.mixed() {
		fmu = r.FMu
	}
	out := Margin{Direction: d, Needed: r.Share(d) * g, Friction: fmu * m.Mu * r.Down * g}
	if d == Forward {
		out.Block = m.Block
	}
	for _, s := range m.Sets {
		gear := GearOf(s.Gear)
		if s.Way == OverTop {
			out.Over += float64(s.Count) * OverTopAdds(2, fmu*m.Mu, s.AngleDeg, gear.Pull(r)) / r.Safety(d)
			continue
		}
		acting, beta := s.acting(d)
		out.Direct += float64(acting) * gear.Strength(r) * DirectAdds(fmu, m.Mu, s.AngleDeg, beta)
	}
	out.Held = out.Friction + out.Over + out.Direct + out.Block
	out.Percent = 100 * out.Held / out.Needed
	return out
}

// acting returns how many lashings of a set act against a movement, and at
// which angle in plan to it. Half of them act to either side, the smaller half
// where they are an odd number.
func (s Set) acting(d Direction) (count int, betaDeg float64) {
	switch {
	case d == Side:
		return s.Count / 2, 90 - s.PlanDeg
	case d == Forward && s.Way == ToRear, d == Rear && s.Way == ToFront:
		return s.Count, s.PlanDeg
	}
	return 0, 90
}

// tip is the balance of moments about the outer wheels: what lashings pull down
// on the far side, with the whole track as lever. The part of a direct lashing
// that pulls sideways is left out, which is on the cautious side. Over-top ones
// count with their tension and 0.5 g, all others with the rule's own
// (EN 12195-1:2010, 5.2, restated; the lever is from memory).
func (m Machine) tip(r *Rule) *Tip {
	c := r.Tip
	if !m.mixed() && len(m.Sets) > 0 {
		c = r.Side
	}
	out := Tip{Needed: Tips(c, r.Down, Weight(m.Mass), m.Height, m.Track/2)}
	for _, s := range m.Sets {
		gear := GearOf(s.Gear)
		if s.Way == OverTop {
			out.Held += float64(s.Count) * gear.Pull(r) * sin(s.AngleDeg) * m.Track / r.Fs
		} else if cos(90-s.PlanDeg) > 1e-9 {
			out.Held += float64(s.Count/2) * gear.Strength(r) * sin(s.AngleDeg) * m.Track
		}
	}
	return &out
}

func (m Machine) aggregate() *Aggregate {
	var direct, over []float64
	for _, s := range m.Sets {
		for range s.Count {
			if wll := GearOf(s.Gear).WLL; s.Way == OverTop {
				over = append(over, wll)
			} else {
				direct = append(direct, wll)
			}
		}
	}
	a := Count(m.Mass, direct, over, m.LengthM, m.Block > 0)
	return &a
}

// downforce is 49 CFR 393.102(b): 20 % of the weight held upwards, by the parts
// of the limits that pull down.
func (m Machine) downforce(r *Rule) *Margin {
	out := Margin{Direction: "up", Needed: 0.2 * Weight(m.Mass)}
	for _, s := range m.Sets {
		legs := 1.0
		if s.Way == OverTop {
			legs = 2
		}
		out.Direct += legs * float64(s.Count) * GearOf(s.Gear).Strength(r) * sin(s.AngleDeg)
	}
	out.Held = out.Direct
	out.Percent = math.Min(100*out.Held/out.Needed, 1e6)
	return &out
}
