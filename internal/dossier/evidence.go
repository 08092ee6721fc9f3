package dossier

import (
	"cmp"
	"fmt"
	"math"
	"strings"

	"ratchetmark/internal/cause"
	"ratchetmark/internal/record"
)

// Pull is how far a row of evidence pulls towards the leading cause and away
// from its best rival: the logarithm of their likelihoods; below zero, towards
// the rival.
func Pull(x *Exceedance, r Reason) float64 {
	return r.Log10.Get(x.Leader) - r.Log10.Get(x.Ratio.Against)
}

// hardlyPulls is the pull under which a row of evidence tells the two apart no
// further: a factor of a quarter.
const hardlyPulls = 0.1

// PullText says how much better a row of evidence fits which of the two causes.
func PullText(x *Exceedance, r Reason) string {
	pull := Pull(x, r)
	times := Times(math.Pow(10, math.Abs(pull)))
	switch {
	case pull >= hardlyPulls:
		return fmt.Sprintf("fits %s %s times better", short[x.Leader], times)
	case pull <= -hardlyPulls:
		return fmt.Sprintf("fits %s %s times better", short[x.Ratio.Against], times)
	}
	return "fits both alike"
}

// Telling returns the rows of evidence that tell the leading cause from its best
// rival, what pulls most first, and the texts of those that fit both alike.
func Telling(x *Exceedance) (telling []Reason, alike []string) {
	for _, r := range x.Reasons {
		if math.Abs(Pull(x, r)) < hardlyPulls {
			alike = append(alike, r.Text)
		} else {
			telling = append(telling, r)
		}
	}
	record.SortStable(telling, func(a, b Reason) int { return cmp.Compare(math.Abs(Pull(x, b)), math.Abs(Pull(x, a))) })
	return telling, alike
}

// AlikeText puts together what fits both causes alike; empty where nothing does.
func AlikeText(alike []string) string {
	if len(alike) == 0 {
		return ""
	}
	return "Fits both alike: " + strings.Join(alike, "; ") + "."
}

// short names causes where there is little room.
var short = map[cause.Cause]string{
	cause.Worked: "work", cause.Lashed: "tie-down", cause.Shock: "a shock", cause.Drift: "drift",
}

// Short names a cause where there is little room.
func Short(c cause.Cause) string { return short[c] }

// WeightsText writes the weight of each cause.
func WeightsText(x *Exceedance) string {
	var parts []string
	for _, c := range cause.All {
		parts = append(parts, short[c]+" "+WeightText(x.Posterior.Get(c)))
	}
	return strings.Join(parts, ", ")
}

// WeightText writes a weight in percent, and none as certain.
func WeightText(w float64) string {
	switch {
	case w < 0.01:
		return "under 1 %"
	case w > 0.99:
		return "over 99 %"
	}
	return digits(100*w, 0) + " %"
}

// SharedText says how a band's hours may divide among the causes, where the
// record bounds that; empty where it does not.
func SharedText(x *Exceedance) string {
	var parts []string
	for _, s := range x.ByCause {
		if s.Low >= 0.05 && x.Hours.High-s.Low >= 0.05 {
			parts = append(parts, fmt.Sprintf("at least %s can hardly have come from anything but %s", H(s.Low), plainly(s.Cause)))
		} else if s.Cause == x.Leader && x.Hours.High-s.High >= 0.05 {
			parts = append(parts, fmt.Sprintf("at most %s can have come from %s", H(s.High), plainly(s.Cause)))
		}
	}
	if len(parts) == 0 {
		return ""
	}
	return "Of the " + H(x.Hours.High) + ", " + list(parts, "and") + "."
}
