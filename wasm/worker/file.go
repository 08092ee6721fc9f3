//go:build js && wasm

package main

import (
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"syscall/js"
	"time"

	"ratchetmark/internal/batch"
	"ratchetmark/internal/digest"
	"ratchetmark/internal/intake"
	"ratchetmark/internal/promise"
)

const (
	pieceBytes    = 1 << 20                // how much of a file is in memory at a time
	progressEvery = 100 * time.Millisecond // how often the page hears of progress
)

// errCancelled ends the reading of a file whose task was cancelled.
var errCancelled = errors.New("cancelled")

// read answers what message.file, a File or Blob of any size, holds.
func (w *worker) read(id int, message js.Value) (map[string]any, error) {
	var out batch.Reading
	options, err := optionsOf(message.Get("guides"))
	if err != nil {
		return nil, err
	}
	out.Batch, err = digest.Read(message.Get("name").String(), w.open(id, message.Get("file")), options, nil)
	if err != nil && !errors.As(err, &out.Refusal) {
		return nil, err
	}
	data, err := json.Marshal(out)
	if err != nil {
		return nil, err
	}
	return map[string]any{"reading": string(data)}, nil
}

// optionsOf reads the guides that the page sent as JSON, if any.
func optionsOf(guides js.Value) (intake.Options, error) {
	if guides.Type() != js.TypeString {
		return intake.Options{}, nil
	}
	var all []batch.Guide
	if err := json.Unmarshal([]byte(guides.String()), &all); err != nil {
		return intake.Options{}, fmt.Errorf("the guides kept on this device cannot be read: %w", err)
	}
	return intake.GuidesOf(all...), nil
}

// fileReader reads a browser's file piece by piece and tells the page how far it is.
type fileReader struct {
	w            *worker
	id           int
	file         js.Value
	size, offset float64 // numbers of the browser: exact to 2^53
	piece        []byte
	told         time.Time
}

// open returns a reader of a File or Blob.
func (w *worker) open(id int, file js.Value) io.Reader {
	return &fileReader{w: w, id: id, file: file, size: file.Get("size").Float(), told: time.Now()}
}

// Read implements io.Reader.
func (r *fileReader) Read(into []byte) (int, error) {
	if len(r.piece) == 0 {
		if err := r.next(); err != nil {
			return 0, err
		}
	}
	n := copy(into, r.piece)
	r.piece = r.piece[n:]
	return n, nil
}

// next fetches the next piece of the file.
func (r *fileReader) next() error {
	if r.w.cancelled[r.id] {
		return errCancelled
	}
	if r.offset >= r.size {
		return io.EOF
	}
	end := min(r.offset+pieceBytes, r.size)
	piece, err := promise.Bytes(r.file.Call("slice", r.offset, end).Call("arrayBuffer"))
	if err != nil {
		return fmt.Errorf("read the file at byte %.0f: %w\nhint: was it moved or changed since it was opened", r.offset, err)
	}
	r.piece = piece
	r.offset = end
	r.tell()
	return nil
}

// tell posts {kind: "progress", id, done, size}, not too often.
func (r *fileReader) tell() {
	if time.Since(r.told) < progressEvery {
		return
	}
	r.told = time.Now()
	r.w.post(map[string]any{"kind": "progress", "id": r.id, "done": r.offset, "size": r.size})
}
