//go:build js && wasm

package app

import (
	"strings"
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

// AcceptPasted opens what is pasted while nothing is being typed: files, or a
// table copied from a page or a spreadsheet.
func (b *Browser) AcceptPasted(m *model.Model) {
	document().Call("addEventListener", "paste", js.FuncOf(func(_ js.Value, args []js.Value) any {
		if isTyping(document().Get("activeElement")) || !args[0].Get("clipboardData").Truthy() {
			return nil
		}
		files := pastedFiles(args[0].Get("clipboardData"))
		if len(files) > 0 {
			args[0].Call("preventDefault")
			b.beside(func() { b.change(func() { m.Do(func() { m.Open(files) }) }) })
		}
		return nil
	}))
}

// isTyping reports whether an element takes text.
func isTyping(element js.Value) bool {
	return element.Truthy() && element.Call("matches", "input, textarea, select").Bool()
}

// pastedFiles returns the files of a clipboard, or the text in it as one. The
// markup of a table goes before its plain text: it keeps blank cells.
func pastedFiles(clipboard js.Value) []model.File {
	if files := filesOf(clipboard.Get("files")); len(files) > 0 {
		return files
	}
	text := clipboard.Call("getData", "text/html").String()
	if !strings.Contains(text, "<table") {
		text = clipboard.Call("getData", "text/plain").String()
	}
	if strings.TrimSpace(text) == "" {
		return nil
	}
	return []model.File{{Name: "pasted text", Size: int64(len(text)), Data: []byte(text)}}
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
