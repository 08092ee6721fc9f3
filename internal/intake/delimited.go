package intake

import (
	"bufio"
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"slices"
	"sort"
	"strings"

	"ratchetmark/internal/record"
)

// Columns are the headings of the delimited form, in the order of the
// template. A row is one band; rows of the same machine and time are one
// reading; a blank cell left of the band's own means "as in the row above".
var Columns = []string{
	"machine", "kind", "rated_load_kg", "persons", "load_sensing_kg",
	"reading_at", "powered_h", "moving_h", "peak_kg", "peak_at",
	"from_kg", "to_kg", "hours",
}

// required are the columns without which nothing can be read.
var required = []string{"machine", "reading_at", "from_kg", "to_kg", "hours"}

const templateHint = "compare the first line with the template that can be saved from the start page"

// readDelimited reads delimited text in the form of the template.
func readDelimited(name string, in io.Reader) ([]Record, error) {
	buffered := bufio.NewReaderSize(&lineGuard{name: name, r: in}, sniffed)
	head, err := buffered.Peek(sniffed)
	if err != nil && err != io.EOF {
		return nil, err
	}
	if strings.HasPrefix(string(head), bom) {
		if _, err := buffered.Discard(len(bom)); err != nil {
			return nil, err
		}
	}
	t := &tableReader{name: name, csv: csv.NewReader(buffered)}
	t.csv.Comma = delimiterOf(string(head))
	t.csv.Comment = '#'
	t.csv.FieldsPerRecord = -1
	t.csv.ReuseRecord = true
	if err := t.heading(); err != nil {
		return nil, err
	}
	for {
		cells, err := t.csv.Read()
		if err == io.EOF {
			return t.finish()
		}
		var syntax *csv.ParseError
		if errors.As(err, &syntax) {
			t.broken(syntax)
			continue
		}
		if err != nil {
			return nil, err
		}
		t.row(cells)
	}
}

// delimiterOf returns the mark that divides the heading row.
func delimiterOf(head string) rune {
	head = strings.TrimPrefix(head, bom)
	for line := range strings.Lines(head) {
		if strings.HasPrefix(line, "#") || strings.TrimSpace(line) == "" {
			continue
		}
		best, most := ',', 0
		for _, mark := range []rune{',', ';', '\t', '|'} {
			if n := strings.Count(line, string(mark)); n > most {
				best, most = mark, n
			}
		}
		return best
	}
	return ','
}

// tableReader turns rows into cases and notes what does not fit.
type tableReader struct {
	name    string
	csv     *csv.Reader
	columns map[string]int // where each column stands
	width   int
	cases   []*tableCase
	loose   []record.Finding // of rows that belong to no machine
	cut     int
}

// heading reads the first row and finds the columns in it.
func (t *tableReader) heading() error {
	cells, err := t.csv.Read()
	if err != nil && !errors.Is(err, csv.ErrQuote) && !errors.Is(err, csv.ErrBareQuote) && err != io.EOF {
		return err
	}
	line := 1
	if len(cells) > 0 {
		line, _ = t.csv.FieldPos(0)
	}
	t.columns, t.width = map[string]int{}, len(cells)
	for i, c := range cells {
		t.column(i, strings.ToLower(strings.TrimSpace(c)))
	}
	var missing []string
	for _, c := range required {
		if _, ok := t.columns[c]; !ok {
			missing = append(missing, c)
		}
	}
	if len(missing) == 0 {
		return nil
	}
	found := "the heading row lacks " + strings.Join(missing, ", ")
	if len(missing) == len(required) {
		found = "the first line is not the heading row: " + quoteStart(cells)
	}
	return &Refusal{File: t.name, Line: line, Found: found, Expected: "the columns " + strings.Join(Columns, ", "), Hint: templateHint}
}

// column notes where a column stands. One that is not known is kept out; of one
// that stands twice the first counts.
func (t *tableReader) column(i int, name string) {
	if name == "" {
		return // a mark at the end of the line
	}
	line, col := t.csv.FieldPos(i)
	at := record.Origin{File: t.name, Line: line, Column: col}
	clean, _ := Visible(fmt.Sprintf("%q", short(name)))
	switch _, twice := t.columns[name]; {
	case !slices.Contains(Columns, name):
		t.find(nil, at, record.Finding{
			Code: "column-unknown", Severity: record.Note, Where: "heading row",
			Message: "column " + clean + " is not known", Expected: "the columns of the template",
			Effect: "it is not used", Hint: "check the spelling if it was meant to count",
		})
	case twice:
		t.find(nil, at, record.Finding{
			Code: "column-twice", Severity: record.Doubt, Where: "heading row",
			Message: "column " + clean + " stands twice", Expected: "each column once",
			Effect: "the first of the two is used", Hint: "remove the wrong one",
		})
	default:
		t.columns[name] = i
	}
}

func quoteStart(cells []string) string {
	clean, _ := Visible(strings.Join(cells, ","))
	return fmt.Sprintf("%q", short(clean))
}

