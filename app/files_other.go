//go:build !(js && wasm)

package app

import (
	"github.com/vugu/vugu"

	"ratchetmark/app/model"
)

// Outside a browser there is no file to pick.
func pickedFiles(vugu.DOMEvent) []model.File { return nil }
