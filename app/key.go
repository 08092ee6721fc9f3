package app

import "github.com/vugu/vugu/js"

// Key says what the textures of a drawing stand for.
type Key struct {
	Pounds  bool
	Causes  []legendEntry
	picture Picture
}

// legendEntry is a texture with its words.
type legendEntry struct{ svg, words string }

func (c *Key) mount(element js.Value, svg string) { c.picture.mount(element, svg) }
