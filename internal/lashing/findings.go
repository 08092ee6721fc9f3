package lashing

import (
	"fmt"

	"ratchetmark/internal/assume"
	"ratchetmark/internal/record"
)

// findings checks what a machine and its lashings are said to be. A blocking one
// means that nothing is worked out.
func (m Machine) findings(r *Rule) []record.Finding {
	var out []record.Finding
	add := func(f *record.Finding) {
		if f != nil {
			out = append(out, *f)
		}
	}
	at := record.Path("transport")
	add(masses.check(float64(m.Mass), "machine/mass_kg"))
	add(mus.check(m.Mu, at.At("friction")))
	add(blocks.check(m.Block, at.At("block_dan")))
	if m.Height > 0 {
		add(heights.check(m.Height, at.At("gravity_height_m")))
	}
	if m.Track > 0 {
		add(tracks.check(m.Track, at.At("track_m")))
	}
	if m.LengthM > 0 {
		add(lengths.check(m.LengthM, at.At("length_m")))
	}
	if len(m.Sets) == 0 {
		add(&record.Finding{Code: "no-lashing", Severity: record.Blocking, Path: at.At("lashings"), Where: at.At("lashings").Words(),
			Message: "no lashing is named", Expected: "the chains or straps that hold the machine", Effect: "nothing is worked out", Hint: "add a lashing"})
	}
	for i, s := range m.Sets {
		out = append(out, s.findings(r, at.At("lashings").At(i+1))...)
	}
	return append(out, m.practice(at)...)
}

var (
	heights = limit{Range: assume.Range{Name: "height of the centre of gravity", Unit: "m", Least: 0.1, Most: 4, Hint: "enter it in m above the deck; the maker knows it"}, why: ""}
	tracks  = limit{Range: assume.Range{Name: "track", Unit: "m", Least: 0.3, Most: 4, Hint: "enter the distance of the outer wheels in m"}, why: ""}
	lengths = limit{Range: assume.Range{Name: "length of the machine", Unit: "m", Least: 0.5, Most: 25, Hint: "enter the stowed length in m"}, why: ""}
)

func (s Set) findings(r *Rule, at record.Path) []record.Finding {
	gear := GearOf(s.Gear)
	if gear == nil {
		return []record.Finding{{Code: "lashing-unknown", Severity: record.Blocking, Path: at.At("gear"), Where: at.At("gear").Words(),
			Message: fmt.Sprintf("lashing %q is not in the table", s.Gear), Expected: "one of the lashings listed", Effect: "nothing is worked out", Hint: "choose one with a capacity you can read on its label"}}
	}
	var out []record.Finding
	add := func(f *record.Finding) {
		if f != nil {
			out = append(out, *f)
		}
	}
	add(counts.whole(float64(s.Count), at.At("count")))
	switch s.Way {
	case OverTop:
		add(overs.check(s.AngleDeg, at.At("angle_deg")))
		add(slack(gear.Pull(r), gear.LC, at.At("gear")))
	case ToFront, ToRear:
		add(directs.check(s.AngleDeg, at.At("angle_deg")))
		add(bearings.check(s.PlanDeg, at.At("plan_deg")))
		if len(out) == 0 {
			add(steepest(s.AngleDeg, s.PlanDeg, at))
		}
	default:
		add(&record.Finding{Code: "way-unknown", Severity: record.Blocking, Path: at.At("way"), Where: at.At("way").Words(),
			Message: fmt.Sprintf("way %q is not known", s.Way), Expected: "front, rear or over", Effect: "nothing is worked out", Hint: "choose how the lashing runs"})
	}
	if gear.Strength(r) <= 0 {
		add(&record.Finding{Code: "lashing-without-limit", Severity: record.Blocking, Path: at.At("gear"), Where: at.At("gear").Words(),
			Message: gear.Name + " has no working load limit in the table", Expected: "a tie-down of 49 CFR 393.108", Effect: "nothing is worked out", Hint: "choose one that the table has, or another rule"})
	}
	return out
}

// practice says what practice asks for beside the sums.
func (m Machine) practice(at record.Path) []record.Finding {
	var out []record.Finding
	number, odd := 0, false
	for _, s := range m.Sets {
		if s.Way != OverTop {
			number += s.Count
			odd = odd || s.Count%2 == 1
		}
	}
	if number < 4 {
		out = append(out, caution(at.At("lashings"), "fewer-than-four", fmt.Sprintf("%d lashings run to the tie-down points of the machine", number),
			"at least four (trade guidance for boom lifts; 49 CFR 393.130 from 10 000 lb)", "the sums may be met, but one lashing that fails frees the machine", "lash at all four tie-down points"))
	}
	if odd {
		out = append(out, caution(at.At("lashings"), "odd-number", "an odd number of lashings runs to one end", "pairs, left and right", "the weaker side counts", "lash in pairs"))
	}
	if m.Lowered == nil || !*m.Lowered {
		f := caution(at.At("lowered"), "not-lowered", "it is not said that the platform and what lifts it are lowered and secured", "accessory equipment lowered and secured (49 CFR 393.130; the maker's manual)",
			"the sums hold for a stowed machine only", "lower and secure them, then say so")
		if m.Lowered != nil {
			f.Severity, f.Message, f.Effect = record.Blocking, "the platform and what lifts it are not lowered and secured", "nothing is worked out"
		}
		out = append(out, f)
	}
	return out
}
