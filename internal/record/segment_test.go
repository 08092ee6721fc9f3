package record_test

import (
	"math/rand/v2"
	"testing"

	"ratchetmark/internal/record"
)

func TestSegments(t *testing.T) {
	all := func(ceiling *record.Kilogram, hours ...float64) []record.Segment {
		return record.Interval{Bands: bands(edges, hours...), Ceiling: ceiling}.Segments()
	}
	for _, v := range []struct {
		name string
		got  []record.Segment
		want []record.Segment
	}{
		{"empty bands are left out", all(nil, 1, 0, 2, 0, 0), []record.Segment{{0, 80, true, 1, 0}, {160, 240, true, 2, 2}}},
		{"open band without a peak", all(nil, 0, 0, 0, 0, 3), []record.Segment{{320, 0, false, 3, 4}}},
		{"open band closed by the peak", all(kg(500), 0, 0, 0, 0, 3), []record.Segment{{320, 500, true, 3, 4}}},
		{"peak within a band", all(kg(221), 1, 0, 2, 0, 0), []record.Segment{{0, 80, true, 1, 0}, {160, 221, true, 2, 2}}},
		{"peak at the lower edge", all(kg(160), 0, 0, 2, 0, 0), []record.Segment{{160, 160, true, 2, 2}}},
		{"peak at the upper edge", all(kg(240), 0, 0, 2, 0, 0), []record.Segment{{160, 240, true, 2, 2}}},
		{"peak below a band does not bound it", all(kg(100), 0, 0, 2, 0, 0), []record.Segment{{160, 240, true, 2, 2}}},
	} {
		equal(t, v.name+": segments", len(v.got), len(v.want))
		for i := range min(len(v.got), len(v.want)) {
			equal(t, v.name, v.got[i], v.want[i])
		}
	}
}

func TestSegmentOver(t *testing.T) {
	within := record.Segment{From: 200, To: 300, Bounded: true, Hours: 8}
	open := record.Segment{From: 200, Hours: 8}
	point := record.Segment{From: 250, To: 250, Bounded: true, Hours: 8}
	for _, v := range []struct {
		name           string
		s              record.Segment
		load           record.Kilogram
		low, mid, high record.Hour
		known          bool
	}{
		{"far below", within, 100, 8, 8, 8, true},
		{"at the lower edge", within, 200, 8, 8, 8, true},
		{"a quarter above", within, 275, 0, 2, 8, true}, // uniform: 25 of 100 kg
		{"at the upper edge", within, 300, 0, 0, 0, true},
		{"far above", within, 400, 0, 0, 0, true},
		{"open, below", open, 200, 8, 8, 8, true},
		{"open, above", open, 201, 0, 0, 8, false},
		{"a point, below", point, 249, 8, 8, 8, true},
		{"a point, at it", point, 250, 0, 0, 0, true},
	} {
		low, mid, high, known := v.s.Over(v.load)
		equal(t, v.name, [3]record.Hour{low, mid, high}, [3]record.Hour{v.low, v.mid, v.high})
		equal(t, v.name+": known", known, v.known)
	}
}

// The bounds are those of putting the hours, in small portions, anywhere within
// the segment and counting by hand what lies over the load; and they are
// attained by putting all at one edge.
func TestSegmentOverAgainstPlacements(t *testing.T) {
	rng := rand.New(rand.NewPCG(7, 11))
	const portions = 64
	for range 2000 {
		s := record.Segment{From: record.Kilogram(rng.IntN(500)), Bounded: true, Hours: record.Hour(1 + rng.IntN(50))}
		s.To = s.From + record.Kilogram(1+rng.IntN(200))
		load := record.Kilogram(rng.IntN(800))
		low, mid, high, known := s.Over(load)
		if !known || low > mid || mid > high {
			t.Fatalf("%+v over %v: got %v, %v, %v, want them in order", s, load, low, mid, high)
		}
		for range 8 {
			over := 0
			for range portions { // in [From, To)
				if at := s.From + (s.To-s.From)*record.Kilogram(rng.Float64()); at >= load {
					over++
				}
			}
			if h := s.Hours * record.Hour(over) / portions; h < low-1e-9 || h > high+1e-9 {
				t.Fatalf("%+v over %v: got bounds %v to %v, want them to hold %v", s, load, low, high, h)
			}
		}
		inside := s.From < load && load < s.To
		if wantLow, wantHigh := all(s, s.From >= load), all(s, s.From >= load || inside); low != wantLow || high != wantHigh {
			t.Fatalf("%+v over %v: got bounds %v to %v, want %v to %v", s, load, low, high, wantLow, wantHigh)
		}
		// The estimate against a fine uniform grid: off by at most one step.
		const steps = 1000
		over := 0
		for i := range steps {
			if s.From+(s.To-s.From)*(record.Kilogram(i)+0.5)/steps >= load {
				over++
			}
		}
		if want := s.Hours * record.Hour(over) / steps; mid < want-s.Hours/steps || mid > want+s.Hours/steps {
			t.Fatalf("%+v over %v: got estimate %v, want %v", s, load, mid, want)
		}
	}
}

func all(s record.Segment, is bool) record.Hour {
	if is {
		return s.Hours
	}
	return 0
}

// More load over which to count never makes more hours.
func TestSegmentOverIsMonotone(t *testing.T) {
	for _, s := range []record.Segment{
		{From: 200, To: 300, Bounded: true, Hours: 8}, {From: 200, Hours: 8}, {From: 250, To: 250, Bounded: true, Hours: 8},
	} {
		var before [3]record.Hour
		for load := record.Kilogram(400); load >= 100; load -= 0.5 {
			low, mid, high, _ := s.Over(load)
			if low < before[0] || mid < before[1] || high < before[2] {
				t.Fatalf("%+v over %v: got %v %v %v, want at least %v", s, load, low, mid, high, before)
			}
			before = [3]record.Hour{low, mid, high}
		}
	}
}
