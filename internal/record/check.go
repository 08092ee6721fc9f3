package record

// Rule is one thing a record must satisfy before it is believed.
// The rules come from what counters are, not from any standard: a counter of
// hours cannot fall, bands cannot share a load, a peak cannot lie below a load
// that was counted.
type Rule struct {
	ID       string
	Severity Severity
	Asks     string // what the record is asked
	Effect   string // what a failure does to the conclusions
	Hint     string // what to do about it

	find func(c *Case, hit func(at Path, message, expected string))
}

// Check returns every finding of every rule, in the order of the rules.
func Check(c *Case) []Finding {
	var out []Finding
	var r *Rule
	hit := func(at Path, message, expected string) {
		out = append(out, Finding{
			Code: r.ID, Severity: r.Severity, Path: at, Where: at.Words(),
			Message: message, Expected: expected, Effect: r.Effect, Hint: r.Hint,
		})
	}
	for _, group := range ruleGroups() {
		for i := range group {
			r = &group[i]
			r.find(c, hit)
		}
	}
	return out
}

func ruleGroups() [7][]Rule {
	return [...][]Rule{machineRules, numberRules, bandRules, readingRules, betweenRules, contextRules, toldRules}
}

// Rules lists every rule that [Check] holds a record against.
func Rules() []Rule {
	var all []Rule
	for _, group := range ruleGroups() {
		all = append(all, group...)
	}
	return all
}
