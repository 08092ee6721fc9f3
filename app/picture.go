package app

import (
	"hash/fnv"

	"github.com/vugu/vugu/js"

	"ratchetmark/app/model"
)

// Picture shows a drawing in two widths, of which the style sheet shows the one
// that fits. The drawings are ASCII markup made by package chart, which escapes
// every word in them. The one that is not shown is left with its element, and
// page.js draws it when the window changes or the page is printed.
type Picture struct {
	Model        *model.Model
	Wide, Narrow string
}

// drawn is the property in which an element keeps the key of what was last
// drawn into it.
const drawn = "ratchetmarkDrawn"

// mount puts a drawing into an element, unless it is there already.
func (c *Picture) mount(element js.Value, svg string) {
	defer c.Model.Catch()
	sum := fnv.New32a()
	sum.Write([]byte(svg))
	key := float64(sum.Sum32())
	if was := element.Get(drawn); was.Type() == js.TypeNumber && was.Float() == key {
		return
	}
	js.Global().Call("ratchetmarkDraw", element, svg)
	element.Set(drawn, key)
}
