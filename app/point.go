package app

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"github.com/vugu/vugu"

	"ratchetmark/app/model"
	"ratchetmark/internal/batch"
	"ratchetmark/internal/dossier"
	"ratchetmark/internal/record"
	"ratchetmark/internal/wording"
)

// Point is the page on which a person points out what a file leaves open.
type Point struct {
	Model *model.Model
}

func (c *Point) p() *model.Pointing { return c.Model.Pointing }

func (c *Point) guide() batch.Guide { return c.p().Guide() }

func (c *Point) title() string {
	if c.p().Err != nil || len(c.questions()) == 0 {
		return "What are the columns of " + c.p().File.Name + "?"
	}
	return "How are the values of " + c.p().File.Name + " written?"
}

// why says what is left open.
func (c *Point) why() string {
	if err := c.p().Err; err != nil {
		return "The headings alone do not say it: " + reason(err) + ". Choose above each column what it is; below you see at once what is read so. Other files with the same headings are then read alike on this device."
	}
	if len(c.questions()) == 0 {
		return "Some columns are not used, and the record lacks something. If one of them is what it lacks, choose above it what it is; below you see at once what is read so."
	}
	return "Some of it can be read two ways, and nothing else in the file tells which. They are not guessed: until you say it, they are taken as missing."
}

func reason(err error) string {
	if r, ok := err.(*record.Refusal); ok {
		return r.Found
	}
	return err.Error()
}

func (c *Point) questions() []batch.Question { return c.p().Batch.Questions }

func (c *Point) question(q batch.Question) string {
	switch q.Kind {
	case batch.AskDates:
		return fmt.Sprintf("%s: does the day or the month stand first?", q.Column)
	case batch.AskLoad:
		return fmt.Sprintf("%s: what the machine may carry, or the highest load it has recorded?", q.Column)
	case batch.AskCounts:
		return "Each band names one edge only: are its hours its own, or all hours beyond that edge?"
	}
	return fmt.Sprintf("%s: which mark stands before the decimals?", q.Column)
}

func (c *Point) values(q batch.Question) string {
	if len(q.Values) == 0 {
		return "Its name can mean either."
	}
	return "It says " + strings.Join(q.Values, ", ") + "."
}

// answerWords puts the answers of a guide into words.
var answerWords = map[string]string{"point": "A point", "comma": "A comma", "day-first": "The day", "month-first": "The month",
	"rated_load_kg": "The rated load", "peak_kg": "The peak", "each": "Its own", "cumulative": "All beyond the edge"}

// answers are the buttons of a question: each says what the first value then is.
func (c *Point) answers(i int, q batch.Question) (out []action) {
	for _, choice := range q.Choices {
		a := action{id: fmt.Sprintf("answer-%d-%s", i+1, choice.Answer), words: answerWords[choice.Answer], do: func() { c.Model.Answer(q, choice.Answer) }}
		switch {
		case q.Kind == batch.AskLoad:
			a.words += ", " + choice.Means
		case q.Kind == batch.AskCounts:
			a.words += ": " + choice.Means
		case choice.Means != "" && len(q.Values) > 0:
			a.words += ": " + q.Values[0] + " is " + choice.Means
		}
		if c.p().Answered(q) == choice.Answer {
			a.words, a.class = a.words+" (chosen)", "primary"
		}
		out = append(out, a)
	}
	return out
}

// tables are buttons to go from table to table, where a file has several.
func (c *Point) tables() (out []action) {
	if len(c.p().Batch.Sheets) < 2 {
		return nil
	}
	for i, s := range c.p().Batch.Sheets {
		name := s.Name
		if name == "" {
			name = s.File
		}
		a := action{id: fmt.Sprintf("table-%d", i+1), words: name, do: func() { c.Model.PointTable(i) }}
		if i == c.p().Sheet {
			a.class = "primary"
		}
		out = append(out, a)
	}
	return out
}

func (c *Point) hasTable() bool {
	t := c.p().Table()
	return t != nil && len(t.Rows) > 0 && len(c.guide().Heading) > 0
}

func (c *Point) id(what string, i int) string { return fmt.Sprintf("%s-%d", what, i+1) }

func (c *Point) number(i int) string { return strconv.Itoa(i) }