// cell returns a cell of a row; blank where the row is too short.
func (t *tableReader) cell(cells []string, column string) string {
	i, ok := t.columns[column]
	if !ok || i >= len(cells) {
		return ""
	}
	return strings.TrimSpace(cells[i])
}

// place returns where a cell stands.
func (t *tableReader) place(cells []string, column string) record.Origin {
	i, ok := t.columns[column]
	if !ok || i >= len(cells) {
		i = len(cells) - 1
	}
	line, col := t.csv.FieldPos(i)
	return record.Origin{File: t.name, Line: line, Column: col}
}

// row takes in one row.
func (t *tableReader) row(cells []string) {
	if len(cells) == 1 && strings.TrimSpace(cells[0]) == "" {
		return
	}
	if len(cells) != t.width {
		t.find(nil, t.place(cells, Columns[0]), record.Finding{
			Code: "row-ragged", Severity: record.Blocking,
			Where:   fmt.Sprintf("row in line %d", t.place(cells, Columns[0]).Line),
			Message: fmt.Sprintf("the row has %d cells", len(cells)), Expected: fmt.Sprintf("%d, as in the heading row", t.width),
			Effect: "the row is left out, and with it the hours of its band", Hint: "look for a missing or an extra mark between cells",
		})
		return
	}
	c := t.caseOf(cells)
	if c == nil {
		return
	}
	c.machine(cells)
	c.reading(cells)
}

// caseOf returns the case of the machine a row names, or of the row above.
func (t *tableReader) caseOf(cells []string) *tableCase {
	id, changed := Visible(oneLine(t.cell(cells, "machine")))
	id, cut := clip(id)
	if id == "" {
		if len(t.cases) > 0 {
			return t.cases[len(t.cases)-1]
		}
		t.find(nil, t.place(cells, "machine"), record.Finding{
			Code: "machine-unnamed", Severity: record.Blocking, Where: "first row",
			Message: "the machine has no name", Expected: "a name in the first row",
			Effect: "the row is left out", Hint: "name the machine",
		})
		return nil
	}
	// The machine in hand goes last, so that a blank cell refers to it.
	i := slices.IndexFunc(t.cases, func(c *tableCase) bool { return c.out.Case.Machine.ID == id })
	if i >= 0 {
		c := t.cases[i]
		t.cases = append(slices.Delete(t.cases, i, i+1), c)
		return c
	}
	c := &tableCase{t: t, order: len(t.cases), current: -1, out: Record{Origins: record.Origins{}}}
	c.out.Case.Format = record.Format
	c.out.Case.Machine.ID = id
	t.cases = append(t.cases, c)
	if changed {
		t.find(c, t.place(cells, "machine"), hiddenCharacters("machine/id"))
	}
	if cut {
		t.find(c, t.place(cells, "machine"), textCut("machine/id"))
	}
	return c
}

// broken notes a row that is not well-formed and lets the reading go on.
func (t *tableReader) broken(e *csv.ParseError) {
	t.find(nil, record.Origin{File: t.name, Line: e.StartLine, Column: e.Column}, record.Finding{
		Code: "row-broken", Severity: record.Blocking, Where: fmt.Sprintf("row in line %d", e.StartLine),
		Message: "the row is not well-formed: " + e.Err.Error(), Expected: "quotes in pairs, or none",
		Effect: "the row is left out, and with an open quote all that it swallowed", Hint: "close or remove the quote",
	})
}

// find keeps a finding: with the case it belongs to, or for all.
func (t *tableReader) find(c *tableCase, at record.Origin, f record.Finding) {
	f = f.At(at)
	if f.Where == "" {
		f.Where = f.Path.Words()
	}
	to := &t.loose
	if c != nil {
		to = &c.out.Findings
	}
	if len(*to) >= maxFindings {
		t.cut++
		return
	}
	*to = append(*to, f)
}

// finish closes the last readings and returns the cases in the order of the file.
func (t *tableReader) finish() ([]Record, error) {
	if len(t.cases) == 0 {
		r := &Refusal{File: t.name, Found: "there is a heading row but no row of a reading", Expected: "one row for each band", Hint: templateHint}
		if i := slices.IndexFunc(t.loose, func(f record.Finding) bool { return f.Severity == record.Blocking }); i >= 0 {
			f := t.loose[i]
			r.Line, r.Column, r.Found, r.Expected, r.Hint = f.Line, f.Column, f.Message, f.Expected, f.Hint
		}
		return nil, r
	}
	if t.cut > 0 {
		t.loose = append(t.loose, findingsCut(t.cut))
	}
	sort.Slice(t.cases, func(i, j int) bool { return t.cases[i].order < t.cases[j].order })
	var out []Record
	for _, c := range t.cases {
		c.drop()
		c.out.Findings = append(slices.Clone(t.loose), c.out.Findings...)
		out = append(out, c.out)
	}
	return out, nil
}
