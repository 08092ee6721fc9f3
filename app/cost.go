package app

import (
	"fmt"
	"strings"

	"ratchetmark/app/model"
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
func table(p dossier.CostPart) string {
	var rows []chart.Row
	for _, r := range p.Table.Rows {
		rows = append(rows, chart.Row{Title: r[0], Cells: r[1:]})
	}
	return chart.Table(p.Table.Caption, p.Table.Head, rows)
}

// lines are what is said below the picture.
func (c *Cost) lines() []string {
	return []string{
		dossier.AsRead,
		"An index by Miner's rule, with each stress range taken as self-weight share plus load share. It says nothing about how long the machine will last.",
	}
}

// folds are the parts that are laid open on the screen; paper has all of them.
func (c *Cost) folds() []part {
	var out []part
	for _, p := range c.all {
		f := c.part("cost-"+p.ID, "cost-part", p.ID, p.Title)
		f.says = p.Answer
		b := block{lines: linesOf(p.Lines...)}
		if len(p.Ranges) > 0 {
			b.wide, b.narrow = c.chart(p, 620), c.chart(p, 358)
		}
		if p.Table != nil {
			b.table = table(p)
		}
		f.blocks = []block{b}
		out = append(out, f)
	}
	return append(out, c.tell())
}

// tell is where a person tells of the structure.
func (c *Cost) tell() part {
	f := c.part("cost-tell", "cost-part", model.FoldTell, "Tell more of the structure")
	f.says = c.toldWords()
	if f.open {
		f.blocks = []block{{note: "What is told here is kept with the case and goes with it. Leave blank what is not known.", rows: rowOf("the structure", c.Model.StructureInputs())}}
	}
	return f
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
