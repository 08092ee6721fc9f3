package site

import (
	"errors"
	"io/fs"
	"testing"
	"testing/fstest"
)

func TestBuilt(t *testing.T) {
	if err := Built(fstest.MapFS{".keep": {}}); !errors.Is(err, ErrNotBuilt) {
		t.Errorf("an empty site: %v, want %v", err, ErrNotBuilt)
	}
	if err := Built(fstest.MapFS{"index.html": {}}); err != nil {
		t.Errorf("a built site: %v", err)
	}
}

// The folder is there in a fresh checkout, so that the package compiles before the app is built.
func TestFiles(t *testing.T) {
	if _, err := fs.Stat(Files(), ".keep"); err != nil {
		t.Error(err)
	}
}
