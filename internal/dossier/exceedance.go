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
	Beside     string           `json:"beside,omitempty"` // where the peak and the hours of its band come out differently
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
	Usual   float64     `json:"usual"`
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
func exceedance(o cause.Opinion, rated record.Kilogram) Exceedance {
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
	x.Title = title(&x, rated)
	x.Answer = verdictSentence(&x, rated)
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
func title(x *Exceedance, rated record.Kilogram) string {
	if x.What == cause.Peak {
		return "peak of " + cause.LoadOver(*x.Peak, rated)
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

// plainly names a cause in a sentence in which it stands beside others.
func plainly(c cause.Cause) string {
	if c == cause.Worked {
		return "work"
	}
	return phrases[c]
}

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

// matter puts an assumption that matters into words.
func matter(m cause.Matter, o cause.Opinion) Matter {
	out := Matter{Name: m.Name, Low: tidy(m.Low), High: tidy(m.High), Usual: tidy(m.Usual), Unit: m.Unit, AtLow: three(m.AtLow), AtHigh: three(m.AtHigh)}
	if m.FlipsAt != nil {
		out.FlipsAt, out.FlipsTo = record.Of(three(*m.FlipsAt)), m.FlipsTo
	}
	out.Text = fmt.Sprintf("%s: %s times at %s, %s times at %s", m.Name, Times(m.AtLow), Grouped(out.Low), Times(m.AtHigh), out.with(out.High))
	if out.FlipsAt != nil {
		out.Text += ", and " + out.flips()
	}
	return out
}

// flips says where another cause comes out ahead.
func (m *Matter) flips() string {
	return fmt.Sprintf("from about %s %s %s comes out ahead", m.with(twoDigits(*m.FlipsAt)), m.side(), plainly(m.FlipsTo))
}

// with writes a value of the assumption with its unit.
func (m *Matter) with(x float64) string {
	if m.Unit == "1" || m.Unit == "" {
		return Grouped(x)
	}
	return Grouped(x) + " " + m.Unit
}

// side says on which side of the value another cause leads.
func (m *Matter) side() string {
	if *m.FlipsAt < m.Usual {
		return "down"
	}
	return "up"
}

// twoDigits keeps two digits of a value at which another cause leads: it is
// found by two straight lines.
func twoDigits(x float64) float64 {
	scale := math.Pow(10, 1-math.Floor(math.Log10(math.Abs(x))))
	if x == 0 || !record.Finite(scale) {
		return x
	}
	return tidy(math.Round(x*scale) / scale)
}

// list joins words: "a, b and c".
func list(words []string, last string) string {
	if len(words) < 2 {
		return strings.Join(words, "")
	}
	n := len(words) - 1
	return strings.Join(words[:n], ", ") + " " + last + " " + words[n]
}
