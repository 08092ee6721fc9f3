package app

import (
	"ratchetmark/internal/card"
	"ratchetmark/internal/chart"
)

// Card is the page for the transport crew: one sheet of paper.
type Card struct {
	view
	page card.Card
}

// Compute makes the card before it is built.
func (c *Card) Compute() { c.page = c.Model.Card() }

func (c *Card) class(s card.Section) string {
	if s.Stop {
		return "card-part stop"
	}
	return "card-part"
}

// sheet sets a long page in smaller type, so that it stays one page.
func (c *Card) sheet() string {
	if c.page.Rows(72) > 34 {
		return "card-sheet dense"
	}
	return "card-sheet"
}

func (c *Card) lang() string { return string(c.page.Lang) }

func (c *Card) drawing(id string) string { return chart.DrawStowed(id, cardDrawing(c.d()), 620) }

// save saves the card as a picture.
func (c *Card) save() {
	c.Model.Do(func() {
		k := c.Model.Card()
		s := cardDrawing(c.d())
		p := chart.Poster{Title: k.Title, Sub: k.Machine, Drawing: &s, Foot: []string{k.Foot}}
		if k.Unreviewed != "" {
			p.Foot = append(p.Foot, k.Unreviewed)
		}
		for _, part := range k.Sections {
			p.Blocks = append(p.Blocks, chart.PosterBlock{Heading: part.Heading, Lines: part.Lines, Frame: part.Stop})
		}
		c.Model.SaveCard(chart.DrawPoster("card", p))
	})
}

func (c *Card) back() { c.Model.Do(c.Model.GoSheet) }
