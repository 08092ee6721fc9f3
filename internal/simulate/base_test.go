package simulate_test

import (
	"testing"

	"ratchetmark/internal/simulate"
)

// shares counts the causes of pieces.
type shares struct {
	all int
	of  map[string]int
}

func (s *shares) add(cause string) {
	if s.of == nil {
		s.of = map[string]int{}
	}
	s.all++
	s.of[cause]++
}

// The base rates that the package comment states are those of the generator,
// within two points of a hundred.
func TestBaseRates(t *testing.T) {
	g := simulate.New(1)
	var got = map[string]*shares{simulate.Peak: {}, simulate.Band: {}}
	for i := range 4000 {
		for _, x := range g.Life(i).Truth {
			got[x.What].add(x.Cause)
		}
	}
	for _, v := range simulate.BaseRates {
		s := got[v.What]
		share := float64(s.of[v.Cause]) / float64(s.all)
		near(t, v.What+" "+v.Cause, share, v.Share, 0.02)
		t.Logf("%s %s: %.3f of %d", v.What, v.Cause, share, s.all)
	}
	if len(simulate.BaseRates) != 11 {
		t.Errorf("got %d base rates, want those of 5 causes and none for bands, 5 for peaks", len(simulate.BaseRates))
	}
}
