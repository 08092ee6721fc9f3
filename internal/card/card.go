// Package card makes the one page that a transport crew reads at the truck:
// where to hold the machine, with what, how hard, and what never to do. It is
// data; how it is printed or drawn is up to others.
package card

import (
	"fmt"
	"math"
	"strings"
)

// Card is the page, in one language.
type Card struct {
	Lang       Lang
	Title      string
	Machine    string
	Sections   []Section
	Foot       string
	Unreviewed string // that the translation was not reviewed; empty for the original
}

// Section is a part of the page.
type Section struct {
	Heading string
	Lines   []string
	Stop    bool // what must never be done
}

// Facts is what the page says of one machine and its depot.
type Facts struct {
	Machine  string
	MassKg   float64 // 0 is not known
	Upright  bool    // without a boom: a scissor or mast lift
	Lashings []Lashing
	Rule     string
	Worked   bool // the lashings were worked out by the rule
	Held     bool
	Percents [3]float64 // forward, rear, side: held, of what is needed

	Straps        int // over the platform, for the warning
	LowKg, HighKg float64
	HighPercent   float64 // of the rated load; 0 is not known
	Trips         []Trips
}

// Lashing is a row of equal lashings.
type Lashing struct {
	Count    int
	Kind     string // web, chain or rope
	Size     string // as on its label: "8 mm"
	Way      string // front, rear or over
	AngleDeg float64
	PlanDeg  float64
}

// Trips is what the last trips of a haulier showed.
type Trips struct {
	Haulier               string
	Raised, Trips, Unread int
}

// mostTrips is how many hauliers fit the page.
const mostTrips = 4

// Of makes the page in a language.
func Of(f Facts, lang Lang) Card {
	say := lang.say
	c := Card{Lang: lang, Title: say("title"), Machine: f.Machine, Foot: say("foot")}
	if f.MassKg > 0 {
		c.Machine += fmt.Sprintf(", %.0f kg", f.MassKg)
	}
	if lang != English {
		c.Unreviewed = say("unreviewed")
	}
	lower := say("lower")
	if f.Upright {
		lower = say("lower-upright")
	}
	c.Sections = []Section{
		{Heading: say("before"), Lines: []string{lower, say("reading-before"), say("block"), say("switch-off")}},
		{Heading: say("hold"), Lines: f.hold(say)},
		{Heading: say("never"), Stop: true, Lines: []string{f.warning(say), say("never-under"), say("never-line"), say("never-edge")}},
		{Heading: say("way"), Lines: []string{say("recheck"), say("reading-after")}},
		{Heading: say("trips"), Lines: f.trips(say)},
	}
	return c
}

// hold says where the machine is held, and with what.
func (f Facts) hold(say sayer) []string {
	out := []string{say("points")}
	for _, l := range f.Lashings {
		what := fmt.Sprintf("%d \u00d7 %s %s", l.Count, say(l.Kind), l.Size)
		if l.Way == "over" {
			out = append(out, fmt.Sprintf("%s: %s, %.0f\u00b0.", what, say("over"), l.AngleDeg))
			continue
		}
		out = append(out, fmt.Sprintf("%s: %s.", what, fmt.Sprintf(say(l.Way), l.AngleDeg, l.PlanDeg)))
	}
	switch {
	case !f.Worked:
		out = append(out, say("not-worked"))
	case f.Held:
		out = append(out, fmt.Sprintf(say("held"), f.Rule, cut(f.Percents[0]), cut(f.Percents[1]), cut(f.Percents[2])))
	default:
		out = append(out, fmt.Sprintf(say("not-held"), f.Rule, cut(f.Percents[0]), cut(f.Percents[1]), cut(f.Percents[2])))
	}
	return append(out, say("hard"))
}

// cut rounds a percentage down: a page does not promise more than there is.
func cut(x float64) float64 { return math.Floor(math.Min(x, 999)) }

func (f Facts) warning(say sayer) string {
	if f.HighKg <= 0 {
		return say("never-over")
	}
	text := say("never-over") + " " + fmt.Sprintf(say("reads-as"), f.Straps, math.Round(f.LowKg), math.Round(f.HighKg)) // as on the sheet
	if f.HighPercent > 0 {
		text += fmt.Sprintf(say("reads-percent"), math.Round(f.HighPercent))
	}
	return text + "."
}

func (f Facts) trips(say sayer) []string {
	var out []string
	for i, t := range f.Trips {
		if i == mostTrips {
			break
		}
		name := t.Haulier
		if name == "" {
			name = say("nobody")
		}
		switch {
		case t.Trips == 0:
			out = append(out, fmt.Sprintf(say("trips-unread"), name, t.Unread))
		case t.Unread == 0:
			out = append(out, fmt.Sprintf(say("trips-read"), name, t.Raised, t.Trips))
		default:
			out = append(out, fmt.Sprintf(say("trips-row"), name, t.Raised, t.Trips, t.Unread))
		}
	}
	if len(out) == 0 {
		return []string{say("no-trips")}
	}
	return out
}

// Rows estimates how many rows of print the lines take, so many characters wide.
func (c Card) Rows(wide int) (rows int) {
	for _, s := range c.Sections {
		for _, line := range s.Lines {
			rows += 1 + len([]rune(line))/wide
		}
	}
	return rows
}

// Text writes the page as plain text.
func (c Card) Text() string {
	var b strings.Builder
	b.WriteString(c.Title + "\n" + c.Machine + "\n")
	for _, s := range c.Sections {
		b.WriteString("\n" + s.Heading + "\n")
		for _, line := range s.Lines {
			b.WriteString("- " + line + "\n")
		}
	}
	b.WriteString("\n" + c.Foot + "\n")
	if c.Unreviewed != "" {
		b.WriteString(c.Unreviewed + "\n")
	}
	return b.String()
}
