//go:build js && wasm

package app

import (
	"syscall/js"
	"time"

	"github.com/vugu/vugu"

	"ratchetmark/app/model"
	"ratchetmark/internal/batch"
)

// rehearsed is a case that is read, assessed and laid out without being shown.
// A browser compiles each function of a program when it first runs; doing it
// once, while the person still looks at the start page, makes the first real
// file open as fast as the second.
const rehearsed = `{"format":"ratchetmark case 1","machine":{"id":"rehearsal","kind":"boom","rated_load_kg":230,"persons":2},
"readings":[{"at":"2026-01-01T00:00:00Z","powered_h":9,"moving_h":2,"bands":[{"from_kg":0,"to_kg":200,"hours":8},{"from_kg":200,"to_kg":300,"hours":1},{"from_kg":300,"to_kg":null,"hours":0}],"peak_kg":250},
{"at":"2026-01-02T00:00:00Z","powered_h":19,"moving_h":4,"bands":[{"from_kg":0,"to_kg":200,"hours":16},{"from_kg":200,"to_kg":300,"hours":2},{"from_kg":300,"to_kg":null,"hours":1}],"peak_kg":400,"peak_at":"2026-01-01T12:00:00Z"}],
"custody":[{"from":"2026-01-01T00:00:00Z","to":"2026-01-02T00:00:00Z","holder":"transit","who":""}]}`

// Warm gets ready, in the background, what opening a file needs.
func (b *Browser) Warm() {
	b.reader.warm()
	go func() {
		defer func() { _ = recover() }() // a rehearsal that fails costs nothing but its gain
		got, err := b.readOne(model.File{Name: "rehearsal", Data: []byte(rehearsed)}, nil, func(model.Progress) {}, nil)
		if err != nil {
			return
		}
		idle()
		m := model.New(backstage{got})
		m.Open([]model.File{{Name: "rehearsal"}})
		idle()
		if env, err := vugu.NewBuildEnv(); err == nil {
			env.RunBuild(&Root{Model: m})
		}
	}()
}

// idle waits until the browser has nothing better to do.
func idle() {
	done := make(chan struct{})
	callback := js.FuncOf(func(js.Value, []js.Value) any {
		close(done)
		return nil
	})
	defer callback.Release()
	if request := js.Global().Get("requestIdleCallback"); request.Truthy() {
		request.Invoke(callback)
	} else {
		js.Global().Call("setTimeout", callback, 50)
	}
	<-done
}

// backstage is a host that has one batch and nothing else.
type backstage struct{ got batch.Batch }

func (h backstage) Read(_ []model.File, _ []batch.Guide, _ func(model.Progress), finish func(model.Outcome)) func() {
	finish(model.Outcome{Batches: []batch.Batch{h.got}})
	return func() {}
}

func (backstage) Example(func(model.Outcome))                      {}
func (backstage) Template(func([]byte, error))                     {}
func (backstage) Save(string, string, []byte)                      {}
func (backstage) Print()                                           {}
func (backstage) Redraw()                                          {}
func (backstage) Keep(string, string, string, string, func(error)) {}
func (backstage) Kept(string, func([]model.KeptHead, error))       {}
func (backstage) Fetch(string, string, func(string, error))        {}
func (backstage) Forget(string, string, func(error))               {}
func (backstage) Watch(func(), func(error))                        {}
func (backstage) Left(string) string                               { return "" }
func (backstage) DropLeft(string)                                  {}
func (backstage) Now() time.Time                                   { return time.Now() }
func (backstage) Show(string)                                      {}
