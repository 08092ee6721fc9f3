package lashing_test

import (
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"ratchetmark/internal/lashing"
	"ratchetmark/internal/record"
)

func rad(deg float64) float64 { return deg * math.Pi / 180 }

// fourChains is a machine of 9200 kg on two pairs of chains.
func fourChains() lashing.Machine {
	return lashing.Machine{Rule: lashing.EN, Mass: 9200, Mu: 0.5, Lowered: record.Of(true), Sets: []lashing.Set{
		{Gear: "chain-8", Way: lashing.ToFront, Count: 2, AngleDeg: 40, PlanDeg: 30},
		{Gear: "chain-10", Way: lashing.ToRear, Count: 2, AngleDeg: 35, PlanDeg: 20},
	}}
}

// The balances of EN 12195-1:2010, 5.5, worked out by hand for each direction:
// c·G <= 0.75·mu·G + n·LC·(X + 0.75·mu·Z)/L.
func TestMarginsByHand(t *testing.T) {
	check := fourChains().Check()
	if len(check.Findings) != 0 {
		t.Fatalf("got %v, want no finding", check.Findings)
	}
	g, f := 9200*0.981, 0.75*0.5
	front := func(beta float64) float64 {
		return 4000 * (math.Cos(rad(40))*math.Cos(rad(beta)) + f*math.Sin(rad(40)))
	}
	rear := func(beta float64) float64 {
		return 6300 * (math.Cos(rad(35))*math.Cos(rad(beta)) + f*math.Sin(rad(35)))
	}
	for i, want := range []struct{ needed, held float64 }{
		{0.8 * g, f*g + 2*rear(20)},             // the rear pair holds against moving forward
		{0.5 * g, f*g + 2*front(30)},            // the front pair against moving rearward
		{0.5 * g, f*g + 1*front(60) + rear(70)}, // one of each pair to either side
	} {
		m := check.Margins[i]
		if !near(m.Needed, want.needed, 1e-6) || !near(m.Held, want.held, 1e-6) || !near(m.Percent, 100*want.held/want.needed, 1e-6) {
			t.Errorf("%s: got %+v, want %v of %v", m.Direction, m, want.held, want.needed)
		}
	}
	if !check.Holds() {
		t.Error("got not held, want held")
	}
}

// Over-top lashings alone count with all of the friction and the rule's safety
// factor; beside direct ones with the share of it that counts there.
func TestOverTopAndMixed(t *testing.T) {
	over := lashing.Machine{Rule: lashing.EN, Mass: 2000, Mu: 0.3, Lowered: record.Of(true), Sets: []lashing.Set{{Gear: "web-50-long", Way: lashing.OverTop, Count: 5, AngleDeg: 90}}}
	check := over.Check()
	if m := check.Margins[0]; !near(m.Friction, 0.3*1962, 1e-9) || !near(m.Over, 5*1.6*0.3*500, 1e-9) || !m.Holds() {
		t.Errorf("got %+v, want 5 straps to hold forward (the vector says 5)", m)
	}
	if m := check.Margins[2]; !near(m.Over, 5*2/1.1*0.3*500, 1e-9) {
		t.Errorf("got %v, want 2/1.1 for each strap to the side", m.Over)
	}
	over.Sets[0].Count = 4
	if over.Check().Margins[0].Holds() {
		t.Error("four straps: got held, want not")
	}
	over.Sets = append(over.Sets, lashing.Set{Gear: "chain-8", Way: lashing.ToRear, Count: 2, AngleDeg: 40, PlanDeg: 30})
	if m := over.Check().Margins[0]; !near(m.Friction, 0.75*0.3*1962, 1e-9) || !near(m.Over, 4*1.6*0.75*0.3*500, 1e-9) || m.Direct <= 0 {
		t.Errorf("mixed: got %+v, want 0.75 of the friction", m)
	}
}

