// Package cause lists what went over the rated load and weighs what can have
// caused it: work, tie-down, a shock, a drifted load cell.
//
// Each cause is a probability model of what the machine's counters would show
// ([model]). Each row of evidence is the likelihood of one thing that the record
// shows, given those before it. From both follow a likelihood ratio of the
// leading cause against its best rival, its range as the assumptions move across
// their intervals, and the posterior under a stated prior. A cause is named only
// where the whole range supports it; else the piece is undecided, with the
// records that would tell most.
package cause

import (
	"math"

	"ratchetmark/internal/assume"
	"ratchetmark/internal/record"
)

// Cause is a way a load over the rated load comes to be recorded.
type Cause string

// The causes, and the outcome when the record does not tell them apart.
const (
	Worked    Cause = "worked" // people, tools, material
	Lashed    Cause = "lashed" // tied down over the platform
	Shock     Cause = "shock"  // driving, snagging, dropping
	Drift     Cause = "drift"  // zero or gain of the load cell
	Undecided Cause = "undecided"
)

// All lists the causes in the order in which they are always shown.
var All = []Cause{Worked, Lashed, Shock, Drift}

// Reason is a row of evidence that applies to a piece. Log10 is the logarithm
// of its likelihood under each cause, against the cause that it fits best.
type Reason struct {
	ID    string
	Title string
	Text  string
	Reads string
	Log10 [4]float64
}

// Opinion is what the record supports about the cause of one piece.
type Opinion struct {
	Exceedance
	Posterior [4]float64 // in the order of All
	Leader    Cause
	Ratio     Ratio // of the leader against its best rival
	Verdict   Cause
	Words     string // how strong the evidence for the leader is
	Reasons   []Reason
	Matters   []Matter // assumptions that move the ratio most
	Shares    [4]Share // of a band's hours
	AskFor    []Ask    // what would settle it, best first; empty with a verdict

	// MayBeUnder: the piece may lie wholly under the rated load, because its
	// band begins below it or its hours may be older.
	MayBeUnder bool
	// Beyond: the load is beyond what any model knows; its register may have failed.
	Beyond bool
	// LoadTest: the machine was in a workshop and the load is that of a load test.
	LoadTest bool
}

// required is how large the likelihood ratio has to be at the low end of its
// range, and the posterior, for a verdict: as much as keeps false "worked" under
// one in a hundred in invented lives, and most for drift, which those show to be
// the least sure.
var required = map[Cause]struct{ ratio, posterior float64 }{
	Worked: {1, 0.8},
	Lashed: {1, 0.8},
	Shock:  {1, 0.85},
	Drift:  {3, 0.95},
}

// Weigh weighs every piece of a history under its assumptions. Habits tells
// what other machines show of the hauliers named in custody; it may be nil.
func Weigh(h record.History, set assume.Set, habits Habits) []Opinion {
	pieces := List(h)
	if len(pieces) == 0 {
		return nil
	}
	w := newWeigher(h, set, pieces)
	out := make([]Opinion, len(pieces))
	for i, x := range pieces {
		out[i] = w.weigh(x, habits)
	}
	return out
}

func (w *weigher) weigh(x Exceedance, habits Habits) Opinion {
	f := w.read(x, habits)
	w.piece.weigh(&f, &w.usual, &w.values)
	like := likelihoods(w.piece.sum, &w.values)

	o := Opinion{Exceedance: x, Verdict: Undecided}
	for c := range like {
		o.Posterior[c] = like[c] * w.prior[c]
	}
	o.Posterior = normal(o.Posterior)
	leader, _ := lead(o.Posterior)
	usual, rival := ratioOf(w.piece.sum, &w.values, leader)
	m := w.move(leader, usual)
	o.Leader, o.Matters = All[leader], m.matters
	o.Ratio = Ratio{math.Exp(usual), math.Exp(m.low), math.Exp(m.high), All[rival]}
	o.Words = Words(o.Ratio.Value)
	o.MayBeUnder = x.What == Band && x.Low <= 0
	o.Beyond = w.beyond(float64(x.From)) || f.peak >= 0 && w.beyond(float64(*f.v.Peak))
	o.LoadTest = f.likeLoadTest()
	if x.What == Band {
		o.Shares = share(&f, o.Posterior)
	}
	if w.supports(&o, leader) && !contradicted(&f, &o, leader) {
		o.Verdict = o.Leader
	}
	o.Reasons = reasonsOf(w.piece)
	o.AskFor = askFor(&f, o.Posterior, &w.values, &w.usual)
	return o
}

// supports reports whether the whole range supports the leader, and by enough.
func (w *weigher) supports(o *Opinion, leader int) bool {
	need := required[o.Leader]
	return !o.MayBeUnder && !o.Beyond && w.m.rated >= leastPlatform && o.Ratio.Low >= need.ratio && o.Posterior[leader] >= need.posterior
}

// contradicted reports whether the hours that the leader can have made at most,
// or another cause at least, speak against it as the cause of all of them.
func contradicted(f *facts, o *Opinion, leader int) bool {
	if o.What != Band {
		return false
	}
	slack := f.o.step + 0.05*f.hours
	for c, s := range o.Shares {
		if c == leader && s.High < f.hours-slack || c != leader && s.Low > slack {
			return true
		}
	}
	return false
}

// What no cause is named beyond: no platform carries less than a person, and no
// tie-down known to the models gives such a load. Assumptions.
const (
	leastPlatform = 60 // kg, rated load
	mostOfRated   = 15 // rated loads
	mostLoad      = 5000
)

func (w *weigher) beyond(load float64) bool { return load > mostOfRated*w.m.rated || load > mostLoad }

// reasonsOf lists the evidence, what tells most first.
func reasonsOf(w *weighing) []Reason {
	type told struct {
		k    int
		logs [4]float64
	}
	order := make([]told, 0, len(evidence))
	for left := w.applies; left != 0; left = left.rest() {
		t := told{left.first(), w.capped[left.first()]}
		for c := range t.logs {
			t.logs[c] /= math.Ln10
		}
		order = append(order, t)
	}
	record.SortStable(order, func(a, b told) int {
		return compare(ninth(spread(b.logs)), ninth(spread(a.logs)))
	})
	out := make([]Reason, len(order))
	for i, t := range order {
		row := &evidence[t.k]
		out[i] = Reason{ID: row.id, Title: row.title, Text: row.text(w.f), Reads: row.reads, Log10: t.logs}
	}
	return out
}

// spread is how far an item tells the best cause from the worst.
func spread(logs [4]float64) float64 {
	return -math.Min(math.Min(logs[0], logs[1]), math.Min(logs[2], logs[3]))
}

// ninth rounds to the ninth decimal, for ordering: what is alike but for the last
// bits, in which processors differ, keeps the order of its table.
func ninth(x float64) float64 { return math.Round(x * 1e9) }

func compare(a, b float64) int {
	switch {
	case a < b:
		return -1
	case a > b:
		return 1
	}
	return 0
}
