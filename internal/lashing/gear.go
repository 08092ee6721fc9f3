package lashing

import "ratchetmark/internal/assume"

// DaNPerPound is the weight of a pound in daN.
const DaNPerPound = 0.45359237 * DaNPerKg

// Gear is a lashing with its published capacity.
type Gear struct {
	ID, Name   string
	LC         float64       // lashing capacity, straight pull, daN
	LCFrom     assume.Source // of LC
	WLL        float64       // working load limit, lb; 0 where the table of 49 CFR 393.108 has none
	WLLFrom    assume.Status // of WLL
	Tension    float64       // that it surely leaves over the top, daN: the low end of its tensioner
	Pretension float64       // the Australian figure, kg (from memory); 0 where there is none
}

var (
	bghm   = assume.Source{Document: "BGHM-I 108, chains of grade 8", Status: assume.Read}
	cfr108 = assume.Source{Document: "49 CFR", Clause: "393.108, working load limit taken as capacity", Status: assume.Restated}
	label  = assume.Source{Document: "usual label, EN 12195-2", Status: assume.Memory}
	rope   = assume.Source{Document: "EN 12195-4", Status: assume.Memory}
)

// Gears lists the lashings with their published capacities.
var Gears = []Gear{
	{"web-25", "webbing 25 mm", 250, label, 0, "", 40, 0},
	{"web-35", "webbing 35 mm", 1000, label, 0, "", 100, 0},
	{"web-50", "webbing 50 mm, short handle", 2500, label, 2000, assume.Restated, 250, 300},
	{"web-50-long", "webbing 50 mm, long lever", 2500, label, 2000, assume.Restated, 500, 600},
	{"web-100", "webbing 4 in (100 mm), winch", 4000 * DaNPerPound, cfr108, 4000, assume.Restated, 250, 0},
	{"chain-6", "chain 6 mm, grade 8", 2200, bghm, 3500, assume.Memory, 550, 750},
	{"chain-8", "chain 8 mm, grade 8", 4000, bghm, 4500, assume.Memory, 1000, 750},
	{"chain-10", "chain 10 mm, grade 8", 6300, bghm, 7100, assume.Memory, 1575, 750},
	{"chain-13", "chain 13 mm, grade 8", 10000, bghm, 12000, assume.Memory, 1500, 750},
	{"chain-16", "chain 16 mm, grade 8", 16000, bghm, 18100, assume.Memory, 2400, 750},
	{"g70-14", "chain 1/4 in, grade 70", 3150 * DaNPerPound, cfr108, 3150, assume.Restated, 350, 750},
	{"g70-516", "chain 5/16 in, grade 70", 4700 * DaNPerPound, cfr108, 4700, assume.Restated, 520, 750},
	{"g70-38", "chain 3/8 in, grade 70", 6600 * DaNPerPound, cfr108, 6600, assume.Restated, 730, 750},
	{"g70-12", "chain 1/2 in, grade 70", 11300 * DaNPerPound, cfr108, 11300, assume.Restated, 750, 750},
	{"g70-58", "chain 5/8 in, grade 70", 15800 * DaNPerPound, cfr108, 15800, assume.Restated, 1050, 750},
	{"rope-8", "wire rope 8 mm (5/16 in)", 1120, rope, 2100, assume.Memory, 150, 0},
	{"rope-10", "wire rope 10 mm (3/8 in)", 1750, rope, 3000, assume.Memory, 150, 0},
	{"rope-12", "wire rope 12 mm (1/2 in)", 2500, rope, 5300, assume.Memory, 150, 0},
}

// MostCapacity is the highest capacity of any row of the table, in daN.
const MostCapacity = 16000

// GearOf returns a lashing by its ID; nil where there is none.
func GearOf(id string) *Gear {
	for i := range Gears {
		if Gears[i].ID == id {
			return &Gears[i]
		}
	}
	return nil
}

// Strength returns what a rule counts a lashing with, in daN; 0 where its table
// does not have it.
func (g *Gear) Strength(r *Rule) float64 {
	if r.ByWLL {
		return g.WLL * DaNPerPound
	}
	return g.LC
}

// Pull returns the tension over the top that a rule counts with, in daN.
func (g *Gear) Pull(r *Rule) float64 {
	if r.Pretension && g.Pretension > 0 {
		return min(g.Pretension*DaNPerKg, g.LC/2)
	}
	return g.Tension
}
