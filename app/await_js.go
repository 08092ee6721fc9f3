//go:build js && wasm

package app

import (
	"fmt"

	"syscall/js"
)

// await waits for a promise. It must not be called while the browser waits for
// the program, that is, only in a goroutine of its own.
func await(promise js.Value) (js.Value, error) {
	type outcome struct {
		value js.Value
		err   error
	}
	settled := make(chan outcome, 1)
	kept := js.FuncOf(func(_ js.Value, args []js.Value) any {
		settled <- outcome{value: args[0]}
		return nil
	})
	defer kept.Release()
	broken := js.FuncOf(func(_ js.Value, args []js.Value) any {
		settled <- outcome{err: fmt.Errorf("%s", args[0].Call("toString").String())}
		return nil
	})
	defer broken.Release()
	promise.Call("then", kept, broken)
	o := <-settled
	return o.value, o.err
}

// bytesOf waits for a promise of an ArrayBuffer and copies it.
func bytesOf(promise js.Value) ([]byte, error) {
	buffer, err := await(promise)
	if err != nil {
		return nil, err
	}
	array := js.Global().Get("Uint8Array").New(buffer)
	data := make([]byte, array.Length())
	js.CopyBytesToGo(data, array)
	return data, nil
}

func bytesToJS(data []byte) js.Value {
	array := js.Global().Get("Uint8Array").New(len(data))
	js.CopyBytesToJS(array, data)
	return array
}

// fetchBytes fetches a file of the app.
func fetchBytes(name string) ([]byte, error) {
	answer, err := await(js.Global().Call("fetch", name))
	if err != nil {
		return nil, fmt.Errorf("%s, a file of the app, could not be fetched: %w", name, err)
	}
	if !answer.Get("ok").Bool() {
		return nil, fmt.Errorf("%s, a file of the app, could not be fetched: answer %d", name, answer.Get("status").Int())
	}
	return bytesOf(answer.Call("arrayBuffer"))
}
