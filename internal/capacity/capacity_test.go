package capacity_test

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"gonum.org/v1/gonum/floats"

	"ratchetmark/internal/assume"
	"ratchetmark/internal/capacity"
	"ratchetmark/internal/record"
)

func kg(x float64) *record.Kilogram { return record.Of(record.Kilogram(x)) }

// usual returns the usual assumptions.
func usual() assume.Set {
	set, _ := assume.For(&record.Case{})
	return set
}

// EN 280-1:2022, 4.2, and ISO 16368 (from memory): m = n·80 kg + 40 kg, that
// is 120, 200 and 280 kg for 1, 2 and 3 persons (computed).
func TestSmallestRatedLoad(t *testing.T) {
	for n, want := range map[int]record.Kilogram{1: 120, 2: 200, 3: 280} {
		if got := capacity.SmallestRatedLoad(n, 80, 40); got != want {
			t.Errorf("%d persons: got %v kg, want %v kg", n, got, want)
		}
	}
	// ANSI writes the same rule with 175 lb a person and 90 lb (from memory):
	// 440 lb for two. The rule is the same, the masses are editable.
	if got := capacity.SmallestRatedLoad(2, 175, 90); got != 440 {
		t.Errorf("2 persons: got %v lb, want 440 lb", got)
	}
}

func TestPersonsWithin(t *testing.T) {
	for load, want := range map[record.Kilogram]int{0: 0, 39: 0, 119: 0, 120: 1, 199: 1, 200: 2, 280: 3, 350: 3} {
		if got := capacity.PersonsWithin(load, 80, 40); got != want {
			t.Errorf("%v kg: got %d persons, want %d", load, got, want)
		}
	}
	for n := 1; n <= 20; n++ { // the inverse of the rule
		if got := capacity.PersonsWithin(capacity.SmallestRatedLoad(n, 80, 40), 80, 40); got != n {
			t.Errorf("smallest rated load for %d: got %d persons, want %d", n, got, n)
		}
	}
}

// The shares of the rated load that are counted over, each with its source.
func TestPercents(t *testing.T) {
	for _, v := range []struct {
		pct    int
		source string
	}{
		{100, "the rated load itself"},
		{110, "dynamic test 1.1 x: Regulation (EU) 2023/1230, Annex III, 4.1.2.3"},
		{120, "end of the load-sensing window: ANSI/SAIA A92.20 (restated), EN 280 5.4.1.2 (from memory)"},
		{125, "static test 1.25 x: Regulation (EU) 2023/1230, Annex III, 4.1.2.3"},
		{150, "enhanced overload criterion: EN 280 5.4.1.6 (from memory)"},
	} {
		if !slices.Contains(capacity.Percents, v.pct) {
			t.Errorf("got no %d %%, want it: %s", v.pct, v.source)
		}
	}
	if len(capacity.Percents) != 5 || !slices.IsSorted(capacity.Percents) {
		t.Errorf("got %v, want five in order", capacity.Percents)
	}
}

// Load sensing acts after the rated load is reached and before 120 % of it is
// exceeded: ANSI/SAIA A92.20 (restated).
func TestSensing(t *testing.T) {
	for _, v := range []struct {
		name     string
		own      *record.Kilogram
		from, to record.Kilogram
	}{
		{"not stated", nil, 240, 288},
		{"stated", kg(268), 268, 268},
		{"zero", kg(0), 240, 288},
		{"negative", kg(-5), 240, 288},
		{"not a load", kg(1e308), 240, 288},
	} {
		h := record.History{Case: &record.Case{Machine: record.Machine{LoadSensing: v.own}}, Rated: 240}
		if from, to := capacity.Sensing(h, usual()); from != v.from || to != v.to {
			t.Errorf("%s: got %v to %v kg, want %v to %v kg", v.name, from, to, v.from, v.to)
		}
	}
}

func closed(from, to, hours float64) record.Segment {
	return record.Segment{From: record.Kilogram(from), To: record.Kilogram(to), Bounded: true, Hours: record.Hour(hours)}
}

func open(from, hours float64) record.Segment {
	return record.Segment{From: record.Kilogram(from), Hours: record.Hour(hours)}
}

