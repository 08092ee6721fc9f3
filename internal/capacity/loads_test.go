package capacity_test

import (
	"math"
	"math/rand/v2"
	"slices"
	"sort"
	"testing"

	"ratchetmark/internal/bodymass"
	"ratchetmark/internal/capacity"
	"ratchetmark/internal/record"
)

// randomInterval makes bands with gaps, some empty, some open upwards, some
// closed by a ceiling that may lie on an edge.
func randomInterval(rng *rand.Rand) record.Interval {
	var v record.Interval
	from := float64(rng.IntN(2) * rng.IntN(100))
	for range 1 + rng.IntN(6) {
		to := from + 10 + float64(rng.IntN(120))
		v.Bands = append(v.Bands, record.Band{From: record.Kilogram(from), To: kg(to), Hours: record.Hour(rng.IntN(4) * rng.IntN(30))})
		from = to + float64(rng.IntN(2)*rng.IntN(40))
	}
	last := &v.Bands[len(v.Bands)-1]
	if rng.IntN(2) == 0 {
		last.To = nil
	}
	if rng.IntN(2) == 0 {
		v.Ceiling = kg(float64(last.From) + float64(rng.IntN(3)*rng.IntN(50)))
	}
	return v
}

func randomSegments(rng *rand.Rand) []record.Segment {
	v := randomInterval(rng)
	v.Ceiling = nil
	return v.Segments()
}

// place puts the hours of a segment at some load within it.
func place(rng *rand.Rand, s record.Segment) (load, hours float64) {
	width := float64(s.To - s.From)
	if !s.Bounded {
		width = 500
	}
	return float64(s.From) + rng.Float64()*width, float64(s.Hours)
}

// Bounds hold every placement and are attained by one: all hours at the lower
// edges, and all hours of a band that reaches over the load just over it.
func TestOverIsExact(t *testing.T) {
	rng := rand.New(rand.NewPCG(17, 19))
	for range 2000 {
		intervals := []record.Interval{randomInterval(rng), randomInterval(rng)}
		loads, segments := capacity.NewLoads(intervals), capacity.Segments(intervals)
		load := float64(rng.IntN(600))
		e, f := loads.Over(record.Kilogram(load))
		if f != nil {
			t.Fatal(f.Message)
		}
		var some, low, high float64
		for _, s := range segments {
			if at, h := place(rng, s); at > load {
				some += h
			}
			if s.From >= record.Kilogram(load) && !(s.Bounded && s.To == record.Kilogram(load)) {
				low += float64(s.Hours) // at the lower edge, or at all loads of the band
			}
			if !s.Bounded || s.To > record.Kilogram(load) {
				high += float64(s.Hours)
			}
		}
		if some < e.Low-1e-9 || some > e.High+1e-9 || math.Abs(low-e.Low) > 1e-9 || math.Abs(high-e.High) > 1e-9 {
			t.Fatalf("%v over %v kg: got %v to %v h, want %v to %v h holding %v h", segments, load, e.Low, e.High, low, high, some)
		}
		if least, most, ok := e.Estimate(); ok && (least < e.Low || most > e.High) {
			t.Fatalf("%v over %v kg: got estimates %v and %v h, want them between %v and %v h", segments, load, least, most, e.Low, e.High)
		}
	}
}

// Estimates fall with the load, and keep the hours of every band.
func TestEstimatesFall(t *testing.T) {
	rng := rand.New(rand.NewPCG(23, 29))
	for range 200 {
		v := randomInterval(rng)
		loads := capacity.NewLoads([]record.Interval{v})
		before := loads.Hours()
		for load := 0.0; load < 700; load += 3.5 {
			e, _ := loads.Over(record.Kilogram(load))
			if e.Smooth == nil {
				break
			}
			if *e.Smooth > before+1e-9 || e.Low == e.High && math.Abs(*e.Smooth-e.Low) > 1e-9 {
				t.Fatalf("%v at %v kg: got %v h, want at most %v and between %v and %v", v.Bands, load, *e.Smooth, before, e.Low, e.High)
			}
			before = *e.Smooth
		}
	}
}

