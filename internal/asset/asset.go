// Package asset names the app's files by their content, so that a browser may keep such a file for ever: a changed file has a
// changed name.
package asset

import (
	"crypto/sha256"
	"encoding/hex"
	"path"
	"strings"
)

// digits is how many hexadecimal digits of the SHA-256 go into a name.
const digits = 12

// Name puts the start of the content's SHA-256 before the extension: boot.js becomes boot.0123456789ab.js.
func Name(name string, content []byte) string {
	sum := sha256.Sum256(content)
	ext := path.Ext(name)
	return strings.TrimSuffix(name, ext) + "." + hex.EncodeToString(sum[:])[:digits] + ext
}

// Is tells whether a name has the form that Name gives.
func Is(name string) bool {
	name = path.Base(name)
	name = strings.TrimSuffix(name, path.Ext(name))
	_, hash, found := strings.Cut(path.Ext(name), ".")
	if !found || len(hash) != digits {
		return false
	}
	return strings.Trim(hash, "0123456789abcdef") == ""
}
