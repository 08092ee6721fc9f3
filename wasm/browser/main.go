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
	root := &app.Root{Model: state}
	for drawn := false; ; drawn = true {
		if err := draw(renderer, env, root); err != nil {
			return fmt.Errorf("draw the page: %w", err)
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

// draw draws the page. A fault in drawing it is shown on the start page, with
// the way to save what is open.
func draw(renderer *domrender.JSRenderer, env *vugu.BuildEnv, root *app.Root) error {
	trouble := attempt(renderer, env, root)
	if trouble == nil {
		return nil
	}
	root.Model.Fail(trouble)
	root.Model.GoStart()
	if trouble = attempt(renderer, env, root); trouble != nil {
		return fmt.Errorf("%v", trouble)
	}
	return nil
}

// attempt draws the page; trouble is what a component panicked with, or what
// the renderer could not do.
func attempt(renderer *domrender.JSRenderer, env *vugu.BuildEnv, root *app.Root) (trouble any) {
	defer func() {
		if fault := recover(); fault != nil {
			trouble = fault
		}
	}()
	if err := renderer.Render(env.RunBuild(root)); err != nil {
		return err
	}
	return nil
}

// markReady tells the page, and whoever waits for it, that the app can be used.
func markReady() {
	js.Global().Get("document").Get("documentElement").Get("dataset").Set("ready", "1")
}
