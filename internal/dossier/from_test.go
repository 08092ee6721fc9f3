package dossier_test

import (
	"strings"
	"testing"

	"ratchetmark/internal/batch"
	"ratchetmark/internal/dossier"
	"ratchetmark/internal/intake"
)

// Two invented machines that one haulier carried: what happened to the one bears
// on the other, and the sheet says that it does.
const carried = `{"format":"ratchetmark case 1","machine":{"id":"%","kind":"boom","rated_load_kg":230,"persons":2},
"readings":[
{"at":"2025-06-11T06:00:00Z","powered_h":120,"peak_kg":210,"bands":[{"from_kg":0,"to_kg":230,"hours":120},{"from_kg":230,"to_kg":null,"hours":0}]},
{"at":"2025-06-11T10:00:00Z","powered_h":121,"peak_kg":480,"bands":[{"from_kg":0,"to_kg":230,"hours":120.4},{"from_kg":230,"to_kg":null,"hours":0.6}]}],
"custody":[{"from":"2025-06-11T06:00:00Z","to":"2025-06-11T10:00:00Z","holder":"transit","who":"invented haulier"}]}`

func TestHaulierAmongMachines(t *testing.T) {
	var batches []batch.Batch
	for _, id := range []string{"A", "B"} {
		b, err := intake.ReadBytes(id, []byte(strings.Replace(carried, "%", id, 1)))
		if err != nil {
			t.Fatal(err)
		}
		batches = append(batches, b)
	}
	alone, both := dossier.From(batches[:1])[0], dossier.From(batches)
	if len(both) != 2 || len(alone.Exceedances) != 2 {
		t.Fatalf("got %d machines and %d pieces, want two of each", len(both), len(alone.Exceedances))
	}
	for i := range alone.Exceedances {
		if a, b := alone.Exceedances[i].Posterior.Lashed, both[0].Exceedances[i].Posterior.Lashed; !(b > a) {
			t.Errorf("piece %d: got a weight of %v for tie-down with the other machine, want more than %v", i, b, a)
		}
	}
	const says = "What other machines show of the same haulier"
	if strings.Contains(alone.Answers.Handover, says) || !strings.Contains(both[0].Answers.Handover, says) {
		t.Errorf("got %q alone and %q among both, want it said only there", alone.Answers.Handover, both[0].Answers.Handover)
	}
}
