package dossier

import (
	"fmt"
	"slices"
	"strings"

	"ratchetmark/internal/record"
	"ratchetmark/internal/trips"
)

// ride prints how the machine should ride.
func (p *printer) ride(d *Dossier) {
	for _, line := range slices.Concat(RideLines(d), StrapSources(d.Transport), LashingLines(d)) {
		p.wrap("  ", "  ", line)
	}
	if d.Transport.Held != nil {
		for _, line := range SumLines(d.Transport) {
			p.wrap("  ", "  ", line)
		}
	}
	for _, f := range d.Transport.Findings {
		p.wrap(fmt.Sprintf("  [%s] ", f.Severity), "    ", FindingText(f))
	}
	if h := d.Transport.Held; h != nil {
		p.wrap("  ", "  ", h.NotCovered)
	}
	p.trips(d.Transport.Trips.List)
	if text := BriefingText(d.Transport); text != "" {
		p.wrap("  ", "  ", text)
	}
}

// trips prints what each trip did; those of which it is not known, together by
// the reason.
func (p *printer) trips(all []Trip) {
	var reasons []string
	unknown := map[string][]string{}
	for _, x := range all {
		trip, did := TripWords(x)
		if x.Bracketed {
			p.wrap("  - ", "    ", trip+": "+did)
			continue
		}
		if unknown[x.Why] == nil {
			reasons = append(reasons, x.Why)
		}
		unknown[x.Why] = append(unknown[x.Why], trip)
	}
	for _, why := range reasons {
		p.wrap("  - ", "    ", fmt.Sprintf("not known, %s: %s.", why, strings.Join(unknown[why], "; ")))
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

// TripWords names a trip, and says what it did or why that is not known.
func TripWords(x Trip) (trip, did string) {
	trip = x.Haulier
	if trip == "" {
		trip = "haulier not named"
	}
	if x.Crew != "" {
		trip += ", " + x.Crew
	}
	trip = day(x.From) + ", " + trip
	switch {
	case !x.Bracketed:
		return trip, "not known; " + x.Why + "."
	case x.Rose:
		return trip, "the peak rose to " + Kg(*x.Peak) + "."
	}
	return trip, "the peak did not rise."
}

// BriefingText compares the trips before and after a briefing; empty without one.
func BriefingText(t *Transport) string {
	b := t.Trips.Briefing
	if b == nil {
		return ""
	}
	return BriefingWords(b.On, b.Before, b.After)
}

// BriefingWords compares rates before a day and from it on.
func BriefingWords(on record.Date, before, after trips.Rate) string {
	return fmt.Sprintf("Before the briefing of %s: %s. From then on: %s. %s.", day(on.Time), before.Words(), after.Words(), Capital(trips.Compared(before, after)))
}
