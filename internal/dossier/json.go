package dossier

import (
	"encoding/json"
	"io"
)

// WriteJSON prints a dossier as one line of JSON, as the command and the app
// hand it over.
func WriteJSON(w io.Writer, d *Dossier) error {
	enc := json.NewEncoder(w)
	enc.SetEscapeHTML(false)
	return enc.Encode(d)
}
