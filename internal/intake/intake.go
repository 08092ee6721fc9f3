// Package intake turns the bytes of a file, or of a pasted text, into cases. It
// tells case files from tables of any shape, reads both, and notes what does not
// fit with its place; nothing is mended in silence.
package intake

import (
	"bytes"
	"io"
	"slices"

	"ratchetmark/internal/batch"
	"ratchetmark/internal/record"
	"ratchetmark/internal/table"
)

// The types of what is read are those of package batch, which whoever only
// handles them imports without the readers.
type (
	Record   = batch.Record
	Batch    = batch.Batch
	Reading  = batch.Reading
	Refusal  = record.Refusal
	Guide    = batch.Guide
	Column   = batch.Column
	Sheet    = batch.Sheet
	Question = batch.Question
)

// Limits on what is read. Far above what a machine produces, low enough that a
// hostile file cannot exhaust a tablet. Those of the containers are in package table.
const (
	maxJSON     = 64 << 20 // bytes of a case file or a stream of cases
	maxDepth    = 40       // nesting of JSON
	maxValues   = 1 << 20  // values of one case, or of one list of cases
	maxBands    = 200      // bands of one reading
	maxEntries  = 5_000    // readings, custody entries, events or days of one case
	maxMachines = 5_000    // machines of one file of tables
	maxKept     = 500_000  // bands of one file of tables, all machines together
	maxText     = 1000     // characters of a name or a note
	maxFindings = 500      // findings of one file that are kept; the rest is counted
)

// Options say how a file is to be read where it does not say so itself.
type Options struct {
	Guides map[string]Guide // by signature of the heading they are for
}

// GuidesOf makes options of guides.
func GuidesOf(guides ...Guide) Options {
	o := Options{Guides: map[string]Guide{}}
	for _, g := range guides {
		o.Add(g)
	}
	return o
}

// Add adds a guide; one for the same heading is replaced.
func (o *Options) Add(g Guide) { o.Guides[Signature(g.Heading)] = g }

// Progress is told how many bytes have been read. Returning an error, as
// [batch.ErrCancelled], stops the reading.
type Progress func(bytes int64) error

// Read reads one file. The error is a [*Refusal] where the file is not a
// record, or the reader's or the progress function's own. With a refusal, the
// batch still holds the tables that were found, so that their columns can be
// pointed out.
func Read(name string, r io.Reader, options Options, progress Progress) (Batch, error) {
	counted := &counter{r: r, progress: progress}
	g := newGatherer(name, options)
	var cases []Record
	err := table.Walk(name, counted, table.Walker{
		Table: g.readTable,
		JSON: func(name string, in io.Reader) error {
			read, err := g.readJSON(name, in)
			cases = append(cases, read...)
			return err
		},
		Note: func(at record.Origin, f record.Finding) { g.find(nil, at, f) },
	})
	batch := Batch{Name: name}
	if err == nil {
		batch.Records = together(g.finish(), cases, g.loose)
		if len(batch.Records) == 0 && len(g.brought) == 0 {
			err = g.nothing()
		}
	}
	batch.Brought = g.brought
	batch.Sheets, batch.Questions, batch.Guides = g.sheets, g.questions, g.used()
	if err != nil {
		return batch, err
	}
	if _, err := io.Copy(io.Discard, counted); err != nil {
		return batch, err
	}
	batch.Bytes = counted.n
	return batch, nil
}

// together joins cases of an archive's case files and tables, machine by machine.
func together(tables, cases []Record, loose []record.Finding) []Record {
	if len(cases) == 0 {
		return tables
	}
	if len(tables) == 0 {
		for i := range cases {
			cases[i].Findings = append(loose[:len(loose):len(loose)], cases[i].Findings...)
		}
		return cases
	}
	var out []Record
	for _, g := range batch.Join(batch.Group([]Batch{{Records: cases}}), []Batch{{Records: tables}}) {
		out = append(out, g.Record)
	}
	return out
}

// nothing says why a file that could be taken apart holds no record.
func (g *gatherer) nothing() error {
	r := &Refusal{File: g.name, Found: "there is no table in it", Expected: expectedTable, Hint: pointHint}
	for _, f := range g.loose {
		if f.Severity == record.Blocking && !slices.Contains([]string{"line-not-used", "line-unread", "heading-unread"}, f.Code) {
			r.Line, r.Column, r.Found, r.Expected, r.Hint = f.Line, f.Column, f.Message, f.Expected, f.Hint
			return r
		}
	}
	for _, s := range g.sheets {
		switch {
		case s.Read:
			r.Found, r.Expected = "there is a heading row but no row of a reading", "one row for each band, or one for each reading"
			r.Hint = "check the export: nothing stands below the headings"
			return r
		case s.Lacks != "":
			r.Line, r.Found = s.LacksAt.Line, s.Lacks
			return r
		}
	}
	for _, f := range g.loose {
		if f.Code == "heading-unread" {
			r.Line, r.Column, r.Found, r.Expected, r.Hint = f.Line, f.Column, f.Message, f.Expected, f.Hint
			return r
		}
	}
	for _, s := range g.sheets {
		for _, row := range s.Rows {
			if !blankRow(row.Cells) {
				r.Found = "no row is a heading that is known; the first is " + quoteStart(row.Cells)
				return r
			}
		}
	}
	return r
}

const (
	expectedTable = "a case file, or a table whose headings say which column is the band and which the hours"
	pointHint     = "point out what each column is, or compare with the template that can be saved from the start page"
)

// used returns the guides that were used.
func (g *gatherer) used() (out []Guide) {
	for _, s := range g.sheets {
		if guide, ok := g.options.Guides[s.Signature]; ok && (s.Read || g.guided[s.Signature]) {
			out = append(out, guide)
		}
	}
	return out
}

// ReadBytes reads a file that is already in memory.
func ReadBytes(name string, data []byte) (Batch, error) {
	return Read(name, bytes.NewReader(data), Options{}, nil)
}

// counter counts the bytes read and reports them.
type counter struct {
	r        io.Reader
	n        int64
	progress Progress
}

func (c *counter) Read(p []byte) (int, error) {
	n, err := c.r.Read(p)
	c.n += int64(n)
	if c.progress != nil {
		if stop := c.progress(c.n); stop != nil {
			return n, stop
		}
	}
	return n, err
}
