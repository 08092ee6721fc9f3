package dossier

import "ratchetmark/internal/intake"

// From makes the dossiers of all machines in what was read.
func From(batches []intake.Batch) []Dossier {
	var out []Dossier
	for _, g := range intake.Group(batches) {
		out = append(out, Of(&g))
	}
	return out
}

// Of makes the dossier of one machine.
func Of(g *intake.Grouped) Dossier {
	var inputs []Input
	for _, s := range g.Sources {
		inputs = append(inputs, Input(s))
	}
	return Assess(&g.Case, inputs, g.Findings, g.Origins)
}
