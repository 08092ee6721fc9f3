package app

import (
	"github.com/vugu/vugu"

	"ratchetmark/internal/capacity"
	"ratchetmark/internal/dossier"
)

// After lists what is asked for after an overload: open where something went
// over, unless a person closed it.
type After struct{ view }

func (c *After) over() bool { return c.d().Capacity.After != nil }

// class tells the printed page whether the list is asked for.
func (c *After) class() string {
	if c.over() {
		return "plain over"
	}
	return "plain"
}

// turned is the fold that a person turns: from what the record asks for.
func (c *After) turned() string {
	if c.over() {
		return "after-over"
	}
	return "after"
}

func (c *After) shown() bool { return c.over() != c.isOpen(c.turned(), 0) }

func (c *After) toggle(event vugu.DOMEvent) { c.unfold(event, c.turned(), 0) }

// list is what is asked for, in the region of the machine.
func (c *After) list() dossier.After {
	if a := c.d().Capacity.After; a != nil {
		return *a
	}
	return dossier.AfterIn(c.d().Capacity.Region)
}

func (c *After) about() string { a := c.list(); return a.Line() }

func (c *After) rows() []capacity.Statement { return c.list().Rows }

func (c *After) what(row capacity.Statement) string { return dossier.Capital(row.What) + "." }

func (c *After) whose(row capacity.Statement) string { return dossier.WhoLine(row) }
