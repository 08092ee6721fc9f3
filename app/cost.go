package app

import (
	"fmt"
	"strings"

	"github.com/vugu/vugu/js"

	"ratchetmark/internal/assume"
	"ratchetmark/internal/chart"
	"ratchetmark/internal/dossier"
)

// Cost answers what the use has cost the structure.
type Cost struct {
	view
	all []dossier.CostPart
}

// Compute lays the parts out, before they are built.
func (c *Cost) Compute() {
	c.all = dossier.CostParts(c.d())
	if fleet := c.fleet(); fleet.Title != "" {
		c.all = append(c.all, fleet)
	}
}

func (c *Cost) parts() []dossier.CostPart { return c.all }

// fleet sets the machines on the sheet side by side.
func (c *Cost) fleet() dossier.CostPart {
	var all []*dossier.Dossier
	for _, o := range c.Model.Opened {
		all = append(all, &o.Dossier)
	}
	return dossier.Ranking(all)
}

func (c *Cost) known() bool { return c.d().Exposure != nil }

func (c *Cost) main() dossier.CostPart { return dossier.Main(c.d()) }

// chart draws the ranges of a part.
func (c *Cost) chart(p dossier.CostPart, width float64) string {
	return costRanges(p, fmt.Sprintf("%s-%.0f", p.ID, width), width)
}

// table draws the table of a part.
func (c *Cost) table(element js.Value, p dossier.CostPart) {
	var rows []chart.Row
	for _, r := range p.Table.Rows {
		rows = append(rows, chart.Row{Title: r[0], Cells: r[1:]})
	}
	(&Picture{Model: c.Model}).mount(element, chart.Table(p.Table.Caption, p.Table.Head, rows))
}

// lines are what is said below the picture.
func (c *Cost) lines() []string {
	return []string{
		dossier.AsRead,
		"An index by Miner's rule, with each stress range taken as self-weight share plus load share. It says nothing about how long the machine will last.",
	}
}

// foldWords says what pressing the button of a part does.
func (c *Cost) foldWords(id string) string {
	if c.isOpen(id, 0) {
		return "Hide why"
	}
	return "Show why"
}

func (c *Cost) tellWords() string {
	if c.isOpen("tell", 0) {
		return "Done telling"
	}
	return "Tell more"
}

func (c *Cost) expanded(id string) string { return fmt.Sprint(c.isOpen(id, 0)) }

// bodyClass hides what is closed, on the screen alone: paper has all of it.
func (c *Cost) bodyClass(id string) string {
	if c.isOpen(id, 0) {
		return "cost-body"
	}
	return "cost-body closed"
}

// toldWords says what is still open to be told.
func (c *Cost) toldWords() string {
	if c.d().History.Case.Structure == nil {
		return "Stress range and category of a detail, what is claimed, when it is to be passed on."
	}
	return "Something is told and kept with the case."
}

// assumed says in one sentence what the figures rest on.
func (c *Cost) assumed() string {
	var words []string
	for _, id := range c.restsOn() {
		for _, a := range c.d().Assumptions {
			if a.ID == id {
				words = append(words, dossier.AssumptionValue(a))
			}
		}
	}
	return "Assumed: " + strings.Join(words, "; ") + "."
}

// restsOn are the assumptions that the figures rest on most.
func (c *Cost) restsOn() []assume.ID {
	rate := []assume.ID{assume.CyclesPerHour}
	if e := c.d().Exposure; e != nil {
		rate = e.Rests()
	}
	return append(rate, assume.SelfWeightShare, assume.DesignCycles, assume.Slope)
}
