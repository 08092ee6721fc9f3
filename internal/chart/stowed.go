package chart

import "math"

// Stowed is a machine on the deck of a vehicle with what goes over its platform.
type Stowed struct {
	Label    string
	Scissor  bool   // else a boom lift
	Route    string // rails, floor, mount or none
	AngleDeg float64
	Blocked  bool
	Reads    string // what the cell reads, in words
	Side     string // words below the view from the side
	End      string // and below that from the end
	Cell     string // name of the load cell
}

// Sizes of the drawing, in px at full width.
const (
	stowedDeck  = 168.0 // height of the view, down to the deck
	sideWidth   = 400.0
	endWidth    = 220.0
	stowedWords = 34.0 // below the deck
)

// DrawStowed draws the machine from the side and its platform from the end, one
// beside the other, or one above the other where there is little width.
func DrawStowed(id string, s Stowed, width float64) string {
	const tall = stowedDeck + stowedWords
	stacked := width < 500
	height, scale := tall, width/(sideWidth+endWidth)
	if stacked {
		height, scale = 2*tall, math.Min(width/sideWidth, 1)
	}
	c := begin(id, width, height, "stowed", s.Label)
	c.textures()
	c.heads()
	v := &view{canvas: c, scale: scale}
	v.side(s)
	c.text("scale", left, 4, stowedDeck+26, s.Side)
	if stacked {
		v.x, v.y = (width-endWidth*scale)/2, tall
	} else {
		v.x = sideWidth * scale
	}
	v.end(s)
	c.text("scale", left, v.x+4, v.y+stowedDeck+26, s.End)
	return c.end()
}

// heads defines the head of an arrow.
func (c *canvas) heads() {
	c.put(`<defs><marker id="%s-head" viewBox="0 0 8 8" refX="7" refY="4" markerWidth="7" markerHeight="7" orient="auto"><path class="head" d="M0,0 L8,4 L0,8 z"/></marker></defs>`, c.id)
}

// view places a drawing on the canvas: x grows from its left end, up from the deck.
type view struct {
	*canvas
	x, y, scale float64
}

func (v *view) at(x, up float64) (float64, float64) {
	return v.x + x*v.scale, v.y + stowedDeck - up*v.scale
}

func (v *view) box(class string, x, up, w, h float64, extra string) {
	px, py := v.at(x, up+h)
	v.rect(class, px, py, w*v.scale, h*v.scale, extra)
}

func (v *view) stroke(class string, x1, up1, x2, up2 float64) {
	ax, ay := v.at(x1, up1)
	bx, by := v.at(x2, up2)
	v.line(class, ax, ay, bx, by)
}

func (v *view) wheel(x, r float64) {
	px, py := v.at(x, r)
	v.put(`<circle class="wheel" cx="%s" cy="%s" r="%s"/>`, n(px), n(py), n(r*v.scale))
}

// arrow draws a force downwards, its point at a height.
func (v *view) arrow(x, from, to float64) {
	ax, ay := v.at(x, from)
	_, by := v.at(x, to)
	v.put(`<line class="force" x1="%s" y1="%s" x2="%s" y2="%s" marker-end="url(#%s-head)"/>`, n(ax), n(ay), n(ax), n(by), v.id)
}

// strap draws a lashing that is seen edge-on, from a height down to the deck.
func (v *view) strapDown(x, up float64) { v.box("t-hatch", x-5, 0, 10, up, v.fill(Hatch)) }

// deck draws the deck of the vehicle.
func (v *view) deck(width float64) { v.box("deck", 0, -7, width, 7, "") }

// cage draws a platform: its floor, posts and rails.
func (v *view) cage(x, floor, w, h float64) {
	v.box("body", x, floor, w, 5, "")
	for _, up := range []float64{floor + h, floor + h*0.55} {
		v.stroke("rail", x, up, x+w, up)
	}
	posts := math.Max(math.Round(w/45), 1)
	for i := 0.0; i <= posts; i++ {
		v.stroke("rail", x+w*i/posts, floor, x+w*i/posts, floor+h)
	}
}

// side draws the machine from the side, its front to the left.
func (v *view) side(s Stowed) {
	v.deck(sideWidth - 14)
	top, x, floor, mount, mountUp := 0.0, 0.0, 0.0, 0.0, 0.0
	if s.Scissor {
		x, floor, top, mount, mountUp = 195, 78, 128, 195, 62
		v.scissor()
	} else {
		x, floor, top, mount, mountUp = 48, 20, 68, 96, 46
		v.boom()
	}
	if s.Blocked {
		w, h := 40.0, floor
		if s.Scissor {
			w, h = 30, 26
			v.box("t-rules", 110, 52, w, h, v.fill(Rules))
			v.box("t-rules", 250, 52, w, h, v.fill(Rules))
		} else {
			v.box("t-rules", x-w/2, 0, w, h, v.fill(Rules))
		}
	}
	switch s.Route {
	case "rails":
		v.strapDown(x, top)
		v.arrow(x, top+28, top+2)
	case "floor":
		v.strapDown(x, floor+5)
		v.arrow(x, top+20, floor+8)
	case "mount":
		v.strapDown(mount, mountUp)
		v.arrow(mount, mountUp+30, mountUp+2)
	}
	v.cell(s)
}

