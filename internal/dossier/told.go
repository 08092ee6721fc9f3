package dossier

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"ratchetmark/internal/cause"
	"ratchetmark/internal/record"
)

// Told is pieces that are told together because the same came of them for the
// same reason; most often one piece.
type Told struct {
	Pieces []int  `json:"pieces"` // places in the list of exceedances
	Title  string `json:"title"`
	When   string `json:"when"`
	Answer string `json:"answer"`

	outcome outcome
	shared  []string // what the record shows of all of them
}

// tellKey is what pieces that are told together have in common.
type tellKey struct {
	outcome  outcome
	leader   cause.Cause
	interval int
}

// keyOf says with which others a piece is told. A drifted cell, and a band that
// begins under the rated load, are the same matter in every interval; a tie-down
// or work in another interval is another event.
func keyOf(x *Exceedance, rated record.Kilogram) tellKey {
	k := tellKey{outcomeOf(x, rated), x.Leader, x.Interval}
	switch k.outcome {
	case isSmall, mayBeHere, mayBeOld, isBeyond:
		return tellKey{outcome: k.outcome}
	}
	if x.Leader == cause.Drift {
		k.interval = -1
	}
	return k
}

// order is the order of what is told: what is named first, what may not have
// gone over at all last.
var order = map[outcome]int{isNamed: -1, mayBeHere: 1, mayBeOld: 1}

// tell sorts the pieces into what is told together.
func (d *Dossier) tell() []Told {
	out := []Told{}
	at := map[tellKey]int{}
	for i := range d.Exceedances {
		k := keyOf(&d.Exceedances[i], d.History.Rated)
		g, ok := at[k]
		if !ok {
			g, at[k] = len(out), len(out)
			out = append(out, Told{outcome: k.outcome})
		}
		out[g].Pieces = append(out[g].Pieces, i)
	}
	record.SortStable(out, func(a, b Told) int { return cmp.Compare(order[a.outcome], order[b.outcome]) })
	for i := range out {
		t := &out[i]
		all := d.piecesOf(t.Pieces)
		t.Title, t.When, t.Answer = d.toldTitle(all), d.toldWhen(all), all[0].Answer
		if len(all) > 1 {
			t.Answer, t.shared = d.toldAnswer(t.outcome, all), sharedTexts(all)
		}
	}
	return out
}

// piecesOf returns the pieces at some places.
func (d *Dossier) piecesOf(places []int) []*Exceedance {
	var out []*Exceedance
	for _, i := range places {
		out = append(out, &d.Exceedances[i])
	}
	return out
}

// toldTitle names pieces together: "peaks of 341 and 346 kg, and 56.7 h over the
// rated load in the bands 250 to 320 kg and from 320 kg up".
func (d *Dossier) toldTitle(all []*Exceedance) string {
	if len(all) == 1 {
		return all[0].Title
	}
	var peaks, bands []string
	var low, high float64
	for _, x := range all {
		if x.What == cause.Peak {
			peaks = append(peaks, strings.TrimSuffix(cause.LoadOver(*x.Peak, d.History.Rated), " kg"))
			continue
		}
		low, high = low+x.Hours.Low, high+x.Hours.High
		if text := BandText(x.From, x.To); !slices.Contains(bands, text) {
			bands = append(bands, text)
		}
	}
	var parts []string
	switch len(peaks) {
	case 0:
	case 1:
		parts = append(parts, "peak of "+peaks[0]+" kg")
	default:
		parts = append(parts, "peaks of "+list(peaks, "and")+" kg")
	}
	if high > 0 {
		parts = append(parts, HoursBetween(low, high)+" over the rated load in "+bandsText(bands))
	}
	return list(parts, "and")
}

// bandsText names bands, or how many there are where they are many.
func bandsText(bands []string) string {
	switch n := len(bands); {
	case n == 1:
		return "the band " + bands[0]
	case n > 4:
		return fmt.Sprintf("%d bands", n)
	}
	return "the bands " + list(bands, "and")
}

