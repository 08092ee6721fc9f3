package intake

import (
	"encoding/json"
	"io"
	"slices"

	"ratchetmark/internal/record"
	"ratchetmark/internal/table"
)

// readPlain reads JSON that is not a case file as a table: an object's single
// values are lines, a list of objects is a heading and its rows, a list of lists
// is rows as they are.
func (g *gatherer) readPlain(t *treeReader, nodes []node) error {
	rows := &nodeRows{tree: t}
	rows.value("", node{shape: array, items: nodes})
	return g.readTable(table.Table{File: t.name, Rows: rows})
}

// nodeRows gives the values of a JSON text as rows.
type nodeRows struct {
	tree *treeReader
	all  [][]nodeCell
	at   int
	text []string
}

// nodeCell is one value, with where it stands.
type nodeCell struct {
	text   string
	offset int
	typed  bool
}

// Next implements [table.Rows].
func (r *nodeRows) Next() ([]string, error) {
	if r.at == len(r.all) {
		return nil, io.EOF
	}
	r.text = r.text[:0]
	for _, c := range r.all[r.at] {
		r.text = append(r.text, c.text)
	}
	r.at++
	return r.text, nil
}

// Place implements [table.Rows].
func (r *nodeRows) Place(i int) record.Origin {
	row := r.all[max(r.at-1, 0)]
	if len(row) == 0 {
		return record.Origin{File: r.tree.name}
	}
	at := r.tree.line.at(row[min(max(i, 0), len(row)-1)].offset)
	return record.Origin{File: r.tree.name, Line: at.Line, Column: at.Column}
}

// Typed reports whether a cell of the last row is a number of JSON.
func (r *nodeRows) Typed(i int) bool {
	row := r.all[max(r.at-1, 0)]
	return i < len(row) && row[i].typed
}

// Loose reports that rows may be shorter than their heading.
func (r *nodeRows) Loose() bool { return true }

func (r *nodeRows) add(row []nodeCell) { r.all = append(r.all, row) }

// value adds the rows that a value makes.
func (r *nodeRows) value(name string, n node) {
	switch {
	case n.shape == object:
		r.object(name, n)
	case n.shape == array && len(n.items) > 0 && allFlat(n.items):
		r.records(n.items)
	case n.shape == array:
		for _, item := range n.items {
			if item.shape == array && allScalar(item.items) {
				row := make([]nodeCell, len(item.items))
				for i, c := range item.items {
					row[i] = cellOf(c)
				}
				r.add(row)
				continue
			}
			r.value(name, item)
			r.add(nil)
		}
	default:
		r.add([]nodeCell{{text: name, offset: n.offset}, cellOf(n)})
	}
}

// object adds a line for each single value, then what is deeper.
func (r *nodeRows) object(name string, n node) {
	if byMachine(n) {
		for _, f := range n.fields {
			r.add(nil)
			r.add([]nodeCell{{text: "machine", offset: f.offset}, {text: f.name, offset: f.offset}})
			r.object(f.name, f.node)
		}
		return
	}
	for _, f := range n.fields {
		if f.node.shape == scalar {
			r.add([]nodeCell{{text: f.name, offset: f.offset}, cellOf(f.node)})
		}
	}
	for _, f := range n.fields {
		switch f.node.shape {
		case object:
			r.object(f.name, f.node)
		case array:
			r.add(nil)
			r.value(f.name, f.node)
			r.add(nil)
		}
	}
}

// byMachine reports whether the names of an object are those of machines: two or
// more objects with the same members, and none of the names is a heading.
func byMachine(n node) bool {
	if len(n.fields) < 2 || len(n.fields) > maxMachines {
		return false
	}
	for i, f := range n.fields {
		if f.node.shape != object || len(f.node.fields) < 2 || i < 40 && isWords(f.name) {
			return false
		}
		if f.node.step(n.fields[0].node.fields[0].name) == nil || f.node.step(n.fields[0].node.fields[1].name) == nil {
			return false
		}
		if f.node.step("machine") != nil || f.node.step("serial") != nil || f.node.step("id") != nil {
			return false
		}
	}
	return true
}

// records adds a heading of all the names that objects have, and a row for each.
func (r *nodeRows) records(items []node) {
	var names []string
	var heading []nodeCell
	for _, item := range items {
		for _, f := range item.fields {
			if len(names) < shownCells*10 && !slices.Contains(names, f.name) {
				names = append(names, f.name)
				heading = append(heading, nodeCell{text: f.name, offset: f.offset})
			}
		}
	}
	r.add(heading)
	for _, item := range items {
		row := make([]nodeCell, len(names))
		for i := range row {
			row[i].offset = item.offset
		}
		for _, f := range item.fields {
			if i := slices.Index(names, f.name); i >= 0 {
				row[i] = cellOf(f.node)
			}
		}
		r.add(row)
	}
}

// allFlat reports whether items are objects with single values only.
func allFlat(items []node) bool {
	for _, item := range items {
		if item.shape != object || len(item.fields) == 0 {
			return false
		}
		for _, f := range item.fields {
			if f.node.shape != scalar {
				return false
			}
		}
	}
	return true
}

func allScalar(items []node) bool {
	return !slices.ContainsFunc(items, func(n node) bool { return n.shape != scalar })
}

// cellOf writes a single value as a cell.
func cellOf(n node) nodeCell {
	c := nodeCell{offset: n.offset}
	switch v := n.value.(type) {
	case string:
		c.text = v
	case json.Number:
		c.text, c.typed = v.String(), true
	case bool:
		c.text = map[bool]string{true: "true", false: "false"}[v]
	}
	return c
}
