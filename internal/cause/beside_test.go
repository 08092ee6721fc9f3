package cause

import (
	"fmt"
	"math"
	"slices"
	"testing"

	"ratchetmark/internal/assume"
	"ratchetmark/internal/record"
)

// Where the highest load can lie, given hours of one cause in a band and nothing
// of any other, adds up to 1 over all loads from the band on: under each cause, for
// crews that seldom overload and for those that do it all day.
func TestPlacesOfPeakAddUp(t *testing.T) {
	c := hire()
	set, _ := assume.For(c)
	h := record.Lay(c)
	pieces := List(h)
	w := newWeigher(h, set, pieces)
	for kg := 230.0; kg < 1e5; kg *= 1.0005 {
		w.loads = append(w.loads, kg)
	}
	slices.Sort(w.loads)
	w.usual = models(&w.values, w.m, w.loads)
	f := w.read(pieces[slices.IndexFunc(pieces, func(x Exceedance) bool { return x.What == Band })], nil)
	f.made = made{}
	for c, m := range w.usual {
		e := ask{facts: &f, setting: &setting{&w.values, m, everything, &yield{}}, cause: c}
		e.know()
		var all, like perLatent
		for k, load := range w.loads[:len(w.loads)-1] {
			f.peak, f.v.Peak, f.pulls, e.yield.top.of = k, kg(load), [2]lastPull{}, 0
			peakBeside(&e, like[:e.latents])
			for i := range e.latents {
				all[i] += like[i] * math.Log(w.loads[k+1]/load)
			}
		}
		for i := range e.latents {
			least := 0.97
			if c == iDrift {
				least = 0.2 // a small fault reads the highest load under the rated load, most often
			}
			if !(all[i] >= least && all[i] <= 1.03) {
				t.Errorf("%s, %.3g occasions: got %.3f for all loads together, want 1", All[c], e.mean(i), all[i])
			}
		}
	}
}

// A drifted cell that reads its highest load under the peak leaves the peak to
// another cause; one that reads it over the peak does not.
func TestDriftUnderPeak(t *testing.T) {
	w := newWeigher(record.Lay(hire()), firstSet(hire()), nil)
	d := w.usual[iDrift].(*drift)
	for i := range d.offsets {
		last := 0.0
		for kg := 230.0; kg < 2000; kg *= 1.01 {
			under := d.peakUnder(i, kg, 0)
			if !(under >= last && under <= 1) {
				t.Fatalf("offset %.0f kg, peak %.0f kg: got %v under it, want %v to 1", d.offsets[i].value, kg, under, last)
			}
			last = under
		}
		if step := (d.peakUnder(i, 301, 0) - d.peakUnder(i, 300, 0)) / math.Log(301.0/300); math.Abs(step-d.peakDensity(i, 300.5, 0)) > 0.01 {
			t.Errorf("offset %.0f kg: got a slope of %v at 300 kg, want the density %v", d.offsets[i].value, step, d.peakDensity(i, 300.5, 0))
		}
	}
}

func firstSet(c *record.Case) assume.Set {
	set, _ := assume.For(c)
	return set
}

// Hours of a band that begins where no load is known of are beyond all models as
// a peak there is, and name no cause.
func TestBandBeyond(t *testing.T) {
	for _, v := range []struct {
		from   float64
		beyond bool
	}{{310, false}, {1000, false}, {3400, false}, {3500, true}, {30_000, true}} {
		t.Run(fmt.Sprint(v.from), func(t *testing.T) {
			c := trip()
			for i := range c.Readings {
				b := c.Readings[i].Bands
				b[3].To, b[4].From, c.Readings[i].Peak = kg(v.from), recordKg(v.from), nil
			}
			o := piece(c, Band, 1, v.from)
			if o == nil || o.Beyond != v.beyond || v.beyond && o.Verdict != Undecided {
				t.Errorf("got %+v, want beyond %v and no verdict where it is", o, v.beyond)
			}
		})
	}
}

// How surely the interval before shows that there was no fault yet grows with its
// hours, and no hour more or less turns the answer over.
func TestEarlierIsSmooth(t *testing.T) {
	last := 0.0
	for i := range 400 {
		c := trip()
		c.Machine.InService, c.Readings = nil, c.Readings[:2]
		h := 0.25 * float64(i)
		c.Readings[0].Bands[0].Hours, c.Readings[0].Bands[1].Hours, c.Readings[0].Bands[2].Hours = record.Hour(h), 0, 0
		c.Readings[1].Bands[0].Hours, c.Readings[1].Bands[1].Hours, c.Readings[1].Bands[2].Hours = record.Hour(h+0.2), 0, 0
		c.Readings[0].Powered, c.Readings[1].Powered = hour(h), hour(h+1.2)
		history := record.Lay(c)
		x := List(history)[0]
		f := factsOf(history, x, loadsOf(history, []Exceedance{x}), nil)
		switch earlier := f.o.earlier; {
		case i == 0 && earlier != usualInterval.earlier:
			t.Errorf("got %v h before an interval without hours, want %v", earlier, usualInterval.earlier)
		case i > 0 && !(earlier <= last && earlier >= 0.95*last || last < 0.1):
			t.Errorf("got %v h after %v h that show nothing, and %v with a quarter less, want a little less", earlier, h, last)
		default:
			last = earlier
		}
	}
	if last != 0 {
		t.Errorf("got %v h after 100 h that show nothing, want none", last)
	}
}
