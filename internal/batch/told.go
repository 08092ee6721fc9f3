package batch

import (
	"slices"

	"ratchetmark/internal/record"
)

// joinTold adds the checks and tie-downs of a record from another file that do
// not stand there yet, with where they were read.
func (g *Grouped) joinTold(r Record) {
	g.Case.Checks = addNew(g, "checks", r, g.Case.Checks, r.Case.Checks, sameCheck)
	g.Case.TieDowns = addNew(g, "tie_downs", r, g.Case.TieDowns, r.Case.TieDowns, sameTieDown)
}

func addNew[T any](g *Grouped, list record.Path, r Record, mine, other []T, same func(a, b T) bool) []T {
	for i, o := range other {
		if slices.ContainsFunc(mine, func(m T) bool { return same(m, o) }) {
			continue
		}
		mine = append(mine, o)
		g.move(list, r.Origins, i+1, len(mine))
	}
	return mine
}

// sameCheck reports whether two entries are of one check, however its time is
// written and whoever wrote it down.
func sameCheck(a, b record.LoadCheck) bool {
	return a.At.Equal(b.At) && a.Kind == b.Kind && equal(a.Shown, b.Shown) && equal(a.Mass, b.Mass)
}

func sameTieDown(a, b record.TieDown) bool {
	return a.At.Equal(b.At) && equal(a.Over, b.Over) && a.How == b.How
}

func equal[T comparable](a, b *T) bool {
	return a == b || a != nil && b != nil && *a == *b
}
