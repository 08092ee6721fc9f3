package chart

import (
	"math"
	"slices"
	"sort"
)

// Loads draws ranges of loads on a common axis from zero, each from the least to
// the most with a mark at the estimate, and lines of full height at loads with a
// name: the first of them is the rated load.
func Loads(id, label, unit string, rows []Range, marks []Mark, width float64) string {
	const rowTall = 50.0
	bottom := float64(len(rows)) * rowTall
	c := begin(id, width, bottom+30+float64(len(marks))*rowHeight, "loads", label)
	rows, marks = slices.Clone(rows), slices.Clone(marks)
	most := 0.0
	for i := range rows {
		r := &rows[i]
		r.Low, r.High, r.Mark = drawable(r.Low), drawable(r.High), drawable(r.Mark)
		most = math.Max(most, math.Max(r.High, r.Low))
	}
	for i := range marks {
		marks[i].At = drawable(marks[i].At)
		most = math.Max(most, marks[i].At)
	}
	most = scalable(most * 1.08)
	x := func(v float64) float64 { return sideMargin + (width-2*sideMargin)*math.Min(v/most, 1) }
	for i, m := range marks {
		class := "leader"
		if i == 0 {
			class = "rated"
		}
		c.line(class, x(m.At), 4, x(m.At), bottom+6)
	}
	for i, r := range rows {
		y := float64(i) * rowTall
		c.text("row-words halo", left, sideMargin, y+16, r.Words)
		c.text("row-figures halo", right, width-sideMargin, y+16, r.Figures)
		c.line("track", sideMargin, y+30, width-sideMargin, y+30)
		c.rect("bar", x(r.Low), y+24, math.Max(x(r.High)-x(r.Low), 2), 12, "")
		if r.HasMark {
			c.line("estimate", x(r.Mark), y+20, x(r.Mark), y+40)
		}
	}
	c.scale(x, most, unit, bottom, width)
	c.names(marks, x, bottom+22, width)
	return c.end()
}

// names writes the words of marks below the axis, each in a row of its own: the
// highest load in the uppermost, so that few leaders cross words.
func (c *canvas) names(marks []Mark, x func(float64) float64, y, width float64) {
	order := slices.Clone(marks)
	sort.SliceStable(order, func(i, j int) bool { return order[i].At > order[j].At })
	for i, m := range order { // before all words, whose halo covers them
		c.line("leader", x(m.At), y-20, x(m.At), y+float64(i)*rowHeight+8)
	}
	for i, m := range order {
		row := y + float64(i)*rowHeight
		at := x(m.At)
		switch w := textWidth(m.Words); {
		case at+8+w <= width:
			c.text("mark", left, at+6, row+12, m.Words)
		case at-8-w >= 0:
			c.text("mark", right, at-6, row+12, m.Words)
		default:
			c.text("mark", right, width, row+12, m.Words)
		}
	}
}
