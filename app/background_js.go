//go:build js && wasm

package app

import (
	"encoding/json"
	"errors"
	"syscall/js"

	"ratchetmark/internal/batch"
)

// backgroundReader has files read by the background worker: the code that
// takes records apart is in that program alone, so that the app starts sooner.
// It reads one file at a time.
type backgroundReader struct {
	worker   js.Value
	ready    chan struct{} // closed once the worker listens
	messages chan js.Value
	failures chan error
	turn     chan struct{} // held by the reading under way
	next     int           // id of the next file
}

func newBackgroundReader() *backgroundReader {
	r := &backgroundReader{turn: make(chan struct{}, 1)}
	return r
}

// warm starts the worker unless it runs already.
func (r *backgroundReader) warm() {
	if r.worker.Truthy() {
		return
	}
	address := document().Get("documentElement").Get("dataset").Get("worker")
	r.worker = js.Global().Get("Worker").New(address)
	ready, messages, failures := make(chan struct{}), make(chan js.Value, 64), make(chan error, 1)
	r.ready, r.messages, r.failures = ready, messages, failures
	r.worker.Set("onmessage", js.FuncOf(func(_ js.Value, args []js.Value) any {
		if data := args[0].Get("data"); data.Get("kind").String() == "ready" {
			close(ready)
		} else {
			messages <- data
		}
		return nil
	}))
	r.worker.Set("onerror", js.FuncOf(func(_ js.Value, args []js.Value) any {
		select {
		case failures <- errors.New("the background reader failed: " + args[0].Get("message").String()):
		default:
		}
		return nil
	}))
}

// end ends the worker; the next reading starts another one.
func (r *backgroundReader) end() {
	if r.worker.Truthy() {
		r.worker.Call("terminate")
	}
	r.worker = js.Undefined()
}

// read has one file read. Giving up ends the worker at once, whatever it does.
func (r *backgroundReader) read(name string, file js.Value, guides []batch.Guide, progress func(done int64), cancelled <-chan struct{}) (got batch.Batch, err error) {
	select {
	case r.turn <- struct{}{}:
		defer func() { <-r.turn }()
	case <-cancelled:
		return got, batch.ErrCancelled
	}
	r.warm()
	select {
	case <-r.ready:
	case err := <-r.failures:
		r.end()
		return got, err
	case <-cancelled:
		return got, batch.ErrCancelled
	}
	r.next++
	message := map[string]any{"kind": "read", "id": r.next, "name": name, "file": file}
	if len(guides) > 0 {
		text, err := json.Marshal(guides)
		if err != nil {
			return got, err
		}
		message["guides"] = string(text)
	}
	r.worker.Call("postMessage", message)
	for {
		select {
		case <-cancelled:
			r.end()
			return got, batch.ErrCancelled
		case err := <-r.failures:
			r.end()
			return got, err
		case message := <-r.messages:
			if message.Get("kind").String() != "progress" {
				return batchOf(message)
			}
			progress(int64(message.Get("done").Float()))
		}
	}
}

// batchOf reads the worker's last answer: a batch, a refusal with the tables
// that were found, or a failure.
func batchOf(message js.Value) (batch.Batch, error) {
	if message.Get("kind").String() == "failed" {
		return batch.Batch{}, errors.New(message.Get("message").String())
	}
	var out batch.Reading
	if err := json.Unmarshal([]byte(message.Get("reading").String()), &out); err != nil {
		return batch.Batch{}, err
	}
	if out.Refusal != nil {
		return out.Batch, out.Refusal
	}
	return out.Batch, nil
}
