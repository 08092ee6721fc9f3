package intake

import (
	"slices"

	"ratchetmark/internal/record"
	"ratchetmark/internal/wording"
)

// Question is something about a table that its values leave open. It is asked,
// with the values themselves; until it is answered they are taken as missing.
type Question struct {
	Kind    questionKind
	Sheet   int      // index in [Batch.Sheets]
	Column  string   // heading of the column
	Values  []string // some of the values that can be read two ways
	Choices []Choice
}

// Choice is one answer to a question: what a guide says, and what the first of
// the values then means.
type Choice struct{ Answer, Means string }

type questionKind string

// The questions: which mark stands before decimals, which part of a date is first.
const (
	askDecimal questionKind = "decimal"
	askDates   questionKind = "dates"
)

const maxAsked = 5 // values shown with a question

// ask notes that a value of a column can be read two ways.
func (s *sheet) ask(kind questionKind, column, value string) {
	g := s.g
	i := slices.IndexFunc(g.questions, func(q Question) bool {
		return q.Kind == kind && q.Sheet == s.index && q.Column == column
	})
	if i < 0 {
		if len(g.questions) >= maxQuestions {
			return
		}
		clean, _ := Visible(short(column))
		g.questions = append(g.questions, Question{Kind: kind, Sheet: s.index, Column: clean, Choices: choices(kind, value)})
		i = len(g.questions) - 1
	}
	clean, _ := Visible(short(value))
	if q := &g.questions[i]; len(q.Values) < maxAsked && !slices.Contains(q.Values, clean) {
		q.Values = append(q.Values, clean)
	}
}

const maxQuestions = 40

// choices tells what a value means under each answer.
func choices(kind questionKind, value string) []Choice {
	if kind == askDates {
		return []Choice{{"day-first", dateMeans(value, wording.DayFirst)}, {"month-first", dateMeans(value, wording.MonthFirst)}}
	}
	return []Choice{{"point", numberMeans(value, wording.Point)}, {"comma", numberMeans(value, wording.Comma)}}
}

func dateMeans(value string, order wording.Order) string {
	t, _, _, err := wording.Time(value, order, nil)
	if err != nil {
		return ""
	}
	return t.Format("2 January 2006")
}

func numberMeans(value string, mark wording.Mark) string {
	x, _, err := wording.Quantity(value, mark, wording.NoUnit)
	if err != nil {
		return ""
	}
	return plainNumber(x)
}

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

// Limits of what is shown of a table.
const (
	shownRows   = 12
	shownCells  = 40
	shownLength = 40
	maxSheets   = 50
)

// lineOf copies a row for showing.
func lineOf(place string, cells []string) Line {
	out := Line{Place: place}
	for i, c := range cells {
		if i == shownCells {
			break
		}
		clean, _ := Visible(oneLine(short(c)))
		out.Cells = append(out.Cells, clean)
	}
	return out
}
