package intake

import (
	"bytes"
	"fmt"
	"io"
)

// lineGuard refuses text with a line so long that it cannot be a record, before
// anything that keeps whole lines runs out of memory.
type lineGuard struct {
	name   string
	r      io.Reader
	line   int // lines ended so far
	length int // of the line in hand, in bytes
}

func (g *lineGuard) Read(p []byte) (int, error) {
	n, err := g.r.Read(p)
	for rest := p[:n]; ; {
		i := bytes.IndexByte(rest, '\n')
		if i < 0 {
			g.length += len(rest)
			break
		}
		if g.length+i > maxLine {
			return 0, g.refuse()
		}
		g.line, g.length, rest = g.line+1, 0, rest[i+1:]
	}
	if g.length > maxLine {
		return 0, g.refuse()
	}
	return n, err
}

func (g *lineGuard) refuse() error {
	return &Refusal{
		File: g.name, Line: g.line + 1, Found: fmt.Sprintf("the line is longer than %d KiB", maxLine>>10),
		Expected: "one short row for each band", Hint: "this is not delimited text in the form of the template",
	}
}
