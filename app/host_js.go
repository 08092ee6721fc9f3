//go:build js && wasm

package app

import (
	"encoding/json"
	"errors"
	"fmt"
	"syscall/js"

	"github.com/vugu/vugu"

	"ratchetmark/app/model"
	"ratchetmark/internal/batch"
)

// Browser is the host of the model in a browser.
type Browser struct {
	Fault  func(trouble any) // told of a fault in what runs beside the page
	events vugu.EventEnv
	reader *backgroundReader
}

// NewBrowser returns a host that redraws the page through events.
func NewBrowser(events vugu.EventEnv) *Browser {
	return &Browser{events: events, reader: newBackgroundReader(), Fault: func(trouble any) { panic(trouble) }}
}

// change runs a function that changes the model and redraws the page.
func (b *Browser) change(f func()) {
	b.events.Lock()
	defer b.events.UnlockRender()
	f()
}

// beside runs work that waits for the browser beside the page. A fault in it is
// shown on the page and ends the work, not the program.
func (b *Browser) beside(work func()) {
	go func() {
		defer func() {
			if trouble := recover(); trouble != nil {
				b.change(func() { b.Fault(trouble) })
			}
		}()
		work()
	}()
}

// Read reads the files one after the other.
func (b *Browser) Read(files []model.File, guides []batch.Guide, progress func(model.Progress), finish func(model.Outcome)) (cancel func()) {
	cancelled := make(chan struct{})
	b.beside(func() {
		var out model.Outcome
		for _, f := range files {
			got, err := b.readOne(f, guides, progress, cancelled)
			if errors.Is(err, batch.ErrCancelled) {
				return
			}
			out.Add(f, got, err)
		}
		b.change(func() { finish(out) })
	})
	return func() { close(cancelled) }
}

func (b *Browser) readOne(f model.File, guides []batch.Guide, progress func(model.Progress), cancelled <-chan struct{}) (batch.Batch, error) {
	handle, ok := f.Handle.(js.Value)
	if !ok {
		handle = js.Global().Get("Blob").New([]any{bytesToJS(f.Data)})
	}
	return b.reader.read(f.Name, handle, guides, func(done int64) {
		b.change(func() { progress(model.Progress{Name: f.Name, Done: done, Total: f.Size}) })
	}, cancelled)
}

// Example fetches the files of the worked example.
func (b *Browser) Example(finish func(model.Outcome)) {
	b.beside(func() {
		out, err := b.fetchExample()
		if err != nil {
			out.Errors = append(out.Errors, err)
		}
		b.change(func() { finish(out) })
	})
}

func (b *Browser) fetchExample() (out model.Outcome, err error) {
	listing, err := fetchBytes("example/index.json")
	if err != nil {
		return out, err
	}
	var index struct{ Files []struct{ Name string } }
	if err := json.Unmarshal(listing, &index); err != nil {
		return out, fmt.Errorf("the list of the worked example: %w", err)
	}
	for _, f := range index.Files {
		data, err := fetchBytes("example/" + f.Name)
		if err != nil {
			return out, err
		}
		got, err := b.readOne(model.File{Name: f.Name, Size: int64(len(data)), Data: data}, nil, func(model.Progress) {}, nil)
		if err != nil {
			return out, err
		}
		out.Batches = append(out.Batches, got)
	}
	return out, nil
}

// Template fetches the form for delimited text.
func (b *Browser) Template(finish func([]byte, error)) {
	b.beside(func() {
		data, err := fetchBytes("template.csv")
		b.change(func() { finish(data, err) })
	})
}

// Save offers data as a file.
func (b *Browser) Save(name, mediaType string, data []byte) {
	url := js.Global().Get("URL")
	blob := js.Global().Get("Blob").New([]any{bytesToJS(data)}, map[string]any{"type": mediaType})
	link := document().Call("createElement", "a")
	address := url.Call("createObjectURL", blob)
	link.Set("href", address)
	link.Set("download", name)
	link.Call("click")
	url.Call("revokeObjectURL", address)
}

// Print prints the page once what is being handled is done.
func (b *Browser) Print() {
	js.Global().Call("setTimeout", js.Global().Get("print"), 0)
}

// Redraw draws the page once the one being drawn is done.
func (b *Browser) Redraw() { go b.change(func() {}) }

// Show brings an element into view once the page is drawn.
func (b *Browser) Show(id string) {
	js.Global().Call("ratchetmarkShow", id)
}

func document() js.Value { return js.Global().Get("document") }
