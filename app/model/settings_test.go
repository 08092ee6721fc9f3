package model

import (
	"fmt"
	"math/rand/v2"
	"reflect"
	"strings"
	"testing"
)

// setTexts are what is typed at random into fields of the sheet.
var setTexts = []string{"", "0", "1", "2,5", "90", "250", "1,234", "abc", "2029-04-01", "true", "de", "lb", "France", "own", "EN 1993-1-9", "-4", "1e3", "  ", "60"}

// setEdits are all that can be done to what is set on the sheet, each at random.
var setEdits = []func(r *rand.Rand, m *Model){
	func(r *rand.Rand, m *Model) { m.Fill(anyInput(r, m), setTexts[r.IntN(len(setTexts))]) },
	func(r *rand.Rand, m *Model) {
		if x := anyInput(r, m); x.As == AsChoice {
			m.Fill(x, x.Choices[r.IntN(len(x.Choices))].Value)
		}
	},
	func(r *rand.Rand, m *Model) {
		if x := anyInput(r, m); x.Steps() {
			m.Press(x, 1-2*r.IntN(2))
		}
	},
	func(r *rand.Rand, m *Model) { m.Reset(anyInput(r, m)) },
	func(_ *rand.Rand, m *Model) { m.AddPerson() },
	func(_ *rand.Rand, m *Model) { m.AddItem() },
	func(_ *rand.Rand, m *Model) { m.AddZone() },
	func(_ *rand.Rand, m *Model) { m.AddLashing() },
	func(r *rand.Rand, m *Model) { m.RemovePerson(r.IntN(3)) },
	func(r *rand.Rand, m *Model) { m.RemoveItem(r.IntN(3)) },
	func(r *rand.Rand, m *Model) { m.RemoveZone(r.IntN(3)) },
	func(r *rand.Rand, m *Model) { m.RemoveLashing(r.IntN(3)) },
}

func anyInput(r *rand.Rand, m *Model) Input {
	all := fieldsOf(m)
	return all[r.IntN(len(all))]
}

// looks is all that a person sees of what is set: what stands in each field, what
// is wrong with it, and what the machine is marked as.
func looks(m *Model) string {
	var b strings.Builder
	for _, x := range fieldsOf(m) {
		fmt.Fprintf(&b, "%s %q %q\n", x.ID, x.Text, x.Problem)
	}
	fmt.Fprintln(&b, m.Case().Changed, m.Case().Asked)
	return b.String()
}

// Whatever is set on the sheet, undone it is the case at the beginning and redone
// the one at the end, and every case between is passed on the way.
func TestUndoAndRedoOnTheSheet(t *testing.T) {
	for seed := range uint64(6) {
		r := rand.New(rand.NewPCG(seed, 11))
		m, _ := opened(t, fileOf("carry", "several-rated-loads.case.json"))
		start, before := m.Case().stands(), looks(m)
		for range 30 {
			setEdits[r.IntN(len(setEdits))](r, m)
		}
		end := m.Case().stands()
		var passed []any
		for m.Undoes() != "" {
			now := m.Case().stands()
			passed = append(passed, now)
			m.Undo()
			if m.Case().isStill(now) {
				t.Fatalf("seed %d: undoing %q changed nothing", seed, m.Redoes())
			}
		}
		if !reflect.DeepEqual(start, m.Case().stands()) || before != looks(m) {
			t.Fatalf("seed %d: got %+v after %d steps back, want %+v", seed, m.Case().stands(), len(passed), start)
		}
		for n := len(passed) - 1; m.Redoes() != ""; n-- {
			m.Redo()
			if !m.Case().isStill(passed[n]) {
				t.Fatalf("seed %d: got %+v, want what was undone, %+v", seed, m.Case().stands(), passed[n])
			}
		}
		if !m.Case().isStill(end) {
			t.Fatalf("seed %d: got %+v, want %+v", seed, m.Case().stands(), end)
		}
	}
}

