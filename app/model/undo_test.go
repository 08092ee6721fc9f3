package model

import (
	"fmt"
	"math/rand/v2"
	"testing"
	"time"
)

// texts are what is typed at random: numbers in both ways of writing, what
// cannot be read, and nothing.
var texts = []string{"", "0", "12,5", "225.4", "1,234", "abc", "90", "2026-03-02T08:10", "hire", "2026-03-02", "  ", "1e3", "-4"}

// anyField picks one of the fields that the form has now.
func anyField(r *rand.Rand, f *Form) Field {
	for {
		x := Field{&rows[r.IntN(len(rows))], r.IntN(len(f.Readings)), 0}
		switch n := f.Lines(x.part, x.I); {
		case n == 0:
			continue
		case x.part == OfBand:
			x.J = r.IntN(n)
		default:
			x.I = r.IntN(n)
		}
		return x
	}
}

// anyBand calls f with one of the bands that the form has now, if there is any.
func anyBand(r *rand.Rand, m *Model, f func(i, j int)) {
	i := r.IntN(len(m.Form.Readings))
	if n := m.Form.Lines(OfBand, i); n > 0 {
		f(i, r.IntN(n))
	}
}

// edits are all that can be done to a form, each done at random.
var edits = []func(r *rand.Rand, m *Model){
	func(r *rand.Rand, m *Model) { m.Type(anyField(r, &m.Form), texts[r.IntN(len(texts))]) },
	func(r *rand.Rand, m *Model) {
		if x := anyField(r, &m.Form); x.step > 0 {
			m.Step(x, 1-2*r.IntN(2))
		}
	},
	func(_ *rand.Rand, m *Model) {
		if len(m.Form.Readings) < 6 {
			m.AddReading()
		}
	},
	func(r *rand.Rand, m *Model) { m.RemoveReading(r.IntN(len(m.Form.Readings))) },
	func(r *rand.Rand, m *Model) { m.AddBand(r.IntN(len(m.Form.Readings))) },
	func(r *rand.Rand, m *Model) { anyBand(r, m, m.RemoveBand) },
	func(r *rand.Rand, m *Model) { anyBand(r, m, m.SplitBand) },
	func(r *rand.Rand, m *Model) { m.AddLine(Lists[r.IntN(len(Lists))]) },
	func(r *rand.Rand, m *Model) {
		part := Lists[r.IntN(len(Lists))]
		m.RemoveLine(part, r.IntN(1+m.Form.Lines(part, 0)))
	},
	func(r *rand.Rand, m *Model) {
		m.FillNow(ReadAt(r.IntN(len(m.Form.Readings))).Input(m), time.Unix(r.Int64N(2e9), 0))
	},
	func(r *rand.Rand, m *Model) { m.Fold(r.IntN(len(m.Form.Readings))) },
	func(r *rand.Rand, m *Model) { m.ShowEdges(r.IntN(len(m.Form.Readings))) },
}

// Whatever is done to a form, undone it is the form at the beginning and redone
// the one at the end, and every form between is passed on the way.
func TestUndoAndRedoAnything(t *testing.T) {
	for seed := range uint64(60) {
		r := rand.New(rand.NewPCG(seed, 7))
		m := New(newDevice())
		m.TypeNew()
		start := m.Form.Entries.clone()
		for range 120 {
			edits[r.IntN(len(edits))](r, m)
		}
		end := m.Form.Entries.clone()
		var passed []Entries
		for m.Form.Undoes() != "" {
			now := m.Form.Entries.clone()
			passed = append(passed, now)
			m.Undo()
			if same(now, m.Form.Entries) {
				t.Fatalf("seed %d: undoing %q changed nothing", seed, m.Form.Redoes())
			}
		}
		if !same(start, m.Form.Entries) {
			t.Fatalf("seed %d: got %+v after %d steps back, want %+v", seed, m.Form.Entries, len(passed), start)
		}
		for n := len(passed) - 1; m.Form.Redoes() != ""; n-- {
			m.Redo()
			if !same(passed[n], m.Form.Entries) {
				t.Fatalf("seed %d: got %+v, want the form that was undone, %+v", seed, m.Form.Entries, passed[n])
			}
		}
		if !same(end, m.Form.Entries) {
			t.Fatalf("seed %d: got %+v, want %+v", seed, m.Form.Entries, end)
		}
	}
}

// At least 200 steps can be undone, and the history does not grow for ever.
func TestHowFarBack(t *testing.T) {
	m := New(newDevice())
	m.TypeNew()
	rated, persons := FieldOf(OfMachine, "rated_load_kg", 0, 0), FieldOf(OfMachine, "persons", 0, 0)
	for i := range 500 {
		m.Type(rated, fmt.Sprint(i))
		m.Type(persons, fmt.Sprint(i))
	}
	n := 0
	for m.Form.Undoes() != "" {
		m.Undo()
		n++
	}
	if n < 200 || n != mostSteps {
		t.Errorf("got %d steps back, want %d", n, mostSteps)
	}
}