// cell marks the load cell and names it; nothing where it has no name.
func (v *view) cell(s Stowed) {
	if s.Cell == "" {
		return
	}
	x, up := 88.0, 34.0
	if s.Scissor {
		x, up = 120, 70
	}
	px, py := v.at(x, up)
	v.put(`<circle class="cell" cx="%s" cy="%s" r="5"/>`, n(px), n(py))
	wx, wy := v.at(112, 14)
	if s.Scissor {
		wx, wy = v.at(4, 100)
		v.line("leader", px, py, wx+30, wy+12)
	} else {
		v.line("leader", px, py, wx+6, wy-4)
	}
	v.text("mark", left, wx, wy+8, s.Cell)
}

func (v *view) boom() {
	v.cage(14, 20, 68, 48)
	v.box("body", 82, 26, 20, 16, "")                                                        // what carries the platform
	v.put(`<path class="body" d="%s"/>`, v.path(98, 30, 118, 30, 132, 96, 122, 104, 98, 48)) // jib
	v.put(`<path class="body" d="%s"/>`, v.path(122, 92, 330, 104, 332, 120, 122, 108))      // boom
	v.box("body", 240, 58, 110, 44, ` rx="4"`)                                               // turret
	v.box("body", 322, 60, 42, 52, ` rx="4"`)                                                // counterweight
	v.box("body", 176, 30, 170, 26, ` rx="4"`)                                               // chassis
	v.wheel(200, 26)
	v.wheel(322, 26)
	v.box("tie", 168, 34, 8, 8, "")
	v.box("tie", 346, 34, 8, 8, "")
}

func (v *view) scissor() {
	v.cage(95, 78, 200, 50)
	for i := range 3 { // the folded arms
		up := 54 + float64(i)*7
		v.stroke("arm", 108, up, 282, up+7)
		v.stroke("arm", 282, up, 108, up+7)
	}
	v.box("body", 95, 24, 200, 28, ` rx="4"`)
	v.wheel(128, 20)
	v.wheel(262, 20)
	v.box("tie", 87, 28, 8, 8, "")
	v.box("tie", 295, 28, 8, 8, "")
}

// path writes a closed path through points given as x and height.
func (v *view) path(points ...float64) string {
	d := ""
	for i := 0; i+1 < len(points); i += 2 {
		x, y := v.at(points[i], points[i+1])
		step := "L"
		if i == 0 {
			step = "M"
		}
		d += step + n(x) + "," + n(y) + " "
	}
	return d + "z"
}

// end draws the platform from its end, with the legs of the strap at their angle.
func (v *view) end(s Stowed) {
	const middle = endWidth / 2
	v.deck(endWidth - 6)
	floor, h, half := 20.0, 48.0, 38.0
	if s.Scissor {
		floor, h = 70, 50
		v.box("body", middle-30, 24, 60, 44, "")
		v.wheel(middle-30, 18)
		v.wheel(middle+30, 18)
	}
	v.cage(middle-half, floor, 2*half, h)
	if s.Blocked && !s.Scissor {
		v.box("t-rules", middle-20, 0, 40, floor, v.fill(Rules))
	}
	up := floor + h
	switch s.Route {
	case "floor":
		up = floor + 5
	case "mount":
		up, half = floor+24, 12
		if s.Scissor {
			up, half = 62, 30
		}
	case "rails":
	default:
		return
	}
	v.legs(middle, half, up, s.AngleDeg)
	v.arrow(middle, floor+h+24, up+3)
	x, y := v.at(middle, floor+h+27)
	v.text("row-words", centre, math.Min(math.Max(x, textWidth(s.Reads)*0.55), v.x+endWidth*v.scale-textWidth(s.Reads)*0.5), y-2, s.Reads)
}

// legs draws both legs of a strap from the edges of what it goes over down to
// the deck; a flat one is cut off at the end of the drawing.
func (v *view) legs(middle, half, up, angleDeg float64) {
	rise := math.Tan(math.Min(math.Max(drawable(angleDeg), 1), 90) * math.Pi / 180)
	reach := math.Min(up/rise, endWidth/2-half-8)
	down := up - reach*rise
	v.stroke("strap", middle-half, up, middle+half, up)
	v.stroke("strap", middle-half, up, middle-half-reach, down)
	v.stroke("strap", middle+half, up, middle+half+reach, down)
}
