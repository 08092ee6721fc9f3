package intake

import (
	"fmt"
	"strings"

	"ratchetmark/internal/record"
	"ratchetmark/internal/wording"
)

// names notes that the file names a unit of loads other than kg. Loads without
// a unit are then not taken for kg: they may be in that unit as well.
func (g *gatherer) names(u wording.Unit) {
	if u == wording.Pound || u == wording.Tonne || u.IsForce() {
		g.foreign = u.String()
	}
	g.force = g.force || u.IsForce()
}

// hearUnits looks for units in a line that says nothing else ("all loads in lb").
func (s *sheet) hearUnits(cells []string) {
	for _, c := range cells {
		before := ""
		for _, word := range strings.FieldsFunc(strings.ToLower(c), func(r rune) bool { return strings.ContainsRune(" ,;:.()[]-–/", r) }) {
			if (before == "in" || before == "en") && (word == "min" || word == "mins" || word == "sec" || word == "s") {
				word = map[bool]string{true: "minutes", false: "seconds"}[word[0] == 'm']
			}
			number := before != "" && startsNumber(before) // "10 minutes" is a time, and no unit of the table
			before = word
			if number && strings.HasPrefix(word, "min") {
				continue
			}
			switch word {
			case "lb", "lbs", "pounds", "pfund", "libras", "libbre", "livres":
				s.g.names(wording.Pound)
			case "tonnes", "tonnen", "toneladas", "tonnellate":
				s.g.names(wording.Tonne)
			case "minutes", "minuten", "minutos", "minuti", "seconds", "sekunden":
				s.g.otherTime = word
				s.g.find(nil, s.place(0), record.Finding{
					Code: "unit-elsewhere", Severity: record.Blocking, Where: "beside the tables",
					Message: "a line speaks of " + word + ": " + quoteStart(cells), Expected: "the unit of hours in the heading of their column",
					Effect: "hours without a unit are taken as missing: they may be " + word, Hint: "write the unit into the heading, or point it out",
				})
			}
		}
	}
}

// sayForce notes how loads given as forces are read.
func (g *gatherer) sayForce() {
	g.find(nil, record.Origin{File: g.name}, record.Finding{
		Code: "force-as-mass", Severity: record.Note, Where: "loads",
		Message: "loads are given as forces, in kN or daN", Expected: "kg, lb or t",
		Effect: fmt.Sprintf("they are read as the mass that weighs as much, with g = %v m/s²", wording.StandardGravity), Hint: "check an edge that should be a round number of kg",
	})
}

// unclear leaves out the loads without a unit of a file that names another unit than kg.
func (c *tableCase) unclear() {
	c.unclearTimes()
	if c.g.foreign == "" {
		return
	}
	m := &c.out.Case.Machine
	for _, at := range c.bare {
		switch at {
		case "machine/rated_load_kg":
			m.RatedLoad = nil
		case "machine/load_sensing_kg":
			m.LoadSensing = nil
		case "machine/mass_kg":
			m.Mass = nil
		default:
			i := number0(strings.Split(string(at), "/")[1]) - 1
			if i < 0 || i >= len(c.out.Case.Readings) {
				continue
			}
			c.out.Case.Readings[i].Peak = nil
		}
		where, _ := c.out.Origins.Find(at)
		c.g.find(c, where, record.Finding{
			Code: "unit-unclear", Severity: record.Blocking, Path: at,
			Message: "a load without a unit, in a file that names " + c.g.foreign, Expected: "kg, lb or t with every load",
			Effect: "the value is taken as missing; it is not guessed", Hint: "write the unit, or point it out",
		})
	}
	for i := range c.readings {
		if n := &c.readings[i]; n.unitless && !n.spoilt {
			n.paths = c.g.pathsOf(i)
			c.lacks(n, "unit-unclear", fmt.Sprintf("bands without a unit, in a file that names %s", c.g.foreign), "kg, lb or t with the bands", "write the unit, or point it out")
		}
	}
}

// unclearTimes leaves out hours without a unit beside others in minutes or seconds.
func (c *tableCase) unclearTimes() {
	for i := range c.readings {
		n := &c.readings[i]
		if !n.bareTime || n.spoilt || !n.otherTime && c.g.otherTime == "" {
			continue
		}
		n.paths = c.g.pathsOf(i)
		found := "hours without a unit, beside others in minutes or seconds"
		if c.g.otherTime != "" {
			found = "hours without a unit, in a file that speaks of " + c.g.otherTime
		}
		c.lacks(n, "unit-unclear", found, "h, min or s with every value", "write the unit, or point it out")
	}
}
