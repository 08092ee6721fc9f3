//go:build js && wasm

// Command edge serves the app from an edge host, with the same handler as the native server.
package main

import (
	"github.com/syumai/workers"

	"ratchetmark/internal/host"
	"ratchetmark/internal/site"
)

// The edge codes answers itself, from their type and the client's Accept-Encoding: it would code a coded file once more.
func main() {
	workers.Serve(host.New(site.Files(), host.Identity()))
}
