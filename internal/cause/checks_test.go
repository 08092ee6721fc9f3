package cause

import (
	"math"
	"testing"

	"ratchetmark/internal/assume"
	"ratchetmark/internal/record"
)

// zeroAt adds a zero check that showed so many kg.
func zeroAt(when string, shown float64) func(c *record.Case) {
	return func(c *record.Case) {
		c.Checks = append(c.Checks, record.LoadCheck{At: at(when), Kind: record.ZeroCheck, Shown: kg(shown)})
	}
}

func massAt(when string, mass, shown float64) func(c *record.Case) {
	return func(c *record.Case) {
		c.Checks = append(c.Checks, record.LoadCheck{At: at(when), Kind: record.MassCheck, Shown: kg(shown), Mass: kg(mass)})
	}
}

// tiedAt adds word of the tie-down of trip.
func tiedAt(over bool, how record.Known) func(c *record.Case) {
	return func(c *record.Case) {
		c.TieDowns = append(c.TieDowns, record.TieDown{At: at("2025-06-11 08:00"), Over: &over, How: how})
	}
}

// pull returns how far an item speaks for a cause against work, in log10; 0
// where it does not apply.
func pull(c *record.Case, what What, from float64, id string, cause int) float64 {
	r := reason(piece(c, what, 1, from), id)
	if r == nil {
		return 0
	}
	return r.Log10[cause] - r.Log10[iWorked]
}

func with(c *record.Case, changes ...func(*record.Case)) *record.Case {
	for _, change := range changes {
		change(c)
	}
	return c
}

// The strength of a check: the first of each pair speaks more strongly against
// drift, or less for it, than the second.
func TestChecksInOrder(t *testing.T) {
	peak := func(kg_ float64) *record.Case {
		c := knocked()
		c.Readings[1].Peak, c.Readings[2].Peak = kg(kg_), kg(kg_)
		return c
	}
	workshop := func(c *record.Case) {
		c.Custody[2].To = at("2025-08-01 12:00")
		c.Custody = append(c.Custody, record.Custody{From: at("2025-08-01 12:00"), To: at("2025-08-02 12:00"), Holder: record.Workshop})
	}
	for _, v := range []struct {
		name         string
		first, other *record.Case
		from, than   float64
		id           string
	}{
		{"the larger the offset in question", with(peak(420), zeroAt("2025-08-03 08:00", 0)), with(peak(245), zeroAt("2025-08-03 08:00", 0)), 0, 0, "zero-check"},
		{"the sooner after", with(shifted(), zeroAt("2025-08-03 08:00", 0)), with(shifted(), zeroAt("2025-12-03 08:00", 0)), 230, 230, "zero-check"},
		{"without a workshop in between", with(shifted(), zeroAt("2025-08-03 08:00", 0)), with(shifted(), workshop, zeroAt("2025-08-03 08:00", 0)), 230, 230, "zero-check"},
		{"late in the interval", with(shifted(), zeroAt("2025-07-30 08:00", 0)), with(shifted(), zeroAt("2025-06-15 08:00", 0)), 230, 230, "zero-check"},
		{"right than a little off", with(shifted(), zeroAt("2025-08-03 08:00", 0)), with(shifted(), zeroAt("2025-08-03 08:00", 20)), 230, 230, "zero-check"},
		{"a little off than by what explains it", with(shifted(), zeroAt("2025-08-03 08:00", 8)), with(shifted(), zeroAt("2025-08-03 08:00", 40)), 230, 230, "zero-check"},
		{"a known mass than an empty platform", with(shifted(), massAt("2025-08-03 08:00", 200, 200)), with(shifted(), massAt("2025-08-03 08:00", 20, 20)), 230, 230, "known-mass"},
	} {
		what := Band
		if v.from == 0 {
			what = Peak
		}
		a, b := pull(v.first, what, v.from, v.id, iDrift), pull(v.other, what, v.than, v.id, iDrift)
		if !(a < b-0.02) {
			t.Errorf("%s: got %.3f and %.3f, want the first lower", v.name, a, b)
		}
	}
}