// By hand: 6 h from 200 to 300 kg with nothing on either side. The cubic that
// is level at its upper end starts with the slope of its one chord, 0.06 h/kg:
// at 250 kg it is at 3 + 6/8 = 3.75 h, so that 2.25 h remain.
func TestOverByHand(t *testing.T) {
	loads := capacity.NewLoads([]record.Interval{{Bands: []record.Band{{From: 200, To: kg(300), Hours: 6}}}})
	e, _ := loads.Over(250)
	if e.Low != 0 || e.High != 6 || *e.Uniform != 3 || math.Abs(*e.Smooth-2.25) > 1e-12 {
		t.Errorf("got %v, %v, %v, %v, want 0, 3, 2.25, 6 h", e.Low, *e.Uniform, *e.Smooth, e.High)
	}
	if at, hours := loads.MostApart(); math.Abs(float64(at)-266.67) > 2 || math.Abs(hours-6*4.0/27) > 0.001 { // t(1-t)² has its most, 4/27, at 1/3 from the top
		t.Errorf("got %v h apart at %v kg, want %v h at 266.67 kg", hours, at, 6*4.0/27)
	}
}

// Hours in an open band go on above its edge: the density below it does not
// die out there. By hand: one chord, so a straight line, 6 + 3 h over 150 kg.
func TestOpenBandGoesOn(t *testing.T) {
	loads := capacity.NewLoads([]record.Interval{{Bands: []record.Band{{From: 100, To: kg(200), Hours: 6}, {From: 200, Hours: 6}}}})
	if e, _ := loads.Over(150); math.Abs(*e.Smooth-9) > 1e-9 {
		t.Errorf("got %v h, want 9 h", *e.Smooth)
	}
}

func TestOpenBandLeavesNoEstimate(t *testing.T) {
	bands := []record.Band{{From: 0, To: kg(200), Hours: 50}, {From: 200, Hours: 2}}
	loads := capacity.NewLoads([]record.Interval{{Bands: bands}})
	if e, _ := loads.Over(240); e.Low != 0 || e.High != 2 || e.Uniform != nil || e.Smooth != nil {
		t.Errorf("without a peak: got %+v, want 0 to 2 h without an estimate", e)
	}
	if e, _ := loads.Over(200); e.Low != 2 || e.High != 2 || *e.Smooth != 2 {
		t.Errorf("at its edge: got %+v, want 2 h", e)
	}
	loads = capacity.NewLoads([]record.Interval{{Bands: bands, Ceiling: kg(280)}})
	if e, _ := loads.Over(240); e.High != 2 || *e.Uniform != 1 || *e.Smooth >= 1 {
		t.Errorf("closed by a peak of 280 kg: got %+v, want 1 h uniform, less smooth", e)
	}
	if e, _ := loads.Over(280); e.High != 0 {
		t.Errorf("over the peak: got %+v, want none", e)
	}
}

// A band whose lower edge is the peak was spent at that load: 2 h at 240 kg.
func TestPeakOnAnEdge(t *testing.T) {
	for _, first := range []record.Hour{0, 5} {
		bands := []record.Band{{From: 200, To: kg(240), Hours: first}, {From: 240, To: kg(320), Hours: 2}}
		loads := capacity.NewLoads([]record.Interval{{Bands: bands, Ceiling: kg(240)}})
		for load, want := range map[record.Kilogram]float64{100: 2 + float64(first), 200: 2 + float64(first), 239.999999: 2, 240: 0, 300: 0} {
			if e, _ := loads.Over(load); math.Abs(e.Low-want) > 1e-5 && first == 0 || math.Abs(*e.Smooth-want) > 1e-5 || math.Abs(*e.Uniform-want) > 1e-5 {
				t.Errorf("%v h below, over %v kg: got %v, %v, %v h, want %v h", first, load, e.Low, *e.Uniform, *e.Smooth, want)
			}
		}
	}
}

// No two estimates within one band are more than 2/(3·√3) of its hours apart.
func TestMostApartIsBounded(t *testing.T) {
	rng := rand.New(rand.NewPCG(31, 37))
	var worst float64
	for range 500 {
		v := randomInterval(rng)
		var most float64
		for _, b := range v.Bands {
			most = max(most, float64(b.Hours))
		}
		if _, apart := capacity.NewLoads([]record.Interval{v}).MostApart(); most > 0 {
			worst = max(worst, apart/most)
		}
	}
	if limit := 2 / (3 * math.Sqrt(3)); worst > limit || worst < 0.2 {
		t.Errorf("got %v of the hours apart, want at most %v, and cases that come near it", worst, limit)
	}
}

