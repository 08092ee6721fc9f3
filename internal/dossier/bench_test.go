package dossier_test

import (
	"os"
	"testing"

	"ratchetmark/internal/dossier"
	"ratchetmark/internal/intake"
)

// BenchmarkAssess times one assessment of the lashed demo machine, without reading the file.
func BenchmarkAssess(b *testing.B) {
	data, err := os.ReadFile("../../testdata/demo/lashed.case.json")
	if err != nil {
		b.Fatal(err)
	}
	batch, err := intake.ReadBytes("lashed.case.json", data)
	if err != nil {
		b.Fatal(err)
	}
	all := intake.Group([]intake.Batch{batch})
	b.ReportAllocs()
	for b.Loop() {
		if d := dossier.Of(&all[0]); len(d.Exceedances) != 2 {
			b.Fatalf("got %d exceedances, want 2", len(d.Exceedances))
		}
	}
}
