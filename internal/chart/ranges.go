package chart

import (
	"fmt"
	"math"
	"slices"
)

// Range is a row of a range chart: what is known of a figure.
type Range struct {
	Words     string
	Figures   string // the range in words
	Low, High float64
	Mark      float64
	HasMark   bool
	Open      bool // nothing bounds it above
}

// Ranges draws ranges on a common axis from zero: filled up to the least the
// figure can be, open from there to the most, with a mark at the estimate.
// Figures that do not fit beside the words stand below them.
func Ranges(id, label, unit string, rows []Range, width float64) string {
	const rowTall, lineTall, bottom = 50.0, 17.0, 26.0
	most, tall := 0.0, 0.0
	rows = slices.Clone(rows)
	for i := range rows {
		r := &rows[i]
		r.Low, r.High, r.Mark = drawable(r.Low), drawable(r.High), drawable(r.Mark)
		most = math.Max(most, math.Max(r.High, math.Max(r.Low, r.Mark)))
		tall += rowTall
		if r.crowded(width) {
			tall += lineTall
		}
	}
	c := begin(id, width, tall+bottom, "ranges", label)
	most = scalable(most * 1.04)
	x := func(v float64) float64 { return sideMargin + (width-2*sideMargin)*math.Min(v/most, 1) }
	y := 0.0
	for _, r := range rows {
		c.text("row-words", left, sideMargin, y+16, r.Words)
		if r.crowded(width) {
			y += lineTall
			c.text("row-figures", left, sideMargin, y+16, r.Figures)
		} else {
			c.text("row-figures", right, width-sideMargin, y+16, r.Figures)
		}
		c.line("track", sideMargin, y+30, width-sideMargin, y+30)
		high := x(r.High)
		if r.Open {
			high = width - sideMargin
		}
		c.rect("sure", x(0), y+24, x(r.Low)-x(0), 12, "")
		c.rect("bar", x(r.Low), y+24, high-x(r.Low), 12, "")
		if r.Open {
			c.put(`<path class="onward" d="M%s,%s l8,6 l-8,6"/>`, n(high-9), n(y+24))
		}
		if r.HasMark {
			c.line("estimate", x(r.Mark), y+20, x(r.Mark), y+40)
		}
		y += rowTall
	}
	c.scale(x, most, unit, tall, width)
	return c.end()
}

// crowded reports whether words and figures do not fit on one line. Words are
// bold, and wider than others.
func (r Range) crowded(width float64) bool {
	return textWidth(r.Words)*1.08+textWidth(r.Figures)+12 > width-2*sideMargin
}

// scale writes the axis below the rows.
func (c *canvas) scale(x func(float64) float64, most float64, unit string, y, width float64) {
	step := niceStep(most, width/90)
	for i := 0; float64(i)*step <= most; i++ {
		v := float64(i) * step
		c.line("tick", x(v), y-2, x(v), y+3)
		words := fmt.Sprintf("%.6g", v)
		at := centre
		switch {
		case v == 0:
			at = left
			c.text("scale", at, x(v)-4, y+17, words+" "+unit)
		case v+step > most && x(v)+textWidth(words)/2 > width:
			c.text("scale", right, width, y+17, words)
		default:
			c.text("scale", at, x(v), y+17, words)
		}
	}
}
