package dossier

import (
	"ratchetmark/internal/batch"
	"ratchetmark/internal/cause"
	"ratchetmark/internal/record"
)

// From makes the dossiers of all machines in what was read. Each is held against
// what the others show of the same hauliers.
func From(batches []batch.Batch) []Dossier {
	groups := batch.Group(batches)
	var histories []record.History
	for i := range groups {
		histories = append(histories, record.Lay(&groups[i].Case))
	}
	all := cause.HabitsOf(histories)
	var out []Dossier
	for i := range groups {
		out = append(out, Among(&groups[i], all.Less(cause.HabitsOf(histories[i:i+1]))))
	}
	return out
}

// Of makes the dossier of one machine by itself.
func Of(g *batch.Grouped) Dossier { return Among(g, nil) }

// Among makes the dossier of one machine with what other machines show of
// hauliers.
func Among(g *batch.Grouped, others cause.Habits) Dossier {
	var inputs []Input
	for _, s := range g.Sources {
		inputs = append(inputs, Input(s))
	}
	return assess(&g.Case, inputs, g.Findings, g.Origins, others)
}
