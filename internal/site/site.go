// Package site holds the built app inside the binary that serves it.
package site

import (
	"embed"
	"errors"
	"io/fs"
)

//go:embed all:dist
var dist embed.FS

// ErrNotBuilt says that the binary was compiled before the app was.
var ErrNotBuilt = errors.New("the app is not built into this binary\nhint: run make build")

// Files returns the app's files as the host serves them; empty but for a placeholder when the app was not built.
func Files() fs.FS {
	files, err := fs.Sub(dist, "dist")
	if err != nil {
		panic(err) // the name is a constant of this file
	}
	return files
}

// Built tells whether files hold an app that can start: ErrNotBuilt if not.
func Built(files fs.FS) error {
	if _, err := fs.Stat(files, "index.html"); err != nil {
		return ErrNotBuilt
	}
	return nil
}