// Against loads that are known: invented crews of one to three men with tools,
// and an empty platform between. The smooth estimate is nearer by half at
// least, in every set of bands; the uniform one overstates.
func TestEstimatesAgainstKnownLoads(t *testing.T) {
	rng := rand.New(rand.NewPCG(7, 8))
	for _, edges := range [][]float64{{0, 80, 160, 240, 320, 400}, {0, 55, 130, 230, 300, 400}, {0, 120, 240, 360}, {0, 100, 200, 230, 260, 350}} {
		var n, uniform, smooth, bias float64
		for range 25 {
			known := crewLoads(rng, 3000)
			loads := capacity.NewLoads([]record.Interval{counted(known, edges)})
			for _, load := range []float64{240, 252, 264, 276, 288, 300, 324, 360} {
				e, _ := loads.Over(record.Kilogram(load))
				if e.Low == e.High {
					continue
				}
				truth := float64(len(known) - sort.SearchFloat64s(known, load))
				n++
				uniform += math.Abs(*e.Uniform - truth)
				smooth += math.Abs(*e.Smooth - truth)
				bias += *e.Uniform - truth
			}
		}
		t.Logf("bands %v: off by %.1f h uniform, %.1f h smooth, of 3000 h", edges, uniform/n, smooth/n)
		if smooth > uniform/2 || bias <= 0 {
			t.Errorf("bands %v: got %.1f h off smooth, %.1f h uniform (bias %.1f), want half as much, uniform overstating", edges, smooth/n, uniform/n, bias/n)
		}
	}
}

// crewLoads makes n invented loads in order, one for each hour.
func crewLoads(rng *rand.Rand, n int) []float64 {
	second, third, tools, empty := rng.Float64(), 0.3*rng.Float64(), 10+60*rng.Float64(), 0.3*rng.Float64()
	loads := make([]float64, n)
	for i := range loads {
		if rng.Float64() < empty {
			continue
		}
		people := 1
		if rng.Float64() < second {
			people++
			if rng.Float64() < third {
				people++
			}
		}
		for range people {
			loads[i] += manOf(rng)
		}
		loads[i] += rng.ExpFloat64() * tools
	}
	slices.Sort(loads)
	return loads
}

// manMasses are masses at even shares of men.
var manMasses = func() (out []float64) {
	for i := range 1000 {
		kg, _ := bodymass.Men().Quantile((float64(i) + 0.5) / 1000)
		out = append(out, kg)
	}
	return out
}()

func manOf(rng *rand.Rand) float64 { return manMasses[rng.IntN(len(manMasses))] }

// counted counts loads in bands, the last one open, closed by the highest load.
func counted(loads, edges []float64) record.Interval {
	v := record.Interval{Ceiling: kg(loads[len(loads)-1])}
	for i, e := range edges {
		b := record.Band{From: record.Kilogram(e)}
		end := len(loads)
		if i+1 < len(edges) {
			b.To = kg(edges[i+1])
			end = sort.SearchFloat64s(loads, edges[i+1])
		}
		b.Hours = record.Hour(end - sort.SearchFloat64s(loads, e))
		v.Bands = append(v.Bands, b)
	}
	return v
}

// By hand: of 100 h, 1 h lies from 300 to 400 kg and 9 h from 200 to 300 kg.
func TestExceededFor(t *testing.T) {
	bands := []record.Band{{From: 0, To: kg(200), Hours: 90}, {From: 200, To: kg(300), Hours: 9}, {From: 300, To: kg(400), Hours: 1}}
	loads := capacity.NewLoads([]record.Interval{{Bands: bands}})
	for share, want := range map[float64][3]float64{
		0:     {300, 400, 400},
		0.005: {300, 350, 400}, // half of the 1 h
		0.01:  {300, 300, 400},
		0.05:  {200, 300 - 100*4.0/9, 300}, // 4 of the 9 h
		1:     {0, 0, 200},
	} {
		e, f := loads.ExceededFor(share)
		if f != nil || e.Low != want[0] || math.Abs(*e.Uniform-want[1]) > 1e-6 || *e.High != want[2] {
			t.Errorf("%v: got %v, %v, %v kg, %+v, want %v", share, e.Low, *e.Uniform, *e.High, f, want)
		}
	}
	loads = capacity.NewLoads([]record.Interval{{Bands: []record.Band{{From: 0, To: kg(200), Hours: 90}, {From: 200, Hours: 10}}}})
	if e, _ := loads.ExceededFor(0.05); e.Low != 200 || e.High != nil || e.Uniform != nil || e.Smooth != nil {
		t.Errorf("in an open band: got %+v, want at least 200 kg and nothing else", e)
	}
	if e, _ := loads.ExceededFor(0.2); e.Low != 0 || *e.High != 200 || *e.Smooth < 0 || *e.Smooth > 200 {
		t.Errorf("below an open band: got %+v, want 0 to 200 kg", e)
	}
}

