package app

import (
	"hash/fnv"

	"github.com/vugu/vugu/js"
)

// Picture shows a drawing in two widths, of which the style sheet shows the one
// that fits. The drawings are ASCII markup made by package chart, which escapes
// every word in them.
type Picture struct {
	Wide, Narrow string
}

// drawn is the property in which an element keeps what was last drawn into it.
const drawn = "ratchetmarkDrawn"

// mount puts a drawing into an element, unless it is there already.
func (c *Picture) mount(element js.Value, svg string) {
	sum := fnv.New32a()
	sum.Write([]byte(svg))
	key := float64(sum.Sum32())
	if was := element.Get(drawn); was.Type() == js.TypeNumber && was.Float() == key {
		return
	}
	element.Set("innerHTML", svg)
	element.Set(drawn, key)
}
