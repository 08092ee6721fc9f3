package dossier

import (
	"fmt"
	"math"
	"strings"

	"ratchetmark/internal/cause"
	"ratchetmark/internal/record"
)

// ByCause is a figure for each cause.
type ByCause struct {
	Worked float64 `json:"worked"`
	Lashed float64 `json:"lashed"`
	Shock  float64 `json:"shock"`
	Drift  float64 `json:"drift"`
}

// byCause takes figures in the order of cause.All.
func byCause(x [4]float64) ByCause { return ByCause{x[0], x[1], x[2], x[3]} }

// Get returns the figure of a cause.
func (b ByCause) Get(c cause.Cause) float64 {
	switch c {
	case cause.Worked:
		return b.Worked
	case cause.Lashed:
		return b.Lashed
	case cause.Shock:
		return b.Shock
	}
	return b.Drift
}

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
	What       cause.What       `json:"what"`
	Interval   int              `json:"interval"`
	From       record.Kilogram  `json:"from_kg"`
	To         *record.Kilogram `json:"to_kg"`
	Peak       *record.Kilogram `json:"peak_kg"`
	Hours      *Span            `json:"hours"` // nil for a peak
	Title      string           `json:"title"`
	Answer     string           `json:"answer"`
	Posterior  ByCause          `json:"posterior"`
	Verdict    cause.Cause      `json:"verdict"`
	Leader     cause.Cause      `json:"leader"`
	Ratio      Ratio            `json:"likelihood_ratio"` // of the leader
	Words      string           `json:"words"`
	Reasons    []Reason         `json:"reasons"`
	Otherwise  string           `json:"otherwise"`
	Matters    []Matter         `json:"matters"`
	ByCause    []CauseHours     `json:"hours_by_cause"` // empty for a peak
	AskFor     []Ask            `json:"ask_for"`
	MayBeUnder bool             `json:"may_be_under"`   // it may lie wholly under the rated load
	Beyond     bool             `json:"beyond_belief"`  // no load known to the models is so high: the register may have failed
	LoadTest   bool             `json:"like_load_test"` // it is that of a load test, and the machine was in a workshop
}

// Reason is a row of evidence: what was found, and the logarithm of its
// likelihood under each cause against the cause that it fits best.
type Reason struct {
	ID    string  `json:"id"`
	Title string  `json:"title"`
	Text  string  `json:"text"`
	Reads string  `json:"reads"`
	Log10 ByCause `json:"log10"`
}

// Matter is an assumption that moves the likelihood ratio.
type Matter struct {
	Name    string      `json:"name"`
	Low     float64     `json:"low"`
	High    float64     `json:"high"`
	Unit    string      `json:"unit"`
	AtLow   float64     `json:"ratio_at_low"`
	AtHigh  float64     `json:"ratio_at_high"`
	FlipsAt *float64    `json:"flips_at"` // value from which another cause leads; nil where none does
	FlipsTo cause.Cause `json:"flips_to,omitempty"`
	Text    string      `json:"text"`
}

// CauseHours is how many of a band's hours a cause can have made.
type CauseHours struct {
	Cause cause.Cause `json:"cause"`
	Low   float64     `json:"low"`
	High  float64     `json:"high"`
}

// Ask is a record that would help to settle it.
type Ask struct {
	Record string  `json:"record"`
	Why    string  `json:"why"`
	Bits   float64 `json:"gain_bits"`

	Wants cause.Wants `json:"-"` // part of a case that it would go into
}

// exceedance turns an opinion into the form that is printed and saved.
func exceedance(o cause.Opinion) Exceedance {
	x := Exceedance{
		What: o.What, Interval: o.Interval, From: o.From, To: o.To, Peak: o.Peak,
		Verdict: o.Verdict, Leader: o.Leader, Words: o.Words, MayBeUnder: o.MayBeUnder, Beyond: o.Beyond, LoadTest: o.LoadTest,
		Ratio:   Ratio{three(o.Ratio.Value), three(o.Ratio.Low), three(o.Ratio.High), o.Ratio.Against},
		Reasons: []Reason{}, Matters: []Matter{}, ByCause: []CauseHours{}, AskFor: []Ask{},
	}
	x.Posterior = byCause(weights(o.Posterior))
	if o.What == cause.Band {
		x.Hours = &Span{tidy(float64(o.Low)), tidy(float64(o.Estimate)), tidy(float64(o.High))}
		for c, s := range o.Shares {
			x.ByCause = append(x.ByCause, CauseHours{cause.All[c], tidy(s.Low), tidy(s.High)})
		}
	}
	for _, r := range o.Reasons {
		for c := range r.Log10 {
			r.Log10[c] = decimals(r.Log10[c])
		}
		x.Reasons = append(x.Reasons, Reason{r.ID, r.Title, r.Text, r.Reads, byCause(r.Log10)})
	}
	for _, m := range o.Matters {
		x.Matters = append(x.Matters, matter(m, o))
	}
	for _, a := range o.AskFor {
		x.AskFor = append(x.AskFor, Ask{a.Record, a.Why, decimals(a.Bits), a.Wants})
	}
	x.Title = title(x)
	x.Answer = verdictSentence(&x)
	x.Otherwise = otherwise(&x)
	return x
}

// weights keeps three decimals of each weight, such that they add up to 1.
func weights(w [4]float64) [4]float64 {
	most, rest := 0, 1.0
	for c := range w {
		if w[c] > w[most] {
			most = c
		}
	}
	for c := range w {
		w[c] = decimals(w[c])
		if c != most {
			rest -= w[c]
		}
	}
	w[most] = decimals(rest)
	return w
}

// decimals keeps three decimals: weights and logarithms mean no more.
func decimals(x float64) float64 { return math.Round(x*1e3)/1e3 + 0 }