// A wrong gain shows under a known mass alone, and then counts beside a zero
// check that reads right; a zero that is wrong shows in both, and counts once.
func TestGain(t *testing.T) {
	c := with(shifted(), zeroAt("2025-08-03 08:00", 0), massAt("2025-08-03 08:10", 150, 180))
	if zero, mass := pull(c, Band, 230, "zero-check", iDrift), pull(c, Band, 230, "known-mass", iDrift); !(zero < 0 && mass > 0.3) {
		t.Errorf("got %.3f by the zero check and %.3f by the known mass, want the first against drift, the second for it", zero, mass)
	}
	alone := with(shifted(), massAt("2025-08-03 08:10", 150, 180))
	both := with(shifted(), zeroAt("2025-08-03 08:00", 30), massAt("2025-08-03 08:10", 150, 180))
	a, z, m := pull(alone, Band, 230, "known-mass", iDrift), pull(both, Band, 230, "zero-check", iDrift), pull(both, Band, 230, "known-mass", iDrift)
	if !(math.Abs(m) < 0.1 && math.Abs(z+m-a) < 0.3) {
		t.Errorf("got %.3f by the known mass alone, %.3f and %.3f by both, want hardly more of two that show the same", a, z, m)
	}
}

// A check says nothing of what came before it by too long, of an undated
// interval, or where the interval before shows that there was no fault yet.
func TestCheckThatSaysNothing(t *testing.T) {
	for name, c := range map[string]*record.Case{
		"before an interval that inherits nothing": with(shifted(), zeroAt("2025-06-01 08:00", 0)),
		"an undated reading": with(shifted(), func(c *record.Case) {
			for i := range c.Readings {
				c.Readings[i].At = record.Reading{}.At
			}
		}, zeroAt("2025-08-03 08:00", 0)),
		"without what was shown": with(shifted(), func(c *record.Case) {
			c.Checks = []record.LoadCheck{{At: at("2025-08-03 08:00"), Kind: record.ZeroCheck}}
		}),
	} {
		for _, o := range of(c) {
			if r := reason(&o, "zero-check"); o.Interval == 1 && r != nil {
				t.Errorf("%s: got %+v, want nothing of it", name, r)
			}
		}
	}
	old := piece(with(shifted(), zeroAt("2028-08-03 08:00", 0)), Band, 1, 230)
	if r := reason(old, "zero-check"); r == nil || spread(r.Log10) > 0.05 {
		t.Errorf("got %+v, want next to nothing of a check three years on", r)
	}
}

// The better a tie-down is known, the more it tells, either way; and word of one
// trip among many tells less.
func TestTiedInOrder(t *testing.T) {
	last := math.Inf(1)
	for _, how := range []record.Known{record.Seen, record.Papers, record.ToldOf} {
		yes := pull(with(trip(), tiedAt(true, how)), Peak, 0, "tie-down", iLashed)
		no := pull(with(trip(), tiedAt(false, how)), Peak, 0, "tie-down", iLashed)
		if !(yes > 0 && no < 0 && yes-no < last) {
			t.Errorf("%s: got %.3f and %.3f, want it for and against, by less than what is known better", how, yes, no)
		}
		last = yes - no
	}
	many := trip() // the interval reaches over eleven trips
	many.Readings[0].At = at("2025-01-01 06:00")
	for d := range 10 {
		day := at("2025-02-01 06:00").AddDate(0, 0, 7*d)
		many.Custody = append(many.Custody, record.Custody{From: day, To: day.Add(shortWay), Holder: record.Transit})
	}
	many.Custody[0].To = at("2025-01-31 00:00")
	one := pull(with(trip(), tiedAt(false, record.Seen)), Peak, 0, "tie-down", iLashed)
	if of := pull(with(many, tiedAt(false, record.Seen)), Peak, 0, "tie-down", iLashed); !(of < 0 && of > one/2) {
		t.Errorf("got %.3f of eleven trips and %.3f of the only one, want less", of, one)
	}
	timed := with(many, func(c *record.Case) { c.Readings[1].PeakAt = record.Of(at("2025-06-11 08:12")) })
	if of := pull(timed, Peak, 0, "tie-down", iLashed); !(of <= one && of > one-0.5) {
		t.Errorf("got %.3f where the peak was set on that trip, want no less than %.3f", of, one)
	}
	other := with(trip(), tiedAt(true, record.Seen), func(c *record.Case) {
		c.Readings[1].PeakAt = record.Of(at("2025-06-11 09:50"))
		c.Custody[1].To = at("2025-06-11 08:10")
	})
	if r := reason(piece(other, Peak, 1, 0), "tie-down"); r != nil {
		t.Errorf("got %+v, want nothing where the peak was set after that trip", r)
	}
}

