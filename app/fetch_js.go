//go:build js && wasm

package app

import (
	"fmt"
	"syscall/js"

	"ratchetmark/internal/promise"
)

func bytesToJS(data []byte) js.Value {
	array := js.Global().Get("Uint8Array").New(len(data))
	js.CopyBytesToJS(array, data)
	return array
}

// fetchBytes fetches a file of the app.
func fetchBytes(name string) ([]byte, error) {
	answer, err := promise.Await(js.Global().Call("fetch", name))
	if err != nil {
		return nil, fmt.Errorf("%s, a file of the app, could not be fetched: %w", name, err)
	}
	if !answer.Get("ok").Bool() {
		return nil, fmt.Errorf("%s, a file of the app, could not be fetched: answer %d", name, answer.Get("status").Int())
	}
	return promise.Bytes(answer.Call("arrayBuffer"))
}
