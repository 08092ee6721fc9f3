package cause

import (
	"math"
	"testing"

	"ratchetmark/internal/assume"
	"ratchetmark/internal/record"
)

// A check that tells one of four equal causes from the rest without error gives
// H(1/4) bits, one that tells two from two a whole bit, and one that says the
// same under every cause none (Shannon 1948, theorem 2, from memory).
func TestInformation(t *testing.T) {
	even := [4]float64{0.25, 0.25, 0.25, 0.25}
	for _, v := range []struct {
		name  string
		prior [4]float64
		outs  []outcome
		want  float64
	}{
		{"one of four", even, yesNo(1, 0, 0, 0), 0.8112781244591328},
		{"two of four", even, yesNo(1, 1, 0, 0), 1},
		{"all four", even, []outcome{{1, 0, 0, 0}, {0, 1, 0, 0}, {0, 0, 1, 0}, {0, 0, 0, 1}}, 2},
		{"nothing", even, yesNo(0.3, 0.3, 0.3, 0.3), 0},
		{"what is known already", [4]float64{1, 0, 0, 0}, yesNo(1, 0, 0, 0), 0},
		// 1 - H(0.1) bits of a binary symmetric channel (Shannon 1948, from memory).
		{"one error in ten", [4]float64{0.5, 0.5, 0, 0}, yesNo(0.9, 0.1, 0, 0), 0.5310044064107188},
	} {
		near(t, v.name, information(v.prior, v.outs), v.want, 1e-12)
	}
}

// Under each cause the outcomes of a record are all that can come of it.
func TestOutcomesAddUp(t *testing.T) {
	for _, c := range []*record.Case{trip(), hire(), knocked(), shifted()} {
		set, _ := assume.For(c)
		h := record.Lay(c)
		pieces := List(h)
		w := newWeigher(h, set, pieces)
		for _, x := range pieces {
			f := factsOf(h, x, w.loads, nil)
			for _, q := range questions {
				var sum [4]float64
				for _, o := range q.outcomes(&f, &w.values, &w.usual) {
					for c := range sum {
						if o[c] < 0 {
							t.Errorf("%s: got %v, want probabilities", q.record, o)
						}
						sum[c] += o[c]
					}
				}
				for c := range sum {
					if math.Abs(sum[c]-1) > 1e-9 {
						t.Errorf("%s under %s: got %v in all, want 1", q.record, All[c], sum[c])
					}
				}
			}
		}
	}
}

// What the case has is not asked for, and what tells most comes first.
func TestAskFor(t *testing.T) {
	o := piece(shifted(), Band, 1, 230)
	if len(o.AskFor) == 0 || o.AskFor[0].Record != questions[0].record {
		t.Errorf("got %v, want the zero check first where the cell is in question", o.AskFor)
	}
	for _, a := range piece(knocked(), Peak, 1, 0).AskFor {
		if a.Record == questions[1].record {
			t.Error("got custody asked for, want it not where it is there")
		}
	}
	c := knocked()
	c.Custody = nil
	found := false
	for _, a := range piece(c, Peak, 1, 0).AskFor {
		found = found || a.Record == questions[1].record
	}
	if !found {
		t.Error("got no custody asked for, want it where it is missing")
	}
}
