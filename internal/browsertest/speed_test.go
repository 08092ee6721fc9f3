package browsertest

import (
	"fmt"
	"net/http"
	"net/http/httptest"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
)

// benchPage runs the benchmarks of a package, compiled for the browser.
const benchPage = `<!doctype html><html><head><meta charset="utf-8"><title>bench</title><link rel="icon" href="data:,">
<script src="wasm_exec.js"></script><script>
	window.said = "";
	console.log = (line) => { window.said += line + "\n"; };
	const go = new Go();
	go.argv = ["bench", "-test.run=^$", "-test.bench=Delimited|Workbook", "-test.benchtime=3x"];
	WebAssembly.instantiateStreaming(fetch("bench.wasm"), go.importObject)
		.then(({ instance }) => go.run(instance)).then(() => { document.documentElement.dataset.ready = "1"; });
</script></head><body></body></html>`

// TestSpeed prints how fast records are read in the browser, against encoding/csv in the same program.
func TestSpeed(t *testing.T) {
	if !*figures {
		t.Skip("measures only with -figures")
	}
	folder := folderOf(t, map[string]string{"index.html": benchPage})
	build := exec.Command("go", "test", "-c", "-o", filepath.Join(folder, "bench.wasm"), "./internal/intake")
	build.Dir, build.Env = "../..", append(os.Environ(), "GOOS=js", "GOARCH=wasm")
	if out, err := build.CombinedOutput(); err != nil {
		t.Fatalf("%v: %s", err, out)
	}
	root, err := exec.Command("go", "env", "GOROOT").Output()
	if err != nil {
		t.Fatal(err)
	}
	loader, err := os.ReadFile(filepath.Join(strings.TrimSpace(string(root)), "lib", "wasm", "wasm_exec.js"))
	if err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(filepath.Join(folder, "wasm_exec.js"), loader, 0o644); err != nil {
		t.Fatal(err)
	}
	server := httptest.NewServer(http.FileServer(http.Dir(folder)))
	t.Cleanup(server.Close)
	p := blank(t, Tablet, server.URL)
	p.Go("/")
	p.WaitReady()
	fmt.Println("\nreading records in the browser")
	for line := range strings.Lines(Eval[string](p, "window.said")) {
		if strings.HasPrefix(line, "Benchmark") {
			fmt.Print(line)
		}
	}
}
