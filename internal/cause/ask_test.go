package cause

import (
	"math"
	"slices"
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
	for _, c := range []*record.Case{trip(), hire(), knocked(), shifted(), checkedShift(), checkedTrip()} {
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

// A record that was given is not asked for again; one that it leaves open is.
func TestGivenIsNotAskedFor(t *testing.T) {
	wants := func(c *record.Case, what What, from float64) (out []string) {
		for _, a := range piece(c, what, 1, from).AskFor {
			if a.Wants == map[What]Wants{Band: WantsChecks, Peak: WantsTieDowns}[what] {
				out = append(out, a.Record)
			}
		}
		return out
	}
	const both, mass = "a zero check with the platform empty, and a check with a known mass", "a check with a known mass on the platform"
	const tied, others = "the tie-down that was used: a photo, the delivery note, the crew's word", "the tie-down on the other trips: a photo, the delivery note, the crew's word"
	zero := record.LoadCheck{At: at("2025-08-03 08:00"), Kind: record.ZeroCheck, Shown: kg(0)}
	known := record.LoadCheck{At: at("2025-08-03 08:10"), Kind: record.MassCheck, Shown: kg(150), Mass: kg(150)}
	told := record.TieDown{At: at("2025-06-11 08:00"), Over: record.Of(false), How: record.ToldOf}
	twice := func(c *record.Case) *record.Case { // a second trip in the interval
		c.Readings[0].At = at("2025-06-01 06:00")
		c.Custody[0].To = at("2025-06-05 06:00")
		c.Custody = append(c.Custody, record.Custody{From: at("2025-06-05 06:00"), To: at("2025-06-05 10:00"), Holder: record.Transit},
			record.Custody{From: at("2025-06-05 10:00"), To: at("2025-06-11 06:00"), Holder: record.Hire})
		return c
	}
	for _, v := range []struct {
		name   string
		c      *record.Case
		what   What
		from   float64
		checks []record.LoadCheck
		tied   []record.TieDown
		want   []string
	}{
		{"nothing given", shifted(), Band, 230, nil, nil, []string{both}},
		{"a zero check", shifted(), Band, 230, []record.LoadCheck{zero}, nil, []string{mass}},
		{"both", shifted(), Band, 230, []record.LoadCheck{zero, known}, nil, nil},
		{"a known mass alone", shifted(), Band, 230, []record.LoadCheck{known}, nil, nil},
		{"one that cannot be used", shifted(), Band, 230, []record.LoadCheck{{At: zero.At, Kind: record.ZeroCheck}}, nil, []string{both}},
		{"no word of the tie-down", twice(trip()), Peak, 0, nil, nil, []string{tied}},
		{"word of one of two", twice(trip()), Peak, 0, nil, []record.TieDown{told}, []string{others}},
		{"word of the only one", trip(), Peak, 0, nil, []record.TieDown{told}, nil},
	} {
		v.c.Checks, v.c.TieDowns = v.checks, v.tied
		if got := wants(v.c, v.what, v.from); !slices.Equal(got, v.want) {
			t.Errorf("%s: got %q, want %q", v.name, got, v.want)
		}
	}
}

// What is expected of a check is what the item then makes of it: over all that it
// may show, the information expected is that of the weights it leaves.
func TestAskedAsWeighed(t *testing.T) {
	c := shifted()
	set, _ := assume.For(c)
	h := record.Lay(c)
	pieces := List(h)
	w := newWeigher(h, set, pieces)
	f := factsOf(h, pieces[1], w.loads, nil)
	b := bench{&w.values, float64(h.Rated)}
	next := f.nextCheck()
	outs := checkOutcomes(&f, &w.values, &w.usual)
	for c := range All {
		e := &ask{facts: &f, setting: &setting{p: &w.values, model: w.usual[c]}, cause: c}
		right := 3 * b.deviation()
		sum := 0.0
		for off := -right + shownHalf; off < right; off += 2 * shownHalf { // all that it may show within a tolerance, kg by kg
			k := next
			k.LoadCheck = record.LoadCheck{Kind: record.MassCheck, Shown: kg(b.rated + off), Mass: kg(b.rated)}
			width := min(2*shownHalf, right-off+shownHalf) / (2 * shownHalf)
			s := lookAt(e, nil, k.seen(e))
			like := make([]float64, len(e.model.latents()))
			s.under(e, like)
			for i, l := range e.model.latents() {
				sum += width * l.weight * like[i]
			}
		}
		near(t, string(All[c])+" reads right", outs[1][c], sum, 0.01)
	}
}

// What the case has is not asked for, and what tells most comes first.
func TestAskFor(t *testing.T) {
	o := piece(shifted(), Band, 1, 230)
	if len(o.AskFor) == 0 || o.AskFor[0].Record != questions[0].record {
		t.Errorf("got %v, want the zero check first where the cell is in question", o.AskFor)
	}
	for _, a := range piece(knocked(), Peak, 1, 0).AskFor {
		if a.Wants == WantsCustody {
			t.Error("got custody asked for, want it not where it is there")
		}
	}
	c := knocked()
	c.Custody = nil
	found := false
	for _, a := range piece(c, Peak, 1, 0).AskFor {
		found = found || a.Wants == WantsCustody
	}
	if !found {
		t.Error("got no custody asked for, want it where it is missing")
	}
}
