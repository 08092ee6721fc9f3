package lashing

import (
	"fmt"

	"ratchetmark/internal/assume"
	"ratchetmark/internal/record"
)

// limit is a bound beyond which a figure would lend weight to a dangerous
// lashing: nothing is worked out from it.
type limit struct {
	assume.Range
	why string // beside what the range itself says
}

// What figures may be. The bounds without a source are choices of this program.
var (
	masses   = limit{assume.Range{Name: "mass of the machine", Unit: "kg", Least: 50, Most: 60_000, Hint: "read the plate again: mass and unit"}, ""}
	mus      = limit{assume.Range{Name: "friction coefficient", Unit: "", Least: 0.01, Most: MostFriction, Hint: "take the row of the table that fits, or have the friction measured"}, "no row of the table of EN 12195-1:2010, Annex B (restated), lies above 0.6; 0.2 is the most on an unswept or frosty deck"}
	overs    = limit{assume.Range{Name: "angle of an over-top lashing to the deck", Unit: "degrees", Least: 30, Most: 90, Hint: "lash directly at the tie-down points instead"}, "so flat a lashing hardly presses the machine down"}
	directs  = limit{assume.Range{Name: "angle of a direct lashing to the deck", Unit: "degrees", Least: 0, Most: 80, Hint: "lead it flatter, along the way it shall hold"}, "so steep a lashing hardly holds sideways"}
	bearings = limit{assume.Range{Name: "angle of a lashing in plan to the way it shall hold", Unit: "degrees", Least: 0, Most: 80, Hint: "take a lashing that runs more along that way"}, "across, it does not hold that way"}
	tensions = limit{assume.Range{Name: "tension of a lashing", Unit: "daN", Least: 1, Most: MostCapacity / 2, Hint: "read the label: STF, in daN"}, "half of the highest capacity in the tables of EN 12195-2 and -3, the most that pre-tension may be (restated)"}
	capacity = limit{assume.Range{Name: "lashing capacity", Unit: "daN", Least: 50, Most: MostCapacity, Hint: "read the tag: LC, in daN, straight pull"}, "the highest in the table of BGHM-I 108 is 16000 daN, chain 16 mm"}
	wlls     = limit{assume.Range{Name: "working load limit", Unit: "lb", Least: 100, Most: 38_000, Hint: "read the tag: WLL, in lb"}, "no row of 49 CFR 393.108 (from memory) lies above 38000 lb"}
	counts   = limit{assume.Range{Name: "number of lashings", Unit: "", Least: 1, Most: 40, Hint: "enter a whole number of lashings"}, ""}
	edgeMus  = limit{assume.Range{Name: "friction of the edge", Unit: "", Least: 0, Most: 1, Hint: "enter a friction from 0 to 1, usually 0.2"}, ""}
	shares   = limit{assume.Range{Name: "factor k", Unit: "", Least: 1, Most: 2, Hint: "2 where the strap pulls on both sides, 1 where on one"}, ""}
	factors  = limit{assume.Range{Name: "safety factor", Unit: "", Least: 1, Most: 3, Hint: "leave it out for the rule's own"}, "a factor below 1 would take the rule's own safety away"}
	blocks   = limit{assume.Range{Name: "blocking force", Unit: "daN", Least: 0, Most: 60_000, Hint: "enter what the front wall or the blocks are known to hold"}, ""}
	straps   = limit{assume.Range{Name: "number of straps over the platform", Unit: "", Least: 1, Most: 12, Hint: "enter a whole number of straps"}, ""}
	flats    = limit{assume.Range{Name: "angle of a strap over the platform to the deck", Unit: "degrees", Least: 5, Most: 90, Hint: "enter the angle between strap and deck"}, ""}
	overMost = limit{assume.Range{Name: "tension of a strap over the platform", Unit: "daN", Least: 1, Most: 5000, Hint: "enter the tension in daN; a long-lever ratchet gives 500 to 1000"}, ""}
)

// check returns a finding where a figure is beyond its limit; nil where it is not.
func (l limit) check(x float64, at record.Path) *record.Finding {
	f := l.Check(x, at)
	if f != nil && l.why != "" {
		f.Expected += ": " + l.why
	}
	return f
}

// whole returns a finding where a count is beyond its limit or no whole number.
func (l limit) whole(x float64, at record.Path) *record.Finding {
	if f := l.check(x, at); f != nil || x == float64(int(x)) {
		return f
	}
	return &record.Finding{
		Code: "value-out-of-range", Severity: record.Blocking, Path: at, Where: at.Words(),
		Message: l.Name + " is " + record.Number(x), Expected: "a whole number", Effect: "nothing is worked out from it", Hint: l.Hint,
	}
}

// caution is a figure that can be worked with and still wants a second look.
func caution(at record.Path, code, message, expected, effect, hint string) record.Finding {
	return record.Finding{Code: code, Severity: record.Doubt, Path: at, Where: at.Words(), Message: message, Expected: expected, Effect: effect, Hint: hint}
}

// doubts of figures within their limits.

// highTension warns of more tension than a hand-worked ratchet leaves.
func highTension(tension float64, at record.Path) *record.Finding {
	if tension <= 1000 {
		return nil
	}
	f := caution(at, "tension-high", fmt.Sprintf("tension of a lashing is %s daN", record.Number(tension)), "at most 1000 daN, what a long-lever ratchet leaves (restated); more only with chain or winch",
		"the answer rests on a tension that was not measured", "measure it, or take STF from the label")
	return &f
}

// steepest warns of a direct lashing that is steeper or more across than the
// usual angles: up to 65 degrees to the deck, 55 in plan (GDV; from memory).
func steepest(alpha, beta float64, at record.Path) *record.Finding {
	if alpha <= 65 && beta <= 55 {
		return nil
	}
	f := caution(at, "angle-unusual", fmt.Sprintf("a direct lashing stands at %s degrees to the deck and %s in plan", record.Number(alpha), record.Number(beta)),
		"at most 65 and 55 degrees (usual in practice, from memory)", "a few degrees more change the answer much", "lead it flatter and more along the way it shall hold")
	return &f
}

// slack warns of tension above half of the capacity.
func slack(tension, lc float64, at record.Path) *record.Finding {
	if tension <= lc/2 {
		return nil
	}
	f := caution(at, "tension-above-half", fmt.Sprintf("tension is %s daN of a capacity of %s daN", record.Number(tension), record.Number(lc)),
		"0.05 to 0.5 of the capacity (EN 12195-1:2010, restated)", "nothing is worked out from it", "tension less, or take a stronger lashing")
	f.Severity = record.Blocking
	return &f
}
