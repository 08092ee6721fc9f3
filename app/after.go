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

func (c *After) lines() []string {
	a := c.d().Capacity.After
	if a == nil {
		rows, own := capacity.AfterOverload(c.d().Capacity.Region)
		a = &dossier.After{Region: c.d().Capacity.Region, Own: own, Rows: rows}
	}
	out := []string{a.Line()}
	for _, row := range a.Rows {
		out = append(out, dossier.AskedLine(row))
	}
	return out
}
