package app

import (
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

func (c *Ride) strapFields() []model.RideField { return model.StrapFields }

func (c *Ride) held() string { return dossier.HeldText(c.t()) }

func (c *Ride) hasPlan() bool { return c.t().Held != nil && len(c.t().Held.Margins) > 0 }

func (c *Ride) finding(f record.Finding) string { return dossier.FindingText(f) }

func (c *Ride) severity(s record.Severity) string { return severityWords[s] }

func (c *Ride) lashings() []string { return dossier.LashingLines(c.d()) }

func (c *Ride) sums() []string {
	return slices.Concat(dossier.StrapSources(c.t()), dossier.SumLines(c.t()))
}

// notCovered says which rule was applied and what it does not cover.
func (c *Ride) notCovered() string {
	r := lashing.MachineOf(&c.Model.Case().Group.Case)
	rule := lashing.RuleOf(r.Rule)
	return "Rule applied: " + rule.Words + " (" + rule.Source.String() + "; " + string(rule.Source.Status) + "): " + rule.Note + ". " + lashing.NotCovered
}
