package record_test

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"ratchetmark/internal/record"
)

// Rules pass over readings in which they can find nothing. Whatever the bands,
// what they find is what a plain look at each band and each pair finds.
func TestRulesMissNothing(t *testing.T) {
	random := rand.New(rand.NewPCG(3, 5))
	edges := []record.Kilogram{0, 80, 160, 230, 300, -1, 100_001, record.Kilogram(math.NaN()), record.Kilogram(math.Inf(1))}
	seen := map[string]int{}
	for range 60_000 {
		c := sound()
		bands := c.Readings[1].Bands
		for range random.IntN(4) {
			b := &bands[random.IntN(len(bands))]
			switch random.IntN(5) {
			case 0:
				b.From = edges[random.IntN(len(edges))]
			case 1:
				b.To = record.Of(edges[random.IntN(len(edges))])
			case 2:
				b.To = nil
			case 3:
				b.Hours = record.Hour(edges[random.IntN(len(edges))])
			case 4:
				o := random.IntN(len(bands))
				*b, bands[o] = bands[o], *b
			}
		}
		want := plainLook(bands)
		var got []string
		for _, f := range record.Check(c) {
			if _, ok := want[f.Code]; (ok || slices.Contains(looked, f.Code)) && len(f.Path) > 9 && f.Path[:10] == "readings/2" && !slices.Contains(got, f.Code) {
				got = append(got, f.Code)
				seen[f.Code]++
			}
		}
		for _, code := range looked {
			if slices.Contains(got, code) != want[code] {
				t.Fatalf("%+v: got %v of %s, want %v", bands, !want[code], code, want[code])
			}
		}
	}
	for _, code := range looked {
		if seen[code] == 0 {
			t.Errorf("got no case of %s, want some", code)
		}
	}
}

var looked = []string{"band-reversed", "band-duplicate", "band-overlap", "band-unsorted", "value-not-a-number", "value-negative", "value-beyond-range"}

// plainLook tells what the rules of looked find in bands.
func plainLook(bands []record.Band) map[string]bool {
	out := map[string]bool{}
	number := func(x, most float64) {
		finite := !math.IsNaN(x) && !math.IsInf(x, 0)
		out["value-not-a-number"] = out["value-not-a-number"] || !finite
		out["value-negative"] = out["value-negative"] || finite && x < 0
		out["value-beyond-range"] = out["value-beyond-range"] || finite && x > most
	}
	reversed := func(b record.Band) bool { return b.To != nil && *b.To <= b.From }
	for j, b := range bands {
		number(float64(b.From), 100_000)
		number(float64(b.Hours), 200_000)
		if b.To != nil {
			number(float64(*b.To), 100_000)
		}
		out["band-reversed"] = out["band-reversed"] || reversed(b)
		out["band-unsorted"] = out["band-unsorted"] || j > 0 && b.From < bands[j-1].From
		for _, a := range bands[:j] {
			same := a.From == b.From && (a.To == nil) == (b.To == nil) && (a.To == nil || *a.To == *b.To)
			shares := (a.To == nil || b.From < *a.To) && (b.To == nil || a.From < *b.To)
			out["band-duplicate"] = out["band-duplicate"] || same
			out["band-overlap"] = out["band-overlap"] || !same && shares && !reversed(a) && !reversed(b)
		}
	}
	return out
}
