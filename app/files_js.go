//go:build js && wasm

package app

import (
	"github.com/vugu/vugu"
	"syscall/js"

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

// droppedFiles returns what was dropped on the page.
func droppedFiles(event vugu.DOMEvent) []model.File {
	transfer := js.Value(event.JSEvent()).Get("dataTransfer")
	if !transfer.Truthy() {
		return nil
	}
	return filesOf(transfer.Get("files"))
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
