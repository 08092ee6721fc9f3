package record

import (
	"fmt"
	"math"
	"slices"
	"time"
)

const notUsed = "it is kept but not used"

// toldRules are about checks of the load shown and about tie-downs: what people
// tell beside the counters. None of them withholds a conclusion.
var toldRules = []Rule{
	{
		ID: "check-unknown", Severity: Doubt,
		Asks:   "is every check of a kind that is told apart",
		Effect: notUsed,
		Hint:   "write zero or known_mass",
		find: eachCheck(func(_ *Case, k LoadCheck, at Path, hit func(Path, string, string)) {
			if !slices.Contains(LoadKinds, k.Kind) {
				hit(at.At("kind"), fmt.Sprintf("check %q", k.Kind), "zero (nothing on the platform) or known_mass")
			}
		}),
	},
	{
		ID: "check-undated", Severity: Doubt,
		Asks:   "does every check say when it was made",
		Effect: notUsed,
		Hint:   "enter when the load shown was looked at",
		find: eachCheck(func(_ *Case, k LoadCheck, at Path, hit func(Path, string, string)) {
			if k.At.IsZero() {
				hit(at.At("at"), "the check has no time", "a time such as 2026-03-02T08:10:00Z")
			}
		}),
	},
	{
		ID: "check-far-off", Severity: Doubt,
		Asks:   "was every check made while the machine was in service and within five years of a reading",
		Effect: notUsed,
		Hint:   "look for a slip in the year",
		find: eachCheck(func(c *Case, k LoadCheck, at Path, hit func(Path, string, string)) {
			farOffFinding(c, k.At, at, hit)
		}),
	},
	{
		ID: "check-nothing-shown", Severity: Doubt,
		Asks:   "does every check say what the machine showed",
		Effect: notUsed,
		Hint:   "enter the load shown; 0 where it showed 0",
		find: eachCheck(func(_ *Case, k LoadCheck, at Path, hit func(Path, string, string)) {
			switch {
			case k.Shown == nil:
				hit(at.At("shown_kg"), "the load shown is missing", "the load that the machine showed, in kg")
			case !Finite(*k.Shown) || max(*k.Shown, -*k.Shown) > maxLoad:
				hit(at.At("shown_kg"), "the load shown is "+numberOr(*k.Shown), "at most "+Number(maxLoad)+" kg")
			}
		}),
	},
	{
		ID: "check-mass-unclear", Severity: Doubt,
		Asks:   "does every check say what lay on the platform, and only if something did",
		Effect: notUsed,
		Hint:   "enter the mass that lay on the platform; leave it blank if nothing did",
		find: eachCheck(func(_ *Case, k LoadCheck, at Path, hit func(Path, string, string)) {
			switch {
			case k.massFits():
			case k.Kind == ZeroCheck:
				hit(at.At("mass_kg"), "a zero check with a mass of "+numberOr(*k.Mass)+" kg", "nothing on the platform")
			case k.Mass == nil:
				hit(at.At("mass_kg"), "the mass on the platform is missing", "its mass in kg")
			default:
				hit(at.At("mass_kg"), "the mass is "+numberOr(*k.Mass)+" kg", "more than 0 and at most "+Number(maxLoad)+" kg")
			}
		}),
	},
	{
		ID: "check-reads-wrong", Severity: Doubt,
		Asks:   "did the machine show what lay on its platform, within 5 % of the rated load",
		Effect: "loads that it kept meanwhile are off as well: the true ones were higher where it showed too little, lower where it showed too much",
		Hint:   "have the cell set and checked again, as its maker says, before the machine is used",
		find: eachCheck(func(c *Case, k LoadCheck, at Path, hit func(Path, string, string)) {
			rated := c.Machine.RatedLoad
			if !k.usable(c) || rated == nil || *rated < leastRated || !usable(*rated, maxLoad) || !k.Wrong(*rated) {
				return
			}
			far, which := k.Off(), "too much"
			if far < 0 {
				far, which = -far, "too little"
			}
			hit(at.At("shown_kg"), fmt.Sprintf("the load shown is %s kg with %s kg on the platform, %s kg %s", tenth(*k.Shown), tenth(k.On()), tenth(far), which), "at most "+tenth(wrongFrom**rated)+" kg off")
		}),
	},
	{
		ID: "tie-down-undated", Severity: Doubt,
		Asks:   "does every tie-down say when it was",
		Effect: notUsed,
		Hint:   "enter a time within the trip",
		find: eachTieDown(func(_ *Case, t TieDown, at Path, hit func(Path, string, string)) {
			if t.At.IsZero() {
				hit(at.At("at"), "the tie-down has no time", "a time within the trip")
			}
		}),
	},
	{
		ID: "tie-down-far-off", Severity: Doubt,
		Asks:   "was every tie-down while the machine was in service and within five years of a reading",
		Effect: notUsed,
		Hint:   "look for a slip in the year",
		find: eachTieDown(func(c *Case, t TieDown, at Path, hit func(Path, string, string)) {
			farOffFinding(c, t.At, at, hit)
		}),
	},
	{
		ID: "tie-down-unsaid", Severity: Doubt,
		Asks:   "does every tie-down say whether it went over the platform",
		Effect: notUsed,
		Hint:   "say yes or no, or remove the entry",
		find: eachTieDown(func(_ *Case, t TieDown, at Path, hit func(Path, string, string)) {
			if t.Over == nil {
				hit(at.At("over_platform"), "it is not said whether it went over the platform", "true or false")
			}
		}),
	},
	{
		ID: "tie-down-source-unknown", Severity: Doubt,
		Asks:   "does every tie-down say how it is known",
		Effect: notUsed,
		Hint:   "write seen, photo, paper or told",
		find: eachTieDown(func(_ *Case, t TieDown, at Path, hit func(Path, string, string)) {
			if !slices.Contains(Knowns, t.How) {
				hit(at.At("how"), fmt.Sprintf("known by %q", t.How), "seen, photo, paper or told")
			}
		}),
	},
	{
		ID: "tie-down-without-trip", Severity: Note,
		Asks:   "does every tie-down lie in a trip or within a day of one",
		Effect: "it counts for the interval that its time lies in",
		Hint:   "correct its time, or enter the trip: in transit, from when to when",
		find: eachTieDown(func(c *Case, t TieDown, at Path, hit func(Path, string, string)) {
			broken := slices.ContainsFunc(c.Custody, func(u Custody) bool { return !u.usable() }) // a finding of its own
			if t.usable(c) && len(c.Custody) > 0 && !broken && c.tripAt(t.At) < 0 {
				hit(at.At("at"), "no trip is named at "+clock(t.At), "a custody entry in transit at that time")
			}
		}),
	},
}