// The words of what is undone on the sheet, what gets the focus, and what is laid
// open for it.
func TestWhatIsUndoneOnTheSheet(t *testing.T) {
	type filling struct{ id, text string }
	for _, c := range []struct {
		lay               func(m *Model)
		do                func(m *Model)
		fill              filling
		words, back, open string
	}{
		{func(m *Model) { m.AddZone(); m.AddZone() }, nil, filling{"zone-2-rated", "120"}, "rated load of zone 2", "zone-2-rated", "rules"},
		{nil, nil, filling{"region", "France"}, "region where it is used", "region", "rules"},
		{nil, nil, filling{"person_mass_kg-value", "90"}, "mass of a person", "person_mass_kg-value", "rules"},
		{func(m *Model) { m.AddPerson() }, nil, filling{"plan-p1-body", "90"}, "body of person 1", "plan-p1-body", "planner"},
		{nil, nil, filling{"any-load", "300"}, "load over which hours are asked", "any-load", "any"},
		{nil, nil, filling{"crew-tools", "10"}, "tools and materials of the crew drawn", "crew-tools", "crews"},
		{nil, nil, filling{"told-stress-range", "80"}, "stress range at rated load of the structure", "told-stress-range", "tell"},
		{nil, nil, filling{"ride-friction", "0.2"}, "friction under the wheels", "ride-friction", "holding"},
		{nil, nil, filling{"ride-route", "floor"}, "where the strap goes", "ride-route", ""},
		{nil, nil, filling{"ride-angle-deg", "70"}, "angle to the deck", "ride-angle-deg", ""},
		{func(m *Model) { m.AddLashing() }, nil, filling{"ride-plan-2", "15"}, "angle in plan of lashings 2", "ride-plan-2", "holding"},
		{nil, nil, filling{"cycles_per_hour-low", "1"}, "low of load cycles per counted hour", "cycles_per_hour-low", "assumed-"},
		{nil, nil, filling{"cycles_per_hour-value", "6"}, "usual value of load cycles per counted hour", "cycles_per_hour-value", "assumed-"},
		{nil, func(m *Model) { m.AddZone() }, filling{}, "add zone 1", "add-zone", "rules"},
		{func(m *Model) { m.AddItem() }, func(m *Model) { m.RemoveItem(0) }, filling{}, "remove tools or materials 1", "plan-i1-name", "planner"},
		{func(m *Model) { m.AddLashing() }, func(m *Model) { m.RemoveLashing(1) }, filling{}, "remove lashings 2", "ride-gear-2", "holding"},
	} {
		m, d := opened(t, lashed())
		if c.lay != nil {
			c.lay(m)
		}
		before := looks(m)
		if c.do != nil {
			c.do(m)
		} else {
			fill(t, m, c.fill.id, c.fill.text)
		}
		if got := m.Undoes(); got != c.words {
			t.Errorf("got %q, want %q", got, c.words)
		}
		m.Undo()
		if got := d.shown[len(d.shown)-1]; got != c.back {
			t.Errorf("%s: got the focus on %q, want %q", c.words, got, c.back)
		}
		if c.open != "" && !m.Unfolded(m.FoldKey(c.open, 0)) {
			t.Errorf("%s: got it folded away, want it laid open", c.words)
		}
		if got := looks(m); got != before || m.Redoes() != c.words {
			t.Errorf("%s: got something else than before, or %q to redo", c.words, m.Redoes())
		}
		if got := m.Said(); got != "Undone: "+c.words+"." {
			t.Errorf("got %q said, want what was undone", got)
		}
	}
}

// A stepper that is pressed again before the page is drawn goes on from where the
// press before left it.
func TestPressTwice(t *testing.T) {
	m, _ := opened(t, lashed())
	x := at(t, m, "any-load")
	m.Press(x, 1)
	m.Press(x, 10)
	if got := at(t, m, "any-load").Text; got != "110" {
		t.Errorf("got %q, want 110", got)
	}
	m.AddItem()
	count := at(t, m, "plan-i1-count")
	m.Press(count, -10)
	if got := at(t, m, "plan-i1-count").Text; got != "1" {
		t.Errorf("got %q, want one at least", got)
	}
}

// A run of letters in one field of the sheet is one step, and what was typed on
// the way leaves nothing behind: a 1 on the way to 15 does not lower the low.
func TestARunOnTheSheetIsOneStep(t *testing.T) {
	m, _ := opened(t, lashed())
	for _, text := range []string{"1", "15", "150", "15"} {
		fill(t, m, "cycles_per_hour-value", text)
	}
	a := assumedOf(m.Case(), "cycles_per_hour")
	if a.Low != 2 || a.Value != 15 || a.High != 15 {
		t.Errorf("got %v (%v to %v), want 15 (2 to 15)", a.Value, a.Low, a.High)
	}
	fill(t, m, "self_weight_share-value", "0.")
	if got := at(t, m, "self_weight_share-value").Text; got != "0." {
		t.Errorf("got %q while typing, want it as it was typed", got)
	}
	fill(t, m, "self_weight_share-value", "0.4")
	m.Undo()
	m.Undo()
	if m.Undoes() != "" || m.Case().Group.Case.Assumptions != nil || m.Case().Changed {
		t.Errorf("got %q to undo, %v, want the case as it was", m.Undoes(), m.Case().Group.Case.Assumptions)
	}
	m.Redo()
	fill(t, m, "cycles_per_hour-value", "5")
	fill(t, m, "cycles_per_hour-value", "15")
	m.Undo()
	if m.Undoes() != "" {
		t.Errorf("got %q to undo, want nothing: typing back to what it was is no step", m.Undoes())
	}
}