// What is said of one trip one way and the other nearly cancels.
func TestTiedContradicts(t *testing.T) {
	c := with(trip(), tiedAt(true, record.ToldOf), tiedAt(false, record.ToldOf))
	r := reason(piece(c, Peak, 1, 0), "tie-down")
	if r == nil || spread(r.Log10) > 0.01 || r.Text != "the crew told of a tie-down over the platform; the crew said that no tie-down went over the platform, on the trip of 11 June 2025" {
		t.Errorf("got %+v, want next to nothing, and that it contradicts itself", r)
	}
}

// The words of the new reasons.
func TestCheckWords(t *testing.T) {
	for _, v := range []struct {
		c    *record.Case
		what What
		from float64
		id   string
		want string
	}{
		{with(shifted(), zeroAt("2025-08-04 08:00", 0)), Band, 230, "zero-check", "with nothing on the platform the machine showed 0 kg on 4 August 2025, 3 days after the interval"},
		{with(shifted(), zeroAt("2025-08-01 12:00", -3.5)), Band, 230, "zero-check", "with nothing on the platform the machine showed -3.5 kg on 1 August 2025, less than a day after the interval"},
		{checkedShift(), Band, 230, "known-mass", "with 150 kg on the platform the machine showed 172 kg on 6 August 2025, 5 days after the interval; a workshop had the machine in between"},
		{with(shifted(), zeroAt("2025-07-04 08:00", 0)), Band, 230, "zero-check", "with nothing on the platform the machine showed 0 kg on 4 July 2025, within the interval"},
		{with(trip(), tiedAt(false, record.Pictured)), Peak, 0, "tie-down", "a photo shows the tie-down, and none over the platform, on the trip of 11 June 2025"},
		{with(trip(), func(c *record.Case) {
			c.Readings[0].At = at("2025-05-01 06:00")
			c.Custody[0].To = at("2025-06-05 06:00")
			c.Custody = append(c.Custody, record.Custody{From: at("2025-06-05 06:00"), To: at("2025-06-05 10:00"), Holder: record.Transit})
			c.TieDowns = []record.TieDown{{At: at("2025-06-05 07:00"), Over: record.Of(false), How: record.Seen}, {At: at("2025-06-11 07:00"), Over: record.Of(true), How: record.Papers}}
		}), Peak, 0, "tie-down", "something is known of the tie-down on 2 trips: over the platform on 1, not over it on 1"},
		{with(trip(), tiedAt(true, record.ToldOf), func(c *record.Case) { c.Custody = nil }), Peak, 0, "tie-down", "the crew told of a tie-down over the platform, on 11 June 2025"},
	} {
		r := reason(piece(v.c, v.what, 1, v.from), v.id)
		if r == nil || r.Text != v.want {
			t.Errorf("got %+v, want %q", r, v.want)
		}
	}
}

// Whatever the offset, all that a check may show adds up to 1, and one that shows
// nothing below zero counts all of that as 0.
func TestWindowsAddUp(t *testing.T) {
	set, _ := assume.For(trip())
	values, _ := usualParams(set)
	b := bench{&values, 230}
	for _, off := range []float64{-60, 0, 12, 300} {
		sum := 0.0
		for x := -1500.0; x < 1500; x += 2 {
			sum += b.given(off, []window{{150, x, x + 2}})
		}
		near(t, "given", sum, 1, 1e-6)
	}
	k := record.LoadCheck{Kind: record.ZeroCheck, Shown: kg(0)}
	ofGain := 1 - normalOver(shownHalf/b.deviation()) // does not show with nothing on the platform
	near(t, "0 kg of a cell 60 kg too low", b.given(-60, []window{windowOf(&k)}), mixed(values[zeroShows], 1, ofGain), 3e-3)
	two := 0.0
	for x := -1500.0; x < 1500; x += 2 {
		two += b.given(40, []window{{0, 30, 32}, {150, x, x + 2}})
	}
	near(t, "a second check", two, b.given(40, []window{{0, 30, 32}}), 1e-6)
}
