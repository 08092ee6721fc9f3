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

// Settle is a record that would help to settle what is undecided, over all
// pieces it bears on.
type Settle struct {
	Record string    `json:"record"`
	Name   string    `json:"name"` // in a few words
	Do     string    `json:"do"`   // what to get, in words to act on
	Tell   string    `json:"tell"` // what it would show
	On     string    `json:"on"`   // which pieces it bears on
	Bits   float64   `json:"gain_bits"`
	Doubt  float64   `json:"of_the_doubt"` // the share that it is expected to take away of what is not known about all pieces of the list
	Pieces []BearsOn `json:"pieces"`

	Wants cause.Wants `json:"-"` // part of a case that it would go into
	onAll bool        // it bears on all that the list is about
}

// BearsOn is how much a record is expected to tell of one piece.
type BearsOn struct {
	Piece int     `json:"piece"` // place in the list of exceedances
	Bits  float64 `json:"gain_bits"`
}

// action is how a depot gets a record, and what it then knows.
type action struct {
	record  string // as package cause names it
	short   string
	do      string
	tell    string
	onTrips bool // it bears on a time, which is named with it
}

// actions says for each record what to do, in words that a depot can act on.
var actions = []action{
	{"a zero check with the platform empty, and a check with a known mass", "a zero check",
		"Read the load display with the platform empty and level, then with a known mass (test weights, or something weighed) in the middle. Write both down before anybody sets the zero",
		"if both are right, the cell has hardly drifted; if the empty platform does not read zero, it may have been no load at all", false},
	{"a check with a known mass on the platform", "a known mass",
		"Read the load display with a known mass (test weights, or something weighed) in the middle of the platform, before anybody sets the cell",
		"if it is right too, the cell has hardly drifted; a gain that is wrong shows with a load only", false},
	{"custody: who had the machine when, and when it was on a truck", "who had the machine",
		"Get the hire contracts and delivery notes, and enter who had the machine from when to when, trips on a truck included",
		"which hours were a trip and which were use: a tie-down needs a trip, work a platform that is free", true},
	{"when the peak was set", "when the peak was set",
		"Look on the machine's screen, or in its export, for the day and time of the highest load, and enter it with the reading; an older peak only stands on an older export or photo",
		"set on a truck it was hardly work; set anywhere else it was hardly a tie-down", true},
	{"readings taken before loading and after unloading", "readings around the trip",
		"Look for readings around each trip: on delivery and collection notes, on photos of the display. From now on, take one before loading and one after unloading",
		"whether the load came with the trip or with use", true},
	{"the tie-down that was used: a photo, the delivery note, the crew's word", "how it was tied down",
		"Ask the haulier how the machine was held: a photo, the delivery note, the crew's own word; above all whether a strap or chain went over the platform, with which tensioner, and whether the machine was switched on",
		"a strap over the platform speaks for a tie-down, none against it", true},
	{"the tie-down on the other trips: a photo, the delivery note, the crew's word", "how it was tied down on the other trips",
		"Ask the hauliers of the other trips too how the machine was held: a photo, the delivery note, the crew's own word; above all whether a strap or chain went over the platform",
		"a strap over the platform speaks for a tie-down, none against it", true},
	{"the machine's event list: overload alarms, power on and off", "the event list",
		"Have the machine's event list read out, with times: overload alarms, power on and off",
		"alarms on hire speak for work or a drifted cell, alarms on a truck for a tie-down, none at all for a shock", true},
	{"daily use: powered hours by day", "powered hours by day",
		"Get the powered hours of each day, from the machine's tracking or its own log",
		"held against who had the machine, whether the hours were counted on a truck or in use", true},
	{"the counter of moving hours at both readings", "moving hours",
		"Enter the counter of moving hours with both readings, if the machine shows one",
		"a machine that is tied down does not move", true},
}

// actionOf returns how to get a record; in its own words where no row names it.
func actionOf(record, why string) action {
	if i := slices.IndexFunc(actions, func(a action) bool { return a.record == record }); i >= 0 {
		return actions[i]
	}
	return action{record: record, short: record, do: "Get " + record, tell: why}
}

// rest says how to get the rest of a list that a case holds a part of: what it holds
// does not tell about the time that is asked about.
type rest struct {
	wants cause.Wants
	holds func(c *record.Case) bool
	short string
	do    string
}

var rests = []rest{
	{cause.WantsEvents, func(c *record.Case) bool {
		return slices.ContainsFunc(c.Events, func(e record.Event) bool { return e.Kind != record.PeakRise })
	}, "the rest of the event list",
		"An event list is at hand, but does not tell about all of this time. Have the machine's own read out for the whole of it: overload alarms, power on and off"},
	{cause.WantsDaily, func(c *record.Case) bool { return len(c.Daily) > 0 }, "powered hours of the other days",
		"Powered hours of some days are at hand, but do not tell about all of this time. Get those of each day of it, from the machine's tracking or its own log"},
	{cause.WantsCustody, func(c *record.Case) bool { return len(c.Custody) > 0 }, "who had the machine in between",
		"Custody is at hand, but leaves part of this time open. Get the hire contracts and delivery notes for the rest, and enter who had the machine from when to when, trips on a truck included"},
}

// onwards turns a record to get into what is still to get of it, where the case
// holds a part.
func (d *Dossier) onwards(a action, wants cause.Wants) action {
	for _, r := range rests {
		if r.wants == wants && r.holds(d.History.Case) {
			a.short, a.do = r.short, r.do
		}
	}
	return a
}

