package app

import (
	"fmt"
	"slices"

	"ratchetmark/app/model"
	"ratchetmark/internal/dossier"
	"ratchetmark/internal/lashing"
	"ratchetmark/internal/record"
)

// Ride answers how the machine should ride.
type Ride struct{ view }

func (c *Ride) t() *dossier.Transport { return c.d().Transport }

func (c *Ride) stowed(id string, width float64) string { return stowedOf(c.d(), id, width) }

func (c *Ride) loads(id string, width float64) string { return loadsOf(c.d(), id, width) }

func (c *Ride) plan(id string, width float64) string { return planOf(c.d(), id, width) }

func (c *Ride) strap() string { return dossier.StrapText(c.d()) }

func (c *Ride) lines() []string { return dossier.RideLines(c.d()) }

func (c *Ride) held() string { return dossier.HeldText(c.t()) }

func (c *Ride) hasPlan() bool { return c.t().Held != nil && len(c.t().Held.Margins) > 0 }

func (c *Ride) finding(f record.Finding) string { return dossier.FindingText(f) }

func (c *Ride) severity(s record.Severity) string { return severityWords[s] }

func (c *Ride) lashings() []string { return dossier.LashingLines(c.d()) }

// parts are what may be laid open: what holds the machine, and how that is
// worked out.
func (c *Ride) parts() []part {
	sums := c.part("sums", "ride-part", "sums", "How that is worked out")
	sums.blocks = []block{{lines: linesOf(slices.Concat(dossier.StrapSources(c.t()), dossier.SumLines(c.t()))...)}}
	return []part{c.holding(), sums}
}

// holding is where a person enters what holds the machine on its vehicle.
func (c *Ride) holding() part {
	p := c.part("holding", "ride-part knobs", model.FoldHolding, "What holds it: mass, rule, chains and straps")
	if !p.open {
		return p
	}
	held := block{rows: rowOf("the machine", c.Model.HeldInputs()), actions: []action{{id: "add-lashing", words: "Add lashings", do: c.Model.AddLashing, off: !c.Model.MoreLashings()}}}
	for i := range c.Model.Lashings() {
		name := fmt.Sprintf("lashings %d", i+1)
		row := line(fmt.Sprintf("ride-%d", i+1), name, c.Model.LashingInputs(i), func() { c.Model.RemoveLashing(i) })
		row.head = dossier.Capital(name)
		held.rows = append(held.rows, row)
	}
	if c.Model.Lashings() == 0 {
		held.actions[0].words = "Begin with four chains"
	}
	p.blocks = []block{held, {note: "For blocking and tipping, where the maker gives them:", rows: rowOf("blocking and tipping", c.Model.FurtherInputs())}}
	return p
}

// notCovered says which rule was applied and what it does not cover.
func (c *Ride) notCovered() string {
	r := lashing.MachineOf(&c.Model.Case().Group.Case)
	rule := lashing.RuleOf(r.Rule)
	return "Rule applied: " + rule.Words + " (" + rule.Source.String() + "; " + string(rule.Source.Status) + "): " + rule.Note + ". " + lashing.NotCovered
}
