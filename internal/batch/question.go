package batch

import "ratchetmark/internal/record"

// Question is something about a table that its values leave open. It is asked,
// with the values themselves; until it is answered they are taken as missing.
type Question struct {
	Kind    QuestionKind
	Sheet   int      // index in [Batch.Sheets]
	Column  string   // heading of the column
	Values  []string // some of the values that can be read two ways
	Choices []Choice
}

// Choice is one answer to a question: what a guide says, and what the first of
// the values then means.
type Choice struct{ Answer, Means string }

// QuestionKind is what a question is about.
type QuestionKind string

// The questions: which mark stands before decimals, which part of a date is
// first, which of two loads a column or a line means, and whether hours under
// one edge each are those of a band or all beyond the edge.
const (
	AskDecimal QuestionKind = "decimal"
	AskDates   QuestionKind = "dates"
	AskLoad    QuestionKind = "load"
	AskCounts  QuestionKind = "counts"
)

// Sheet is one table of a file as it was found, with enough of it to point out
// what its columns are.
type Sheet struct {
	File, Name string
	Signature  string
	Read       bool     // something was taken from it
	Layout     string   // what shape it was taken to have
	Guide      Guide    // how it was read: the columns by position
	Start      int      // index in Rows of the row that the guide's heading is
	Rows       []Line   // the first rows as they are
	Left       []string // headings of columns that are not used
	Lacks      string   // what a row lacks that is nearly a heading
	LacksAt    record.Origin
}

// Line is one row of a table as it is.
type Line struct {
	Place string
	Cells []string
}
