package batch

import "ratchetmark/internal/wording"

// GuideFormat is the value of a guide's "format" member.
const GuideFormat = "ratchetmark guide 1"

// Guide says how a table is to be read where its headings alone do not: what
// each column is, which mark stands before decimals, how dates are ordered. A
// person makes it by pointing; it applies to every table with the same heading.
type Guide struct {
	Format  string   `json:"format"`
	Heading []string `json:"heading"` // the cells of the row the table begins with
	// Data tells that the first row is no heading but a row of the table already.
	Data    bool     `json:"heading_is_data,omitempty"`
	Columns []Column `json:"columns,omitempty"` // by position; none: as the headings say
	Decimal string   `json:"decimal,omitempty"` // "point" or "comma"; empty: as the values show
	Dates   string   `json:"dates,omitempty"`   // "day-first" or "month-first"; empty: as the values show
	Counts  string   `json:"counts,omitempty"`  // of hours under one edge each: "each" band's own, or "cumulative"
	Zone    string   `json:"zone,omitempty"`    // of times that name none, as "+01:00"; empty: UTC
}

// Column says what one column of a table is.
type Column struct {
	Field wording.Field `json:"field,omitempty"` // empty: the column is not used
	Unit  wording.Unit  `json:"unit,omitempty"`  // of cells that name none
	// From and To are the edges, in kg, of a column that holds the hours of one band.
	From *float64 `json:"from_kg,omitempty"`
	To   *float64 `json:"to_kg,omitempty"`
}