// A run of letters in one field is one step; another field begins another, and
// so does the same field after an undo.
func TestARunInOneFieldIsOneStep(t *testing.T) {
	m := New(newDevice())
	m.TypeNew()
	d := m.host.(*device)
	peak, powered := FieldOf(OfReading, "peak_kg", 0, 0), FieldOf(OfReading, "powered_h", 0, 0)
	for _, text := range []string{"2", "24", "241"} {
		m.Type(peak, text)
	}
	m.Type(powered, "20")
	m.Step(powered, 1)
	for _, want := range []struct{ peak, powered, undoes, shown string }{
		{"241", "", "reading 1, peak", "r1-powered"}, {"", "", "", "r1-peak"},
	} {
		m.Undo()
		if r := m.Form.Readings[0]; r.Peak != want.peak || r.Powered != want.powered || m.Form.Undoes() != want.undoes {
			t.Errorf("got peak %q, powered %q, next %q, want %+v", r.Peak, r.Powered, m.Form.Undoes(), want)
		}
		if got := d.shown[len(d.shown)-1]; got != want.shown {
			t.Errorf("got the focus on %q, want %q", got, want.shown)
		}
	}
	m.Redo()
	m.Type(peak, "2412")
	m.Undo()
	if got := m.Form.Readings[0].Peak; got != "241" {
		t.Errorf("got %q, want 241: what is typed after a redo is a step of its own", got)
	}
	m.Type(peak, "9")
	m.Type(peak, "241")
	if got := len(m.Form.history.done); got != 1 {
		t.Errorf("got %d steps, want one: typing back to what it was is none", got)
	}
}

// The words and the places of what is undone.
func TestWhatIsUndone(t *testing.T) {
	for _, c := range []struct {
		do                 func(m *Model)
		words, back, again string
	}{
		{func(m *Model) { m.RemoveBand(0, 2) }, "remove band 3", "r1-b3-hours", "r1-add-band"},
		{func(m *Model) { m.AddBand(0) }, "add band 5", "r1-add-band", "r1-b5-to"},
		{func(m *Model) { m.SplitBand(0, 1) }, "split band 2", "r1-b2-split", "r1-b2-to"},
		{func(m *Model) { m.AddReading() }, "add a reading", "add-reading", "r2-powered"},
		{func(m *Model) { m.AddLine(OfCustody) }, "add a line to who had it", "add-custody", "c1-holder"},
		{func(m *Model) { m.Type(FieldOf(OfMachine, "kind", 0, 0), "mast") }, "machine, kind", "kind", "kind"},
	} {
		m := New(newDevice())
		m.TypeNew()
		d := m.host.(*device)
		c.do(m)
		if got := m.Form.Undoes(); got != c.words {
			t.Errorf("got %q, want %q", got, c.words)
		}
		m.Undo()
		m.Redo()
		if n := len(d.shown); d.shown[n-2] != c.back || d.shown[n-1] != c.again {
			t.Errorf("%s: got the focus on %v, want %s and %s", c.words, d.shown[n-2:], c.back, c.again)
		}
	}
}

// What was done to a form can still be undone when its machine is corrected,
// unless the machine was changed in another way meanwhile.
func TestUndoAfterTheSheet(t *testing.T) {
	m := New(newDevice())
	typed(m)
	m.Type(FieldOf(OfReading, "peak_kg", 0, 0), "250")
	m.Finish()
	m.Correct()
	m.Undo()
	if got := m.Form.Readings[0].Peak; got != "241" {
		t.Errorf("got peak %q, want 241 as before the last step", got)
	}
	m.Redo()
	m.Finish()
	m.Case().Group.Case.Machine.ID = "T-2" // as a file that is joined does
	m.Correct()
	if got := m.Form.Undoes(); got != "" {
		t.Errorf("got %q to undo, want nothing", got)
	}
}

// Undoing lays open what it changes.
func TestUndoLaysOpen(t *testing.T) {
	m := New(newDevice())
	m.TypeNew()
	m.Type(FieldOf(OfBand, "to_kg", 0, 0), "90")
	m.AddLine(OfDay)
	m.AddReading()
	m.AddReading()
	m.FoldList(OfDay)
	m.ShowEdges(0)
	if m.Form.Open(0) || m.Form.ListOpen(OfDay) {
		t.Fatalf("got reading 1 open %v, days open %v, want both folded", m.Form.Open(0), m.Form.ListOpen(OfDay))
	}
	for range 3 {
		m.Undo()
	}
	if !m.Form.ListOpen(OfDay) {
		t.Error("got the days folded, want them open: a line was taken off")
	}
	m.Fold(0)
	m.Undo()
	if !m.Form.Open(0) || m.Form.Readings[0].Folded {
		t.Error("got the edges folded, want them shown: one was changed")
	}
}
