package host

import (
	"cmp"
	"slices"
	"strconv"
	"strings"
)

const (
	codingBrotli   = "br"
	codingGzip     = "gzip"
	codingIdentity = "identity"
)

// codings are those that can be sent, smallest result first: the order among equals.
var codings = []string{codingBrotli, codingGzip, codingIdentity}

// unlisted is the weight of identity where the field does not name it: acceptable, but after all that is named.
const unlisted = 0.0001

// acceptable returns the codings that an Accept-Encoding field (all its lines) allows, the best first.
//
// RFC 9110, 12.5.3. A request without the field would accept any coding; it gets identity, as whoever sends no such field
// rarely decodes anything.
func acceptable(lines []string) []string {
	weights := parseWeights(strings.Join(lines, ","))
	var allowed []string
	weight := map[string]float64{}
	for _, coding := range codings {
		weight[coding] = weightOf(weights, coding)
		if weight[coding] > 0 {
			allowed = append(allowed, coding)
		}
	}
	slices.SortStableFunc(allowed, func(a, b string) int { return cmp.Compare(weight[b], weight[a]) })
	return allowed
}

// weightOf finds the weight of a coding: its own, else that of *, else the one that goes without saying.
func weightOf(weights map[string]float64, coding string) float64 {
	if w, ok := weights[coding]; ok {
		return w
	}
	if w, ok := weights["*"]; ok {
		return w
	}
	if coding == codingIdentity {
		return unlisted
	}
	return 0
}

// parseWeights reads the members of the field; one that breaks the grammar is left out.
func parseWeights(field string) map[string]float64 {
	weights := map[string]float64{}
	for member := range strings.SplitSeq(field, ",") {
		coding, params, _ := strings.Cut(member, ";")
		coding = strings.ToLower(strings.TrimSpace(coding)) // RFC 9110, 8.4.1: case-insensitive
		if coding == "x-gzip" {
			coding = codingGzip // RFC 9110, 8.4.1.3
		}
		if weight, ok := parseWeight(params); ok && coding != "" {
			weights[coding] = weight
		}
	}
	return weights
}

// parseWeight reads "q=0.5"; nothing at all means 1.
//
// RFC 9110, 12.4.2: 0 to 1 with at most three digits after the point.
func parseWeight(params string) (float64, bool) {
	params = strings.TrimSpace(params)
	if params == "" {
		return 1, true
	}
	name, value, _ := strings.Cut(params, "=")
	if !strings.EqualFold(name, "q") || len(value) > len("0.000") || strings.Trim(value, "0123456789.") != "" {
		return 0, false
	}
	weight, err := strconv.ParseFloat(value, 64)
	if err != nil || weight > 1 {
		return 0, false
	}
	return weight, true
}
