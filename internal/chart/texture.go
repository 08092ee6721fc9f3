package chart

// Texture is how a surface is filled, so that it is told from others without
// colour: in print, in sunlight, by eyes that see colours otherwise.
type Texture string

// The textures.
const (
	Plain  Texture = "plain"  // a pale surface: nothing to explain
	Solid  Texture = "solid"  // filled
	Hatch  Texture = "hatch"  // diagonal lines
	Dots   Texture = "dots"   // dots
	Hollow Texture = "hollow" // outline only
	Rules  Texture = "rules"  // horizontal lines
)

// textures defines the patterns of a picture once.
func (c *canvas) textures() {
	pattern := func(t Texture, w, h int, body string) {
		c.put(`<pattern id="%s-%s" width="%d" height="%d" patternUnits="userSpaceOnUse"><rect class="paper" width="%d" height="%d"/>%s</pattern>`, c.id, t, w, h, w, h, body)
	}
	c.put("<defs>")
	pattern(Hatch, 7, 7, `<path class="ink" d="M-2,2 l4,-4 M0,7 l7,-7 M5,9 l4,-4"/>`)
	pattern(Dots, 7, 7, `<circle class="dot" cx="2" cy="2" r="1.4"/><circle class="dot" cx="5.5" cy="5.5" r="1.4"/>`)
	pattern(Rules, 6, 5, `<path class="ink" d="M0,2.5 h6"/>`)
	c.put("</defs>")
}

// fill returns the attribute that fills a surface with a texture.
func (c *canvas) fill(t Texture) string {
	switch t {
	case Hatch, Dots, Rules:
		return ` fill="url(#` + c.id + "-" + string(t) + `)"`
	}
	return ""
}

// surface draws a filled rectangle.
func (c *canvas) surface(t Texture, x, y, w, h float64) {
	c.rect("t-"+string(t), x, y, w, h, c.fill(t))
}

// Swatch draws one texture as a small square, for a legend.
func Swatch(id string, t Texture) string {
	c := begin(id, 28, 18, "swatch", "")
	c.textures()
	c.surface(t, 1, 1, 26, 16)
	return c.end()
}
