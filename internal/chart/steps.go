package chart

import "math"

// stepRow is the height of the scale of steps with its words.
const stepRow = 46.0

// steps draws a second scale below all else: small figures at loads, as how
// many persons a load covers, and what they count. Figures for which there is
// no room are left out; the ticks stay.
func (f *frame) steps(y float64) {
	if len(f.Steps) == 0 {
		return
	}
	f.line("axis", sideMargin, y, f.width-sideMargin, y)
	last := math.Inf(-1) // right end of the last figure
	for _, s := range f.Steps {
		if s.At > f.most {
			break
		}
		x := f.x(s.At)
		f.line("tick", x, y, x, y+5)
		if half := textWidth(s.Words) / 2; x-half > last+4 && x+half < f.width {
			f.text("scale", centre, x, y+19, s.Words)
			last = x + half
		}
	}
	f.text("mark", left, sideMargin, y+37, f.StepWords)
}
