package dossier

import (
	"fmt"
	"strings"

	"ratchetmark/internal/cause"
	"ratchetmark/internal/record"
)

// outcome says what came of a piece: a cause is named, or why none is.
type outcome string

const (
	isNamed   outcome = "named"
	isSmall   outcome = "plate"      // the rated load carries no person
	mayBeHere outcome = "band"       // the band begins under the rated load
	mayBeOld  outcome = "older"      // the hours may be older than the interval
	isBeyond  outcome = "beyond"     // no load known to the models is so high
	byWeights outcome = "weights"    // the record fits another cause better
	isAlike   outcome = "alike"      // it fits two about equally well
	isTurned  outcome = "turns"      // another leads within what is assumed
	isPart    outcome = "part"       // it cannot have made all of the hours
	isWeak    outcome = "not enough" // too little to name it
)

// alike is the ratio under which two causes fit about equally well.
const alike = 2.0

const ofAssumed = "as the assumptions move"

// outcomeOf sorts a piece by what came of it.
func outcomeOf(x *Exceedance, rated record.Kilogram) outcome {
	r := x.Ratio
	switch {
	case x.Verdict != cause.Undecided:
		return isNamed
	case rated < cause.LeastPlatform:
		return isSmall
	case x.MayBeUnder && x.From < rated:
		return mayBeHere
	case x.MayBeUnder:
		return mayBeOld
	case x.Beyond:
		return isBeyond
	case r.Value < 1:
		return byWeights
	case r.Value < alike:
		return isAlike
	case r.Low < 1:
		return isTurned
	case contradiction(x) != "":
		return isPart
	}
	return isWeak
}

// hasEnough reports whether the ratio and the weight of the leader are what
// naming it asks for.
func hasEnough(x *Exceedance) bool {
	ratio, weight := cause.Asked(x.Leader)
	return x.Ratio.Low >= ratio && x.Posterior.Get(x.Leader) >= weight
}

// outcomeWords say why nothing is weighed: hours may lie under the rated load or
// be older, the plate says too little, or a register may have failed.
var outcomeWords = map[outcome]string{
	isSmall:   "Undecided: no cause is named against a rated load that carries no person; read the plate again.",
	mayBeHere: "Undecided: these hours may lie under the rated load, because the band holds loads under it as well; only narrower bands could tell.",
	mayBeOld:  "Undecided: these hours may be older than the interval, because what it gained could not be told; the findings say why.",
	isBeyond:  "Undecided: no load that is known of such a platform is so high; the register may be full or have failed.",
}

// verdictSentence answers why a piece went over: what the record supports, by
// how much, and how sure that is.
func verdictSentence(x *Exceedance, rated record.Kilogram) string {
	r := x.Ratio
	lead, rival := plainly(x.Leader), plainly(r.Against)
	fits := fmt.Sprintf("%s times as well as %s", Times(r.Value), rival)
	span := fmt.Sprintf("%s to %s times %s", lowText(r.Low), Times(r.High), ofAssumed)
	switch o := outcomeOf(x, rated); o {
	case isNamed:
		return fmt.Sprintf("The record supports %s as the cause (%s): it fits that %s, the best rival (%s).", lead, x.Words, fits, span)
	case byWeights:
		return fmt.Sprintf("Undecided between %s and %s: the record fits %s %s times better; only the weights set before any evidence put %s ahead.", lead, rival, rival, Times(1/r.Value), lead)
	case isAlike:
		return fmt.Sprintf("Undecided between %s and %s: the record fits %s %s times as well, which is about equally (%s).", lead, rival, Short(x.Leader), Times(r.Value), span)
	case isTurned:
		return fmt.Sprintf("Undecided: the record fits %s best, %s, but that is not sure: %s.", lead, fits, span)
	case isPart:
		return fmt.Sprintf("Undecided: the record fits %s best, %s, but %s.", lead, fits, contradiction(x))
	case isWeak:
		return fmt.Sprintf("Undecided: the record fits %s best, %s (%s), but %s.", lead, fits, span, shortfall(x))
	default:
		return outcomeWords[o]
	}
}

