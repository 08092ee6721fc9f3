package intake

import (
	"fmt"
	"reflect"
	"slices"
	"strings"

	"ratchetmark/internal/record"
)

// settleNames finds out which machine the sheets that name none are about. One
// sheet of readings that names no machine is about the only one there is, and so are
// sheets that complete each other; where several hold the same, each is about a
// machine of its own, called as the sheet.
func (g *gatherer) settleNames() {
	var named, read, bare []*tableCase // with a name; without one, with readings; without either
	for _, c := range g.cases {
		switch {
		case c.out.Case.Machine.ID != "":
			named = append(named, c)
		case len(c.out.Case.Readings) > 0 || c.out.Case.Machine.RatedLoad != nil:
			read = append(read, c)
		default:
			bare = append(bare, c)
		}
	}
	read = slices.DeleteFunc(read, func(c *tableCase) bool { return g.repeats(named, c) })
	whole := len(named) + len(read)
	if whole == 0 {
		g.mergeAll(bare)
		return
	}
	if len(named) == 0 && complementary(read) {
		for _, c := range read[1:] {
			g.merge(read[0], c)
		}
		read, whole = read[:1], 1
	}
	if len(named) == 1 && len(named[0].out.Case.Readings) == 0 && complementary(read) {
		for _, c := range read {
			g.merge(named[0], c)
		}
		read, whole = nil, 1
	}
	for _, c := range read {
		if whole > 1 {
			g.callBySheet(c)
		}
	}
	for _, c := range bare {
		switch {
		case whole == 1:
			g.merge(slices.Concat(named, read)[0], c)
		default:
			g.drop(c)
			at, _ := c.out.Origins.Find("")
			g.find(nil, at, record.Finding{
				Code: "machine-unnamed", Severity: record.Blocking, Where: c.sheetWords(),
				Message: fmt.Sprintf("the rows name no machine, and the file holds %d", whole), Expected: "a column with the machine",
				Effect: "the rows are left out", Hint: "add the column, or give each machine a file of its own",
			})
		}
	}
}

// repeats drops a sheet that names no machine and holds nothing but the bands of
// a reading that stands elsewhere, as those beside a chart do.
func (g *gatherer) repeats(named []*tableCase, c *tableCase) bool {
	m := &c.out.Case.Machine
	if len(c.out.Case.Readings) == 0 || m.RatedLoad != nil || m.Persons != nil || len(c.out.Case.Custody)+len(c.out.Case.Events)+len(c.out.Case.Daily) > 0 {
		return false
	}
	for _, r := range c.out.Case.Readings {
		if record.Total(r.Bands) == 0 || r.Peak != nil || r.Powered != nil || !slices.ContainsFunc(named, func(o *tableCase) bool { return o.hasBands(r.Bands) }) {
			return false
		}
	}
	g.drop(c)
	g.find(nil, c.readings[0].at, record.Finding{
		Code: "sheet-repeats", Severity: record.Note, Where: c.sheetWords(),
		Message: "the bands are those of a reading that stands elsewhere", Expected: "each reading once",
		Effect: "they are counted once", Hint: "nothing, if they stand beside a chart",
	})
	return true
}

func (c *tableCase) hasBands(bands []record.Band) bool {
	return slices.ContainsFunc(c.out.Case.Readings, func(r record.Reading) bool { return reflect.DeepEqual(r.Bands, bands) })
}

// complementary reports whether sheets can be about one machine: no two of them
// hold the same sort of thing, as one does the hour meter and another the bands.
func complementary(sheets []*tableCase) bool {
	banded, bare, plates := 0, 0, 0
	for _, c := range sheets {
		hasBands := slices.ContainsFunc(c.out.Case.Readings, func(r record.Reading) bool { return len(r.Bands) > 0 })
		switch {
		case hasBands:
			banded++
		case len(c.out.Case.Readings) > 0:
			bare++
		default:
			plates++
		}
	}
	return banded <= 1 && bare <= 1 && plates <= 1
}

// mergeAll makes one case of several that name no machine and have no reading.
func (g *gatherer) mergeAll(bare []*tableCase) {
	for i, c := range bare {
		if i > 0 {
			g.merge(bare[0], c)
		}
	}
}

