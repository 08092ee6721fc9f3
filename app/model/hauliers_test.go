package model

import (
	"strings"
	"testing"
)

// Two invented machines that one haulier carried.
const carried = `{"format":"ratchetmark case 1","machine":{"id":"%","kind":"boom","rated_load_kg":230,"persons":2},
"readings":[
{"at":"2025-06-11T06:00:00Z","powered_h":120,"peak_kg":210,"bands":[{"from_kg":0,"to_kg":230,"hours":120},{"from_kg":230,"to_kg":null,"hours":0}]},
{"at":"2025-06-11T10:00:00Z","powered_h":121,"peak_kg":480,"bands":[{"from_kg":0,"to_kg":230,"hours":120.4},{"from_kg":230,"to_kg":null,"hours":0.6}]}],
"custody":[{"from":"2025-06-11T06:00:00Z","to":"2025-06-11T10:00:00Z","holder":"transit","who":"invented haulier"}]}`

// What one machine shows of a haulier bears on the other, whichever was opened
// first.
func TestMachinesMeet(t *testing.T) {
	file := func(id string) File {
		data := []byte(strings.Replace(carried, "%", id, 1))
		return File{Name: id + ".case.json", Size: int64(len(data)), Data: data}
	}
	m, _ := opened(t, file("A"))
	alone := m.Opened[0].Dossier.Exceedances[0].Posterior.Lashed
	m.Open([]File{file("B")})
	if len(m.Opened) != 2 {
		t.Fatalf("got %d machines, want two", len(m.Opened))
	}
	for i, o := range m.Opened {
		if got := o.Dossier.Exceedances[0].Posterior.Lashed; !(got > alone) {
			t.Errorf("machine %d: got a weight of %v for tie-down, want more than the %v of one alone", i, got, alone)
		}
	}
}
