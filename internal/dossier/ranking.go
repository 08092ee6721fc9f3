package dossier

import (
	"fmt"
	"io"
	"sort"

	"ratchetmark/internal/assume"
)

// RankingNote says what a ranking is not.
const RankingNote = "A ranking by exposure with its reasons, nothing more: what becomes of a machine is for people to decide who have examined it."

// Ranking compares machines by their exposure, the most used up first. It has no
// title where fewer than two machines have one.
func Ranking(all []*Dossier) CostPart {
	var known []*Dossier
	for _, d := range all {
		if d.Exposure != nil {
			known = append(known, d)
		}
	}
	if len(known) < 2 {
		return CostPart{}
	}
	sort.SliceStable(known, func(i, j int) bool { return rankOf(known[i]) > rankOf(known[j]) })
	p := CostPart{ID: "fleet", Title: "Beside the other machines", Unit: "%"}
	for i, d := range known {
		if i == mostRanked {
			p.Lines = append(p.Lines, fmt.Sprintf("%d further machines are not shown here.", len(known)-i))
			break
		}
		p.Ranges = append(p.Ranges, percentRange(Name(d), d.Exposure.Relative))
		p.Lines = append(p.Lines, rankReasons(d))
	}
	first, second := known[0], known[1]
	p.Answer = fmt.Sprintf("Of %d machines most in %s, %s; then %s, %s.", len(known), Name(first), orLow(first.Exposure.Relative), Name(second), orLow(second.Exposure.Relative))
	if overlapping(first, second) {
		p.Answer += " Their ranges overlap: the order may be another."
	}
	p.Lines = append(p.Lines, RankingNote)
	return p
}

// mostRanked is how many machines a ranking shows.
const mostRanked = 30

// rankOf is what machines are ordered by: the estimate, or the low where there
// is none.
func rankOf(d *Dossier) float64 {
	if e := d.Exposure.Relative.Estimate; e != nil {
		return *e
	}
	return d.Exposure.Relative.Low
}

// overlapping reports whether the one that is behind may be ahead.
func overlapping(ahead, behind *Dossier) bool {
	h := behind.Exposure.Relative.High
	return h == nil || *h > ahead.Exposure.Relative.Low
}

// rankReasons says what the place of a machine comes from.
func rankReasons(d *Dossier) string {
	e, c := d.Exposure, d.Capacity
	text := fmt.Sprintf("%s: %s counted, damage-equivalent load %s, self-weight share %s",
		Name(d), H(c.Counted), KgBounds(e.EquivalentLoad), Plain(d.assumed(assume.SelfWeightShare)))
	if over := c.HoursOver[0]; over.High > 0 {
		text += ", " + HoursBetween(over.Low, over.High) + " over the rated load"
	}
	if s := d.Static; s != nil {
		text += ", a peak of " + Percent(s.Percent/100) + " of it"
	}
	if n := len(e.Forecast); n > 0 {
		f := e.Forecast[n-1]
		text += fmt.Sprintf("; by %s %s", day(f.At.Time), PercentBounds(f.Relative))
	}
	return text + "."
}

// WriteRanking prints the ranking of several machines for a person; nothing for
// fewer than two.
func WriteRanking(w io.Writer, all []Dossier) error {
	var each []*Dossier
	for i := range all {
		each = append(each, &all[i])
	}
	part := Ranking(each)
	if part.Title == "" {
		return nil
	}
	p := &printer{}
	p.line("")
	p.line("The machines side by side")
	p.wrap("  ", "  ", part.Answer)
	p.ranges(part.Ranges)
	for _, line := range part.Lines {
		p.wrap("  ", "    ", line)
	}
	_, err := io.WriteString(w, p.b.String())
	return err
}
