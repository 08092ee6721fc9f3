package intake

import (
	"fmt"
	"slices"

	"ratchetmark/internal/batch"
	"ratchetmark/internal/record"
)

// gatherer brings together what the tables of one file say, machine by machine.
type gatherer struct {
	name    string
	options Options
	cases   []*tableCase          // in the order of the file
	byID    map[string]*tableCase // those with a name
	last    *tableCase            // the one in hand
	loose   []record.Finding      // of rows that belong to no machine
	cut     int                   // findings left out
	bands   int                   // kept so far
	usual   int                   // readings of a case
	full    bool                  // rows were left out, and it was said

	sheets    []Sheet
	questions []Question
	brought   []Guide // found in the file

	loads shelf[record.Kilogram] // of bands
	paths []*readingPaths        // of readings, by their place in a case

	kinds   memo[record.Kind]
	holders memo[record.Holder]
	events  memo[record.EventKind]

	abouts    int             // begun so far
	guided    map[string]bool // the guides that were used, by signature
	doubled   bool            // a band or a row that stands twice was said
	otherTime string          // a unit of times other than h that a line names; empty for none
	force     bool            // loads were given as forces
	foreign   string          // a unit of loads other than kg that the file names; empty for none
}

func newGatherer(name string, options Options) *gatherer {
	return &gatherer{name: name, options: options, byID: map[string]*tableCase{}, guided: map[string]bool{}}
}

// named returns the case of a machine with a name, a new one if need be; nil
// where there are too many.
func (g *gatherer) named(id string) *tableCase {
	if g.last != nil && g.last.out.Case.Machine.ID == id {
		return g.last
	}
	c := g.byID[foldID(id)]
	if c == nil {
		if len(g.cases) >= maxMachines {
			return nil
		}
		c = g.begin()
		c.out.Case.Machine.ID = id
		g.byID[foldID(id)] = c
	}
	g.last = c
	return c
}

// foldID makes names that differ only in case or blanks alike.
func foldID(id string) string { return batch.FoldID(id) }

// unnamed returns the case of the machine a sheet is about without naming it.
func (g *gatherer) unnamed(file, sheet string) *tableCase {
	for _, c := range g.cases {
		if c.out.Case.Machine.ID == "" && c.file == file && c.sheet == sheet {
			g.last = c
			return c
		}
	}
	if len(g.cases) >= maxMachines {
		return nil
	}
	c := g.begin()
	c.file, c.sheet = file, sheet
	g.last = c
	return c
}

func (g *gatherer) begin() *tableCase {
	c := &tableCase{g: g, current: -1}
	c.out.Case.Format = record.Format
	c.out.Origins = record.Origins{}
	if n := len(g.cases); n > 0 { // as large as the one before, most likely
		last := g.cases[n-1]
		c.out.Origins = make(record.Origins, min(len(last.out.Origins), 4*mostAlike))
		g.usual = min(len(last.readings), mostAlike)
	}
	g.cases = append(g.cases, c)
	return c
}

// mostAlike is for how many readings room is made before they are read.
const mostAlike = 32

// find keeps a finding: with the case it belongs to, or for all.
func (g *gatherer) find(c *tableCase, at record.Origin, f record.Finding) {
	f = f.At(at)
	if f.Where == "" {
		f.Where = f.Path.Words()
	}
	if g.spent(c) {
		return
	}
	to := &g.loose
	if c != nil {
		to = &c.out.Findings
	}
	*to = append(*to, f)
}

// spent reports whether no further finding is kept, and counts the one that is
// left out. It is asked before a finding is made that millions of rows may give.
func (g *gatherer) spent(c *tableCase) bool {
	n := len(g.loose)
	if c != nil {
		n = len(c.out.Findings)
	}
	if n < maxFindings {
		return false
	}
	g.cut++
	return true
}

// stop says once that rows are left out because there are too many.
func (g *gatherer) stop(at record.Origin, what string, most int) {
	if g.full {
		return
	}
	g.full = true
	g.find(nil, at, record.Finding{
		Code: "too-many", Severity: record.Blocking, Path: "readings", Where: "the rows from here on",
		Message: fmt.Sprintf("more than %d %s in one file", most, what), Expected: "fewer in one file",
		Effect: "what stands below is not read, and hours may be missing", Hint: "split the file by machine",
	})
}

// finish settles what only the whole file tells and returns the records.
func (g *gatherer) finish() []Record {
	g.settleNames()
	if g.force {
		g.sayForce()
	}
	if g.cut > 0 {
		g.loose = append(g.loose, findingsCut(g.cut))
	}
	var out []Record
	g.sayAlike()
	for _, c := range g.cases {
		c.settle()
		c.out.Findings = append(slices.Clone(g.loose), c.out.Findings...)
		out = append(out, c.out)
	}
	return out
}
