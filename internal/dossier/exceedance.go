package dossier

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"ratchetmark/internal/cause"
	"ratchetmark/internal/record"
)

// ByCause is a figure for each cause; in a reason, nil is a cause ruled out.
type ByCause struct {
	Worked *float64 `json:"worked"`
	Lashed *float64 `json:"lashed"`
	Shock  *float64 `json:"shock"`
	Drift  *float64 `json:"drift"`
}

// of returns where the figure of a cause is kept.
func (b *ByCause) of(c cause.Cause) **float64 {
	switch c {
	case cause.Worked:
		return &b.Worked
	case cause.Lashed:
		return &b.Lashed
	case cause.Shock:
		return &b.Shock
	default:
		return &b.Drift
	}
}

// Get returns the figure of a cause; nil where it is ruled out.
func (b ByCause) Get(c cause.Cause) *float64 { return *b.of(c) }

// Span is hours between two bounds, with an estimate.
type Span struct {
	Low      float64 `json:"low"`
	Estimate float64 `json:"estimate"`
	High     float64 `json:"high"`
}

// Ratio is a likelihood ratio with its range, against the best rival.
type Ratio struct {
	Value   float64     `json:"value"`
	Low     float64     `json:"low"`
	High    float64     `json:"high"`
	Against cause.Cause `json:"against"`
}

// Exceedance is a piece that went over the rated load, with what the record
// supports about its cause.
type Exceedance struct {
	What      cause.What       `json:"what"`
	Interval  int              `json:"interval"`
	From      record.Kilogram  `json:"from_kg"`
	To        *record.Kilogram `json:"to_kg"`
	Peak      *record.Kilogram `json:"peak_kg"`
	Hours     *Span            `json:"hours"` // nil for a peak
	Title     string           `json:"title"`
	Answer    string           `json:"answer"`
	Posterior ByCause          `json:"posterior"`
	Verdict   cause.Cause      `json:"verdict"`
	Ratio     *Ratio           `json:"likelihood_ratio"` // nil: evidence is not weighed, only ruled out
	Words     string           `json:"words"`
	Reasons   []Reason         `json:"reasons"`
	AskFor    []Ask            `json:"ask_for"`
}

// Reason is why a cause is ruled out.
type Reason struct {
	ID      string  `json:"id"`
	Text    string  `json:"text"`
	RestsOn string  `json:"rests_on"`
	Log10   ByCause `json:"log10"`
}

// Ask is a record that would help to settle it.
type Ask struct {
	Record string  `json:"record"`
	Why    string  `json:"why"`
	Bits   float64 `json:"gain_bits"`
}

// exceedance turns an opinion into the form that is printed and saved.
func exceedance(o cause.Opinion) Exceedance {
	x := Exceedance{
		What: o.What, Interval: o.Interval, From: o.From, To: o.To, Peak: o.Peak,
		Verdict: o.Verdict, Reasons: []Reason{}, AskFor: []Ask{},
	}
	if o.What == cause.Band {
		x.Hours = &Span{tidy(float64(o.Low)), tidy(float64(o.Estimate)), tidy(float64(o.High))}
	}
	for _, c := range cause.All {
		*x.Posterior.of(c) = record.Of(0.0)
	}
	for _, c := range o.Open {
		*x.Posterior.of(c) = record.Of(1 / float64(len(o.Open)))
	}
	for _, r := range o.Reasons {
		x.Reasons = append(x.Reasons, reason(r))
	}
	for _, a := range o.AskFor {
		x.AskFor = append(x.AskFor, Ask{a.Record, a.Why, math.Round(a.Bits*1e3) / 1e3})
	}
	x.Title = title(x)
	x.Words = words(o)
	x.Answer = verdictSentence(o)
	return x
}

func reason(r cause.Reason) Reason {
	out := Reason{ID: r.ID, Text: r.Text, RestsOn: r.RestsOn}
	for _, c := range cause.All {
		*out.Log10.of(c) = record.Of(0.0)
	}
	for _, c := range r.Rules {
		*out.Log10.of(c) = nil
	}
	return out
}

// title names the piece: "peak of 812 kg", "1.9 h in 640 kg and more".
func title(x Exceedance) string {
	if x.What == cause.Peak {
		return "peak of " + Kg(float64(*x.Peak))
	}
	return HoursBetween(x.Hours.Low, x.Hours.High) + " over the rated load in the band " + BandText(x.From, x.To)
}

// words says how strong the evidence is. This version rules out and does not
// weigh, so there are two outcomes only.
func words(o cause.Opinion) string {
	if o.Verdict != cause.Undecided {
		return "follows from the record"
	}
	return "not weighed in this version"
}

var phrases = map[cause.Cause]string{
	cause.Worked: "work (people, tools, material)",
	cause.Lashed: "tie-down over the platform",
	cause.Shock:  "a shock",
	cause.Drift:  "a drifted load cell",
}

// Phrase names a cause in a sentence.
func Phrase(c cause.Cause) string { return phrases[c] }

func verdictSentence(o cause.Opinion) string {
	if o.Verdict != cause.Undecided {
		return fmt.Sprintf("By the record it was %s, if what the reasons rest on is true.", Phrase(o.Verdict))
	}
	var open, out []string
	for _, c := range cause.All {
		if contains(o.Open, c) {
			open = append(open, Phrase(c))
		} else {
			out = append(out, Phrase(c))
		}
	}
	switch {
	case len(out) == 0 && rulesOut(o.Reasons):
		return "Undecided: the record contradicts itself, its reasons rule out every cause."
	case len(out) == 0:
		return "Undecided: the record rules out no cause."
	}
	return fmt.Sprintf("Undecided between %s. Ruled out: %s.", list(open, "and"), list(out, "and"))
}

// rulesOut reports whether any of the reasons rules a cause out.
func rulesOut(reasons []cause.Reason) bool {
	return slices.ContainsFunc(reasons, func(r cause.Reason) bool { return len(r.Rules) > 0 })
}

func contains(cs []cause.Cause, c cause.Cause) bool {
	for _, x := range cs {
		if x == c {
			return true
		}
	}
	return false
}

// list joins words: "a, b and c".
func list(words []string, last string) string {
	if len(words) < 2 {
		return strings.Join(words, "")
	}
	n := len(words) - 1
	return strings.Join(words[:n], ", ") + " " + last + " " + words[n]
}
