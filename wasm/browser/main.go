//go:build js && wasm

// Command browser is the app as a browser runs it: it draws the root component
// into the page and redraws it after each event.
package main

import (
	"fmt"
	"os"
	"runtime/debug"
	"syscall/js"

	"github.com/vugu/vugu"
	"github.com/vugu/vugu/domrender"

	"ratchetmark/app"
	"ratchetmark/app/model"
)

// mountPoint is where index.html wants the app.
const mountPoint = "#app"

// collectAt makes the garbage collector wait for a heap of some 16 MB: what the
// page keeps is small, and a collection in the middle of drawing is felt.
const collectAt = 400

func main() {
	if err := run(); err != nil {
		fmt.Fprintln(os.Stderr, "ratchetmark:", err)
		os.Exit(1) // boot.js tells the reader
	}
}

// run draws the app until the page goes away.
func run() error {
	debug.SetGCPercent(collectAt)
	renderer, err := domrender.New(mountPoint)
	if err != nil {
		return fmt.Errorf("start the renderer: %w", err)
	}
	defer renderer.Release()
	env, err := vugu.NewBuildEnv(renderer.EventEnv())
	if err != nil {
		return fmt.Errorf("start the build environment: %w", err)
	}
	browser := app.NewBrowser(renderer.EventEnv())
	state := model.New(browser)
	browser.Fault = state.Fail
	browser.Accept(state)
	browser.AcceptPasted(state)
	root := &app.Root{Model: state}
	for drawn := false; ; drawn = true {
		if err := draw(renderer, env, root); err != nil {
			return rest(state, err)
		}
		if !drawn {
			markReady()
			browser.Warm()
		}
		if !renderer.EventWait() {
			return nil
		}
	}
}

// draw draws the page. A fault in building it is shown on the start page, with
// the way to save what is open; a fault of the renderer is final, as it leaves
// the renderer with half a page.
func draw(renderer *domrender.JSRenderer, env *vugu.BuildEnv, root *app.Root) (fault error) {
	built, trouble := build(env, root)
	if trouble != nil {
		root.Model.Fail(trouble)
		root.Model.GoStart()
		if built, trouble = build(env, root); trouble != nil {
			return fmt.Errorf("build the page: %v", trouble)
		}
	}
	defer func() {
		if trouble := recover(); trouble != nil {
			fault = fmt.Errorf("draw the page: %v", trouble)
		}
	}()
	return renderer.Render(built)
}

// build builds the page; trouble is what a component panicked with.
func build(env *vugu.BuildEnv, root *app.Root) (built *vugu.BuildResults, trouble any) {
	defer func() { trouble = recover() }()
	return env.RunBuild(root), nil
}

// rest says that the page can be drawn no more, and stays so that what is open
// can still be saved.
func rest(state *model.Model, fault error) error {
	js.Global().Call("ratchetmarkFailed", fault.Error(), js.FuncOf(func(js.Value, []js.Value) any {
		state.SaveAll()
		return nil
	}))
	select {}
}

// markReady tells the page, and whoever waits for it, that the app can be used.
func markReady() {
	js.Global().Get("document").Get("documentElement").Get("dataset").Set("ready", "1")
}
