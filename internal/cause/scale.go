package cause

import "ratchetmark/internal/record"

// verbal is a row of the scale in which the strength of evidence is said.
type verbal struct {
	from  float64 // likelihood ratio from which the words hold
	words string
}

// scale is the verbal scale of ENFSI, Guideline for evaluative reporting in
// forensic science, 2015, table of likelihood ratios (from memory).
var scale = []verbal{
	{1e6, "extremely strong support"},
	{1e4, "very strong support"},
	{1e3, "strong support"},
	{100, "moderately strong support"},
	{10, "moderate support"},
	{2, "weak support"},
	{0, "no support for one over the other"},
}

// Words says how strong the evidence is for a likelihood ratio of 1 or more.
func Words(ratio float64) string {
	for _, v := range scale {
		if ratio >= v.from {
			return v.words
		}
	}
	return scale[len(scale)-1].words
}

// Asked returns what naming a cause asks for: its likelihood ratio against the
// best rival at the low end of its range, and its weight.
func Asked(c Cause) (ratio, weight float64) { return required[c].ratio, required[c].posterior }

// LeastPlatform is the rated load, in kg, below which no cause is named: no
// platform that carries a person is rated for less.
const LeastPlatform record.Kilogram = leastPlatform

// Records names every record that can be asked for.
func Records() []string {
	var out []string
	for _, q := range questions {
		out = append(out, q.record)
	}
	return out
}
