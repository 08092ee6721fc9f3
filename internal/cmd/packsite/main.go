// Command packsite builds the app's files into internal/site/dist. It runs in the module's root folder.
package main

import (
	"fmt"
	"os"
	"os/exec"
	"strings"

	"ratchetmark/internal/pack"
)

func main() {
	if err := run(); err != nil {
		fmt.Fprintln(os.Stderr, "packsite:", err)
		os.Exit(1)
	}
}

func run() error {
	renderer, err := exec.Command("go", "list", "-m", "-f", "{{.Dir}}", "github.com/vugu/vugu").Output()
	if err != nil {
		return fmt.Errorf("where is the renderer's module: %w\nhint: run it in the module's root folder, after go mod download", err)
	}
	return pack.Build(pack.Options{
		Public: "public",
		Programs: []pack.Program{
			{Name: "browser.wasm", Package: "./wasm/browser"},
			{Name: "worker.wasm", Package: "./wasm/worker", Fast: true},
		},
		Renderer: strings.TrimSpace(string(renderer)),
		Example:  "testdata/demo",
		Template: "testdata/delimited/template.csv",
		Out:      "internal/site/dist",
		Cache:    ".cache/pack",
		Log:      os.Stdout,
	})
}
