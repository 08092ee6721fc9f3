package app

import (
	"fmt"

	"github.com/vugu/vugu"

	"ratchetmark/app/model"
)

// Recent lists what is kept on the device.
type Recent struct {
	Model *model.Model
}

// manyKept is how many entries are seen at a glance; above that there is a search.
const manyKept = 5

func (c *Recent) many() bool { return len(c.Model.Recent) > manyKept || c.Model.Search != "" }

func (c *Recent) search(event vugu.DOMEvent) { c.Model.Search = event.PropString("target", "value") }

// found says how many entries the search finds.
func (c *Recent) found() string {
	if c.Model.Search == "" {
		return ""
	}
	return fmt.Sprintf("%d of %d found", len(c.Model.Found()), len(c.Model.Recent))
}

func (c *Recent) name(k *model.Kept) string {
	if kind := k.KindWords(); kind != "" {
		return k.Title() + ", " + kind
	}
	return k.Title()
}

func (c *Recent) state(k *model.Kept) string {
	switch {
	case k.Gone():
		return "deleted from this device; it can be had back until you leave the page"
	case k.Key == c.Model.Asking:
		return "delete it from this device?"
	}
	return k.State + ", " + c.Model.When(k)
}

// actions lists what can be done with an entry as it stands.
func (c *Recent) actions(k *model.Kept) []action {
	act := func(id, words string, do func(string)) action {
		return action{id: id + "-" + k.Key, words: words, name: words + ": " + k.Title(), do: func() { do(k.Key) }}
	}
	switch {
	case k.Gone():
		return []action{act("restore", "Undo", c.Model.Restore)}
	case k.Key == c.Model.Asking:
		return []action{act("really", "Delete it", c.Model.Delete), act("keep", "Keep it", c.Model.AskDelete)}
	}
	return []action{act("open", "Open", c.Model.OpenKept), act("save", "Save", c.Model.SaveKept), act("delete", "Delete", c.Model.AskDelete)}
}