// shortfall says what the leader lacks to be named.
func shortfall(x *Exceedance) string {
	ratio, weight := cause.Asked(x.Leader)
	var parts []string
	if w := x.Posterior.Get(x.Leader); w < weight {
		has, asked := WeightText(w), WeightText(weight)
		if has == asked {
			has = "just under that"
		}
		parts = append(parts, fmt.Sprintf("a weight of %s (it has %s)", asked, has))
	}
	if x.Ratio.Low < ratio {
		parts = append(parts, fmt.Sprintf("%s times at the low end", Times(ratio)))
	}
	if len(parts) == 0 {
		return "that is not enough to name it"
	}
	return "naming it takes " + list(parts, "and")
}

// contradiction says that custody, or where the machine was powered, leaves the
// leader too few of the hours; empty where it does not. Where nothing else keeps
// the leader from being named, whatever is left to others does.
func contradiction(x *Exceedance) string {
	if x.Hours == nil {
		return ""
	}
	slack := 0.1*x.Hours.High + 0.1
	if hasEnough(x) {
		slack = 0
	}
	for _, s := range x.ByCause {
		switch {
		case s.Cause == x.Leader && s.High < x.Hours.High-slack:
			return fmt.Sprintf("it can have made at most %s of the %s", H(s.High), H(x.Hours.High))
		case s.Cause != x.Leader && s.Low > slack:
			return fmt.Sprintf("at least %s of the %s can hardly have come from anything but %s", H(s.Low), H(x.Hours.High), plainly(s.Cause))
		}
	}
	return ""
}

// lowText writes the low end of a range; one that lies under 1 does not read as 1.
func lowText(x float64) string {
	if text := Times(x); x >= 1 || text != "1.0" {
		return text
	}
	return "just under 1"
}

// wouldMean says, for each cause, what must have happened if it is the cause.
var wouldMean = map[cause.What]map[cause.Cause]string{
	cause.Peak: {
		cause.Worked: "people, tools and material of that weight were on the platform",
		cause.Lashed: "a strap or chain over the platform pulled it down while the machine was switched on",
		cause.Shock:  "a jolt threw the reading up for a moment; hours in the band of the peak then came from something else",
		cause.Drift:  "the cell read too high, and the true load was lower",
	},
	cause.Band: {
		cause.Worked: "people, tools and material of that weight were on the platform for that time",
		cause.Lashed: "a strap or chain over the platform pulled it down for that time, with the machine switched on",
		cause.Shock:  "jolts came so often that their moments add up to that time",
		cause.Drift:  "the cell read too high, and the true loads were lower",
	},
}

// Alternative names the best other reading, with its weight and what it means.
func Alternative(x *Exceedance) string {
	rival := x.Ratio.Against
	return fmt.Sprintf("The best other reading is %s (weight %s): %s.", plainly(rival), WeightText(x.Posterior.Get(rival)), wouldMean[x.What][rival])
}

const loadTest = " A load test in the workshop reads like this as well: ask whether one was made."

// otherwise states the best alternative reading fairly: what it means and what
// speaks for it.
func otherwise(x *Exceedance) string {
	text := Alternative(x)
	var speaks []string
	for _, r := range x.Reasons {
		if Pull(x, r) <= -hardlyPulls {
			speaks = append(speaks, r.Text)
		}
	}
	if len(speaks) == 0 {
		text += " Nothing in the record fits it better."
	} else {
		text += " For it speaks: " + strings.Join(speaks, "; ") + "."
	}
	if x.LoadTest {
		text += loadTest
	}
	return text
}

// noneAlone is said where the range of the ratio reaches under 1 and none of the
// assumptions that are named does that by itself.
const noneAlone = "None of the assumptions that move it most turns it over by itself; others, or several together, could."

// TurnsOver says which assumption turns the leader over, and at which value; or
// that none does by itself. Empty where the record has no leader.
func TurnsOver(x *Exceedance) string {
	if x.Ratio.Value < 1 || x.MayBeUnder || len(x.Matters) == 0 {
		return ""
	}
	var parts []string
	for _, m := range x.Matters {
		if m.FlipsAt != nil {
			parts = append(parts, m.Name+": "+m.flips())
		}
	}
	switch {
	case len(parts) > 0:
		return "What turns it over: " + strings.Join(parts, "; ") + "."
	case x.Ratio.Low < 1:
		return noneAlone
	}
	return "No assumption turns it over within its interval."
}