// canSettle reports whether a record can still settle a piece: it is undecided,
// and not because it may lie under the rated load or is not to be believed.
func (d *Dossier) canSettle(x Exceedance) bool {
	switch outcomeOf(&x, d.History.Rated) {
	case isNamed, isSmall, isBeyond, mayBeHere, mayBeOld:
		return false
	}
	return true
}

// open returns the places of the pieces that the list of records is about: those
// that can be settled, or all where there is none.
func (d *Dossier) open() []int {
	var out, every []int
	for i, x := range d.Exceedances {
		every = append(every, i)
		if d.canSettle(x) {
			out = append(out, i)
		}
	}
	if len(out) == 0 {
		return every
	}
	return out
}

// settle ranks the records by what each is expected to tell about all pieces
// that they can settle; about all pieces where there is none.
func (d *Dossier) settle() []Settle {
	open := d.open()
	out := []Settle{}
	all := 0.0
	for _, i := range open {
		x := &d.Exceedances[i]
		all += doubt(x)
		for _, a := range x.AskFor {
			k := slices.IndexFunc(out, func(s Settle) bool { return s.Record == a.Record })
			if k < 0 {
				k = len(out)
				how := d.onwards(actionOf(a.Record, a.Why), a.Wants)
				out = append(out, Settle{Record: a.Record, Name: how.short, Do: how.do, Tell: how.tell, Wants: a.Wants})
			}
			out[k].Bits += a.Bits
			out[k].Pieces = append(out[k].Pieces, BearsOn{i, a.Bits})
		}
	}
	for k := range out {
		s := &out[k]
		if all > 0 {
			s.Doubt = decimals(math.Min(1, s.Bits/all))
		}
		s.Bits = decimals(s.Bits)
		s.On, s.onAll = d.bearsOn(s), len(s.Pieces) == len(open)
	}
	record.SortStable(out, func(a, b Settle) int { return cmp.Compare(b.Bits, a.Bits) })
	return out
}

// doubt is what is not known about the cause of a piece, in bits: the entropy of
// its weights (Shannon 1948, from memory).
func doubt(x *Exceedance) float64 {
	bits := 0.0
	for _, c := range cause.All {
		if p := x.Posterior.Get(c); p > 0 {
			bits -= p * math.Log2(p)
		}
	}
	return bits
}

// bearsOn names the pieces that a record bears on, and the time to get it for.
func (d *Dossier) bearsOn(s *Settle) string {
	var places []int
	for _, b := range s.Pieces {
		places = append(places, b.Piece)
	}
	all := d.piecesOf(places)
	text := d.these(all)
	if actionOf(s.Record, "").onTrips {
		text += ", " + d.toldWhen(all)
	}
	return text
}

// these names pieces in a sentence.
func (d *Dossier) these(all []*Exceedance) string {
	text := d.toldTitle(all)
	if strings.HasPrefix(text, "peak") {
		return "the " + text
	}
	return text
}

// SettleAnswer opens the list of what to ask for: about what, and for which
// time. Empty where there is no list.
func SettleAnswer(d *Dossier) string {
	if len(d.Settle) == 0 {
		return ""
	}
	all := d.piecesOf(d.open())
	about := fmt.Sprintf("%s (%s)", d.these(all), d.toldWhen(all))
	if !d.canSettle(*all[0]) {
		return "Nothing is left that a record could decide. These would put to the test what is said of " + about + ", the most telling first, with how much of the doubt that is left each is expected to take away."
	}
	return "Undecided: " + about + ". What to ask for, best first, with how much of the doubt about it each is expected to take away."
}

// SettleText writes a record to ask for.
func SettleText(s *Settle) string {
	text := fmt.Sprintf("%s. What it shows: %s.", s.Do, s.Tell)
	if bears := BearsText(s); bears != "" {
		text += " " + bears
	}
	return text
}

// BearsText names what a record bears on; empty where that is all of it.
func BearsText(s *Settle) string {
	if s.onAll {
		return ""
	}
	return "Bears on " + s.On + "."
}

// DoubtText writes the share of the doubt that a record is expected to take away.
func DoubtText(s *Settle) string {
	if s.Doubt < 0.01 {
		return "under 1 % of the doubt"
	}
	return "about " + WeightText(s.Doubt) + " of the doubt"
}

// AsksText points from pieces that are told together to the list: the records
// that would tell most of them, by their numbers in it. Empty with none, and where all is told together.
func AsksText(d *Dossier, t *Told) string {
	if len(d.Told) == 1 {
		return "" // the list is about nothing else
	}
	type gain struct {
		number int
		bits   float64
	}
	var gains []gain
	for k := range d.Settle {
		g := gain{number: k + 1}
		for _, b := range d.Settle[k].Pieces {
			if slices.Contains(t.Pieces, b.Piece) {
				g.bits += b.Bits
			}
		}
		if g.bits > 0 {
			gains = append(gains, g)
		}
	}
	record.SortStable(gains, func(a, b gain) int { return cmp.Compare(b.bits, a.bits) })
	var parts []string
	for _, g := range gains[:min(len(gains), mostPointed)] {
		parts = append(parts, fmt.Sprintf("%s (%d)", d.Settle[g.number-1].Name, g.number))
	}
	if len(parts) == 0 {
		return ""
	}
	return "What would tell most, by its number below: " + strings.Join(parts, ", ") + "."
}

// mostPointed is how many records the pieces point to.
const mostPointed = 2