// 49 CFR 393.106(d), as in the vector of direct chains: half of each limit.
func TestCFR(t *testing.T) {
	m := lashing.Machine{Rule: lashing.CFR, Mass: record.Kilogram(14000 * kgPerPound), Mu: 0.3, Lowered: record.Of(true), Sets: []lashing.Set{
		{Gear: "g70-38", Way: lashing.ToFront, Count: 2, AngleDeg: 40, PlanDeg: 30}, {Gear: "g70-38", Way: lashing.ToRear, Count: 2, AngleDeg: 40, PlanDeg: 30}}}
	check := m.Check()
	a := check.Aggregate
	if a == nil || !near(a.Required, 7000, 1e-6) || !near(a.Counted, 13200, 1e-6) || a.Number != 4 || a.Least != 4 || !check.Holds() {
		t.Errorf("got %+v, want 13200 of 7000 lb on four tie-downs", a)
	}
	if d := check.Downforce; !near(d.Held, 4*6600*kgPerPound*0.981*math.Sin(rad(40)), 1e-6) || !near(d.Needed, 0.2*14000*kgPerPound*0.981, 1e-6) {
		t.Errorf("downforce: got %+v", d)
	}
	m.Sets[0].Count, m.Sets[1].Count = 1, 1
	if check := m.Check(); check.Aggregate.Holds() || check.Holds() {
		t.Error("two tie-downs for 14000 lb: got held, want not")
	}
	m.Lowered = record.Of(false)
	if check := m.Check(); check.Margins != nil {
		t.Error("boom not lowered: got margins, want none")
	}
	m.Sets[0].Gear = "web-25"
	if check := m.Check(); !strings.Contains(check.Findings[0].Message, "no working load limit") {
		t.Errorf("got %v, want it said that the table lacks the strap", check.Findings)
	}
	for _, v := range []struct {
		lb, m   float64
		blocked bool
		want    int
	}{{1000, 1.5, false, 1}, {1200, 1.5, false, 2}, {3000, 3, false, 2}, {3000, 4, false, 3}, {3000, 4, true, 2}, {12000, 3, true, 4}, {12000, 12, false, 5}, {3000, 0, false, 2}} {
		if got := lashing.Count(record.Kilogram(v.lb*kgPerPound), nil, nil, v.m, v.blocked).Least; got != v.want {
			t.Errorf("%v lb, %v m, blocked %v: got %d, want %d", v.lb, v.m, v.blocked, got, v.want)
		}
	}
}

// A narrow and high machine tips unless something pulls its far side down; one
// that is wide and low stands by itself: c·h <= b.
func TestTipping(t *testing.T) {
	m := fourChains()
	if m.Check().Tip != nil {
		t.Error("got a tipping check, want none without height and track")
	}
	m.Height, m.Track = 1.2, 2.2
	if tip := m.Check().Tip; tip.Needed != 0 || !tip.Holds() {
		t.Errorf("0.6·1.2 <= 1.1: got %+v, want it to stand by itself", tip)
	}
	m.Height, m.Track = 2, 1
	tip := m.Check().Tip
	if want := 9025.2 * (0.6*2 - 0.5); !near(tip.Needed, want, 1e-6) {
		t.Errorf("got %v daN m, want %v", tip.Needed, want)
	}
	if want := 4000*math.Sin(rad(40)) + 6300*math.Sin(rad(35)); !near(tip.Held, want, 1e-6) || tip.Holds() != (want >= tip.Needed) {
		t.Errorf("got %v daN m held, want %v", tip.Held, want)
	}
}

// Every rule is whole, and a machine under it is held the better the more holds it.
func TestHeldProperties(t *testing.T) {
	rng := rand.New(rand.NewPCG(3, 5))
	for _, r := range lashing.Rules {
		if r.Words == "" || r.Source.Status == "" || r.Note == "" || !(r.Forward > 0 && r.Rear > 0 && r.Side > 0 && r.FMu > 0 && r.FMu <= 1 && r.Fs >= 1 && r.FsForward >= r.Fs) {
			t.Errorf("%s: got %+v, want it whole", r.ID, r)
		}
		for range 300 {
			m := fourChains()
			m.Rule, m.Mass, m.Mu = r.ID, record.Kilogram(500+rng.Float64()*20000), 0.1+0.4*rng.Float64()
			a := m.Check()
			m.Sets[0].Count += 2
			m.Sets[1].Count += 2
			b := m.Check()
			m.Mass *= 2
			heavy := m.Check()
			for i := range a.Margins {
				if b.Margins[i].Held <= a.Margins[i].Held || heavy.Margins[i].Percent >= b.Margins[i].Percent {
					t.Fatalf("%s %s: got %v, %v, %v", r.ID, a.Margins[i].Direction, a.Margins[i], b.Margins[i], heavy.Margins[i])
				}
			}
		}
	}
	for _, g := range lashing.Gears {
		if g.LC <= 0 || g.LC > lashing.MostCapacity || g.Tension > g.LC/2 || g.LCFrom.Status == "" || (g.WLL > 0) != (g.WLLFrom != "") || g.Name == "" {
			t.Errorf("%s: got %+v, want it whole", g.ID, g)
		}
	}
	for _, p := range lashing.Pairs {
		if p.Mu <= 0 || p.Mu > lashing.MostFriction || p.Source.Status == "" {
			t.Errorf("%s: got %+v, want it whole", p.ID, p)
		}
	}
}