// callBySheet names a machine as the sheet or the file it stands in.
func (g *gatherer) callBySheet(c *tableCase) {
	id := c.sheet
	if id == "" {
		id = bareName(c.file)
	}
	id, _ = Visible(oneLine(id))
	id, _ = clip(id)
	if other := g.byID[foldID(id)]; other != nil {
		g.merge(other, c)
		return
	}
	c.out.Case.Machine.ID = id
	g.byID[foldID(id)] = c
	at := record.Origin{File: c.file, Sheet: c.sheet, Line: 1, Column: 1}
	if len(c.readings) > 0 {
		at = c.readings[0].at
	}
	g.find(c, at, record.Finding{
		Code: "machine-from-sheet", Severity: record.Note, Path: "machine/id",
		Message: "the readings name no machine", Expected: "a name beside the readings, where a file holds several machines",
		Effect: fmt.Sprintf("the machine is called %q, as the sheet or file it stands in", short(id)), Hint: "correct the name if it is another machine's",
	})
}

// bareName is the name of a file without the archive it stands in and without
// its ending.
func bareName(file string) string {
	if i := strings.LastIndex(file, ": "); i >= 0 {
		file = file[i+2:]
	}
	file = file[strings.LastIndexByte(file, '/')+1:]
	if i := strings.LastIndexByte(file, '.'); i > 0 {
		file = file[:i]
	}
	return file
}

// merge moves what c says to another case.
func (g *gatherer) merge(to, c *tableCase) {
	g.drop(c)
	theirs, ours := &to.out.Case, &c.out.Case
	by := map[string]int{"readings": len(theirs.Readings), "custody": len(theirs.Custody), "events": len(theirs.Events), "daily": len(theirs.Daily)}
	theirs.Readings = append(theirs.Readings, ours.Readings...)
	theirs.Custody = append(theirs.Custody, ours.Custody...)
	theirs.Events = append(theirs.Events, ours.Events...)
	theirs.Daily = append(theirs.Daily, ours.Daily...)
	to.readings = append(to.readings, c.readings...)
	for _, at := range c.bare {
		to.bare = append(to.bare, shifted(at, by))
	}
	for _, p := range c.rated {
		p.at = shifted(p.at, by)
		to.rated = append(to.rated, p)
	}
	for _, f := range c.out.Findings {
		if old := f.Path; old != "" {
			f.Path = shifted(old, by)
			if f.Where == old.Words() {
				f.Where = f.Path.Words()
			}
		}
		to.out.Findings = append(to.out.Findings, f)
	}
	m, from := &theirs.Machine, ours.Machine
	if m.Kind == "" {
		m.Kind = from.Kind
	}
	if m.RatedLoad == nil {
		to.ratedUnit = c.ratedUnit
	}
	m.RatedLoad, m.Persons = either(m.RatedLoad, from.RatedLoad), either(m.Persons, from.Persons)
	m.LoadSensing, m.Mass, m.InService = either(m.LoadSensing, from.LoadSensing), either(m.Mass, from.Mass), either(m.InService, from.InService)
	for path, at := range c.out.Origins {
		if path = shifted(path, by); to.out.Origins[path] == (record.Origin{}) {
			to.out.Origins[path] = at
		}
	}
}

// shifted returns the path of an entry of a list whose entries stand so many
// further down; any other as it is.
func shifted(at record.Path, by map[string]int) record.Path {
	list, rest, ok := strings.Cut(string(at), "/")
	number, rest, deeper := strings.Cut(rest, "/")
	if !ok || by[list] == 0 {
		return at
	}
	out := record.Path(list).At(number0(number) + by[list])
	if deeper {
		out += record.Path("/" + rest)
	}
	return out
}

func either[T any](a, b *T) *T {
	if a != nil {
		return a
	}
	return b
}

func (g *gatherer) drop(c *tableCase) {
	g.cases = slices.DeleteFunc(g.cases, func(o *tableCase) bool { return o == c })
	g.last = nil
}

func (c *tableCase) sheetWords() string {
	if c.sheet != "" {
		return "sheet " + c.sheet
	}
	return "the rows of " + c.file
}

// sayAlike notes machines whose names differ in marks between letters and digits
// only, as F-1 and F1: one machine may be written in two ways.
func (g *gatherer) sayAlike() {
	seen := map[string]*tableCase{}
	for _, c := range g.cases {
		bare := strings.Map(func(r rune) rune {
			if strings.ContainsRune(" -_./", r) {
				return -1
			}
			return r
		}, foldID(c.out.Case.Machine.ID))
		other := seen[bare]
		if bare == "" || other == nil {
			seen[bare] = c
			continue
		}
		at, _ := c.out.Origins.Find("")
		for _, to := range []*tableCase{other, c} {
			g.find(to, at, record.Finding{
				Code: "names-alike", Severity: record.Doubt, Path: "machine/id",
				Message: fmt.Sprintf("machines %q and %q differ in the marks of their names only", short(other.out.Case.Machine.ID), short(c.out.Case.Machine.ID)), Expected: "one way to write the name of a machine",
				Effect: "they are taken as two: readings of one may be missing from the other", Hint: "write the name alike if it is one machine",
			})
		}
	}
}