func eachCheck(f func(c *Case, k LoadCheck, at Path, hit func(Path, string, string))) func(*Case, func(Path, string, string)) {
	return func(c *Case, hit func(Path, string, string)) {
		for i, k := range c.Checks {
			f(c, k, Path("checks").At(i+1), hit)
		}
	}
}

func eachTieDown(f func(c *Case, t TieDown, at Path, hit func(Path, string, string))) func(*Case, func(Path, string, string)) {
	return func(c *Case, hit func(Path, string, string)) {
		for i, t := range c.TieDowns {
			f(c, t, Path("tie_downs").At(i+1), hit)
		}
	}
}

// farOffFinding notes a time that lies before the machine was in service or
// years from every reading.
func farOffFinding(c *Case, t time.Time, at Path, hit func(Path, string, string)) {
	if t.IsZero() || c.nearReadings(t) {
		return
	}
	if s := c.Machine.InService; s != nil && t.Before(s.Time) {
		hit(at.At("at"), clock(t)+" lies before the machine was put into service", "a time from "+s.String()+" on")
		return
	}
	hit(at.At("at"), clock(t)+" lies more than five years from every reading", "a time nearer to the readings")
}

// tenth writes a load to the tenth of a kilogram.
func tenth(x Kilogram) string { return Number(math.Round(float64(x)*10) / 10) }

// numberOr writes a number, or says that it is none.
func numberOr(x Kilogram) string {
	if !Finite(x) {
		return "not a finite number"
	}
	return Number(x)
}
