package lashing

import (
	"math"

	"ratchetmark/internal/record"
)

// Answer is what the command says to a query. What was not asked or could not
// be worked out is null.
type Answer struct {
	Rule      string   `json:"rule"`
	Method    string   `json:"method"`
	Needed    *int     `json:"needed"`        // lashings; tie-downs
	Required  *float64 `json:"required_dan"`  // that lashings have to hold
	Available *float64 `json:"available_dan"` // that they hold
	OK        *bool    `json:"ok"`
	Shortfall *float64 `json:"shortfall_pct"` // of what is asked for, friction included; 0 where it holds

	NeededLC      *float64 `json:"needed_lc_dan,omitempty"`      // of each lashing
	MostAvailable *float64 `json:"most_available_dan,omitempty"` // at the best angle there is
	RequiredLb    *float64 `json:"required_lb,omitempty"`
	CountedLb     *float64 `json:"counted_lb,omitempty"`
	Apparent      *Reading `json:"apparent_kg,omitempty"`
	Settled       *Reading `json:"after_settling_kg,omitempty"`

	Source   string           `json:"source"`
	Status   string           `json:"status"`
	Findings []record.Finding `json:"findings"`
	Notes    []string         `json:"notes"`
}

// Ask answers a query, with the findings of reading it first. Figures beyond
// their limits are refused: nothing is worked out from them.
func Ask(q Query, findings []record.Finding) Answer {
	w := worker{q: q, Answer: Answer{Rule: q.Rule, Method: q.Method, Findings: append([]record.Finding{}, findings...), Notes: []string{NotCovered}}}
	w.defaults()
	switch {
	case record.Blocks(w.Findings):
	case w.q.Method == MethodPlatform:
		w.platform()
	case w.rule.ID == CFR:
		w.aggregate()
	case w.q.Method == MethodDirect:
		w.direct()
	default:
		w.overTop()
	}
	return w.Answer
}

// worker answers one query.
type worker struct {
	Answer
	q    Query
	rule *Rule
	dir  Direction
}

// defaults settles rule, method and direction.
func (w *worker) defaults() {
	if w.q.Rule == "" {
		w.q.Rule = EN
	}
	if w.q.Method == "" {
		w.q.Method = MethodOverTop
	}
	w.Rule, w.Method = w.q.Rule, w.q.Method
	if w.rule = RuleOf(w.q.Rule); w.rule == nil {
		w.unknown("rule", w.q.Rule, EN+", "+CFR+", "+Australian+" or "+UK)
	} else {
		w.Source, w.Status = w.rule.Source.String(), string(w.rule.Source.Status)
		w.Notes = append(w.Notes, w.rule.Words+": "+w.rule.Note+".")
	}
	switch w.q.Method {
	case MethodOverTop, MethodDirect, MethodPlatform:
	default:
		w.unknown("method", w.q.Method, MethodOverTop+", "+MethodDirect+" or "+MethodPlatform)
	}
	w.dir = Direction(w.q.Direction)
	switch w.dir {
	case "":
		w.dir = Forward
	case Forward, Rear, Side:
	default:
		w.unknown("direction", w.q.Direction, "forward, side or rear")
	}
}

func (w *worker) unknown(name, found, expected string) {
	w.Findings = append(w.Findings, record.Finding{Code: "value-unknown", Severity: record.Blocking, Path: record.Path(name), Where: name,
		Message: "found " + clipped(found), Expected: expected, Effect: "nothing is worked out", Hint: "correct the value"})
}

// need returns a figure that the question cannot do without.
func (w *worker) need(x *float64, name string, l limit) float64 {
	if x == nil {
		w.Findings = append(w.Findings, record.Finding{Code: "value-missing", Severity: record.Blocking, Path: record.Path(name), Where: name,
			Message: l.Name + " is missing", Expected: "a number" + unit(l.Unit), Effect: "nothing is worked out", Hint: l.Hint})
		return 0
	}
	w.add(l.check(*x, record.Path(name)))
	return *x
}

// or returns a figure, or the usual one where it is not given.
func (w *worker) or(x *float64, name string, l limit, usual float64) float64 {
	if x == nil {
		return usual
	}
	return w.need(x, name, l)
}

// count returns a whole number, nil where it is not given.
func (w *worker) count(x *float64, name string, l limit) *int {
	if x == nil {
		return nil
	}
	w.add(l.whole(*x, record.Path(name)))
	return record.Of(int(math.Max(0, math.Min(*x, 1e6))))
}

func (w *worker) add(f *record.Finding) {
	if f != nil {
		w.Findings = append(w.Findings, *f)
	}
}

func (w *worker) stuck() bool { return record.Blocks(w.Findings) }

func unit(u string) string {
	if u == "" {
		return ""
	}
	return " in " + u
}
