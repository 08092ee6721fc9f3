//go:build js && wasm

package app

import (
	"syscall/js"

	"github.com/vugu/vugu"

	"ratchetmark/app/model"
)

// pickedFiles returns what was chosen in a file input, and empties the input so
// that the same file can be chosen again.
func pickedFiles(event vugu.DOMEvent) []model.File {
	input := js.Value(event.JSEventTarget())
	files := filesOf(input.Get("files"))
	input.Set("value", "")
	return files
}

// Accept opens files that are dropped anywhere on the page. The listeners are
// not the renderer's: it copies all the text of the element at every event.
func (b *Browser) Accept(m *model.Model) {
	document().Call("addEventListener", "dragover", js.FuncOf(func(_ js.Value, args []js.Value) any {
		args[0].Call("preventDefault")
		return nil
	}))
	document().Call("addEventListener", "drop", js.FuncOf(func(_ js.Value, args []js.Value) any {
		args[0].Call("preventDefault")
		transfer := args[0].Get("dataTransfer")
		if !transfer.Truthy() {
			return nil
		}
		files := filesOf(transfer.Get("files"))
		b.beside(func() { b.change(func() { m.Do(func() { m.Open(files) }) }) })
		return nil
	}))
}

func filesOf(list js.Value) []model.File {
	if !list.Truthy() {
		return nil
	}
	var out []model.File
	for i := range list.Length() {
		f := list.Index(i)
		out = append(out, model.File{Name: f.Get("name").String(), Size: int64(f.Get("size").Float()), Handle: f})
	}
	return out
}