// A figure is shown as it was typed while it is the one in use; once another is,
// that one.
func TestAsTyped(t *testing.T) {
	m, _ := opened(t, lashed())
	fill(t, m, "cycles_per_hour-low", "1,50")
	if got := at(t, m, "cycles_per_hour-low").Text; got != "1,50" {
		t.Errorf("got %q, want it as it was typed", got)
	}
	fill(t, m, "cycles_per_hour-value", "1.2")
	if got := at(t, m, "cycles_per_hour-low").Text; got != "1.2" {
		t.Errorf("got %q, want the low that came down with the value", got)
	}
	fill(t, m, "ride-friction", "")
	if x := at(t, m, "ride-friction"); x.Text != "" || x.Blank != "0.3" {
		t.Errorf("got %q, %q, want it blank with what that counts as", x.Text, x.Blank)
	}
}

// What cannot be read is on the device too, and moves with its line.
func TestUnreadIsKept(t *testing.T) {
	m, d := opened(t, lashed())
	m.AddPerson()
	m.AddPerson()
	fill(t, m, "plan-p1-body", "light")
	fill(t, m, "plan-p2-body", "heavy")
	fill(t, m, "ride-friction", "slippery")
	m.RemovePerson(0)
	for _, m := range []*Model{m, reopened(t, d)} {
		for id, want := range map[string]string{"plan-p1-body": "heavy", "ride-friction": "slippery"} {
			if x := at(t, m, id); x.Text != want || x.Problem == "" {
				t.Errorf("%s: got %q, problem %q, want %q", id, x.Text, x.Problem, want)
			}
		}
	}
	m.Undo()
	if got := at(t, m, "plan-p1-body").Text + at(t, m, "plan-p2-body").Text; got != "lightheavy" {
		t.Errorf("got %q, want what was typed back in its lines", got)
	}
}

// Each machine has its own history; correcting the readings does not end it, nor
// does it take the mark of that correction away.
func TestUndoAcrossTheForm(t *testing.T) {
	m, _ := opened(t, lashed(), fileOf("demo", "clean.case.json"))
	m.Choose(0)
	fill(t, m, "ride-mass-kg", "7000")
	m.Choose(1)
	if m.Undoes() != "" {
		t.Errorf("got %q to undo of the other machine, want nothing", m.Undoes())
	}
	m.Choose(0)
	m.Correct()
	m.Undo()
	m.Type(FieldOf(OfReading, "peak_kg", 0, 0), "250")
	m.GoSheet()
	m.Undo()
	m.Correct()
	m.Finish()
	o := m.Case()
	if c := o.Group.Case; *c.Machine.Mass != 6840 || *c.Readings[0].Peak != 250 || !o.Changed {
		t.Errorf("got mass %v, peak %v, changed %v, want the mass undone and the peak corrected", *c.Machine.Mass, *c.Readings[0].Peak, o.Changed)
	}
	m.Redo()
	m.Undo()
	if !o.Changed {
		t.Error("got it unchanged, want the mark of the correction to stay")
	}
}

// The history of the sheet is bounded, and small: a step shares what it did not
// change with the ones around it.
func TestHowFarBackOnTheSheet(t *testing.T) {
	m, _ := opened(t, lashed())
	o := m.Case()
	for i := range mostSteps + 20 {
		o.past().edit(o, step{what: fmt.Sprint(i)}, func(any) { o.note("x", TypedText{Text: fmt.Sprint(i), Why: "why"}) })
	}
	if got := len(o.past().done); got != mostSteps {
		t.Errorf("got %d steps, want %d", got, mostSteps)
	}
	a, b := o.past().done[0].state.(settings), o.past().done[1].state.(settings)
	if a.transport != b.transport || a.structure != b.structure || a.plan != b.plan {
		t.Error("got copies of what did not change, want it shared")
	}
}
