package asset

import "testing"

// The digest of "abc" is the worked example of FIPS 180-4 (SHA-256, one block message).
func TestName(t *testing.T) {
	const want = "js/boot.ba7816bf8f01.js"
	if got := Name("js/boot.js", []byte("abc")); got != want {
		t.Errorf("got %s, want %s", got, want)
	}
	if !Is(want) {
		t.Errorf("%s is not taken for a name by content", want)
	}
}

func TestIsNot(t *testing.T) {
	for _, name := range []string{
		"", "index.html", "boot.js", "boot.min.js", "a.ba7816bf8f0.js", "a.ba7816bf8f012.js", "a.BA7816BF8F01.js",
		"ba7816bf8f01.js", "ba7816bf8f01", "case.ba7816bf8f0z.json",
	} {
		if Is(name) {
			t.Errorf("%q is taken for a name by content", name)
		}
	}
}