// Rated load 200 kg, so that 100, 110, 120, 125 and 150 % are 200, 220, 240,
// 250 and 300 kg.
func TestHoursOver(t *testing.T) {
	unknown := math.NaN()
	for _, v := range []struct {
		name           string
		segments       []record.Segment
		pct            int
		low, mid, high float64
	}{
		{"nothing", nil, 100, 0, 0, 0},
		{"below", []record.Segment{closed(0, 200, 9)}, 100, 0, 0, 0},
		{"above", []record.Segment{closed(200, 260, 9)}, 100, 9, 9, 9},
		{"straddling", []record.Segment{closed(180, 220, 8)}, 100, 0, 4, 8},                                                    // 20 of 40 kg
		{"straddling 110 %", []record.Segment{closed(180, 240, 9)}, 110, 0, 3, 9},                                              // 20 of 60 kg
		{"ends at 120 %", []record.Segment{closed(180, 240, 9)}, 120, 0, 0, 0},                                                 //
		{"three bands at 125 %", []record.Segment{closed(0, 200, 50), closed(200, 300, 6), closed(300, 400, 2)}, 125, 2, 5, 8}, // 6·50/100 + 2
		{"open, above", []record.Segment{open(300, 2)}, 150, 2, 2, 2},
		{"open, straddling", []record.Segment{closed(0, 200, 50), open(200, 2)}, 110, 0, unknown, 2},
		{"open, closed by a peak at 260 kg", []record.Segment{closed(200, 260, 3)}, 120, 0, 1, 3}, // 20 of 60 kg
	} {
		o := capacity.HoursOver(v.segments, 200, v.pct)
		mid := unknown
		if o.Estimate != nil {
			mid = *o.Estimate
		}
		got, want := []float64{o.Low, mid, o.High}, []float64{v.low, v.mid, v.high}
		if !floats.EqualFunc(got, want, func(a, b float64) bool { return math.Abs(a-b) < 1e-12 || a != a && b != b }) {
			t.Errorf("%s: got %v, want %v", v.name, got, want)
		}
	}
}

// Whatever the record: bounds in order, within the hours counted, and no more
// hours over a higher share.
func TestHoursOverProperties(t *testing.T) {
	rng := rand.New(rand.NewPCG(3, 5))
	for range 500 {
		var segments []record.Segment
		var counted, from float64
		for range 1 + rng.IntN(7) {
			s := closed(from, from+10+float64(rng.IntN(150)), float64(rng.IntN(40)))
			from = float64(s.To)
			counted += float64(s.Hours)
			segments = append(segments, s)
		}
		before := capacity.Over{High: counted, Low: counted, Estimate: &counted}
		for _, pct := range capacity.Percents {
			o := capacity.HoursOver(segments, 240, pct)
			if !(0 <= o.Low && o.Low <= *o.Estimate+1e-9 && *o.Estimate <= o.High+1e-9 && o.High <= counted+1e-9) {
				t.Fatalf("%v: got %v %v %v of %v, want them in order", segments, o.Low, *o.Estimate, o.High, counted)
			}
			if o.Low > before.Low || *o.Estimate > *before.Estimate+1e-9 || o.High > before.High {
				t.Fatalf("%v over %d %%: got more hours than over the share before", segments, pct)
			}
			before = o
		}
	}
}

// By hand: 6 h at 0–80 kg and 2 h at 80–200 kg lie at (6·0 + 2·80)/8 = 20 kg
// at least, (6·80 + 2·200)/8 = 110 kg at most, 65 kg in between.
func TestMeanLoad(t *testing.T) {
	b := capacity.MeanLoad([]record.Segment{closed(0, 80, 6), closed(80, 200, 2)})
	if b.Low != 20 || *b.Estimate != 65 || *b.High != 110 {
		t.Errorf("got %v, %v, %v kg, want 20, 65, 110 kg", b.Low, *b.Estimate, *b.High)
	}
	b = capacity.MeanLoad([]record.Segment{closed(0, 80, 6), open(200, 2)})
	if b.Low != 50 || b.Estimate != nil || b.High != nil {
		t.Errorf("open band: got %+v, want at least 50 kg and nothing else", b)
	}
	if b := capacity.MeanLoad(nil); b != nil {
		t.Errorf("no hours: got %+v, want none", b)
	}
}

// Against putting the hours in small portions all over their segments.
func TestMeanLoadAgainstPlacements(t *testing.T) {
	rng := rand.New(rand.NewPCG(1, 2))
	segments := []record.Segment{closed(0, 55, 225.4), closed(55, 130, 153.4), closed(130, 230, 101.9), closed(640, 812, 1.9)}
	b := capacity.MeanLoad(segments)
	const portions = 4000
	var sum, hours float64
	for _, s := range segments {
		for range portions {
			sum += float64(s.Hours) / portions * (float64(s.From) + rng.Float64()*float64(s.To-s.From))
		}
		hours += float64(s.Hours)
	}
	if mean := sum / hours; mean < b.Low || mean > *b.High || math.Abs(mean-*b.Estimate) > 1 {
		t.Errorf("got %v, %v, %v kg, want them to hold %v kg", b.Low, *b.Estimate, *b.High, mean)
	}
}
