package dossier_test

import (
	"os"
	"path/filepath"
	"testing"

	"ratchetmark/internal/batch"
	"ratchetmark/internal/dossier"
	"ratchetmark/internal/intake"
)

// BenchmarkAssess times one assessment of each machine of the demo, without
// reading the file.
func BenchmarkAssess(b *testing.B) {
	files, err := filepath.Glob("../../testdata/demo/*.case.json")
	if err != nil || len(files) == 0 {
		b.Fatalf("got %d files, error %v, want those of the demo", len(files), err)
	}
	for _, file := range files {
		data, err := os.ReadFile(file)
		if err != nil {
			b.Fatal(err)
		}
		got, err := intake.ReadBytes(filepath.Base(file), data)
		if err != nil {
			b.Fatal(err)
		}
		all := batch.Group([]batch.Batch{got})
		b.Run(filepath.Base(file), func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				if d := dossier.Of(&all[0]); d.Capacity == nil {
					b.Fatal("got no capacity, want one")
				}
			}
		})
	}
}
