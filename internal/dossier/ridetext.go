package dossier

import (
	"fmt"
	"strings"
)

// ride prints how the machine should ride.
func (p *printer) ride(d *Dossier) {
	for _, line := range RideLines(d) {
		p.wrap("  ", "  ", line)
	}
	for _, f := range d.Transport.Findings {
		p.wrap(fmt.Sprintf("  [%s] ", f.Severity), "    ", FindingText(f))
	}
	if h := d.Transport.Held; h != nil {
		p.wrap("  ", "  ", h.NotCovered)
	}
	for _, x := range d.Transport.Trips.List {
		p.wrap("  - ", "    ", TripText(x))
	}
	if text := BriefingText(d.Transport); text != "" {
		p.wrap("  ", "  ", text)
	}
}

// RideLines are the sentences beside the answer: what a strap does at its most,
// and what would give the peak.
func RideLines(d *Dossier) []string {
	var out []string
	for _, text := range []string{TestText(d), MatchText(d)} {
		if text != "" {
			out = append(out, text)
		}
	}
	return out
}

// TripText says what a trip did, or why that is not known.
func TripText(x Trip) string {
	who := x.Haulier
	if who == "" {
		who = "haulier not named"
	}
	if x.Crew != "" {
		who += ", " + x.Crew
	}
	text := day(x.From) + ", " + who + ": "
	switch {
	case !x.Bracketed:
		return text + "not known; " + x.Why + "."
	case x.Rose:
		return text + "the peak rose to " + Kg(*x.Peak) + "."
	}
	return text + "the peak did not rise."
}

// BriefingText compares the trips before and after a briefing; empty without one.
func BriefingText(t *Transport) string {
	b := t.Trips.Briefing
	if b == nil {
		return ""
	}
	return fmt.Sprintf("Before the briefing of %s: %s. From then on: %s. %s.", day(b.On.Time), strings.TrimSuffix(b.Before.Words(), "."), b.After.Words(), capital(b.Words))
}
