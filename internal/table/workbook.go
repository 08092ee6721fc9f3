package table

import (
	"archive/zip"
	"errors"
	"fmt"
	"io"
	"path"
	"strings"

	"ratchetmark/internal/record"
)

// The reader of workbooks (ECMA-376 part 1, SpreadsheetML) is our own over
// archive/zip. github.com/thedatashed/xlsxreader v1.2.8 was looked at and cannot
// be made right from outside: it takes a part that breaks off for one that ends;
// it knows no 1904 dates, no hidden sheets, no merged cells, and neither percent
// nor durations; a string by a negative number panics; a workbook without styles
// is refused; parts are unpacked whole into memory, without a limit.

// book is a workbook while it is read. The shared strings are held (at most
// maxStrings), the styles (a byte or so for each, in a part of at most maxAbout); the sheets pass through.
type book struct {
	file    string
	parts   map[string]*zip.File // by name, case aside (ECMA-376 part 2, 6.2.2.3)
	budget  *budget
	strings sharedStrings
	styles  []numberFormat // by style of a cell
	suffix  []string       // what is shown behind its number
	from    epoch
}

// sheetEntry is a sheet as the workbook lists it.
type sheetEntry struct {
	name, id string
	hidden   bool
}

// workbook gives the visible sheets of a workbook, in its order.
func (w Walker) workbook(name string, files []*zip.File, b *budget) error {
	k := &book{file: name, parts: map[string]*zip.File{}, budget: b}
	for _, f := range files {
		part := partName(f.Name)
		if _, twice := k.parts[part]; twice {
			return &Refusal{File: name, Found: fmt.Sprintf("the workbook has two parts by the name %q", entryName(part)), Expected: "one", Hint: "save it again with an office program"}
		}
		k.parts[part] = f
	}
	main := k.mainPart()
	sheets, err := k.listed(main)
	if err != nil {
		return err
	}
	relations, err := k.relations(main)
	if err != nil {
		return err
	}
	if err := k.prepare(relations); err != nil {
		return err
	}
	return w.sheets(k, sheets, relations)
}

func (w Walker) sheets(k *book, sheets []sheetEntry, relations []relation) error {
	read := 0
	for _, s := range sheets {
		target := sheetTarget(s, relations)
		switch {
		case target == "":
			continue // a chart has no cells
		case s.hidden:
			w.Note(record.Origin{File: k.file, Sheet: s.name}, record.Finding{
				Code: "hidden-sheet", Severity: record.Note, Where: "the sheet " + s.name, Message: "the sheet is hidden",
				Expected: "records in sheets that are seen", Effect: "nothing is read from it", Hint: "show the sheet and save the workbook if it belongs to the record",
			})
			continue
		}
		if err := w.sheet(k, s.name, target); err != nil {
			return err
		}
		read++
	}
	if read == 0 {
		return &Refusal{File: k.file, Found: "the workbook has no visible sheet with cells", Expected: "at least one", Hint: "show the sheet with the record and save the workbook"}
	}
	return nil
}

// sheetTarget returns the part of a worksheet; empty for sheets of other kinds.
func sheetTarget(s sheetEntry, relations []relation) string {
	for _, r := range relations {
		if r.id == s.id && strings.HasSuffix(r.kind, "/worksheet") {
			return r.target
		}
	}
	return ""
}

// prepare reads what cells refer to.
func (k *book) prepare(relations []relation) error {
	for _, r := range relations {
		var err error
		switch {
		case strings.HasSuffix(r.kind, "/sharedStrings"):
			err = k.each(r.target, maxPart, k.strings.read)
		case strings.HasSuffix(r.kind, "/styles"):
			var s styles
			err = k.each(r.target, maxAbout, s.read)
			k.styles, k.suffix = s.cells, s.suffix
		}
		if err != nil {
			return err
		}
	}
	return nil
}

// relation ties a part to one that it uses (ECMA-376 part 2, 6.5).
type relation struct{ id, kind, target string }

