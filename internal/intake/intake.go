// Package intake reads a load record from the bytes of a file: a case file
// (JSON), a stream of case objects, or delimited text. It names the place of
// everything it could not read, and reads on.
package intake

import (
	"bufio"
	"bytes"
	"errors"
	"fmt"
	"io"

	"ratchetmark/internal/record"
)

// Record is one case as it was read, with what was found on the way.
type Record struct {
	Case     record.Case
	Findings []record.Finding
	Origins  record.Origins
}

// Batch is all that one file held.
type Batch struct {
	Name    string
	SHA256  string // filled in by package digest
	Bytes   int64
	Records []Record
}

// Refusal says why a file could not be read at all.
type Refusal struct {
	File     string `json:"file"`
	Line     int    `json:"line"` // 0: the whole file
	Column   int    `json:"column"`
	Found    string `json:"found"`
	Expected string `json:"expected"`
	Hint     string `json:"hint"`
}

// Error writes the refusal as "file:line:column: found; expected ...".
func (r *Refusal) Error() string {
	return fmt.Sprintf("%s: %s; expected %s", r.Place(), r.Found, r.Expected)
}

// Place writes where the fault was found.
func (r *Refusal) Place() string {
	switch {
	case r.Line == 0:
		return r.File
	case r.Column == 0:
		return fmt.Sprintf("%s:%d", r.File, r.Line)
	}
	return fmt.Sprintf("%s:%d:%d", r.File, r.Line, r.Column)
}

// Limits on what is read. Far above what a machine produces, low enough that a
// hostile file cannot exhaust a tablet.
const (
	maxJSON     = 64 << 20 // bytes of a case file or a stream of cases
	maxLine     = 64 << 10 // bytes of one line of delimited text
	maxDepth    = 40       // nesting of JSON
	maxValues   = 1 << 20  // values of one case, or of one list of cases
	maxBands    = 200      // bands of one reading
	maxEntries  = 5_000    // readings, custody entries, events or days of one case
	maxText     = 1000     // characters of a name or a note
	maxFindings = 500      // findings of one file that are kept; the rest is counted
	sniffed     = 4096     // bytes looked at to tell what a file is
)

// Progress is told how many bytes have been read. Returning an error stops the reading.
type Progress func(bytes int64) error

// ErrCancelled is the usual error for a [Progress] to stop with.
var ErrCancelled = errors.New("reading was cancelled")

// Read reads one file. The error is a [*Refusal] where the file is not a
// record, or the reader's or the progress function's own.
func Read(name string, r io.Reader, progress Progress) (Batch, error) {
	counted := &counter{r: r, progress: progress}
	in := bufio.NewReaderSize(counted, sniffed)
	head, err := in.Peek(sniffed)
	if err != nil && err != io.EOF && err != bufio.ErrBufferFull {
		return Batch{}, err
	}
	kind, refusal := sniff(name, head)
	if refusal != nil {
		return Batch{}, refusal
	}
	var records []Record
	if kind == kindJSON {
		records, err = readJSON(name, in)
	} else {
		records, err = readDelimited(name, in)
	}
	if err != nil {
		return Batch{}, err
	}
	if _, err := io.Copy(io.Discard, in); err != nil {
		return Batch{}, err
	}
	return Batch{Name: name, Bytes: counted.n, Records: records}, nil
}

// ReadBytes reads a file that is already in memory.
func ReadBytes(name string, data []byte) (Batch, error) {
	return Read(name, bytes.NewReader(data), nil)
}

// counter counts the bytes read and reports them.
type counter struct {
	r        io.Reader
	n        int64
	progress Progress
}

func (c *counter) Read(p []byte) (int, error) {
	n, err := c.r.Read(p)
	c.n += int64(n)
	if c.progress != nil {
		if stop := c.progress(c.n); stop != nil {
			return n, stop
		}
	}
	return n, err
}

// Reading is what came of reading a file, in a form that can be handed from
// one program to another: a batch or a refusal.
type Reading struct {
	Batch   Batch
	Refusal *Refusal
}
