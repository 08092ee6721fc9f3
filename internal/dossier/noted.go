package dossier

import (
	"fmt"
	"maps"
	"math"
	"slices"
	"strings"
	"time"

	"ratchetmark/internal/record"
)

// mostNoted is how many checks, and how many tie-downs, are told of one by one.
const mostNoted = 8

// noted lists, in sentences, what a case holds of checks of the load shown and of
// tie-downs, in its order; of many the latest, and how many there are besides.
func noted(c *record.Case) []string {
	checks, earlier := latest(c.Checks, func(k record.LoadCheck) time.Time { return k.At })
	tied, before := latest(c.TieDowns, func(t record.TieDown) time.Time { return t.At })
	var out []string
	for _, k := range checks {
		out = append(out, checkText(k))
	}
	if earlier > 0 {
		out = append(out, fmt.Sprintf("Checks of the cell before these, in the case too: %d.", earlier))
	}
	for _, t := range tied {
		out = append(out, tieDownText(t))
	}
	if before > 0 {
		out = append(out, fmt.Sprintf("Tie-downs before these, in the case too: %d.", before))
	}
	return out
}

// latest returns the latest of many, in order of time, and how many were earlier;
// a few as they are.
func latest[T any](all []T, at func(T) time.Time) (shown []T, earlier int) {
	if len(all) <= mostNoted {
		return all, 0
	}
	sorted := slices.Clone(all)
	record.SortStable(sorted, func(a, b T) int { return at(a).Compare(at(b)) })
	earlier = len(sorted) - mostNoted
	return sorted[earlier:], earlier
}

// checkText writes a check as a sentence: "Cell checked on 5 March 2026, 08:15 UTC,
// with nothing on the platform: 3 kg shown (fitter A)."
func checkText(k record.LoadCheck) string {
	on := "with nothing on the platform"
	switch {
	case k.Kind == record.MassCheck && k.Mass != nil:
		on = "with " + Kg(float64(*k.Mass)) + " on the platform"
	case k.Kind != record.ZeroCheck:
		on = "with a mass that is not said on the platform"
	}
	shown := "no load noted"
	if k.Shown != nil {
		shown = Kg(float64(*k.Shown)) + " shown"
	}
	return "Cell checked " + onDay(k.At) + ", " + on + ": " + shown + aside(k.By, k.Note) + "."
}

// knownBy says how something is known.
var knownBy = map[record.Known]string{
	record.Seen: "as was seen", record.Pictured: "on a photo", record.Papers: "by the papers", record.ToldOf: "as the crew told",
}

// tieDownText writes what is known of a tie-down as a sentence: "Tie-down on 11
// June 2026, 07:00 UTC: over the platform, on a photo."
func tieDownText(t record.TieDown) string {
	over := "not said whether over the platform"
	switch {
	case t.Over != nil && *t.Over:
		over = "over the platform"
	case t.Over != nil:
		over = "not over the platform"
	}
	how, known := knownBy[t.How]
	if !known {
		how = "not said how that is known"
	}
	return "Tie-down " + onDay(t.At) + ": " + over + ", " + how + aside(t.Note) + "."
}

// offWords says how far off a load shown was: "118 kg too much with nothing on the
// platform on 20 August 2025".
func offWords(k record.LoadCheck) string {
	far, which := float64(k.Off()), "too much"
	if far < 0 {
		far, which = -far, "too little"
	}
	on := "nothing"
	if k.On() > 0 {
		on = Kg(float64(k.On()))
	}
	return Kg(far) + " " + which + " with " + on + " on the platform on " + day(k.At)
}

// wrongNow returns the check by which the load cell reads wrongly: of the latest
// checks of each kind the one that is furthest off. Nil where none is.
func wrongNow(d *Dossier) *record.LoadCheck {
	latest := map[record.LoadKind]record.LoadCheck{}
	for _, k := range d.History.Case.UsableChecks() {
		latest[k.Kind] = k
	}
	return furthest(d, slices.Collect(maps.Values(latest)), func(record.LoadCheck) bool { return true })
}

// readLow returns the check that showed too little by most; nil where none did.
func readLow(d *Dossier) *record.LoadCheck {
	return furthest(d, d.History.Case.UsableChecks(), func(k record.LoadCheck) bool { return k.Off() < 0 })
}

// furthest returns the check that is furthest off among those that are wrong, of
// equals the latest; nil where none is, or without a rated load to hold it against.
func furthest(d *Dossier, all []record.LoadCheck, of func(record.LoadCheck) bool) *record.LoadCheck {
	var out *record.LoadCheck
	for _, k := range all {
		if d.History.Rated <= 0 || !k.Wrong(d.History.Rated) || !of(k) {
			continue
		}
		if far := math.Abs(float64(k.Off())); out == nil || far > math.Abs(float64(out.Off())) || far == math.Abs(float64(out.Off())) && !k.At.Before(out.At) {
			out = &k
		}
	}
	return out
}

func onDay(t time.Time) string {
	switch {
	case t.IsZero():
		return "at a time that is not said"
	case t.UTC().Equal(t.UTC().Truncate(24 * time.Hour)):
		return "on " + t.UTC().Format("2 January 2006")
	}
	return "on " + t.UTC().Format("2 January 2006, 15:04 UTC")
}

// aside puts words that are there into brackets.
func aside(words ...string) string {
	var some []string
	for _, w := range words {
		if w != "" {
			some = append(some, w)
		}
	}
	if len(some) == 0 {
		return ""
	}
	return " (" + strings.Join(some, "; ") + ")"
}