// three keeps three significant digits.
func three(x float64) float64 {
	if x == 0 || !record.Finite(x) {
		return 0
	}
	scale := math.Pow(10, 2-math.Floor(math.Log10(math.Abs(x))))
	return tidy(math.Round(x*scale) / scale)
}

// title names the piece: "peak of 812 kg", "1.9 h over the rated load in the band
// from 640 kg up".
func title(x Exceedance) string {
	if x.What == cause.Peak {
		return "peak of " + Kg(float64(*x.Peak))
	}
	return HoursBetween(x.Hours.Low, x.Hours.High) + " over the rated load in the band " + BandText(x.From, x.To)
}

var phrases = map[cause.Cause]string{
	cause.Worked: "work (people, tools, material)",
	cause.Lashed: "tie-down over the platform",
	cause.Shock:  "a shock",
	cause.Drift:  "a drifted load cell",
}

// Phrase names a cause in a sentence.
func Phrase(c cause.Cause) string { return phrases[c] }

// Times writes a likelihood ratio with the digits that it has: "120", "3.4".
func Times(x float64) string {
	switch {
	case x >= 9.95:
		return Grouped(math.Round(three(x)))
	case x >= 0.095:
		return fmt.Sprintf("%.1f", x)
	}
	return "under 0.1"
}

// verdictSentence says what the record supports, how strongly, and over what range.
func verdictSentence(x *Exceedance) string {
	r := x.Ratio
	fits := fmt.Sprintf("%s times as well as %s", Times(r.Value), Phrase(r.Against))
	span := fmt.Sprintf("%s to %s times", Times(r.Low), Times(r.High))
	switch {
	case x.Verdict != cause.Undecided:
		return fmt.Sprintf("The record fits %s %s, the best rival (%s within what is assumed): %s.", Phrase(x.Verdict), fits, span, x.Words)
	case x.MayBeUnder:
		return "Undecided: these hours may lie under the rated load, because " + mayBeUnder(x) + "."
	case x.Beyond:
		return "Undecided: no load that is known of such a platform is so high; the register may be full or have failed."
	case r.Value < 1:
		return fmt.Sprintf("Undecided: the record fits %s %s times better; only the weights set before any evidence put %s ahead.", Phrase(r.Against), Times(1/r.Value), Phrase(x.Leader))
	case r.Value < 2:
		return fmt.Sprintf("Undecided: the record fits %s and %s about equally well.", Phrase(x.Leader), Phrase(r.Against))
	case r.Low < 1:
		return fmt.Sprintf("Undecided: the record fits %s best, %s, but within what is assumed that is %s.", Phrase(x.Leader), fits, span)
	}
	if text := contradiction(x); text != "" {
		return fmt.Sprintf("Undecided: the record fits %s best, %s, but %s.", Phrase(x.Leader), fits, text)
	}
	return fmt.Sprintf("Undecided: the record fits %s best, %s (%s within what is assumed), which is not enough to name it.", Phrase(x.Leader), fits, span)
}

// contradiction says that custody, or where the machine was powered, leaves the
// leader too few of the hours; empty where it does not.
func contradiction(x *Exceedance) string {
	for _, s := range x.ByCause {
		if s.Cause == x.Leader && s.High < 0.9*x.Hours.High-0.1 {
			return fmt.Sprintf("it can have made at most %s of the %s", H(s.High), H(x.Hours.High))
		}
	}
	return ""
}

func mayBeUnder(x *Exceedance) string {
	if x.Hours.Low < x.Hours.High && x.Hours.Estimate < x.Hours.High {
		return "the band holds loads under it as well"
	}
	return "they may be older than the interval"
}

// otherwise states the best alternative reading fairly: what speaks for it.
func otherwise(x *Exceedance) string {
	rival := x.Ratio.Against
	var speaks []string
	for _, r := range x.Reasons {
		if r.Log10.Get(rival) > r.Log10.Get(x.Leader)+0.1 {
			speaks = append(speaks, r.Text)
		}
	}
	test := ""
	if x.LoadTest {
		test = " A load test in the workshop reads like this as well: ask whether one was made."
	}
	if len(speaks) == 0 {
		return fmt.Sprintf("The best other reading is %s; nothing in the record fits it better.%s", Phrase(rival), test)
	}
	return fmt.Sprintf("The best other reading is %s. For it speaks: %s.%s", Phrase(rival), strings.Join(speaks, "; "), test)
}

// matter puts an assumption that matters into words.
func matter(m cause.Matter, o cause.Opinion) Matter {
	out := Matter{Name: m.Name, Low: tidy(m.Low), High: tidy(m.High), Unit: m.Unit, AtLow: three(m.AtLow), AtHigh: three(m.AtHigh)}
	unit := ""
	if m.Unit != "1" {
		unit = " " + m.Unit
	}
	out.Text = fmt.Sprintf("%s: %s times if %s%s, %s times if %s%s", m.Name, Times(m.AtLow), Grouped(m.Low), unit, Times(m.AtHigh), Grouped(m.High), unit)
	if m.FlipsAt != nil {
		out.FlipsAt, out.FlipsTo = record.Of(three(*m.FlipsAt)), m.FlipsTo
		side := "more"
		if *m.FlipsAt < m.Usual {
			side = "less"
		}
		out.Text += fmt.Sprintf("; at about %s%s or %s, %s comes out ahead", Grouped(three(*m.FlipsAt)), unit, side, Phrase(m.FlipsTo))
	}
	return out
}

// list joins words: "a, b and c".
func list(words []string, last string) string {
	if len(words) < 2 {
		return strings.Join(words, "")
	}
	n := len(words) - 1
	return strings.Join(words[:n], ", ") + " " + last + " " + words[n]
}
