package intake

import (
	"fmt"

	"ratchetmark/internal/record"
)

func (s *sheet) sayOdd() {
	message := "a line says nothing about a machine: "
	if s.odd > 1 {
		message = fmt.Sprintf("%d lines say nothing about a machine; the first: ", s.odd)
	}
	f := record.Finding{
		Code: "line-not-used", Severity: record.Note, Where: "beside the tables",
		Message: message + s.oddText, Expected: "a heading, rows under it, or a name and its value",
		Effect: "it is not used", Hint: "point out what it is if it was meant to count",
	}
	if s.lost() {
		f.Severity, f.Effect = record.Blocking, "they are not used, and what stands below them is not read"
	}
	s.g.find(nil, s.oddAt, f)
}

func (s *sheet) sayZone() {
	zone := s.dialect.zone.String()
	s.g.find(nil, s.dialect.bareAt, record.Finding{
		Code: "zone-assumed", Severity: record.Note, Where: "times",
		Message:  fmt.Sprintf("%s without a zone, the first one here", countOf(s.dialect.bare, "time", "times")),
		Expected: "times with their zone, as 2026-03-02T08:10:00Z",
		Effect:   "they are read as " + zone + "; a trip and a peak near its ends may be put apart wrongly", Hint: "say in which zone the machine's clock runs",
	})
}

func (s *sheet) sayNumbers() {
	s.g.find(nil, s.dialect.numbersAt, record.Finding{
		Code: "date-from-number", Severity: record.Doubt, Where: "times",
		Message: countOf(s.dialect.numbers, "time", "times") + " given as a number, the first one here", Expected: timeExpected,
		Effect: "a number of five digits is read as the days that a workbook counts, one of ten as seconds since 1970", Hint: "check a date against the machine's screen",
	})
}

func (s *sheet) sayUnit() {
	s.g.find(nil, s.dialect.unitlessAt, record.Finding{
		Code: "unit-assumed", Severity: record.Note, Where: "loads",
		Message: fmt.Sprintf("%s without a unit, the first one here", countOf(s.dialect.unitless, "load", "loads")), Expected: "kg, lb or t in the heading or the cell",
		Effect: "they are read as kg", Hint: "check the unit; point out the column's unit if it is another one",
	})
}

func countOf(n int, one, many string) string {
	if n == 1 {
		return "1 " + one
	}
	return fmt.Sprintf("%d %s", n, many)
}
