package pack

import (
	"fmt"
	"path"
	"regexp"
	"strings"

	"ratchetmark/internal/asset"
)

// reference is how a text file of the public folder names another file of the site: "asset:boot.js" in quotes, or
// url(asset:icon.svg) in a style sheet. It is replaced by the name by content. Names are relative to the site's root, so only
// files there can refer to others.
var reference = regexp.MustCompile(`(["'(])asset:([A-Za-z0-9_./-]+)(["')])`)

// resolver renames the files that others refer to, those referred to first.
type resolver struct {
	plain   tree
	renamed map[string]string
	done    tree
	open    []string // the files being resolved, outermost first
}

// resolve replaces the references of all text files. A file that is referred to gets a name by content; any other keeps its own.
func resolve(site tree) (tree, error) {
	r := &resolver{plain: site, renamed: map[string]string{}, done: tree{}}
	for name, content := range site {
		if err := r.keep(name, content); err != nil {
			return nil, err
		}
	}
	for name, hashed := range r.renamed {
		r.done[hashed] = r.done[name]
		delete(r.done, name)
	}
	return r.done, nil
}

// keep stores a file with its references replaced, once.
func (r *resolver) keep(name string, content []byte) error {
	if _, ok := r.done[name]; ok {
		return nil
	}
	if !refers(name) {
		r.done[name] = content
		return nil
	}
	for _, open := range r.open {
		if open == name {
			return fmt.Errorf("%s refers to itself by way of %s\nhint: pass one of the names at run time",
				name, strings.Join(r.open, ", "))
		}
	}
	r.open = append(r.open, name)
	replaced, err := r.replace(name, content)
	r.open = r.open[:len(r.open)-1]
	r.done[name] = replaced
	return err
}

// replace puts names by content in the place of references.
func (r *resolver) replace(name string, content []byte) ([]byte, error) {
	var failure error
	replaced := reference.ReplaceAllFunc(content, func(found []byte) []byte {
		parts := reference.FindSubmatch(found)
		hashed, err := r.nameOf(string(parts[2]))
		if err != nil && failure == nil {
			failure = fmt.Errorf("%s: %w", name, err)
		}
		return []byte(string(parts[1]) + hashed + string(parts[3]))
	})
	return replaced, failure
}

// nameOf returns the name by content of a file that is referred to.
func (r *resolver) nameOf(name string) (string, error) {
	if hashed, ok := r.renamed[name]; ok {
		return hashed, nil
	}
	content, ok := r.plain[name]
	if !ok {
		return "", fmt.Errorf("asset:%s: no such file in the site\nhint: is it in the public folder, or a program that is built", name)
	}
	if err := r.keep(name, content); err != nil {
		return "", err
	}
	hashed := asset.Name(name, r.done[name])
	r.renamed[name] = hashed
	return hashed, nil
}

// refers tells whether references are looked for in a file: the page, the scripts and the style sheet at the site's root.
func refers(name string) bool {
	switch path.Ext(name) {
	case ".html", ".js", ".css":
		return !strings.Contains(name, "/")
	}
	return false
}
