package table_test

import (
	"os"
	"testing"
)

// The files of testdata/containers hold one invented record in several
// containers: the same rows come out of each.
func TestContainersOfTheTestData(t *testing.T) {
	const want = "machine|at|from_kg|to_kg|hours / T-01|2026-03-02T08:10:00|0|90|812.4 / T-01|2026-03-02T08:10:00|90|180|41.25 / T-01|2026-03-02T08:10:00|180||0.5"
	entries, err := os.ReadDir("../../testdata/containers")
	if err != nil || len(entries) < 5 {
		t.Fatalf("got %d files and the error %v, want at least 5", len(entries), err)
	}
	for _, e := range entries {
		data, err := os.ReadFile("../../testdata/containers/" + e.Name())
		if err != nil {
			t.Fatal(err)
		}
		if g := grid(takeBytes(e.Name(), data).one(t).rows); g != want {
			t.Errorf("%s: got %q, want %q", e.Name(), g, want)
		}
	}
}
