//go:build js && wasm

package app

import (
	"encoding/json"
	"fmt"
	"syscall/js"
	"time"

	"ratchetmark/app/model"
	"ratchetmark/internal/promise"
)

// store calls a function of store.js.
func store(function string, args ...any) (answer js.Value, err error) {
	defer func() {
		if trouble := recover(); trouble != nil {
			err = fmt.Errorf("%v", trouble)
		}
	}()
	return js.Global().Get("ratchetmarkStore").Call(function, args...), nil
}

// ask calls a function of store.js that promises a text. What it does to the
// store it has done, up to the commit, when ask returns; the answer is waited
// for beside the page.
func (b *Browser) ask(answer func(text string, err error), function string, args ...any) {
	promised, err := store(function, args...)
	b.beside(func() {
		text := ""
		if err == nil {
			var value js.Value
			if value, err = promise.Await(promised); err == nil {
				text = value.String()
			}
		}
		answer(text, storeError(err))
	})
}

// storeError gives a refusal the name that store.js or the browser gave it.
func storeError(err error) error {
	if thrown, ok := err.(js.Error); ok {
		return &model.StoreError{Name: thrown.Get("name").String(), Text: thrown.Get("message").String()}
	}
	return err
}

// only passes on a refusal; the page is not drawn again for what went well.
func (b *Browser) only(failed func(error)) func(string, error) {
	return func(_ string, err error) {
		if err != nil {
			b.change(func() { failed(err) })
		}
	}
}

// Keep keeps an entry in IndexedDB.
func (b *Browser) Keep(shelf, key, head, body string, failed func(error)) {
	b.ask(b.only(failed), "put", shelf, key, head, body)
}

// Forget removes an entry from IndexedDB.
func (b *Browser) Forget(shelf, key string, failed func(error)) {
	b.ask(b.only(failed), "delete", shelf, key)
}

// Kept lists the heads of a shelf.
func (b *Browser) Kept(shelf string, finish func([]model.KeptHead, error)) {
	b.ask(func(text string, err error) {
		var heads []model.KeptHead
		if err == nil {
			err = json.Unmarshal([]byte(text), &heads)
		}
		b.change(func() { finish(heads, err) })
	}, "list", shelf)
}

// Fetch returns the body of an entry.
func (b *Browser) Fetch(shelf, key string, finish func(string, error)) {
	b.ask(func(body string, err error) { b.change(func() { finish(body, err) }) }, "get", shelf, key)
}

// Watch passes on what store.js notices without being asked. Where there is no
// store.js, whoever asks for the list hears of it.
func (b *Browser) Watch(again func(), failed func(error)) {
	_, _ = store("watch", js.FuncOf(func(_ js.Value, args []js.Value) any {
		b.beside(func() {
			b.change(func() {
				if args[0].Truthy() {
					failed(storeError(js.Error{Value: args[0]}))
				} else {
					again()
				}
			})
		})
		return nil
	}))
}

// Left returns a text from the storage that earlier versions used.
func (b *Browser) Left(key string) string {
	text, err := store("left", key)
	if err != nil {
		return ""
	}
	return text.String()
}

// DropLeft removes a text from that storage.
func (b *Browser) DropLeft(key string) { _, _ = store("dropLeft", key) }

// Now returns the time. The zone is the one that the page was loaded in.
func (b *Browser) Now() time.Time { return time.Now() }
