package cause

import (
	"math"
	"testing"

	"ratchetmark/internal/assume"
	"ratchetmark/internal/record"
	"ratchetmark/internal/simulate"
)

// variedCases makes cases that between them have what every item needs: an invented
// trip with power on and off, and invented lives at every level of what is
// written down, of which nothing but the record is used.
func variedCases() []*record.Case {
	c := trip()
	c.Events = []record.Event{
		{At: at("2025-06-10 06:00"), Kind: record.PowerOn}, {At: at("2025-06-10 07:00"), Kind: record.PowerOff},
		{At: at("2025-06-11 08:00"), Kind: record.PowerOn}, {At: at("2025-06-11 09:18"), Kind: record.PowerOff},
		{At: at("2025-06-12 08:00"), Kind: record.PowerOn}, {At: at("2025-06-12 09:00"), Kind: record.PowerOff},
	}
	out := []*record.Case{c}
	lives := simulate.New(31)
	for i := range 60 {
		l, asked := lives.Life(i), lives.With(i, simulate.WithAsked)
		out = append(out, &l.Case, &asked.Case)
	}
	return out
}

// habitsFor invents what other machines show of the hauliers of a case.
func habitsFor(c *record.Case) Habits {
	out := Habits{}
	for i, u := range c.Custody {
		if u.Who != "" {
			out[u.Who] = Trips{Over: i % 5, Not: 1 + i%3}
		}
	}
	return out
}

// A variation, of which only what differs is worked out, weighs as everything
// made anew with its values does. An item or a parameter that says in its table
// that it reads less than it does fails here.
func TestVariationsAreWhole(t *testing.T) {
	var applied items
	moved := map[param]bool{}
	for _, c := range variedCases() {
		set, _ := assume.For(c)
		h := record.Lay(c)
		pieces := List(h)
		w, habits := newWeigher(h, set, pieces), habitsFor(c)
		for _, x := range pieces {
			f := w.read(x, habits)
			w.piece.weigh(&f, &w.usual, &w.values)
			applied |= w.piece.applies
			for i := range w.varied {
				v := &w.varied[i]
				moved[v.param] = true
				whole := newWeighing()
				ms := models(&v.values, w.m, w.loads)
				whole.weigh(&f, &ms, &v.values)
				for c, got := range w.under(v) {
					if want := whole.sum[c]; !(math.Abs(got-want) <= 1e-9*max(1, math.Abs(want))) {
						t.Fatalf("%s at %v, %s of interval %d, %s: got %v, want %v as a whole", paramTable[v.param].id, v.values[v.param], x.What, x.Interval, All[c], got, want)
					}
				}
			}
		}
	}
	for k := range evidence {
		if !applied.has(k) {
			t.Errorf("got no piece that %s applies to, want one", evidence[k].id)
		}
	}
	if len(moved) != int(paramCount) {
		t.Errorf("got %d parameters moved, want all %d", len(moved), paramCount)
	}
}

// Every item that is listed is one of the evidence, and they fit into a set.
func TestAskedBy(t *testing.T) {
	if len(evidence) > 64 {
		t.Fatalf("got %d items, want 64 at most: they are kept as bits", len(evidence))
	}
	known := map[string]bool{}
	for _, row := range evidence {
		known[row.id] = true
	}
	for id := range askedBy {
		if !known[id] {
			t.Errorf("got %s, which is no item", id)
		}
	}
	if !readsOf("some new item", iShock, reliance) {
		t.Error("got an item that is not listed taken to read nothing, want everything")
	}
}

// A set of items gives its members in order.
func TestItems(t *testing.T) {
	s := items(1<<1 | 1<<5 | 1<<63)
	var got []int
	for left := s; left != 0; left = left.rest() {
		got = append(got, left.first())
	}
	if len(got) != 3 || got[0] != 1 || got[1] != 5 || got[2] != 63 {
		t.Errorf("got %v, want 1, 5 and 63", got)
	}
	if !s.has(5) || s.has(4) || s.from(2) != 1<<5|1<<63 || s.from(0) != s {
		t.Errorf("got %b from 2 on, want 5 and 63", s.from(2))
	}
}
