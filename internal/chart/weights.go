package chart

import "math"

// Weight is a row of a weights chart: a share between 0 and 1.
type Weight struct {
	Texture Texture
	Words   string
	Figure  string
	Share   float64
}

// Weights draws shares of one as bars below each other, on one axis.
func Weights(id, label string, rows []Weight, width float64) string {
	const rowTall, barTall, words, figures = 27.0, 16.0, 82.0, 80.0
	c := begin(id, width, float64(len(rows))*rowTall+2, "weights", label)
	c.textures()
	span := width - words - figures
	for i, r := range rows {
		y := float64(i)*rowTall + 4
		share := math.Min(drawable(r.Share), 1)
		c.text("cell-words", left, 0, y+13, r.Words)
		c.line("track", words, y+barTall, width-figures, y+barTall)
		c.surface(r.Texture, words, y, math.Max(span*share, 1.5), barTall)
		c.text("row-figures", right, width, y+13, r.Figure)
	}
	return c.end()
}
