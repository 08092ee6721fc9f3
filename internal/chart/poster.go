package chart

import (
	"math"
	"strings"
)

// Poster is a page of words with a drawing, as a picture that stands by itself:
// black on white, its own type.
type Poster struct {
	Title, Sub string
	Drawing    *Stowed
	Blocks     []PosterBlock
	Foot       []string
}

// PosterBlock is a part of the page.
type PosterBlock struct {
	Heading string
	Lines   []string
	Frame   bool // what must never be done
}

// Sizes of a poster, in px: wide enough for a phone held upright.
const (
	posterWidth  = 720.0
	posterMargin = 28.0
	posterType   = 21.0
	posterLine   = 28.0
)

const posterStyle = `<style>text{font-family:system-ui,"Segoe UI",Roboto,"Noto Sans","DejaVu Sans",sans-serif;fill:#000}` +
	`.p-title{font-size:38px;font-weight:700}.p-sub{font-size:22px}.p-head{font-size:26px;font-weight:700}.p-line{font-size:21px}.p-foot{font-size:16px}` +
	`.deck{fill:#999}.body{fill:#fff;stroke:#000;stroke-width:1.6}.wheel{fill:#444;stroke:#000}.rail,.arm{stroke:#000;stroke-width:1.6}.strap,.force{stroke:#000;stroke-width:4}` +
	`.cell{fill:#fff;stroke:#000;stroke-width:2.5}.tie{fill:#000}.leader{stroke:#444}.mark,.scale,.row-words{font-size:14px}.t-hatch,.t-rules{stroke:#000}.paper{fill:#fff}` +
	`.ink{stroke:#000;fill:none;stroke-width:1.3}.p-frame{fill:none;stroke:#000;stroke-width:4}</style>`

// DrawPoster draws the page, as tall as its words need.
func DrawPoster(id string, p Poster) string {
	body := &canvas{id: id}
	y := posterMargin + 34
	body.text("p-title", left, posterMargin, y, p.Title)
	y += 32
	body.text("p-sub", left, posterMargin, y, p.Sub)
	y += 14
	if p.Drawing != nil {
		inner := strings.Replace(DrawStowed(id+"d", *p.Drawing, posterWidth-2*posterMargin), "<svg ", `<svg x="`+n(posterMargin)+`" y="`+n(y)+`" `, 1)
		body.put("%s", inner)
		y += stowedDeck + stowedWords + 8
	}
	for _, b := range p.Blocks {
		y = body.posterBlock(b, y)
	}
	for _, line := range p.Foot {
		for _, part := range wrapped(line, 16, posterWidth-2*posterMargin) {
			y += 21
			body.text("p-foot", left, posterMargin, y, part)
		}
	}
	height := y + posterMargin
	c := begin(id, posterWidth, height, "poster", p.Title)
	c.put("%s", posterStyle)
	c.put(`<rect width="%s" height="%s" fill="#fff"/>`, n(posterWidth), n(height))
	c.put("%s", body.b.String())
	return c.end()
}

// posterBlock writes a part of the page from y on and returns where it ends.
func (c *canvas) posterBlock(b PosterBlock, y float64) float64 {
	top := y + 4
	y += 38
	c.text("p-head", left, posterMargin+indent(b), y, b.Heading)
	for _, line := range b.Lines {
		for i, part := range wrapped(line, posterType, posterWidth-2*posterMargin-18-2*indent(b)) {
			y += posterLine
			if i == 0 {
				c.text("p-line", left, posterMargin+indent(b), y, "\u2022")
			}
			c.text("p-line", left, posterMargin+18+indent(b), y, part)
		}
	}
	if b.Frame {
		y += 14
		c.rect("p-frame", posterMargin, top, posterWidth-2*posterMargin, y-top, ` rx="8"`)
		y += 4
	}
	return y + 8
}

func indent(b PosterBlock) float64 {
	if b.Frame {
		return 14
	}
	return 0
}

// wrapped breaks words into lines of a width, in a type of a size.
func wrapped(words string, size, width float64) []string {
	most := int(math.Max(width/(size*0.53), 8))
	var out []string
	line := ""
	for _, word := range strings.Fields(words) {
		if line != "" && len([]rune(line))+1+len([]rune(word)) > most {
			out, line = append(out, line), ""
		}
		if line != "" {
			line += " "
		}
		line += word
	}
	return append(out, line)
}
