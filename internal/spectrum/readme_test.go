package spectrum_test

import (
	"os"
	"regexp"
	"testing"
)

// Every curve that the README shows is one that can be used.
func TestReadmeCurves(t *testing.T) {
	text, err := os.ReadFile("../../README.md")
	if err != nil {
		t.Fatal(err)
	}
	curves := regexp.MustCompile(`(?m)^    (\{"s[a-z]+":.*?\})(?:[ ].*)?$`).FindAllStringSubmatch(string(text), -1)
	if len(curves) < 5 {
		t.Fatalf("got %d curves, want at least 5", len(curves))
	}
	for _, c := range curves {
		r := read(t, `{"curve":`+c[1]+`,"spectrum":[{"range_mpa":100,"cycles":10000}]}`)
		if r.Damage == nil || !(*r.Damage > 0) || len(r.Findings) > 0 {
			t.Errorf("%s: got %+v, want a damage", c[1], r.Findings)
		}
	}
}
