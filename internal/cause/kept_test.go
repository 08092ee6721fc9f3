package cause

import (
	"math"
	"testing"

	"ratchetmark/internal/assume"
	"ratchetmark/internal/record"
)

// What is kept of checks for a machine holds for just the windows and the
// parameters that it was worked out with.
func TestWhateverKept(t *testing.T) {
	set, _ := assume.For(trip())
	usual, rows := usualParams(set)
	s := readIntervals(record.Lay(trip()))
	zero, mass := window{0, math.Inf(-1), 1}, window{230, 228, 231}
	for p := range paramCount {
		for _, x := range []float64{rows[p].Value, rows[p].Low, rows[p].High} {
			values := usual
			values[p] = x
			b := bench{&values, 230}
			for _, shown := range [][]window{{zero}, {mass}, {zero, mass}, {mass, zero}} {
				want := whatever{b.given(0, shown), b.anyway(shown)}
				if got := s.whatever(b, shown); got != want {
					t.Errorf("%s at %v, %v: got %v, want %v", paramTable[p].id, x, shown, got, want)
				}
			}
		}
	}
}

// The last pull kept with a piece is that of the values at hand.
func TestPullKept(t *testing.T) {
	c := trip()
	set, _ := assume.For(c)
	h := record.Lay(c)
	pieces := List(h)
	w := newWeigher(h, set, pieces)
	f := w.read(pieces[1], nil)
	if !hasPeakBeside(&f) {
		t.Fatalf("got %s of interval %d without a peak beside it, want one", pieces[1].What, pieces[1].Interval)
	}
	for i := range w.varied {
		v := &w.varied[i]
		fresh := f
		fresh.pulls = [2]lastPull{}
		l := lashed{p: &v.values}
		own, under := l.pullOf(&ask{facts: &f})
		wantOwn, wantUnder := l.pullOf(&ask{facts: &fresh})
		if own != wantOwn || under != wantUnder {
			t.Errorf("%s at %v: got %v and %v, want %v and %v", paramTable[v.param].id, v.values[v.param], own, under, wantOwn, wantUnder)
		}
	}
}
