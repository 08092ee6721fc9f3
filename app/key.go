package app

import (
	"github.com/vugu/vugu/js"

	"ratchetmark/app/model"
)

// Key says what the textures of a drawing stand for.
type Key struct {
	Model   *model.Model
	Entries []legendEntry
}

// legendEntry is a texture with its words.
type legendEntry struct{ svg, words string }

func (c *Key) mount(element js.Value, svg string) {
	(&Picture{Model: c.Model}).mount(element, svg)
}
