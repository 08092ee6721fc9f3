package chart

import "math"

// Pull is a row of a balance: how far one piece of evidence pulls, to the right
// over zero and to the left below.
type Pull struct {
	Words  string
	Figure string
	By     float64
}

// Whole is a row of a balance that says where all of it comes out: a range and
// a mark within it, on the axis of the pulls.
type Whole struct {
	Words  string
	Figure string
	Low    float64
	At     float64
	High   float64
}

// Balance is what pulls two ways, and what comes of it all together: of one
// thing, or of several that are read alike.
type Balance struct {
	Label        string
	Left, Right  string  // what each side stands for
	LeftTexture  Texture // of bars that pull to the left
	RightTexture Texture
	Pulls        []Pull
	Wholes       []Whole
}

// mostPull is the pull at the end of the axis; what pulls harder ends in a tip.
const mostPull = 2.0

// Heights of the rows of a balance, of the head and of the scale below.
const (
	balanceRow   = 38.0
	balanceHead  = 27.0
	balanceScale = 24.0
)

// DrawBalance draws a balance: a middle line, a bar for each pull, a range for
// each whole, and a scale of how many times better the one side fits.
func DrawBalance(id string, b Balance, width float64) string {
	rows := float64(len(b.Pulls) + len(b.Wholes))
	foot := balanceHead + rows*balanceRow
	c := begin(id, width, foot+balanceScale, "balance", b.Label)
	c.textures()
	half := width/2 - sideMargin
	x := func(v float64) float64 { return width/2 + half*math.Max(-1, math.Min(1, v/mostPull)) }
	c.balanceSides(b, width)
	c.balanceAxis(x, foot)
	for i, p := range b.Pulls {
		y := balanceHead + float64(i)*balanceRow
		c.balanceWords("cell-words halo", p.Words, p.Figure, y, width)
		c.pull(b, x, signed(p.By), y+19)
	}
	for i, w := range b.Wholes {
		y := balanceHead + float64(len(b.Pulls)+i)*balanceRow
		c.balanceWords("row-words halo", w.Words, w.Figure, y, width)
		c.rect("bar", x(signed(w.Low)), y+20, x(signed(w.High))-x(signed(w.Low)), 12, "")
		c.onward(signed(w.Low), signed(w.High), x, y+19)
		c.line("estimate", x(signed(w.At)), y+17, x(signed(w.At)), y+35)
	}
	return c.end()
}

// balanceSides names the sides, each beside the texture of its bars.
func (c *canvas) balanceSides(b Balance, width float64) {
	const swatch = 14.0
	if b.LeftTexture != "" {
		c.surface(b.LeftTexture, 1, 1, swatch, swatch)
	}
	if b.RightTexture != "" {
		c.surface(b.RightTexture, width-swatch-1, 1, swatch, swatch)
	}
	c.text("side", left, swatch+7, 13, b.Left)
	c.text("side", right, width-swatch-7, 13, b.Right)
}

// balanceAxis draws the middle, where both sides fit alike, and on either side
// where one fits ten and a hundred times better.
func (c *canvas) balanceAxis(x func(v float64) float64, foot float64) {
	for _, t := range []struct {
		at    float64
		words string
	}{{-2, "100"}, {-1, "10"}, {0, "alike"}, {1, "10"}, {2, "100"}} {
		class, where := "track", centre
		switch {
		case t.at == 0:
			class = "axis"
		case t.at <= -mostPull:
			where = left
		case t.at >= mostPull:
			where = right
		}
		if math.Abs(t.at) < mostPull {
			c.line(class, x(t.at), balanceHead-4, x(t.at), foot+2)
		}
		c.text("scale", where, x(t.at), foot+17, t.words)
	}
}

// balanceWords writes what a row is, and its figure.
func (c *canvas) balanceWords(class, words, figure string, y, width float64) {
	c.text(class, left, 0, y+13, words)
	c.text("row-figures halo", right, width, y+13, figure)
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
	c.onward(by, by, x, y)
}

// onward draws a tip on each side where something goes beyond the axis.
func (c *canvas) onward(low, high float64, x func(float64) float64, y float64) {
	if high > mostPull {
		c.put(`<path class="onward" d="M%s,%s l6,7 l-6,7"/>`, n(x(high)+2), n(y))
	}
	if low < -mostPull {
		c.put(`<path class="onward" d="M%s,%s l-6,7 l6,7"/>`, n(x(low)-2), n(y))
	}
}

// signed returns the nearest value that can be drawn, of either sign.
func signed(x float64) float64 {
	if x < 0 {
		return -drawable(-x)
	}
	return drawable(x)
}
