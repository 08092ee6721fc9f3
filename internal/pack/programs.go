package pack

import (
	"bytes"
	"errors"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
)

// addPrograms compiles the programs and adds the script that starts a Go program in a browser, from the same Go release.
func addPrograms(site tree, programs []Program) error {
	for _, program := range programs {
		compiled, err := compile(program)
		if err != nil {
			return err
		}
		site[program.Name] = compiled
	}
	if len(programs) == 0 {
		return nil
	}
	root, err := goCommand("", "env", "GOROOT")
	if err != nil {
		return err
	}
	script, err := os.ReadFile(filepath.Join(strings.TrimSpace(root), "lib", "wasm", "wasm_exec.js"))
	if err != nil {
		return fmt.Errorf("the go installation lacks its wasm_exec.js: %w\nhint: install go 1.24 or newer", err)
	}
	site["wasm_exec.js"] = script
	return nil
}

// busyPackages are compiled with inlining in every program: what they compute
// takes most of the time of an assessment.
var busyPackages = []string{"math", "ratchetmark/internal/cause"}

// compile builds one program. Neither paths nor version control go into it, so the same sources give the same bytes.
func compile(p Program) ([]byte, error) {
	folder, err := os.MkdirTemp("", "pack")
	if err != nil {
		return nil, err
	}
	defer os.RemoveAll(folder)
	target := filepath.Join(folder, "program.wasm")
	args := []string{"build", "-trimpath", "-buildvcs=false", "-ldflags=-s -w"}
	if !p.Fast {
		args = append(args, "-gcflags=all=-l")
		for _, busy := range busyPackages {
			args = append(args, "-gcflags="+busy+"=-l=0") // the last pattern that matches counts
		}
	}
	_, err = goCommand(p.Dir, append(args, "-o", target, p.Package)...)
	if err != nil {
		return nil, fmt.Errorf("compile %s: %w", p.Package, err)
	}
	return os.ReadFile(target)
}

// goCommand runs the go command for js/wasm in a folder and returns what it prints.
func goCommand(dir string, args ...string) (string, error) {
	var out, complaints bytes.Buffer
	command := exec.Command("go", args...)
	command.Dir, command.Stdout, command.Stderr = dir, &out, &complaints
	command.Env = append(os.Environ(), "GOOS=js", "GOARCH=wasm")
	err := command.Run()
	if errors.Is(err, exec.ErrNotFound) {
		return "", fmt.Errorf("%w\nhint: put the go command on the path", err)
	}
	if err != nil {
		return "", fmt.Errorf("go %s: %w\n%s", args[0], err, complaints.String())
	}
	return out.String(), nil
}
