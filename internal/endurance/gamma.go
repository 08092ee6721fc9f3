package endurance

// Assessment is a concept with a consequence of failure, chosen in words.
type Assessment struct {
	Concept     string // "damage tolerant" or "safe life"
	Consequence string // "low" or "high"
	GammaMf     float64
	Words       string // what the choice means
}

// Assessments are the partial factors for fatigue strength.
// (EN 1993-1-9:2005, table 3.1, restated)
var Assessments = []Assessment{
	{"damage tolerant", "low", 1.00, "a crack would be found by inspection in time, and a failure here would harm little"},
	{"damage tolerant", "high", 1.15, "a crack would be found by inspection in time, but a failure here could harm people"},
	{"safe life", "low", 1.15, "no inspection is relied on, and a failure here would harm little"},
	{"safe life", "high", 1.35, "no inspection is relied on, and a failure here could harm people"},
}

// GammaMf returns the factor of a concept and a consequence; ok is false for
// words that are not in [Assessments].
func GammaMf(concept, consequence string) (gamma float64, ok bool) {
	for _, a := range Assessments {
		if a.Concept == concept && a.Consequence == consequence {
			return a.GammaMf, true
		}
	}
	return 0, false
}
