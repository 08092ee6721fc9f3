package lashing

import "ratchetmark/internal/assume"

// Direction is a way a load can move on its vehicle.
type Direction string

// The directions. Side is both left and right.
const (
	Forward Direction = "forward"
	Rear    Direction = "rear"
	Side    Direction = "side"
)

// Directions lists them in the order in which they are shown.
var Directions = []Direction{Forward, Rear, Side}

// Rule is what a machine has to be held against, as shares of its weight, and
// how what holds it is counted.
type Rule struct {
	ID                  string
	Words               string
	Forward, Rear, Side float64 // acceleration, in g
	Down                float64 // share of the weight that presses it down
	Tip                 float64 // sideways against tipping, in g, with direct lashings
	FsForward, Fs       float64 // safety factor of over-top lashings: forward; side and rear
	FMu                 float64 // share of the friction that counts beside direct lashings
	ByWLL               bool    // strength is the working load limit, not the lashing capacity
	Pretension          bool    // over-top lashings count with the pre-tension of the rule's own table
	Source              assume.Source
	Note                string // what else to know
}

// The names of the rules.
const (
	EN         = "EN 12195-1:2010"
	UK         = "UK code of practice"
	CFR        = "49 CFR 393"
	Australian = "Australian load restraint guide"
)

// Rules lists the rules to choose from.
var Rules = []Rule{
	{ID: EN, Words: "Europe: EN 12195-1:2010", Forward: 0.8, Rear: 0.5, Side: 0.5, Down: 1, Tip: 0.6, FsForward: 1.25, Fs: 1.1, FMu: 0.75,
		Source: assume.Source{Document: "EN 12195-1", Edition: "2010", Clause: "5", Status: assume.Restated},
		Note:   "coefficients and factors as restated by the German insurers' handbook (GDV); the vertical one from memory"},
	{ID: UK, Words: "United Kingdom: 100 % forward, 50 % to the side and rear", Forward: 1, Rear: 0.5, Side: 0.5, Down: 1, Tip: 0.6, FsForward: 1.25, Fs: 1.1, FMu: 0.75,
		Source: assume.Source{Document: "UK code of practice for loads on vehicles", Status: assume.Restated},
		Note:   "worked out by the method of EN 12195-1:2010, which is a choice of this program"},
	{ID: CFR, Words: "United States: 49 CFR 393", Forward: 0.435, Rear: 0.5, Side: 0.25, Down: 1, Tip: 0.5, FsForward: 1, Fs: 1, FMu: 0.75, ByWLL: true,
		Source: assume.Source{Document: "49 CFR", Clause: "393.102", Status: assume.Read},
		Note:   "0.435, 0.5 and 0.25 g against the working load limit; that friction counts, and with 0.75, and tipping with 0.5 g are choices of this program; 0.8, 0.5 and 0.5 g against the breaking strength are not checked"},
	{ID: Australian, Words: "Australia: performance levels", Forward: 0.8, Rear: 0.5, Side: 0.5, Down: 1, Tip: 0.5, FsForward: 1, Fs: 1, FMu: 0.75, Pretension: true,
		Source: assume.Source{Document: "Australian load restraint guide, performance levels", Status: assume.Memory},
		Note:   "levels and pre-tensions from memory; that friction counts with 0.75 beside direct lashings, and tipping with 0.5 g, are choices of this program"},
}

// RuleOf returns a rule by its ID; nil where there is none.
func RuleOf(id string) *Rule {
	for i := range Rules {
		if Rules[i].ID == id {
			return &Rules[i]
		}
	}
	return nil
}

// Share returns the acceleration in a direction, in g.
func (r *Rule) Share(d Direction) float64 {
	switch d {
	case Forward:
		return r.Forward
	case Rear:
		return r.Rear
	}
	return r.Side
}

// Safety returns the safety factor of over-top lashings in a direction.
func (r *Rule) Safety(d Direction) float64 {
	if d == Forward {
		return r.FsForward
	}
	return r.Fs
}

// NotCovered is what no rule here covers.
const NotCovered = "It does not cover the anchor points and the deck of the vehicle, the maker's own instructions for loading and lashing, parts that can swing or slew, nor the rules of each country. The maker's manual and local law come first."
