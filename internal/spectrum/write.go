package spectrum

import (
	"bufio"
	"encoding/json"
	"io"
)

// Write prints a result as one line of JSON.
func Write(w io.Writer, r Result) error {
	buffered := bufio.NewWriter(w)
	out := json.NewEncoder(buffered)
	out.SetEscapeHTML(false)
	if err := out.Encode(r); err != nil {
		return err
	}
	return buffered.Flush()
}
