package chart

import (
	"fmt"
	"math"
	"strings"
)

// Plan is a machine on its vehicle seen from above, its front to the left, with
// what holds it and how well in each direction.
type Plan struct {
	Label   string
	Front   string // word at the front of the vehicle
	Lines   []PlanLine
	Margins [4]PlanMargin // to the left, to the right, up and down
}

// PlanLine is a row of lashings.
type PlanLine struct {
	Way     string // front, rear or over
	Count   int
	PlanDeg float64
}

// PlanMargin is what is held of what is needed in one direction, in percent.
type PlanMargin struct {
	Words   string
	Percent float64 // negative: not worked out
}

// Sizes of the plan, in px.
const (
	planHeight = 304.0
	deckTall   = 130.0
	mostHeld   = 200.0 // percent
)

// DrawPlan draws the plan.
func DrawPlan(id string, p Plan, width float64) string {
	c := begin(id, width, planHeight, "plan", p.Label)
	c.textures()
	side := math.Min(width*0.24, 150) // room of the margins left and right
	midX, midY := width/2, planHeight/2
	deckW, machineW, machineT := width-2*side, (width-2*side)*0.46, 62.0
	c.rect("deck-plan", side, midY-deckTall/2, deckW, deckTall, "")
	c.text("mark", left, side, midY-deckTall/2-8, p.Front)
	lines := planner{c, midX, midY, machineW / 2, machineT / 2, deckW / 2, deckTall / 2}
	for i, l := range p.Lines {
		lines.draw(l, float64(i))
	}
	c.rect("body", midX-machineW/2, midY-machineT/2, machineW, machineT, ` rx="6"`)
	reach := side - 12
	c.margin(p.Margins[0], side-4, midY, -1, 0, reach)
	c.margin(p.Margins[1], width-side+4, midY, 1, 0, reach)
	tall := planHeight/2 - deckTall/2 - 26
	c.margin(p.Margins[2], midX, midY-deckTall/2-4, 0, -1, tall)
	c.margin(p.Margins[3], midX, midY+deckTall/2+4, 0, 1, tall)
	return c.end()
}

// margin draws a bar outwards, as long as what is held, with a line where all
// that is needed would end.
func (c *canvas) margin(m PlanMargin, x, y, dx, dy, reach float64) {
	const thick = 20.0
	length := func(percent float64) float64 { return reach * math.Min(drawable(percent), mostHeld) / mostHeld }
	bar := func(class string, texture Texture, percent float64) {
		l := length(percent)
		extra := c.fill(texture)
		if dx != 0 {
			c.rect(class, x+math.Min(dx, 0)*l, y-thick/2, l, thick, extra)
		} else {
			c.rect(class, x-thick/2, y+math.Min(dy, 0)*l, thick, l, extra)
		}
	}
	figure := "not worked out"
	if m.Percent >= 0 {
		texture := Solid
		class := "held"
		if m.Percent < 100 {
			texture, class = Hollow, "t-hollow"
		}
		bar(class, texture, m.Percent)
		need := length(100)
		if dx != 0 {
			c.line("needed", x+dx*need, y-thick/2-5, x+dx*need, y+thick/2+5)
		} else {
			c.line("needed", x-thick/2-5, y+dy*need, x+thick/2+5, y+dy*need)
		}
		figure = fmt.Sprintf("%.0f %%", math.Floor(math.Min(m.Percent, 999)+1e-9))
		if m.Percent > 999 {
			figure = "over 999 %"
		}
		if m.Percent < 100 {
			figure += ", not held"
		}
	}
	if dx != 0 {
		at, anchored := x-reach, left
		if dx > 0 {
			at, anchored = x+reach, right
		}
		figure, rest, _ := strings.Cut(figure, ", ")
		c.text("row-words", anchored, at, y-thick/2-24, m.Words)
		c.text("row-figures", anchored, at, y-thick/2-9, figure)
		if rest != "" {
			c.text("row-figures", anchored, at, y+thick/2+19, rest)
		}
		return
	}
	up := y + dy*reach/2 + 4
	c.text("row-words", left, x+thick/2+12, up-3, m.Words)
	c.text("row-figures", left, x+thick/2+12, up+13, figure)
}

// planner draws lashings between machine and deck.
type planner struct {
	*canvas
	x, y           float64 // middle
	w, t           float64 // half of the machine
	deckW, deckTll float64 // half of the deck
}

// draw draws a row of lashings; further rows stand a little apart.
func (p planner) draw(l PlanLine, row float64) {
	if l.Way == "over" {
		for i := range min(l.Count, 6) {
			x := p.x - p.w*0.6 + p.w*1.2*(float64(i)+0.5)/float64(min(l.Count, 6))
			p.line("strap", x, p.y-p.deckTll, x, p.y+p.deckTll)
		}
		return
	}
	ahead := -1.0
	if l.Way == "rear" {
		ahead = 1
	}
	rad := math.Min(drawable(l.PlanDeg), 90) * math.Pi / 180
	for i := range min(l.Count, 8) {
		outward := 1.0
		if i%2 == 0 {
			outward = -1
		}
		apart := float64(i/2)*9 + 3*row
		x1, y1 := p.x+ahead*(p.w-apart), p.y+outward*(p.t-4)
		length := math.Min((p.deckW-p.w-4+apart)/math.Max(math.Cos(rad), 0.01), (p.deckTll-p.t+2)/math.Max(math.Sin(rad), 0.01))
		p.line("strap", x1, y1, x1+ahead*length*math.Cos(rad), y1+outward*length*math.Sin(rad))
	}
}
