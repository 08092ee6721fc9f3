package dossier_test

import (
	"os"
	"testing"

	"ratchetmark/internal/batch"
	"ratchetmark/internal/dossier"
	"ratchetmark/internal/intake"
)

// BenchmarkAssess times one assessment of the lashed demo machine, without reading the file.
func BenchmarkAssess(b *testing.B) {
	data, err := os.ReadFile("../../testdata/demo/lashed.case.json")
	if err != nil {
		b.Fatal(err)
	}
	got, err := intake.ReadBytes("lashed.case.json", data)
	if err != nil {
		b.Fatal(err)
	}
	all := batch.Group([]batch.Batch{got})
	b.ReportAllocs()
	for b.Loop() {
		if d := dossier.Of(&all[0]); len(d.Exceedances) != 2 {
			b.Fatalf("got %d exceedances, want 2", len(d.Exceedances))
		}
	}
}
