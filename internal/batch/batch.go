// Package batch holds what was read from files: cases with their findings, the
// tables they stood in, and what those leave open. Reading is package intake's.
package batch

import (
	"errors"

	"ratchetmark/internal/record"
)

// ErrCancelled is the error of a reading that was given up.
var ErrCancelled = errors.New("reading was cancelled")

// Record is one case with what was noted while reading it. Findings do not
// include those of [record.Check].
type Record struct {
	Case     record.Case
	Findings []record.Finding
	Origins  record.Origins
}

// Batch is all that one file held.
type Batch struct {
	Name      string
	SHA256    string // filled in by package digest
	Bytes     int64
	Records   []Record
	Sheets    []Sheet    // the tables of the file, as they were found
	Questions []Question // what their values leave open
	Guides    []Guide    // the guides that were used
	Brought   []Guide    // the guides that the file itself holds
}

// Reading is what came of reading a file, in a form that can be handed from
// one program to another: a batch or a refusal.
type Reading struct {
	Batch   Batch
	Refusal *record.Refusal
}
