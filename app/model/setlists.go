package model

import (
	"maps"

	"ratchetmark/internal/record"
)

// setList is a list of like lines on the sheet, each with fields of its own.
type setList struct {
	name  string // of a line: "zone", which has its number behind it
	fold  string
	add   string // id of the button that adds one
	aside bool
	line  func(i int) []Input
}

// addLine adds a line, the i-th, to a list on the sheet, and shows its field with
// an id.
func (m *Model) addLine(l setList, i int, first string, add func(c *record.Case)) {
	o := m.Case()
	if o == nil {
		return
	}
	s := step{what: "add " + l.name + " " + itoa(i+1), back: l.add, forth: first, fold: l.fold}
	m.set(o, s, func(any) {
		add(&o.Group.Case)
		o.mark(l.aside)
	})
	m.host.Show(first)
}

// removeLine takes the i-th of n lines off. What was typed into the ones below it
// goes up with them.
func (m *Model) removeLine(l setList, i, n int, remove func(c *record.Case)) {
	o := m.Case()
	if o == nil || i < 0 || i >= n {
		return
	}
	var ids [][]string
	for j := range n {
		var line []string
		for _, x := range l.line(j) {
			line = append(line, x.ID)
		}
		ids = append(ids, line)
	}
	s := step{what: "remove " + l.name + " " + itoa(i+1), back: ids[i][0], forth: l.add, fold: l.fold}
	m.set(o, s, func(any) {
		remove(&o.Group.Case)
		o.mark(l.aside)
		o.moveUp(ids, i)
	})
	m.host.Show(l.add)
}

// moveUp gives what was typed into each line below the i-th to the one before it.
func (o *Opened) moveUp(ids [][]string, i int) {
	o.typed = maps.Clone(o.typed)
	for j := i; j < len(ids); j++ {
		for k, id := range ids[j] {
			delete(o.typed, id)
			if j+1 >= len(ids) || k >= len(ids[j+1]) {
				continue
			}
			if t, ok := o.typed[ids[j+1][k]]; ok {
				o.typed[id] = t
			}
		}
	}
}
