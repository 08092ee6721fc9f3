package app

import (
	"github.com/vugu/vugu"
	"github.com/vugu/vugu/js"

	"ratchetmark/app/model"
)

// Begin is the start page: three equal ways in.
type Begin struct {
	Model *model.Model
}

// picked opens the files chosen in the file picker.
func (c *Begin) picked(event vugu.DOMEvent) {
	c.Model.Do(func() { c.Model.Open(pickedFiles(event)) })
}

func (c *Begin) pasting(event vugu.DOMEvent) { c.Model.Pasting = event.PropString("target", "value") }

// refill puts back what was in the paste box when the page was last left. The
// renderer cannot set a value as long as a pasted record may be.
func (c *Begin) refill(box js.Value) {
	defer c.Model.Catch()
	if box.Get(drawn).Truthy() {
		return
	}
	box.Set("value", c.Model.Pasting)
	box.Set(drawn, true)
}

func (c *Begin) readPaste() { c.Model.Do(c.Model.Paste) }

// unfold opens or closes the paste box.
func (c *Begin) unfold(event vugu.DOMEvent) {
	event.PreventDefault()
	c.Model.Do(func() { c.Model.Unfold("paste") })
}

func (c *Begin) hasDraft() bool {
	_, ok := c.Model.Draft()
	return ok
}

func (c *Begin) typeWords() string {
	if name, ok := c.Model.Draft(); ok {
		if name != "" {
			return "Go on typing " + name
		}
		return "Go on typing"
	}
	return "Type them in"
}
