package chart

import "math"

// Pull is a row of a balance: how far one piece of evidence pulls, to the right
// over zero and to the left below.
type Pull struct {
	Words  string
	Figure string
	By     float64
}

// Balance is what pulls two ways, and what comes of it all together.
type Balance struct {
	Label        string
	Left, Right  string  // what each side stands for
	LeftTexture  Texture // of bars that pull to the left
	RightTexture Texture
	Pulls        []Pull
	Words        string // of the last row
	Figure       string
	Low          float64 // the range of the whole
	At           float64
	High         float64
}

// mostPull is the pull at the end of the axis; what pulls harder ends in a tip.
const mostPull = 2.0

// DrawBalance draws a balance: a middle line, a bar for each pull, and a range
// for the whole.
func DrawBalance(id string, b Balance, width float64) string {
	const rowTall, head = 42.0, 24.0
	tall := head + float64(len(b.Pulls)+1)*rowTall + 6
	c := begin(id, width, tall, "balance", b.Label)
	c.textures()
	middle := width / 2
	half := width/2 - sideMargin
	x := func(v float64) float64 { return middle + half*math.Max(-1, math.Min(1, v/mostPull)) }
	c.text("side", left, 0, 13, b.Left)
	c.text("side", right, width, 13, b.Right)
	for i, p := range b.Pulls {
		y := head + float64(i)*rowTall
		c.text("cell-words", left, 0, y+13, p.Words)
		c.text("row-figures", right, width, y+13, p.Figure)
		c.line("track", x(-mostPull), y+27, x(mostPull), y+27)
		c.pull(b, x, signed(p.By), y+20)
	}
	y := head + float64(len(b.Pulls))*rowTall
	c.text("row-words", left, 0, y+13, b.Words)
	c.text("row-figures", right, width, y+13, b.Figure)
	c.line("track", x(-mostPull), y+27, x(mostPull), y+27)
	c.rect("bar", x(signed(b.Low)), y+21, x(signed(b.High))-x(signed(b.Low)), 12, "")
	c.line("estimate", x(signed(b.At)), y+17, x(signed(b.At)), y+37)
	c.line("axis", middle, head, middle, tall-4)
	return c.end()
}

// pull draws one bar, with a tip where it goes beyond the axis.
func (c *canvas) pull(b Balance, x func(float64) float64, by, y float64) {
	const tall = 14.0
	from, to, t := x(0), x(by), b.RightTexture
	if by < 0 {
		from, to, t = x(by), x(0), b.LeftTexture
	}
	if to-from >= 1 {
		c.surface(t, from, y, to-from, tall)
	}
	switch {
	case by > mostPull:
		c.put(`<path class="onward" d="M%s,%s l6,7 l-6,7"/>`, n(to+2), n(y))
	case by < -mostPull:
		c.put(`<path class="onward" d="M%s,%s l-6,7 l6,7"/>`, n(from-2), n(y))
	}
}

// signed returns the nearest value that can be drawn, of either sign.
func signed(x float64) float64 {
	if x < 0 {
		return -drawable(-x)
	}
	return drawable(x)
}
