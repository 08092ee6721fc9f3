package cause

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"time"

	"ratchetmark/internal/record"
)

func zeroText(f *facts) string {
	c := f.checks.zero
	return fmt.Sprintf("with nothing on the platform the machine showed %s on %s", kilograms(*c.Shown), c.when(f))
}

func massText(f *facts) string {
	c := f.checks.mass
	return fmt.Sprintf("with %s on the platform the machine showed %s on %s", kilograms(c.On()), kilograms(*c.Shown), c.when(f))
}

func kilograms(x record.Kilogram) string { return record.Number(math.Round(float64(x)*10)/10) + " kg" }

// when says on what day a check was made, and how that lies to the piece.
func (c *cellCheck) when(f *facts) string {
	text := dayWords(c.At)
	whole := math.Round(c.days)
	end := "the interval"
	if !f.peakTime().IsZero() {
		end = "the peak was set"
	}
	switch {
	case c.before && c.days > 0:
		text += ", " + daysWords(whole) + " before " + end
	case c.before:
		text += ", within the interval"
	default:
		text += ", " + daysWords(whole) + " after " + end
	}
	if c.workshop >= 0.5 {
		text += "; a workshop had the machine in between"
	}
	return text
}

func daysWords(n float64) string {
	switch n {
	case 0:
		return "less than a day"
	case 1:
		return "a day"
	}
	return fmt.Sprintf("%.0f days", n)
}

func dayWords(t time.Time) string { return t.UTC().Format("2 January 2006") }

// tieWords says what is known of one tie-down, over the platform or not.
var tieWords = map[record.Known]map[bool]string{
	record.Seen:     {true: "a tie-down over the platform was seen", false: "the tie-down was seen, and none went over the platform"},
	record.Pictured: {true: "a photo shows a tie-down over the platform", false: "a photo shows the tie-down, and none over the platform"},
	record.Papers:   {true: "the papers tell of a tie-down over the platform", false: "by the papers, no tie-down went over the platform"},
	record.ToldOf:   {true: "the crew told of a tie-down over the platform", false: "the crew said that no tie-down went over the platform"},
}

func tiedText(f *facts) string {
	trips := f.tied.trips
	if len(trips) == 1 {
		var words []string
		for _, s := range trips[0].said {
			words = append(words, tieWords[s.How][*s.Over])
		}
		if u := trips[0].custody; u != nil {
			return strings.Join(words, "; ") + ", on the trip of " + dayWords(u.From)
		}
		return words[0] + ", on " + dayWords(trips[0].said[0].At)
	}
	return fmt.Sprintf("something is known of the tie-down on %d trips: %s", len(trips), tiedCounts(trips))
}

// tiedCounts says on how many trips it went over the platform and on how many not.
func tiedCounts(trips []tiedTrip) string {
	var over, not, both int
	for _, t := range trips {
		yes := slices.ContainsFunc(t.said, func(s record.TieDown) bool { return *s.Over })
		no := slices.ContainsFunc(t.said, func(s record.TieDown) bool { return !*s.Over })
		switch {
		case yes && no:
			both++
		case yes:
			over++
		default:
			not++
		}
	}
	var parts []string
	for _, p := range []struct {
		n     int
		where string
	}{{over, "over the platform on %d"}, {not, "not over it on %d"}, {both, "one way and the other on %d"}} {
		if p.n > 0 {
			parts = append(parts, fmt.Sprintf(p.where, p.n))
		}
	}
	return strings.Join(parts, ", ")
}
