package app

import (
	"fmt"

	"ratchetmark/app/model"
)

// Reading is one reading in the form. A folded one says in a line what is in it.
type Reading struct {
	Model *model.Model
	I     int

	earlier *model.FormReading // the reading before this one; nil where there is none
}

// Compute finds the reading before this one, before it is built.
func (c *Reading) Compute() { c.earlier = c.Model.Form.Earlier(c.I) }

func (c *Reading) reading() *model.FormReading { return &c.Model.Form.Readings[c.I] }

func (c *Reading) several() bool { return len(c.Model.Form.Readings) > 1 }

func (c *Reading) isOpen() bool { return c.Model.Form.Open(c.I) }

func (c *Reading) title() string {
	if !c.several() {
		return "The reading, from the screen"
	}
	return fmt.Sprintf("Reading %d", c.I+1)
}

// unfolding is the one line that a folded reading is, to be pressed.
func (c *Reading) unfolding() []action {
	line := fmt.Sprintf("Reading %d: %s", c.I+1, c.Model.Form.FoldLine(c.I))
	return []action{{id: c.id("fold"), words: line, class: "fold", folds: foldedNow, do: func() { c.Model.Fold(c.I) }}}
}

// actions are what can be done with the reading and its bands.
func (c *Reading) actions() []action {
	i, folded := c.I, c.reading().Folded
	edges := action{id: c.id("edges"), words: "Show the hours alone", folds: foldOf(!folded), do: func() { c.Model.ShowEdges(i) }}
	if folded {
		edges.words = "Change the bands"
	}
	out := []action{edges}
	if !folded {
		out = append(out, action{id: c.id("add-band"), words: "Add a band on top", do: func() { c.Model.AddBand(i) }})
	}
	if c.several() {
		out = append(out,
			action{id: c.id("remove"), words: "Remove this reading", do: func() { c.Model.RemoveReading(i) }},
			action{id: c.id("fold"), words: "Fold this reading", folds: openNow, class: "quiet", do: func() { c.Model.Fold(i) }})
	}
	return out
}

// bandActions are what can be done with a band.
func (c *Reading) bandActions(j int) []action {
	i, of := c.I, fmt.Sprintf(" band %d of reading %d", j+1, c.I+1)
	return []action{
		{id: c.bandID(j, "split"), words: "Split", name: "Split" + of, do: func() { c.Model.SplitBand(i, j) }},
		{id: c.bandID(j, "remove"), words: "Remove", name: "Remove" + of, do: func() { c.Model.RemoveBand(i, j) }},
	}
}

func (c *Reading) id(name string) string { return model.LineID(model.OfReading, c.I, 0, name) }

func (c *Reading) bandID(j int, name string) string { return model.LineID(model.OfBand, c.I, j, name) }

// fields are those of the reading itself.
func (c *Reading) fields() []model.Beside {
	var out []model.Beside
	for _, x := range model.Fields(model.OfReading, c.I, 0) {
		out = append(out, model.Beside{Field: x, Earlier: c.earlier})
	}
	return out
}

// bandFields are the fields of a band; its hours alone where the edges are known.
func (c *Reading) bandFields(j int) (out []model.Beside) {
	all := model.Fields(model.OfBand, c.I, j)
	if c.reading().Folded {
		all = all[len(all)-1:]
	}
	for _, x := range all {
		out = append(out, model.Beside{Field: x, Words: c.bandWords(j, x), Earlier: c.earlier})
	}
	return out
}

// bandWords labels the fields of a band where the usual words do not do: the
// hours stand for the band where its edges are not shown.
func (c *Reading) bandWords(j int, x model.Field) string {
	bands := c.reading().Bands
	switch {
	case c.reading().Folded:
		return bands[j].Words() + ", hours"
	case j == len(bands)-1 && x.ID() == c.bandID(j, "to"):
		return "To, kg (blank: open)"
	}
	return ""
}

func (c *Reading) bandsClass() string {
	if c.reading().Folded {
		return "bands known"
	}
	return "bands"
}

// live is what is said while the hours are typed.
func (c *Reading) live() string {
	text := c.Model.Form.Total(c.I)
	if doubts := c.Model.Form.Doubts(c.I); doubts != "" {
		text += " " + doubts
	}
	return text
}
