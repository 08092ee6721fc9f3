package model

import (
	"ratchetmark/internal/card"
	"ratchetmark/internal/lashing"
)

func devices() (out []Choice) {
	for _, d := range lashing.Devices {
		out = append(out, Choice{d.ID, d.Name})
	}
	return out
}

func routes() []Choice {
	return []Choice{
		{string(lashing.OverRails), "over the rails"}, {string(lashing.OverFloor), "over the floor"},
		{string(lashing.OverMount), "over what carries the platform"}, {string(lashing.NotOver), "not over the platform"},
	}
}

func edges() (out []Choice) {
	for _, e := range lashing.Edges {
		out = append(out, Choice{e.ID, e.Words})
	}
	return out
}

func rules() (out []Choice) {
	for _, r := range lashing.Rules {
		out = append(out, Choice{r.ID, r.Words})
	}
	return out
}

func gears() (out []Choice) {
	for _, g := range lashing.Gears {
		out = append(out, Choice{g.ID, g.Name})
	}
	return out
}

func ways() []Choice {
	return []Choice{
		{string(lashing.ToFront), "from it to the front"}, {string(lashing.ToRear), "from it to the rear"}, {string(lashing.OverTop), "over the chassis"},
	}
}

func languages() (out []Choice) {
	for _, l := range card.Langs {
		out = append(out, Choice{string(l.Lang), l.Name})
	}
	return out
}
