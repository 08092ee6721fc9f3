package browsertest

import (
	"fmt"
	"io"
	"net/http"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"ratchetmark/internal/pack"
)

// runs is how often each time is taken; the median counts.
const runs = 9

// slowdowns are the factors by which the page's thread is made slower.
var slowdowns = []float64{1, 4}

// emptyPage starts an empty Go program the shortest way. It is the measure that the app's start is held against.
var emptyPage = map[string]string{
	"index.html": `<!doctype html><html><head><meta charset="utf-8"><title>empty</title><link rel="icon" href="data:,">
<link rel="preload" href="asset:browser.wasm" as="fetch" type="application/wasm" crossorigin>
<script defer src="asset:wasm_exec.js"></script><script defer src="asset:boot.js"></script></head><body></body></html>`,
	"boot.js": `const go = new Go();
WebAssembly.instantiateStreaming(fetch("asset:browser.wasm"), go.importObject)
	.then(({ instance }) => go.run(instance)).then(() => { document.documentElement.dataset.ready = "1"; });`,
}

// emptyProgram is the empty Go program.
var emptyProgram = map[string]string{
	"go.mod":  "module empty\n\ngo 1.24\n",
	"main.go": "package main\n\nfunc main() {}\n",
}

// TestFigures prints what the app weighs and how long it takes to start and to open a file. It passes or fails nothing: a clock
// is no test.
func TestFigures(t *testing.T) {
	if !*figures {
		t.Skip("measures only with -figures")
	}
	empty := serveEmpty(t)
	fmt.Println("\nfigures (times are medians of", runs, "fresh profiles, taken in turn)")
	for _, coding := range []string{"identity", "br"} {
		app, base := programBytes(t, shared.Origin, coding), programBytes(t, empty, coding)
		fmt.Printf("%-46s %9.3f MB   empty Go program %9.3f MB   ratio %.2f\n", "program, "+coding, app/1e6, base/1e6, app/base)
	}
	for _, factor := range slowdowns {
		var app, base []float64
		for range runs {
			base = append(base, startTime(t, empty, factor))
			app = append(app, startTime(t, shared.Origin, factor))
		}
		fmt.Printf("%-46s %9.0f ms   empty Go program %9.0f ms   ratio %.2f\n",
			fmt.Sprintf("navigation to usable, %gx slower", factor), median(app), median(base), median(app)/median(base))
	}
	for _, f := range moreFigures {
		for _, factor := range slowdowns {
			var times []float64
			for range runs {
				times = append(times, onFreshPage(t, factor, f.measure))
			}
			fmt.Printf("%-46s %9.0f ms\n", fmt.Sprintf("%s, %gx slower", f.name, factor), median(times))
		}
	}
}

// moreFigures are times of the app alone; measure gets a page on which the app is ready and returns milliseconds.
var moreFigures = []struct {
	name    string
	measure func(p *Page) float64
}{
	{"opening the first file to a drawn sheet", func(p *Page) float64 {
		time.Sleep(quiet)
		return openToSheet(p)
	}},
	{"opening a later file to a drawn sheet", func(p *Page) float64 {
		time.Sleep(quiet)
		for range 2 {
			openToSheet(p)
			p.Click("#go-start")
			p.WaitFor("#start")
		}
		time.Sleep(quiet)
		return openToSheet(p)
	}},
}

// quiet is how long a reader looks at a page before doing something; what it prepares in the background is done by then.
const quiet = time.Second

// openToSheet drops a case file on the page and takes the time from the drop until the sheet with it is drawn.
func openToSheet(p *Page) float64 {
	return Eval[float64](p, `(async () => {
		const { files } = await (await fetch("example/index.json")).json();
		const name = files[files.length - 1].name;
		const data = new DataTransfer();
		data.items.add(new File([await (await fetch("example/" + name)).blob()], name));
		const drawn = new Promise((done) => {
			new MutationObserver((_, observer) => {
				if (!document.querySelector("#sheet")) return;
				observer.disconnect();
				requestAnimationFrame(() => {
					const after = new MessageChannel();
					after.port1.onmessage = () => done(performance.now());
					after.port2.postMessage(0);
				});
			}).observe(document, { childList: true, subtree: true });
		});
		const begin = performance.now();
		document.querySelector("#app").dispatchEvent(new DragEvent("drop", { dataTransfer: data, bubbles: true, cancelable: true }));
		return await drawn - begin;
	})()`)
}

// onFreshPage measures on a page of its own.
func onFreshPage(t *testing.T, factor float64, measure func(*Page) float64) (ms float64) {
	t.Helper()
	ok := t.Run("page", func(t *testing.T) {
		p := Open(t, Tablet)
		p.Throttle(factor)
		ms = measure(p)
	})
	if !ok {
		t.FailNow()
	}
	return ms
}

// startTime loads a page in a fresh profile and returns the milliseconds from navigation until it says that it is ready.
func startTime(t *testing.T, origin string, factor float64) (ms float64) {
	t.Helper()
	ok := t.Run("start", func(t *testing.T) {
		p := blank(t, Tablet, origin)
		p.Before(`new MutationObserver(() => { window.readyAt ??= performance.now(); })
			.observe(document, { attributes: true, subtree: true, attributeFilter: ["data-ready"] });`)
		p.Throttle(factor)
		p.Go("/")
		p.WaitReady()
		ms = Eval[float64](p, "window.readyAt")
	})
	if !ok {
		t.FailNow()
	}
	return ms
}

// serveEmpty builds and serves the page with the empty program and returns its origin.
func serveEmpty(t *testing.T) string {
	t.Helper()
	out := t.TempDir()
	err := pack.Build(pack.Options{
		Public:   folderOf(t, emptyPage),
		Programs: []pack.Program{{Name: "browser.wasm", Package: ".", Dir: folderOf(t, emptyProgram)}},
		Out:      out,
		Cache:    "../../.cache/pack",
	})
	if err != nil {
		t.Fatal(err)
	}
	server := Serve(os.DirFS(out))
	t.Cleanup(server.Close)
	return server.URL
}

func folderOf(t *testing.T, files map[string]string) string {
	t.Helper()
	folder := t.TempDir()
	for name, content := range files {
		if err := os.WriteFile(filepath.Join(folder, name), []byte(content), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	return folder
}

// programBytes returns the size of the program that a page loads, as it is sent in a coding.
func programBytes(t *testing.T, origin, coding string) float64 {
	t.Helper()
	page := get(t, origin+"/", "identity")
	end := strings.Index(page, ".wasm")
	if end < 0 {
		t.Fatalf("%s names no program", origin)
	}
	begin := strings.LastIndexByte(page[:end], '"') + 1
	return float64(len(get(t, origin+"/"+page[begin:end]+".wasm", coding)))
}

// get returns a body as it is sent.
func get(t *testing.T, address, coding string) string {
	t.Helper()
	request, err := http.NewRequest(http.MethodGet, address, nil)
	if err != nil {
		t.Fatal(err)
	}
	request.Header.Set("Accept-Encoding", coding)
	answer, err := http.DefaultClient.Do(request)
	if err != nil {
		t.Fatal(err)
	}
	defer answer.Body.Close()
	body, err := io.ReadAll(answer.Body)
	if err != nil {
		t.Fatal(err)
	}
	return string(body)
}

func median(times []float64) float64 {
	slices.Sort(times)
	return times[len(times)/2]
}
