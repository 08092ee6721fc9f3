package dossier

import (
	"ratchetmark/internal/batch"
)

// From makes the dossiers of all machines in what was read.
func From(batches []batch.Batch) []Dossier {
	var out []Dossier
	for _, g := range batch.Group(batches) {
		out = append(out, Of(&g))
	}
	return out
}

// Of makes the dossier of one machine.
func Of(g *batch.Grouped) Dossier {
	var inputs []Input
	for _, s := range g.Sources {
		inputs = append(inputs, Input(s))
	}
	return Assess(&g.Case, inputs, g.Findings, g.Origins)
}
