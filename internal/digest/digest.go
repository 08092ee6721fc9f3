// Package digest reads a load record and names it by its SHA-256.
package digest

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"io"

	"ratchetmark/internal/batch"
	"ratchetmark/internal/intake"
)

// Read reads one file as [intake.Read] does and fills in its SHA-256
// (FIPS 180-4), in lower-case hexadecimal.
func Read(name string, r io.Reader, options intake.Options, progress intake.Progress) (batch.Batch, error) {
	sum := sha256.New()
	batch, err := intake.Read(name, io.TeeReader(r, sum), options, progress)
	batch.SHA256 = hex.EncodeToString(sum.Sum(nil))
	return batch, err
}

// ReadBytes reads a file that is already in memory.
func ReadBytes(name string, data []byte) (batch.Batch, error) {
	return Read(name, bytes.NewReader(data), intake.Options{}, nil)
}
