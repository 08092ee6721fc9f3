// Package chart draws the pictures of the sheet as SVG text: pure ASCII, every
// word escaped, colours left to the style sheet through class names, the same
// bytes for the same data. It knows nothing of what the figures mean.
package chart

import (
	"fmt"
	"strconv"
	"strings"
)

// canvas gathers the elements of one picture.
type canvas struct {
	b  strings.Builder
	id string // prefix of the ids within the picture
}

// begin opens a picture of the given size with a spoken description.
func begin(id string, width, height float64, class, label string) *canvas {
	c := &canvas{id: id}
	spoken := `aria-hidden="true"` // a picture without words is decoration
	if label != "" {
		spoken = `role="img" aria-label="` + escape(label) + `"`
	}
	c.put(`<svg xmlns="http://www.w3.org/2000/svg" class="%s" viewBox="0 0 %s %s" width="%s" height="%s" %s>`,
		class, n(width), n(height), n(width), n(height), spoken)
	return c
}

// end closes the picture and returns it.
func (c *canvas) end() string {
	c.b.WriteString("</svg>")
	return c.b.String()
}

func (c *canvas) put(format string, args ...any) { fmt.Fprintf(&c.b, format, args...) }

func (c *canvas) rect(class string, x, y, w, h float64, extra string) {
	c.put(`<rect class="%s" x="%s" y="%s" width="%s" height="%s"%s/>`, class, n(x), n(y), n(max(w, 0)), n(max(h, 0)), extra)
}

func (c *canvas) line(class string, x1, y1, x2, y2 float64) {
	c.put(`<line class="%s" x1="%s" y1="%s" x2="%s" y2="%s"/>`, class, n(x1), n(y1), n(x2), n(y2))
}

// anchor says which part of a text stands at its x.
type anchor string

const (
	left   anchor = "start"
	centre anchor = "middle"
	right  anchor = "end"
)

func (c *canvas) text(class string, at anchor, x, y float64, words string) {
	c.put(`<text class="%s" text-anchor="%s" x="%s" y="%s">%s</text>`, class, at, n(x), n(y), escape(words))
}

// n writes a coordinate with at most one decimal.
func n(x float64) string {
	s := strconv.FormatFloat(x, 'f', 1, 64)
	s = strings.TrimSuffix(s, ".0")
	if s == "-0" {
		return "0"
	}
	return s
}

// escape makes words fit for markup, in ASCII.
func escape(words string) string {
	var b strings.Builder
	for _, r := range words {
		switch {
		case r == '&':
			b.WriteString("&amp;")
		case r == '<':
			b.WriteString("&lt;")
		case r == '>':
			b.WriteString("&gt;")
		case r == '"':
			b.WriteString("&quot;")
		case r < ' ', r == 0xfffe, r == 0xffff: // not characters of XML
			b.WriteByte(' ')
		case r > '~':
			fmt.Fprintf(&b, "&#%d;", r)
		default:
			b.WriteRune(r)
		}
	}
	return b.String()
}

// textWidth estimates how wide words are in the type of the pictures.
func textWidth(words string) float64 { return 7.2 * float64(len([]rune(words))) }