// What cannot be held against is refused with its place; what is unusual is said.
func TestFindings(t *testing.T) {
	for name, v := range map[string]struct {
		change func(m *lashing.Machine)
		code   string
		refuse bool
	}{
		"friction":  {func(m *lashing.Machine) { m.Mu = 0.9 }, "value-out-of-range transport/friction", true},
		"no mass":   {func(m *lashing.Machine) { m.Mass = 0 }, "value-out-of-range machine/mass_kg", true},
		"none":      {func(m *lashing.Machine) { m.Sets = nil }, "no-lashing transport/lashings", true},
		"gear":      {func(m *lashing.Machine) { m.Sets[0].Gear = "rope" }, "lashing-unknown transport/lashings/1/gear", true},
		"way":       {func(m *lashing.Machine) { m.Sets[1].Way = "round" }, "way-unknown transport/lashings/2/way", true},
		"flat":      {func(m *lashing.Machine) { m.Sets[1].Way, m.Sets[1].AngleDeg = lashing.OverTop, 5 }, "value-out-of-range transport/lashings/2/angle_deg", true},
		"across":    {func(m *lashing.Machine) { m.Sets[1].PlanDeg = 85 }, "value-out-of-range transport/lashings/2/plan_deg", true},
		"steep":     {func(m *lashing.Machine) { m.Sets[0].AngleDeg = 70 }, "angle-unusual transport/lashings/1", false},
		"two":       {func(m *lashing.Machine) { m.Sets = m.Sets[:1] }, "fewer-than-four transport/lashings", false},
		"odd":       {func(m *lashing.Machine) { m.Sets[0].Count = 3 }, "odd-number transport/lashings", false},
		"not said":  {func(m *lashing.Machine) { m.Lowered = nil }, "not-lowered transport/lowered", false},
		"high":      {func(m *lashing.Machine) { m.Height = 9 }, "value-out-of-range transport/gravity_height_m", true},
		"odd track": {func(m *lashing.Machine) { m.Track = math.NaN() }, "", false},
	} {
		m := fourChains()
		v.change(&m)
		check := m.Check()
		found := v.code == ""
		for _, f := range check.Findings {
			found = found || f.Code+" "+string(f.Path) == v.code
		}
		if !found || record.Blocks(check.Findings) != v.refuse || (check.Margins == nil) != v.refuse {
			t.Errorf("%s: got %v, want %s, refused %v", name, check.Findings, v.code, v.refuse)
		}
	}
}

// The inverse: a tension that gives a load gives it back, and what is named as
// giving it does so with a tension that its device leaves.
func TestMatches(t *testing.T) {
	if got := lashing.Apparent(lashing.Tension(812, 1, 60, 0.2), 1, 60, 0.2, 1); !near(float64(got), 812, 1e-9) {
		t.Errorf("got %v kg back, want 812", got)
	}
	best := lashing.Likeliest(lashing.Matches(812, 0.2))
	if best == nil || best.Device.ID != "web-50-long" || best.Straps != 1 || best.AngleDeg != 60 {
		t.Errorf("got %+v, want one long lever at 60 degrees", best)
	}
	for _, m := range lashing.Matches(812, 0.2) {
		if m.Tension < m.Device.Low || m.Tension > m.Device.High {
			t.Errorf("%s: got %v daN, want within its range", m.Device.ID, m.Tension)
		}
	}
	for _, load := range []record.Kilogram{0, -5, 1, 1e6, record.Kilogram(math.NaN())} {
		if best := lashing.Likeliest(lashing.Matches(load, 0.2)); best != nil {
			t.Errorf("%v kg: got %+v, want nothing", load, best)
		}
	}
}
