package table_test

import (
	"archive/zip"
	"bytes"
	"errors"
	"fmt"
	"io"
	"slices"
	"strings"
	"testing"

	"ratchetmark/internal/record"
	"ratchetmark/internal/table"
)

// workbook is a tiny writer of workbooks: what is left empty is left out. The
// contents of cells are given as markup, so that a test says what it tests.
type workbook struct {
	sheets  []sheet
	strings string // within <sst>
	styles  string // within <styleSheet>
	about   string // within <workbook>, before the sheets
	extra   map[string]string
	without []string // parts left out
}

type sheet struct{ name, state, rows, behind string }

const sheetXMLNS = `xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main" xmlns:r="http://schemas.openxmlformats.org/officeDocument/2006/relationships"`

const relationKind = "http://schemas.openxmlformats.org/officeDocument/2006/relationships"

// parts returns the parts by name.
func (b workbook) parts() map[string]string {
	const head = `<?xml version="1.0" encoding="UTF-8" standalone="yes"?>` + "\n"
	var list, relations strings.Builder
	parts := map[string]string{
		"[Content_Types].xml": head + `<Types xmlns="http://schemas.openxmlformats.org/package/2006/content-types"/>`,
		"_rels/.rels":         head + `<Relationships><Relationship Id="rId1" Type="` + relationKind + `/officeDocument" Target="xl/workbook.xml"/></Relationships>`,
	}
	for i, s := range b.sheets {
		n := i + 1
		fmt.Fprintf(&list, `<sheet name="%s" sheetId="%d" state="%s" r:id="rId%d"/>`, s.name, n, s.state, n)
		fmt.Fprintf(&relations, `<Relationship Id="rId%d" Type="%s/worksheet" Target="worksheets/sheet%d.xml"/>`, n, relationKind, n)
		parts[fmt.Sprintf("xl/worksheets/sheet%d.xml", n)] = head + `<worksheet ` + sheetXMLNS + `><sheetData>` + s.rows + `</sheetData>` + s.behind + `</worksheet>`
	}
	if b.strings != "" {
		relations.WriteString(`<Relationship Id="rIdS" Type="` + relationKind + `/sharedStrings" Target="/xl/sharedStrings.xml"/>`)
		parts["xl/sharedStrings.xml"] = head + `<sst ` + sheetXMLNS + `>` + b.strings + `</sst>`
	}
	if b.styles != "" {
		relations.WriteString(`<Relationship Id="rIdT" Type="` + relationKind + `/styles" Target="styles.xml"/>`)
		parts["xl/styles.xml"] = head + `<styleSheet ` + sheetXMLNS + `>` + b.styles + `</styleSheet>`
	}
	parts["xl/workbook.xml"] = head + `<workbook ` + sheetXMLNS + `>` + b.about + `<sheets>` + list.String() + `</sheets></workbook>`
	parts["xl/_rels/workbook.xml.rels"] = head + `<Relationships>` + relations.String() + `</Relationships>`
	for name, text := range b.extra {
		parts[name] = text
	}
	for _, name := range b.without {
		delete(parts, name)
	}
	return parts
}

func (b workbook) bytes() []byte { return archive(b.parts()) }

// archive packs files, in the order of their names.
func archive(files map[string]string) []byte {
	var out bytes.Buffer
	z := zip.NewWriter(&out)
	names := make([]string, 0, len(files))
	for name := range files {
		names = append(names, name)
	}
	slices.Sort(names)
	for _, name := range names {
		w, err := z.Create(name)
		if err == nil {
			_, err = io.WriteString(w, files[name])
		}
		if err != nil {
			panic(err) // writing to memory does not fail
		}
	}
	if err := z.Close(); err != nil {
		panic(err)
	}
	return out.Bytes()
}

// oneSheet is a workbook of one sheet.
func oneSheet(rows string) workbook { return workbook{sheets: []sheet{{name: "Load", rows: rows}}} }

// taken is what a walk brought.
type taken struct {
	tables []takenTable
	json   []string
	notes  []record.Finding
	err    error
}

type takenTable struct {
	file, name string
	rows       [][]string
	places     [][]record.Origin
	typed      [][]bool
	broken     []*table.Broken
	loose      bool
}

// take walks a file and keeps all it brings.
func take(name string, in io.Reader) (t taken) {
	t.err = table.Walk(name, in, table.Walker{
		Table: func(tb table.Table) error {
			got := takenTable{file: tb.File, name: tb.Name}
			if l, ok := tb.Rows.(table.Loose); ok {
				got.loose = l.Loose()
			}
			err := got.read(tb.Rows)
			t.tables = append(t.tables, got)
			return err
		},
		JSON: func(name string, in io.Reader) error {
			text, err := io.ReadAll(in)
			t.json = append(t.json, name+"="+string(text))
			return err
		},
		Note: func(at record.Origin, f record.Finding) { t.notes = append(t.notes, f.At(at)) },
	})
	return t
}

func (t *takenTable) read(rows table.Rows) error {
	typed, isTyped := rows.(table.Typed)
	for {
		cells, err := rows.Next()
		var broken *table.Broken
		switch {
		case err == io.EOF:
			return nil
		case errors.As(err, &broken):
			t.broken = append(t.broken, broken)
			continue
		case err != nil:
			return err
		}
		row, places, kinds := make([]string, len(cells)), make([]record.Origin, len(cells)+1), make([]bool, len(cells))
		for i := range cells {
			row[i], places[i] = strings.Clone(cells[i]), rows.Place(i)
			kinds[i] = isTyped && typed.Typed(i)
		}
		places[len(cells)] = rows.Place(len(cells))
		t.rows, t.places, t.typed = append(t.rows, row), append(t.places, places), append(t.typed, kinds)
	}
}

// rows returns the rows of the one table that a file is to have.
func (t taken) one(tb testing.TB) takenTable {
	tb.Helper()
	if t.err != nil || len(t.tables) != 1 {
		tb.Fatalf("got %d tables and the error %v, want one table", len(t.tables), t.err)
	}
	return t.tables[0]
}

// grid writes rows as text, cells divided by "|" and rows by "/".
func grid(rows [][]string) string {
	lines := make([]string, len(rows))
	for i, r := range rows {
		lines[i] = strings.Join(r, "|")
	}
	return strings.Join(lines, " / ")
}

// refused returns the refusal of a walk.
func (t taken) refused(tb testing.TB) *table.Refusal {
	tb.Helper()
	var r *table.Refusal
	if !errors.As(t.err, &r) {
		tb.Fatalf("got the error %v, want a refusal", t.err)
	}
	return r
}

func takeBytes(name string, data []byte) taken { return take(name, bytes.NewReader(data)) }

func takeText(name, text string) taken { return take(name, strings.NewReader(text)) }

// codes lists the codes of the findings.
func (t taken) codes() string {
	var out []string
	for _, f := range t.notes {
		out = append(out, f.Code)
	}
	return strings.Join(out, " ")
}
