//go:build js && wasm

// Command worker does long work beside the page, so that the page stays quick. It runs in a Web Worker.
//
// The page posts {kind, id, ...}; the worker answers {kind, id, ...} with the same id. It says {kind: "ready"} first; what
// is posted before that is lost. A {kind: "cancel", id} ends a task, which then answers nothing more.
package main

import (
	"fmt"
	"os"
	"syscall/js"
)

func main() {
	w := newWorker()
	self := js.Global()
	self.Set("onmessage", js.FuncOf(func(_ js.Value, args []js.Value) any {
		w.receive(args[0].Get("data"))
		return nil
	}))
	w.post(map[string]any{"kind": "ready"})
	select {}
}

// worker runs the page's tasks.
type worker struct {
	cancelled map[int]bool
	running   map[int]bool
}

func newWorker() *worker {
	return &worker{cancelled: map[int]bool{}, running: map[int]bool{}}
}

// tasks are what the worker can do, by the kind of the message that asks for it. A task returns what to answer.
var tasks = map[string]func(w *worker, id int, message js.Value) (map[string]any, error){
	"read": (*worker).read,
}

// receive starts a task in the background or marks one as cancelled. Go code in a browser runs on one thread, so the maps
// need no lock as long as no task yields while it changes them.
func (w *worker) receive(message js.Value) {
	id, kind := message.Get("id").Int(), message.Get("kind").String()
	if kind == "cancel" {
		if w.running[id] {
			w.cancelled[id] = true
		}
		return
	}
	task, ok := tasks[kind]
	if !ok {
		w.post(map[string]any{"kind": "failed", "id": id, "message": "unknown task " + kind})
		return
	}
	w.running[id] = true
	go w.run(id, kind, message, task)
}

// run does a task and answers, unless it was cancelled. A panic fails the task, not the worker.
func (w *worker) run(id int, kind string, message js.Value, task func(*worker, int, js.Value) (map[string]any, error)) {
	defer func() {
		if trouble := recover(); trouble != nil {
			fmt.Fprintln(os.Stderr, "worker:", trouble)
			w.post(map[string]any{"kind": "failed", "id": id, "message": fmt.Sprint(trouble)})
		}
		delete(w.running, id)
		delete(w.cancelled, id)
	}()
	answer, err := task(w, id, message)
	switch {
	case w.cancelled[id]:
		return
	case err != nil:
		answer = map[string]any{"kind": "failed", "message": err.Error()}
	default:
		answer["kind"] = kind
	}
	answer["id"] = id
	w.post(answer)
}

// post sends a message to the page.
func (w *worker) post(message map[string]any) {
	js.Global().Call("postMessage", message)
}
