package app

import (
	"strings"

	"ratchetmark/internal/dossier"
)

// Exceeded says for how many hours any load was exceeded, and which load was
// exceeded for a share of them.
type Exceeded struct{ view }

func (c *Exceeded) title() string {
	if all := c.d().Capacity.OverLoads; len(all) > 0 {
		text, _, _ := strings.Cut(dossier.OverLine(all[0]), ", about")
		return "Hours over any load. " + strings.TrimSuffix(text, ".")
	}
	return "Hours over any load"
}

func (c *Exceeded) lines() []string {
	k := c.d().Capacity
	var out []string
	for _, e := range k.OverLoads {
		out = append(out, dossier.OverLine(e))
	}
	for _, text := range []string{k.ExceededLine(), k.ApartLine()} {
		if text != "" {
			out = append(out, text)
		}
	}
	return out
}
