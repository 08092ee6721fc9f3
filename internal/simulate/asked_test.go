package simulate_test

import (
	"reflect"
	"testing"

	"ratchetmark/internal/record"
	"ratchetmark/internal/simulate"
)

// What is asked for comes on top: but for it the life is that with events, and
// its truth too. No level that takes turns has any of it.
func TestAskedIsAddedOnly(t *testing.T) {
	g := simulate.New(8)
	for i := range 300 {
		want, got := g.With(i, simulate.WithEvents), g.With(i, simulate.WithAsked)
		got.Case.Checks, got.Case.TieDowns = nil, nil
		if got.Availability = want.Availability; !reflect.DeepEqual(got, want) {
			t.Fatalf("life %d: got another life than with events, want the same", i)
		}
		for _, a := range simulate.Availabilities {
			if c := g.With(i, a).Case; a == simulate.WithAsked || c.Checks != nil || c.TieDowns != nil {
				t.Fatalf("life %d, %s: got %d checks and %d tie-downs, want none", i, a, len(c.Checks), len(c.TieDowns))
			}
		}
	}
}

// Checks are made after the life, most show a cell right within a tolerance, and
// what is said of tie-downs is wrong now and then; all of it passes the checks of
// the record but for trips that custody lost.
func TestAsked(t *testing.T) {
	g := simulate.New(9)
	lives, checked, masses, off, said, over := 1000, 0, 0, 0, 0, 0
	for i := range lives {
		l := g.With(i, simulate.WithAsked)
		c := &l.Case
		rated := float64(*c.Machine.RatedLoad)
		if n := len(c.UsableChecks()); n != len(c.Checks) {
			t.Errorf("life %d: got %d of %d checks that can be used, want all", i, n, len(c.Checks))
		}
		for _, k := range c.Checks {
			if !k.At.After(c.Readings[len(c.Readings)-1].At) || *k.Shown < 0 {
				t.Errorf("life %d: got a check at %v that shows %v kg, want one after the life", i, k.At, *k.Shown)
			}
			if k.Kind == record.MassCheck {
				masses++
				continue
			}
			checked++
			if float64(k.Off()) > 0.1*rated {
				off++
			}
		}
		for _, d := range c.TieDowns {
			said++
			if *d.Over {
				over++
			}
		}
		for _, f := range record.Check(c) {
			if f.Severity == record.Blocking {
				t.Errorf("life %d: got %s, want nothing blocking", i, f.Code)
			}
		}
	}
	near(t, "lives with a zero check", float64(checked)/float64(lives), 0.9, 0.03)
	near(t, "of them with a known mass", float64(masses)/float64(checked), 0.6, 0.05)
	if share := float64(off) / float64(checked); share < 0.03 || share > 0.25 {
		t.Errorf("got %.3f of the cells a tenth of the rated load too high, want some", share)
	}
	if share := float64(over) / float64(said); said < 3*lives || share < 0.15 || share > 0.4 {
		t.Errorf("got word of %d tie-downs, %.3f over the platform, want some of most lives", said, share)
	}
}