// chosen returns the number of the option that was chosen.
func chosen(event vugu.DOMEvent) int {
	i, err := strconv.Atoi(event.PropString("target", "value"))
	if err != nil {
		return 0
	}
	return i
}

func (c *Point) rowChoices() (out []string) {
	for _, line := range c.p().Table().Rows {
		out = append(out, line.Place+": "+shorten(strings.Join(line.Cells, " | ")))
	}
	return out
}

func shorten(s string) string {
	const most = 40
	if r := []rune(s); len(r) > most {
		return string(r[:most]) + "…"
	}
	return s
}

// row returns which of the shown rows the headings stand in.
func (c *Point) row() int {
	g := c.guide()
	return max(0, slices.IndexFunc(c.p().Table().Rows, func(l batch.Line) bool { return sameStart(l.Cells, g.Heading) }))
}

// sameStart reports whether a shown row is a heading; a shown row is cut in length.
func sameStart(shown, heading []string) bool {
	for i, cell := range shown {
		text := ""
		if i < len(heading) {
			text = heading[i]
		}
		if strings.TrimSpace(cell) != text && !strings.HasPrefix(text, strings.TrimSuffix(cell, "…")) {
			return false
		}
	}
	return true
}

func (c *Point) setRow(event vugu.DOMEvent) {
	row := chosen(event)
	c.Model.Do(func() { c.Model.PointHeading(row, c.guide().Data) })
}

func (c *Point) setData(event vugu.DOMEvent) {
	data := event.PropBool("target", "checked")
	c.Model.Do(func() { c.Model.PointHeading(c.row(), data) })
}

// headings are what stands above each column.
func (c *Point) headings() []string {
	g := c.guide()
	out := make([]string, len(g.Columns))
	for i := range out {
		out[i] = fmt.Sprintf("Column %d", i+1)
		if i < len(g.Heading) && g.Heading[i] != "" && !g.Data {
			out[i] = g.Heading[i]
		}
	}
	return out
}

func (c *Point) column(i int) batch.Column { return c.guide().Columns[i] }

func (c *Point) fields() []model.FieldChoice { return model.FieldChoices }

func (c *Point) setField(event vugu.DOMEvent, i int) {
	f := model.FieldChoices[chosen(event)].Field
	c.Model.Do(func() { c.Model.PointColumn(i, func(col *batch.Column) { *col = batch.Column{Field: f} }) })
}

// measured reports whether a column can have a unit.
func (c *Point) measured(i int) bool {
	f := string(c.column(i).Field)
	return strings.HasSuffix(f, "_kg") || strings.HasSuffix(f, "_h") || f == "hours" || f == "band" || f == "band_hours"
}

func (c *Point) units() (out []string) {
	for _, u := range model.UnitChoices {
		if u == wording.NoUnit {
			out = append(out, "unit as in the cells")
			continue
		}
		out = append(out, u.String())
	}
	return out
}

func (c *Point) isUnit(i, u int) bool { return c.column(i).Unit == model.UnitChoices[u] }

func (c *Point) setUnit(event vugu.DOMEvent, i int) {
	u := model.UnitChoices[chosen(event)]
	c.Model.Do(func() { c.Model.PointColumn(i, func(col *batch.Column) { col.Unit = u }) })
}

func (c *Point) zones() (out []string) {
	for _, z := range model.ZoneChoices {
		out = append(out, "UTC"+z)
	}
	return out
}

func (c *Point) isZone(z int) bool { return c.guide().Zone == model.ZoneChoices[z] }

func (c *Point) setZone(event vugu.DOMEvent) {
	zone := model.ZoneChoices[chosen(event)]
	c.Model.Do(func() { c.Model.PointZone(zone) })
}

func (c *Point) isBand(i int) bool { return c.column(i).Field == "band_hours" }

func (c *Point) edge(i int, upper bool) string {
	x := c.column(i).From
	if upper {
		x = c.column(i).To
	}
	if x == nil {
		return ""
	}
	return strconv.FormatFloat(*x, 'f', -1, 64)
}

func (c *Point) setEdge(event vugu.DOMEvent, i int, upper bool) {
	text := event.PropString("target", "value")
	c.Model.Do(func() {
		var to *float64
		if x, err := wording.Number(text, wording.Unknown); err == nil {
			to = &x
		}
		c.Model.PointColumn(i, func(col *batch.Column) {
			if upper {
				col.To = to
			} else {
				col.From = to
			}
		})
	})
}