// toldWhen names the intervals that pieces lie in; what they span, where they
// are many.
func (d *Dossier) toldWhen(all []*Exceedance) string {
	var numbers []int
	for _, x := range all {
		if !slices.Contains(numbers, x.Interval) {
			numbers = append(numbers, x.Interval)
		}
	}
	slices.Sort(numbers)
	var when []string
	for _, n := range numbers {
		when = append(when, IntervalText(d.History, n))
	}
	if len(when) <= 2 {
		return strings.Join(when, " and ")
	}
	first, last := d.History.Intervals[numbers[0]], d.History.Intervals[numbers[len(numbers)-1]]
	switch {
	case last.To.IsZero():
		return fmt.Sprintf("%d intervals", len(when))
	case first.From.IsZero():
		return fmt.Sprintf("up to %s, %d intervals", day(last.To), len(when))
	}
	return fmt.Sprintf("%s to %s, %d intervals", day(first.From), day(last.To), len(when))
}

// toldAnswer says once what came of pieces that are told together.
func (d *Dossier) toldAnswer(o outcome, all []*Exceedance) string {
	lead := plainly(all[0].Leader)
	r := spanOf(all)
	fits := fmt.Sprintf("%s times as well as the best rival, %s", r.values(), r.rivals())
	switch o {
	case isNamed:
		return fmt.Sprintf("The record supports %s as the cause of %s (%s at least): it fits that %s; %s times at the least %s.", lead, allOf(all), cause.Words(r.least), fits, lowText(r.low), ofAssumed)
	case byWeights:
		return fmt.Sprintf("Undecided: the record fits %s better; only the weights set before any evidence put %s ahead.", r.rivals(), lead)
	case isAlike:
		return fmt.Sprintf("Undecided: the record fits %s best, but hardly better than the best rival, %s: %s times as well.", lead, r.rivals(), r.values())
	case isTurned:
		return fmt.Sprintf("Undecided: the record fits %s best in %s, %s; but that is not sure: it falls to %s times %s.", lead, allOf(all), fits, lowText(r.low), ofAssumed)
	case isPart:
		return fmt.Sprintf("Undecided: the record fits %s best, %s, but it cannot have made all of these hours.", lead, fits)
	case isWeak:
		return fmt.Sprintf("Undecided: the record fits %s best in %s, %s, but by too little to name it.", lead, allOf(all), fits)
	case mayBeHere:
		if sameBand(all) {
			return outcomeWords[o]
		}
		return strings.Replace(outcomeWords[o], "the band holds", "the bands hold", 1)
	}
	return outcomeWords[o]
}

// allOf says how many pieces there are.
func allOf(all []*Exceedance) string {
	if len(all) == 2 {
		return "both"
	}
	return fmt.Sprintf("all %d", len(all))
}

func sameBand(all []*Exceedance) bool {
	return !slices.ContainsFunc(all, func(x *Exceedance) bool { return BandText(x.From, x.To) != BandText(all[0].From, all[0].To) })
}

// ratioSpan is what the ratios of several pieces span.
type ratioSpan struct {
	least, most float64 // of the values
	low         float64 // of all ranges
	against     []string
}

func spanOf(all []*Exceedance) ratioSpan {
	r := ratioSpan{least: math.Inf(1), low: math.Inf(1)}
	for _, x := range all {
		r.least, r.most, r.low = min(r.least, x.Ratio.Value), max(r.most, x.Ratio.Value), min(r.low, x.Ratio.Low)
		if text := plainly(x.Ratio.Against); !slices.Contains(r.against, text) {
			r.against = append(r.against, text)
		}
	}
	return r
}

func (r ratioSpan) values() string {
	if Times(r.least) == Times(r.most) {
		return Times(r.most)
	}
	return Times(r.least) + " to " + Times(r.most)
}

func (r ratioSpan) rivals() string { return list(r.against, "or") }

// Leads reports whether one cause leads in all pieces that are told together,
// and their ratios mean something.
func Leads(t *Told) bool {
	switch t.outcome {
	case isSmall, mayBeHere, mayBeOld, isBeyond:
		return false
	}
	return true
}

// Named names a piece where it stands beside others of its kind and there is
// little room: "peak of 341 kg", "19.9 h at 250 to 320 kg".
func Named(x *Exceedance) string {
	if x.What == cause.Peak {
		return x.Title
	}
	at := BandText(x.From, x.To)
	if x.To == nil {
		at = Kg(float64(x.From)) + " and more"
	}
	return HoursBetween(x.Hours.Low, x.Hours.High) + " at " + at
}