// relations reads what a part uses; none where it says nothing.
func (k *book) relations(part string) (out []relation, err error) {
	folder, base := path.Split(part)
	at := folder + "_rels/" + base + ".rels"
	if k.parts[at] == nil {
		return nil, nil
	}
	err = k.each(at, maxAbout, func(m *markup, t token) error {
		if t != tokenOpen || string(m.name) != "Relationship" {
			return nil
		}
		if len(out) > 2*maxEntries {
			return errMany
		}
		target := strings.ReplaceAll(string(m.attr("Target")), "\\", "/")
		if !strings.HasPrefix(target, "/") {
			target = folder + target
		}
		out = append(out, relation{string(m.attr("Id")), string(m.attr("Type")), partName(path.Clean(target))})
		return nil
	})
	return out, err
}

// mainPart returns the part that lists the sheets.
func (k *book) mainPart() string {
	all, _ := k.relations("")
	for _, r := range all {
		if strings.HasSuffix(r.kind, "/officeDocument") && k.parts[r.target] != nil {
			return r.target
		}
	}
	return "xl/workbook.xml"
}

// listed reads the sheets and how dates count.
func (k *book) listed(main string) (out []sheetEntry, err error) {
	err = k.each(main, maxAbout, func(m *markup, t token) error {
		switch {
		case t != tokenOpen:
		case string(m.name) == "workbookPr" && isTrue(m.attr("date1904")):
			k.from = epoch1904
		case string(m.name) == "sheet":
			if len(out) == maxEntries {
				return errMany
			}
			state := string(m.attr("state"))
			out = append(out, sheetEntry{entryName(string(m.attr("name"))), string(m.attr("id")), state == "hidden" || state == "veryHidden"})
		}
		return nil
	})
	return out, err
}

var errMany = errors.New("it lists too many sheets")

func isTrue(value []byte) bool { return string(value) == "1" || string(value) == "true" }

// partName returns the name of a part as it is looked up.
func partName(name string) string {
	return strings.TrimPrefix(strings.ToLower(strings.ReplaceAll(name, "\\", "/")), "/")
}

// each calls back for each token of a part, to its end.
func (k *book) each(part string, limit uint64, take func(*markup, token) error) error {
	in, err := k.open(part, limit, k.budget)
	if err != nil {
		return err
	}
	defer in.Close()
	m := newMarkup(in)
	for {
		t, err := m.next()
		if err == io.EOF {
			return nil
		}
		if err == nil {
			err = take(m, t)
		}
		if err != nil {
			return k.fault(part, 0, err)
		}
	}
}

// open opens a part that unpacks to no more than the limit: what an entry says
// of its size is held to by the meter of archive/zip.
func (k *book) open(part string, limit uint64, b *budget) (io.ReadCloser, error) {
	f := k.parts[part]
	if f == nil {
		return nil, &Refusal{File: k.file, Found: "the workbook has no part " + entryName(part), Expected: "a whole workbook", Hint: "save it again with an office program"}
	}
	if f.UncompressedSize64 > limit {
		return nil, &Refusal{File: k.file, Found: fmt.Sprintf("the part %s of the workbook is larger than %d MiB", entryName(part), limit>>20), Expected: "a smaller one", Hint: "split the workbook"}
	}
	in, refusal := b.open(k.file, f)
	if refusal != nil {
		return nil, refusal
	}
	return in, nil
}

// fault turns what is wrong with a part into a refusal of the workbook.
func (k *book) fault(part string, row int, err error) error {
	if isRefusal(err) {
		return err
	}
	behind := ""
	if row > 0 {
		behind = fmt.Sprintf(" behind row %d", row)
	}
	return &Refusal{File: k.file, Found: fmt.Sprintf("the part %s of the workbook cannot be read%s: %v", entryName(part), behind, err), Expected: "a whole workbook", Hint: "save it again with an office program"}
}
