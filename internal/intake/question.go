package intake

import (
	"slices"

	"ratchetmark/internal/batch"
	"ratchetmark/internal/wording"
)

const maxAsked = 5 // values shown with a question

// ask notes that a value of a column can be read two ways.
func (s *sheet) ask(kind batch.QuestionKind, column, value string) {
	g := s.g
	s.asked = true
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

// askLoad asks which of two loads a column or a line means.
func (s *sheet) askLoad(column string) {
	if len(s.g.questions) >= maxQuestions {
		return
	}
	clean, _ := Visible(short(column))
	s.g.questions = append(s.g.questions, Question{Kind: batch.AskLoad, Sheet: s.index, Column: clean, Choices: []batch.Choice{
		{Answer: "rated_load_kg", Means: "what the machine may carry"}, {Answer: "peak_kg", Means: "the highest load it has recorded"},
	}})
}

const maxQuestions = 40

// choices tells what a value means under each answer.
func choices(kind batch.QuestionKind, value string) []batch.Choice {
	if kind == batch.AskDates {
		return []batch.Choice{{Answer: "day-first", Means: dateMeans(value, wording.DayFirst)}, {Answer: "month-first", Means: dateMeans(value, wording.MonthFirst)}}
	}
	return []batch.Choice{{Answer: "point", Means: numberMeans(value, wording.Point)}, {Answer: "comma", Means: numberMeans(value, wording.Comma)}}
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
	if err == nil {
		return plainNumber(x)
	}
	label, err := wording.Band(value, mark, wording.NoUnit)
	switch {
	case err != nil:
		return ""
	case label.From == nil:
		return "up to " + plainNumber(*label.To)
	case label.To == nil:
		return "over " + plainNumber(*label.From)
	}
	return plainNumber(*label.From) + "-" + plainNumber(*label.To)
}

// Limits of what is shown of a table.
const (
	shownRows   = 12
	shownCells  = 40
	shownLength = 40
	maxSheets   = 50
)

// lineOf copies a row for showing.
func lineOf(place string, cells []string) batch.Line {
	out := batch.Line{Place: place}
	for i, c := range cells {
		if i == shownCells {
			break
		}
		clean, _ := Visible(oneLine(short(c)))
		out.Cells = append(out.Cells, clean)
	}
	return out
}