// Whatever the placement, the load that it exceeds for a share of the hours
// lies between the bounds; hours at the edges attain them.
func TestExceededForIsExact(t *testing.T) {
	rng := rand.New(rand.NewPCG(41, 43))
	for range 500 {
		intervals := []record.Interval{randomInterval(rng), randomInterval(rng)}
		loads, segments := capacity.NewLoads(intervals), capacity.Segments(intervals)
		if loads.Hours() == 0 {
			continue
		}
		share := rng.Float64()
		e, f := loads.ExceededFor(share)
		if f != nil {
			t.Fatal(f.Message)
		}
		at := func(load func(record.Segment) float64) float64 {
			return exceeded(segments, share*loads.Hours(), load)
		}
		some := at(func(s record.Segment) float64 { x, _ := place(rng, s); return x })
		low := at(func(s record.Segment) float64 { return float64(s.From) })
		if some < e.Low-1e-6 || e.High != nil && some > *e.High+1e-6 || low != e.Low {
			t.Fatalf("%v: got %+v, want it to hold %v and start at %v kg", segments, e, some, low)
		}
		if e.High == nil {
			continue
		}
		high := at(func(s record.Segment) float64 {
			if !s.Bounded {
				return 1e6
			}
			return float64(s.To)
		})
		if high != *e.High || *e.Uniform < e.Low-1e-6 || *e.Uniform > high+1e-6 || *e.Smooth < e.Low-1e-6 || *e.Smooth > high+1e-6 {
			t.Fatalf("%v: got %+v, want a high of %v kg and estimates between", segments, e, high)
		}
	}
}

// exceeded returns the load down from which the given hours lie.
func exceeded(segments []record.Segment, hours float64, load func(record.Segment) float64) float64 {
	type lump struct{ at, hours float64 }
	var lumps []lump
	for _, s := range segments {
		lumps = append(lumps, lump{load(s), float64(s.Hours)})
	}
	sort.Slice(lumps, func(i, j int) bool { return lumps[i].at > lumps[j].at })
	for _, l := range lumps {
		if hours -= l.hours; hours < 0 {
			return l.at
		}
	}
	return lumps[len(lumps)-1].at
}

func BenchmarkOver(b *testing.B) {
	rng := rand.New(rand.NewPCG(1, 1))
	loads := capacity.NewLoads([]record.Interval{counted(crewLoads(rng, 3000), []float64{0, 55, 130, 230, 300, 400})})
	for b.Loop() {
		loads.Over(276)
	}
}

func BenchmarkExceededFor(b *testing.B) {
	rng := rand.New(rand.NewPCG(1, 1))
	loads := capacity.NewLoads([]record.Interval{counted(crewLoads(rng, 3000), []float64{0, 55, 130, 230, 300, 400})})
	for b.Loop() {
		loads.ExceededFor(0.01)
	}
}

// Whatever bands and peak: bounds in order, estimates within, and no number
// that means nothing.
func FuzzLoads(f *testing.F) {
	f.Add(0.0, 120.0, 5.0, 240.0, 2.0, 300.0, 250.0, 0.05)
	f.Add(0.0, 0.0, 1.0, 0.0, 1.0, 0.0, 0.0, 0.0)
	f.Add(-1.0, math.NaN(), 1e308, math.Inf(1), 3.0, 1e-300, 1e5, 1.0)
	f.Fuzz(func(t *testing.T, from, mid, h1, to, h2, peak, load, share float64) {
		bands := []record.Band{{From: record.Kilogram(from), To: kg(mid), Hours: record.Hour(h1)}, {From: record.Kilogram(mid), To: kg(to), Hours: record.Hour(h2)}, {From: record.Kilogram(to), Hours: record.Hour(h2)}}
		c := &record.Case{Readings: []record.Reading{{Bands: bands, Peak: kg(peak)}}}
		loads := capacity.NewLoads(record.Lay(c).Life())
		grain := 1e-9 * (1 + loads.Hours())
		if e, finding := loads.Over(record.Kilogram(load)); finding == nil {
			if !(e.Low >= 0 && e.Low <= e.High+grain && e.High <= loads.Hours()+grain) {
				t.Errorf("got %+v of %v h, want bounds in order", e, loads.Hours())
			}
			if least, most, ok := e.Estimate(); ok && !(least >= e.Low && most <= e.High) {
				t.Errorf("got estimates %v and %v, want them between %v and %v h", least, most, e.Low, e.High)
			}
		}
		if e, finding := loads.ExceededFor(share); finding == nil && e.High != nil {
			slack := 1e-9 * (1 + *e.High)
			for _, x := range []float64{*e.Uniform, *e.Smooth} {
				if !(x >= e.Low-slack && x <= *e.High+slack) {
					t.Errorf("got %v kg, want it between %v and %v kg", x, e.Low, *e.High)
				}
			}
		}
	})
}
