package wording_test

import (
	"testing"

	"ratchetmark/internal/wording"
)

func TestNear(t *testing.T) {
	for heading, want := range map[string]string{
		"Ratd load (kg)": "rated load", "Seriel No": "serial no", "Peek load (kg)": "peak load", "Rated laod": "rated load", "Hihgest load": "highest load", "Nenlast": "nennlast", "Spitzenlst": "spitzenlast",
		"Rated load": "", "Remark": "", "Colour": "", "x": "", "": "", "Shoe size": "", "Tilt max": "",
	} {
		got, ok := wording.Near(heading)
		if got != want && (ok || want != "") || ok != (want != "") {
			t.Errorf("%q: got %q, %v, want %q", heading, got, ok, want)
		}
	}
}
