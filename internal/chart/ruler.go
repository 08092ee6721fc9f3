package chart

import (
	"fmt"
	"math"
	"sort"
)

// Ruler is the data of the load ruler: a horizontal axis of loads, a line at
// the rated load, a block for each band whose area is its hours, marks, and
// the peak as a flag.
type Ruler struct {
	Label  string // spoken description
	Unit   string
	Rated  float64
	Peak   float64 // 0: none
	Blocks []Block
	Marks  []Mark
	Window [2]float64 // load-sensing window; equal ends are one mark
	Sense  string     // words of the window
	Within string     // words for the side below the rated load
	Over   string     // and above it

	Steps     []Mark // figures of a second scale, in order of load; may be empty
	StepWords string // what they count
}

// Block is a band: as wide as its loads, as tall as its hours per unit of load.
// Where it straddles the rated load, Hours lie below and Parts above it.
type Block struct {
	From, To  float64
	Open      bool    // fades out towards To
	Hours     float64 // not over the rated load
	Parts     []Piece // over the rated load
	Words     string  // written at the hours that are not over
	OverWords string  // written at those that are
}

// Piece is hours over the rated load with a texture of their own.
type Piece struct {
	Hours   float64
	Texture Texture
}

// Mark is a load with words.
type Mark struct {
	At    float64
	Words string
}

// Sizes of the ruler, in px.
const (
	rulerTop    = 58.0 // flag and words above the blocks
	blockHeight = 170.0
	rowHeight   = 19.0 // of the words below the axis
	sideMargin  = 14.0
	leastTall   = 3.0 // so that a few hours can be seen at all
)

// frame places loads and hours on the canvas.
type frame struct {
	Ruler
	*canvas
	width     float64
	most      float64 // load at the right end
	perDense  float64 // px per hour-per-kg below the rated load
	magnified float64 // how many times taller blocks over the rated load are drawn
}

// DrawRuler draws the load ruler in a width in px. Where the hours over the
// rated load are too few to be seen beside the rest, their heights are
// magnified by a power of ten, and the picture says so.
func DrawRuler(id string, r Ruler, width float64) string {
	rows := len(r.Marks) + 1
	height := rulerTop + blockHeight + 30 + float64(rows)*rowHeight + 8
	steps := height
	if len(r.Steps) > 0 {
		height += stepRow
	}
	f := frame{Ruler: r.drawable(), canvas: begin(id, width, height, "ruler", r.Label), width: width}
	f.scale()
	f.textures()
	f.fade()
	for _, b := range f.Blocks {
		f.block(b)
	}
	f.marks()
	f.axis()
	f.steps(steps)
	f.rated()
	f.flag()
	return f.end()
}

func (f *frame) x(load float64) float64 {
	return sideMargin + (f.width-2*sideMargin)*math.Min(load/f.most, 1)
}

func (f *frame) base() float64 { return rulerTop + blockHeight }

// scale chooses the right end of the axis and the heights.
func (f *frame) scale() {
	f.most = f.rightEnd()
	var within, over float64
	for i := range f.Blocks {
		b := &f.Blocks[i]
		if b.Open {
			b.To = f.most
			if f.Peak > b.From {
				b.To = f.Peak
			}
		}
		within = math.Max(within, density(b.Hours, b.From, f.split(*b)))
		over = math.Max(over, density(b.over(), f.split(*b), b.To))
	}
	most := math.Max(within, over)
	if most == 0 {
		most = 1
	}
	f.perDense, f.magnified = blockHeight/most, 1
	if over > 0 {
		for over*f.perDense*f.magnified*10 <= blockHeight*0.75 && f.magnified < 1e4 {
			f.magnified *= 10
		}
	}
}

// rightEnd returns the load at the right end of the axis: all that has hours, a
// mark or the peak is on it.
func (f *frame) rightEnd() float64 {
	most := math.Max(f.Rated*1.6, f.Peak*1.06)
	for _, m := range f.Marks {
		most = math.Max(most, m.At*1.04)
	}
	for _, b := range f.Blocks {
		switch {
		case b.Hours <= 0 && b.over() <= 0:
		case b.Open:
			most = math.Max(most, b.From*1.2)
		default:
			most = math.Max(most, b.To*1.02)
		}
	}
	return scalable(most)
}

// split returns the load at which a block's hours divide.
func (f *frame) split(b Block) float64 {
	if b.over() <= 0 {
		return b.To
	}
	return math.Max(b.From, math.Min(b.To, f.Rated))
}

// over returns the hours over the rated load.
func (b Block) over() float64 {
	var sum float64
	for _, p := range b.Parts {
		sum += p.Hours
	}
	return sum
}

// density returns hours per unit of load; 0 where there is no width.
func density(hours, from, to float64) float64 {
	if to <= from {
		return 0
	}
	return math.Min(hours/(to-from), mostDrawn)
}

// fade defines the mask with which an open band fades out.
func (f *frame) fade() {
	f.put(`<defs><linearGradient id="%s-fade"><stop offset="0.3" stop-color="#fff"/><stop offset="1" stop-color="#fff" stop-opacity="0.15"/></linearGradient>`+
		`<mask id="%s-mask" maskContentUnits="objectBoundingBox"><rect width="1" height="1" fill="url(#%s-fade)"/></mask></defs>`, f.id, f.id, f.id)
}

