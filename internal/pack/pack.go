// Package pack builds the folder of files that the host serves: it compiles the programs, names files by their content and
// stores compressed forms beside them.
//
// The steps, each in its own file: collect (public folder, programs, scripts, example), resolve (refs.go), compress, write.
package pack

import (
	"fmt"
	"io"
	"maps"
	"os"
	"path/filepath"
	"slices"
)

// Program is a Go main to compile to WebAssembly.
type Program struct {
	Name    string // the file, such as browser.wasm
	Dir     string // where the go command runs
	Package string // such as ./wasm/browser
	Fast    bool   // with inlining: faster, and larger once compressed
}

// Options say what goes into a site.
type Options struct {
	Public   string    // folder that is copied; its text files may refer to others by "asset:NAME"
	Programs []Program // compiled to WebAssembly
	Renderer string    // module folder whose renderer's helper script becomes vugu-helper.js; "" for none
	Example  string    // folder that is copied to example/ with an index.json; "" for none
	Template string    // file that is copied to template.csv; "" for none
	Out      string    // folder that is emptied and filled; names that start with a dot are kept
	Cache    string    // folder that keeps compressed forms between runs
	Log      io.Writer // a line for each file written
}

// tree is the site before it is written: content by slash-separated name.
type tree map[string][]byte

// Build builds the site.
func Build(o Options) error {
	site, err := collect(o)
	if err != nil {
		return err
	}
	if site, err = resolve(site); err != nil {
		return err
	}
	stored, err := compress(site, o.Cache)
	if err != nil {
		return err
	}
	report(o.Log, site, stored)
	return write(o.Out, stored)
}

// collect gathers the files of all sources under their plain names.
func collect(o Options) (tree, error) {
	site := tree{}
	if err := readFolder(site, o.Public, ""); err != nil {
		return nil, err
	}
	if err := addExample(site, o.Example); err != nil {
		return nil, err
	}
	if err := addTemplate(site, o.Template); err != nil {
		return nil, err
	}
	if err := addPrograms(site, o.Programs); err != nil {
		return nil, err
	}
	if o.Renderer == "" {
		return site, nil
	}
	script, err := rendererScript(o.Renderer)
	site["vugu-helper.js"] = script
	return site, err
}

// readFolder adds the files of a folder under a prefix; hidden ones are left out.
func readFolder(site tree, folder, prefix string) error {
	return filepath.WalkDir(folder, func(name string, entry os.DirEntry, err error) error {
		if err != nil {
			return fmt.Errorf("read %s: %w", folder, err)
		}
		if hidden(entry.Name()) && name != folder {
			if entry.IsDir() {
				return filepath.SkipDir
			}
			return nil
		}
		if entry.IsDir() {
			return nil
		}
		relative, err := filepath.Rel(folder, name)
		if err != nil {
			return err
		}
		site[prefix+filepath.ToSlash(relative)], err = os.ReadFile(name)
		return err
	})
}

// write empties the folder and fills it.
func write(folder string, files tree) error {
	if err := empty(folder); err != nil {
		return err
	}
	for _, name := range slices.Sorted(maps.Keys(files)) {
		target := filepath.Join(folder, filepath.FromSlash(name))
		if err := os.MkdirAll(filepath.Dir(target), 0o755); err != nil {
			return err
		}
		if err := os.WriteFile(target, files[name], 0o644); err != nil {
			return err
		}
	}
	return nil
}

// empty removes what an earlier run wrote.
func empty(folder string) error {
	if err := os.MkdirAll(folder, 0o755); err != nil {
		return err
	}
	entries, err := os.ReadDir(folder)
	if err != nil {
		return err
	}
	for _, entry := range entries {
		if hidden(entry.Name()) {
			continue
		}
		if err := os.RemoveAll(filepath.Join(folder, entry.Name())); err != nil {
			return err
		}
	}
	return nil
}

func hidden(name string) bool { return name[0] == '.' }

// report prints the sizes of each file.
func report(out io.Writer, site, stored tree) {
	if out == nil {
		return
	}
	for _, name := range slices.Sorted(maps.Keys(site)) {
		fmt.Fprintf(out, "%-40s %9d", name, len(site[name]))
		if small, ok := stored[name+".br"]; ok {
			fmt.Fprintf(out, " %9d br %9d gz", len(small), len(stored[name+".gz"]))
		}
		fmt.Fprintln(out)
	}
}
