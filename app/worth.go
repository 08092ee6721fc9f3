package app

import (
	"fmt"

	"ratchetmark/internal/assume"
	"ratchetmark/internal/capacity"
	"ratchetmark/internal/dossier"
)

// Worth says what each band edge is worth in persons and tools.
type Worth struct{ view }

func (c *Worth) lines() []string {
	out := []string{fmt.Sprintf("A person taken as %s. It says nothing of who or what was on the platform.", dossier.Mass(value(c.d(), assume.PersonMass)))}
	edges := c.d().Capacity.Edges
	for i, w := range edges {
		switch {
		case i+1 < len(edges):
			out = append(out, fmt.Sprintf("%s to %s: %s to %s", dossier.Kg(float64(w.Load)), dossier.Kg(float64(edges[i+1].Load)), c.words(w), c.words(edges[i+1])))
		default:
			out = append(out, fmt.Sprintf("From %s up: %s and more", dossier.Kg(float64(w.Load)), c.words(w)))
		}
	}
	return out
}

func (c *Worth) words(w capacity.Worth) string {
	if w.Load == 0 {
		return "nothing"
	}
	return w.Words()
}
