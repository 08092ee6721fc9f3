package lashing

import (
	"encoding/json"
	"fmt"
	"slices"

	"ratchetmark/internal/record"
)

// Query is one question to the command: what is needed, or whether what there
// is holds. A figure that is not given is nil.
type Query struct {
	Rule, Method, Direction string

	Mass, Tension, Mu, Angle, Lashings, Block, K, Fs *float64
	LC, Bearing, Straps, EdgeMu, Length              *float64
	WLL                                              []float64
	Blocked                                          *bool
}

// Methods of a query.
const (
	MethodOverTop  = "over-top"
	MethodDirect   = "direct"
	MethodPlatform = "over-platform"
)

// figures names the members of a query that are numbers.
func (q *Query) figures() map[string]**float64 {
	return map[string]**float64{
		"mass_kg": &q.Mass, "tension_dan": &q.Tension, "mu": &q.Mu, "angle_deg": &q.Angle, "lashings": &q.Lashings,
		"block_dan": &q.Block, "k": &q.K, "fs": &q.Fs, "lc_dan": &q.LC, "bearing_deg": &q.Bearing,
		"straps": &q.Straps, "edge_mu": &q.EdgeMu, "length_m": &q.Length,
	}
}

// ReadQuery takes a query from one JSON object. Members of the wrong sort and
// members that are not known are findings, in the order of their names; only
// what is no object is an error.
func ReadQuery(data []byte) (q Query, findings []record.Finding, err error) {
	var members map[string]json.RawMessage
	if err := json.Unmarshal(data, &members); err != nil {
		return q, nil, err
	}
	if members == nil {
		return q, nil, fmt.Errorf("found null where a question is expected, an object with \"rule\" and \"method\"")
	}
	figures := q.figures()
	texts := map[string]*string{"rule": &q.Rule, "method": &q.Method, "direction": &q.Direction}
	var names []string
	for name := range members {
		names = append(names, name)
	}
	slices.Sort(names)
	for _, name := range names {
		expected := ""
		var to any
		switch {
		case figures[name] != nil:
			to, expected = figures[name], "a number or null"
		case texts[name] != nil:
			to, expected = texts[name], "a text"
		case name == "wll_lb":
			to, expected = &q.WLL, "a list of numbers, one for each tie-down"
		case name == "blocked":
			to, expected = &q.Blocked, "true or false"
		default:
			findings = append(findings, record.Finding{Code: "member-unknown", Severity: record.Note, Path: record.Path(name), Where: "the question",
				Message: fmt.Sprintf("member %q is not known", clipped(name)), Expected: "the members of a question about lashing", Effect: "it is not used", Hint: "check the spelling if it was meant to count"})
			continue
		}
		if json.Unmarshal(members[name], to) != nil {
			findings = append(findings, record.Finding{Code: "value-unreadable", Severity: record.Blocking, Path: record.Path(name), Where: name,
				Message: "found " + clipped(string(members[name])), Expected: expected, Effect: "nothing is worked out", Hint: "correct the value"})
		}
	}
	return q, findings, nil
}

// clipped cuts what is too long for a message.
func clipped(s string) string {
	const most = 40
	r := []rune(s)
	if len(r) > most {
		return string(r[:most]) + "..."
	}
	return s
}