// lines are the rows as they are, as wide as the table.
func (c *Point) lines() (out [][]string) {
	width := len(c.guide().Columns)
	for _, line := range c.p().Table().Rows {
		cells := make([]string, width)
		copy(cells, line.Cells)
		out = append(out, cells)
	}
	return out
}

func (c *Point) lineClass(r int) string {
	if r == c.row() && !c.guide().Data {
		return "is-heading"
	}
	return ""
}

// ways are what can be done with the file.
func (c *Point) ways() []action {
	p := c.p()
	leave := "Leave it open"
	if p.Err != nil {
		leave = "Leave this file"
	}
	return []action{
		{id: "take-pointed", words: "Read it so", class: "primary", do: c.Model.TakePointed, off: p.NowErr != nil || p.Waiting},
		{id: "save-guide", words: "Save this as a guide", do: c.Model.SaveGuide, off: !c.hasTable()},
		{id: "leave-pointed", words: leave, do: c.Model.LeavePointed},
	}
}

// summary says in a sentence what is read.
func (c *Point) summary() string {
	p := c.p()
	switch {
	case p.Waiting:
		return "Reading it anew."
	case p.NowErr != nil && c.anyChosen():
		return "Nothing yet. Choose at least the hours and their band, as a label or as edges, or else a peak."
	case p.NowErr != nil:
		return "Nothing yet: " + reason(p.NowErr) + "."
	}
	readings, bands := 0, 0
	for _, r := range p.Now.Records {
		readings += len(r.Case.Readings)
		for _, reading := range r.Case.Readings {
			bands += len(reading.Bands)
		}
	}
	text := fmt.Sprintf("%s, %s, %s.", counted(len(p.Now.Records), "machine"), counted(readings, "reading"), counted(bands, "band"))
	if n := len(p.Now.Questions); n > 0 {
		text += fmt.Sprintf(" %s still open.", counted(n, "question"))
	}
	return text
}

// anyChosen reports whether something was said of a column.
func (c *Point) anyChosen() bool {
	return slices.ContainsFunc(c.guide().Columns, func(col batch.Column) bool { return col.Field != "" })
}

func counted(n int, what string) string {
	if n == 1 {
		return "1 " + what
	}
	return fmt.Sprintf("%d %ss", n, what)
}

// Of what is read, so many machines and findings are shown.
const (
	previewMachines = 3
	previewFindings = 5
)

// details say what the first machines are read as, and what does not fit.
func (c *Point) details() (out []string) {
	p := c.p()
	if p.NowErr != nil {
		return nil
	}
	for i, r := range p.Now.Records {
		if i == previewMachines {
			break
		}
		out = append(out, machineLine(&r.Case))
	}
	shown := 0
	for _, r := range p.Now.Records {
		for _, f := range r.Findings {
			if f.Severity == record.Note || shown == previewFindings {
				continue
			}
			shown++
			text := dossier.FindingText(f)
			out = append(out, strings.ToUpper(text[:1])+text[1:])
		}
	}
	return out
}

// machineLine tells what a machine is read as, with its last reading.
func machineLine(m *record.Case) string {
	text := "A machine without a name"
	if m.Machine.ID != "" {
		text = m.Machine.ID
	}
	if m.Machine.RatedLoad != nil {
		text += ", rated load " + dossier.Kg(float64(*m.Machine.RatedLoad))
	} else {
		text += ", rated load still to be given"
	}
	if len(m.Readings) == 0 {
		return text + "; no reading."
	}
	r := m.Readings[len(m.Readings)-1]
	text += "; last reading"
	if !r.At.IsZero() {
		text += " " + r.At.Format("2 January 2006 15:04")
	}
	var parts []string
	for _, b := range r.Bands {
		parts = append(parts, dossier.BandText(b.From, b.To)+" "+dossier.H(float64(b.Hours)))
	}
	if r.Peak != nil {
		parts = append(parts, "peak "+dossier.Kg(float64(*r.Peak)))
	}
	if len(parts) == 0 {
		return text + ": neither bands nor a peak yet."
	}
	return text + ": " + strings.Join(parts, ", ") + "."
}
