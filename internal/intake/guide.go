package intake

import (
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"errors"
	"fmt"
	"strings"
	"time"

	"ratchetmark/internal/batch"
	"ratchetmark/internal/wording"
)

// Signature names tables with the same heading: the first 16 digits of the
// SHA-256 (FIPS 180-4) of the heading cells in lower case, without outer
// blanks and without blank cells at the end.
func Signature(heading []string) string {
	cells := make([]string, len(heading))
	last := 0
	for i, c := range heading {
		cells[i] = strings.ToLower(strings.TrimSpace(c))
		if cells[i] != "" {
			last = i + 1
		}
	}
	sum := sha256.Sum256([]byte(strings.Join(cells[:last], "\x1f")))
	return hex.EncodeToString(sum[:8])
}

// ReadGuide reads a guide that was saved as JSON. An error says what is wrong with it.
func ReadGuide(data []byte) (Guide, error) {
	var g Guide
	if err := json.Unmarshal(data, &g); err != nil {
		return g, fmt.Errorf("the guide cannot be read: %w", err)
	}
	return g, checkGuide(&g)
}

func checkGuide(g *Guide) error {
	switch {
	case g.Format != batch.GuideFormat:
		return fmt.Errorf("the guide's format is %q; expected %q", short(g.Format), batch.GuideFormat)
	case len(g.Heading) == 0:
		return errors.New("the guide names no heading; expected the cells of the row the table begins with")
	case g.Decimal != "" && g.Decimal != "point" && g.Decimal != "comma":
		return fmt.Errorf("the guide's decimal is %q; expected point or comma", short(g.Decimal))
	case g.Dates != "" && g.Dates != "day-first" && g.Dates != "month-first":
		return fmt.Errorf("the guide's dates are %q; expected day-first or month-first", short(g.Dates))
	}
	if g.Counts != "" && g.Counts != countsEach && g.Counts != countsCumulative {
		return fmt.Errorf("the guide's counts are %q; expected %s or %s", short(g.Counts), countsEach, countsCumulative)
	}
	_, err := zoneOf(g)
	return err
}

// What hours under one edge each can be, as a guide says it.
const (
	countsEach       = "each"
	countsCumulative = "cumulative"
)

// mark returns the mark before decimals that the guide names.
func markOf(g *Guide) wording.Mark {
	switch g.Decimal {
	case "point":
		return wording.Point
	case "comma":
		return wording.Comma
	}
	return wording.Unknown
}

// order returns the order of dates that the guide names.
func orderOf(g *Guide) wording.Order {
	switch g.Dates {
	case "day-first":
		return wording.DayFirst
	case "month-first":
		return wording.MonthFirst
	}
	return wording.UnknownOrder
}

// zone returns the zone of times that name none.
func zoneOf(g *Guide) (*time.Location, error) {
	if g.Zone == "" || g.Zone == "Z" {
		return time.UTC, nil
	}
	t, err := time.Parse("-07:00", g.Zone)
	if err != nil {
		return time.UTC, fmt.Errorf("the guide's zone is %q; expected one such as +01:00", short(g.Zone))
	}
	_, offset := t.Zone()
	return time.FixedZone(g.Zone, offset), nil
}
