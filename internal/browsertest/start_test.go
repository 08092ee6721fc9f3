package browsertest

import (
	"net/http"
	"strings"
	"testing"
)

// The app starts at both sizes; that nothing is wrong on its page (console, policy, requests) is checked by each page's end.
func TestStart(t *testing.T) {
	for _, v := range []Viewport{Tablet, Phone} {
		t.Run(v.Name, func(t *testing.T) {
			p := Open(t, v)
			p.WaitFor("#app")
			if text := p.Text("#app"); strings.TrimSpace(text) == "" {
				t.Error("the page is empty")
			}
			if got := Eval[string](p, "document.title"); !strings.HasPrefix(got, "Ratchetmark") {
				t.Errorf("title %q", got)
			}
		})
	}
}

// Every file that a page needs comes compressed, with a type, from the app's own origin.
func TestRequests(t *testing.T) {
	p := Open(t, Tablet)
	program := 0
	for _, address := range p.Requests() {
		answer, err := http.Head(address)
		if err != nil {
			t.Fatal(err)
		}
		answer.Body.Close()
		if answer.StatusCode != http.StatusOK {
			t.Errorf("%s: status %d", address, answer.StatusCode)
		}
		if strings.HasSuffix(address, ".wasm") {
			program++
		}
	}
	if program != 1 {
		t.Errorf("the program is asked for %d times, want once: %v", program, p.Requests())
	}
}

// The background worker starts under the same policy and reads a file; the browser's own SHA-256 says which.
func TestWorker(t *testing.T) {
	p := Open(t, Tablet)
	got := Eval[struct{ Kind, Message, Reading, Want string }](p, `(async () => {
		const { files: [{ name }] } = await (await fetch("example/index.json")).json();
		const file = await (await fetch("example/" + name)).blob();
		const sum = await crypto.subtle.digest("SHA-256", await file.arrayBuffer());
		const want = Array.from(new Uint8Array(sum), (b) => b.toString(16).padStart(2, "0")).join("");
		const worker = new Worker(document.documentElement.dataset.worker);
		return new Promise((done, failed) => {
			worker.onerror = (e) => failed(new Error(e.message));
			worker.onmessage = ({ data }) => {
				if (data.kind === "ready") worker.postMessage({ kind: "read", id: 7, name, file });
				else done({ ...data, want });
			};
		});
	})()`)
	if got.Kind != "read" || !strings.Contains(got.Reading, got.Want) {
		t.Errorf("got %+v", got)
	}
}

// A browser that cannot run the app says so in words; what it lacks is taken away before the page is loaded.
func TestBootFailures(t *testing.T) {
	for _, c := range []struct{ name, without, want string }{
		{"no WebAssembly", "delete window.WebAssembly", "cannot run the app"},
		{"no streaming", "delete WebAssembly.instantiateStreaming", "cannot run the app"},
		{"failed fetch", `window.fetch = () => Promise.reject(new TypeError("no network"))`, "could not be loaded"},
		{"not found", `window.fetch = () => Promise.resolve(new Response("", { status: 404 }))`, "could not be loaded"},
		{"not a program", `window.fetch = () => Promise.resolve(new Response("?", { headers: { "Content-Type": "application/wasm" } }))`,
			"could not be loaded"},
	} {
		t.Run(c.name, func(t *testing.T) {
			p := Blank(t, Phone)
			p.Before(c.without)
			p.Go("/")
			p.WaitFor(".boot-error")
			if text := p.Text(".boot-error"); !strings.Contains(text, c.want) {
				t.Errorf("the page says %q, want %q", text, c.want)
			}
		})
	}
}