// block draws one band, split by the rated load where it straddles it.
func (f *frame) block(b Block) {
	split := f.split(b)
	if b.Hours > 0 {
		h := math.Max(density(b.Hours, b.From, split)*f.perDense, leastTall)
		f.surface(Plain, f.x(b.From), f.base()-h, f.x(split)-f.x(b.From), h)
		room := f.x(split) - f.x(b.From) + 8
		if b.From == 0 { // the margin is free
			room += sideMargin
		}
		if w := textWidth(b.Words); w <= room { // else the table has it
			x := math.Min(f.fit(b.From, split, b.Words), f.x(f.Rated)-w/2-4) // clear of the rated load's line
			f.text("hours", centre, math.Max(x, w/2+2), f.base()-h-7, b.Words)
		}
	}
	if b.over() > 0 {
		f.overPart(b, split)
	}
}

// overPart draws what lies over the rated load, its pieces one above the other.
func (f *frame) overPart(b Block, from float64) {
	x, w := f.x(from), math.Max(f.x(b.To)-f.x(from), 6)
	total := math.Max(density(b.over(), from, b.To)*f.perDense*f.magnified, leastTall)
	if b.Open {
		f.put(`<g mask="url(#%s-mask)">`, f.id)
	}
	y := f.base()
	for _, p := range b.Parts {
		h := total * p.Hours / b.over()
		y -= h
		f.surface(p.Texture, x, y, w, h)
	}
	if b.Open {
		f.put("</g>")
	}
	half := textWidth(b.OverWords)/2 + 6 // clear of the rated load's line
	at := math.Max(f.fit(from, b.To, b.OverWords), math.Min(f.x(f.Rated)+half, f.width-half))
	f.text("hours over", centre, at, f.base()-total-7, b.OverWords)
}

// fit returns where words stand that belong to the loads between from and to.
func (f *frame) fit(from, to float64, words string) float64 {
	half := textWidth(words) / 2
	return math.Max(half+2, math.Min((f.x(from)+f.x(to))/2, f.width-half-2))
}

// axis draws the axis with round numbers.
func (f *frame) axis() {
	y := f.base()
	f.line("axis", sideMargin, y, f.width-sideMargin, y)
	step := niceStep(f.most, f.width/70)
	for i := 0; float64(i)*step <= f.most; i++ {
		v := float64(i) * step
		f.line("tick", f.x(v), y, f.x(v), y+5)
		if words := fmt.Sprintf("%.6g", v); v+step > f.most {
			f.text("scale", right, math.Min(f.x(v)+textWidth(words)/2+textWidth(" "+f.Unit), f.width), y+20, words+" "+f.Unit)
		} else {
			f.text("scale", centre, f.x(v), y+20, words)
		}
	}
}

// niceStep returns a step of 1, 2 or 5 times a power of ten that divides most
// into at most parts parts.
func niceStep(most, parts float64) float64 {
	raw := most / math.Max(parts, 1)
	power := math.Pow(10, math.Floor(math.Log10(raw)))
	for _, k := range []float64{1, 2, 5} {
		if k*power >= raw {
			return k * power
		}
	}
	return 10 * power
}

// rated draws the rated load as a line of full height, with what lies on its sides.
func (f *frame) rated() {
	x := f.x(f.Rated)
	f.line("rated", x, 22, x, f.base()+8)
	words := fmt.Sprintf("rated load %g %s", round(f.Rated), f.Unit)
	f.text("rated-words", f.sideOf(x, words), math.Max(x, 2), 14, words)
	if f.Over != "" {
		over := f.Over
		if f.magnified > 1 {
			over = fmt.Sprintf("%s: heights x %g", f.Over, f.magnified)
		}
		f.text("side", left, x+6, 36, over+" \u2192")
	}
	if f.Within != "" && x > textWidth(f.Within)+30 {
		f.text("side", right, x-6, 36, "\u2190 "+f.Within)
	}
}

// sideOf puts words right of an x where there is room, else left of it.
func (f *frame) sideOf(x float64, words string) anchor {
	if x+textWidth(words) > f.width {
		return right
	}
	if x-textWidth(words)/2 > 0 && x+textWidth(words)/2 < f.width {
		return centre
	}
	return left
}

// note is a mark with its place on the axis.
type note struct {
	x     float64
	words string
}

// marks draws the load-sensing window and the marks, each with a row of its
// own: the highest load in the uppermost, so that no leader crosses words to the
// right of a mark. Words to its left lie over the leaders.
func (f *frame) marks() {
	var notes []note
	if f.Sense != "" {
		from, to := f.x(f.Window[0]), f.x(f.Window[1])
		f.rect("window", from, f.base()+1, math.Max(to-from, 2), 7, "")
		notes = append(notes, note{to, f.Sense})
	}
	for _, m := range f.Marks {
		notes = append(notes, note{f.x(m.At), m.Words})
	}
	sort.SliceStable(notes, func(i, j int) bool { return notes[i].x > notes[j].x })
	row := func(i int) float64 { return f.base() + 30 + float64(i)*rowHeight }
	for i, m := range notes {
		f.line("leader", m.x, f.base()-4, m.x, row(i)+8)
	}
	for i, m := range notes {
		y := row(i)
		switch w := textWidth(m.words); {
		case m.x+8+w <= f.width:
			f.text("mark", left, m.x+6, y+12, m.words)
		case m.x-8-w >= 0:
			f.text("mark", right, m.x-6, y+12, m.words)
		default:
			f.text("mark", right, f.width, y+12, m.words)
		}
	}
}

// flag draws the peak.
func (f *frame) flag() {
	if f.Peak <= 0 {
		return
	}
	x, words := f.x(f.Peak), fmt.Sprintf("peak %g %s", round(f.Peak), f.Unit)
	f.line("peak", x, 44, x, f.base())
	w := 1.15*textWidth(words) + 12 // the words are bold
	left := x
	if x+w > f.width {
		left = x - w
	}
	f.rect("flag", left, 42, w, 20, "")
	f.text("flag-words", centre, left+w/2, 56, words)
}

// round cuts a load to a whole number, as it is written.
func round(x float64) float64 { return math.Round(x) }
