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
	seen := map[wording.Field]bool{}
	for i := range g.Columns {
		c := &g.Columns[i]
		if fault := columnFault(c); fault != "" {
			return fmt.Errorf("column %d of the guide %s", i+1, fault)
		}
		if seen[c.Field] && c.Field != "" && c.Field != bandHours {
			return fmt.Errorf("column %d of the guide is %s as one before it; expected each field once", i+1, c.Field)
		}
		seen[c.Field] = true
	}
	_, err := zoneOf(g)
	return err
}

// columnFault says what is wrong with a column of a guide; empty for nothing.
func columnFault(c *Column) string {
	field := c.Field
	if field == bandHours {
		field = wording.FieldHours
	}
	switch {
	case c.Field == "":
		return ""
	case !wording.IsField(field):
		return fmt.Sprintf("is %q; expected a field as a guide that was saved has it", short(string(c.Field)))
	case !wording.Suits(field, c.Unit) && !(c.Unit == wording.Percent && field == wording.FieldHours):
		return fmt.Sprintf("has %s in %s; expected a unit that suits", c.Field, c.Unit)
	case c.Field != bandHours && (c.From != nil || c.To != nil):
		return "has edges and is no band; expected edges with band_hours alone"
	case c.From != nil && *c.From < 0, c.To != nil && *c.To < 0:
		return "has an edge below zero"
	case c.From != nil && c.To != nil && *c.To <= *c.From:
		return "has its upper edge below the lower"
	}
	return ""
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
