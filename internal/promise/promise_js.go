//go:build js && wasm

package promise

import "syscall/js"

// Await waits for a promise. It must not be called while the browser waits for
// the program: only in a goroutine that no callback waits for.
func Await(promise js.Value) (js.Value, error) {
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
		settled <- outcome{err: js.Error{Value: args[0]}}
		return nil
	})
	defer broken.Release()
	promise.Call("then", kept, broken)
	o := <-settled
	return o.value, o.err
}

// Bytes waits for a promise of an ArrayBuffer and copies it.
func Bytes(promise js.Value) ([]byte, error) {
	buffer, err := Await(promise)
	if err != nil {
		return nil, err
	}
	array := js.Global().Get("Uint8Array").New(buffer)
	data := make([]byte, array.Length())
	js.CopyBytesToGo(data, array)
	return data, nil
}
