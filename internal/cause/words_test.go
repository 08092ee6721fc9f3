package cause_test

import (
	"testing"

	"ratchetmark/internal/cause"
	"ratchetmark/internal/record"
)

// A load just over or under the rated one never reads as the rated one.
func TestLoadsNearTheRatedLoad(t *testing.T) {
	for share, want := range map[float64]string{
		1: "100 %", 3.534: "353 %", 1.0043: "100.4 %", 1.0004: "just over 100 %", 0.996: "99.6 %", 0.9998: "just under 100 %", 1.006: "101 %", 0.5: "50 %",
	} {
		if got := cause.SharePercent(share); got != want {
			t.Errorf("%v: got %q, want %q", share, got, want)
		}
	}
	for load, want := range map[record.Kilogram]string{
		812: "812 kg", 231: "231 kg", 230: "230 kg", 230.3: "230.3 kg", 230.02: "just over 230 kg", 229.8: "230 kg", 229: "229 kg",
	} {
		if got := cause.LoadOver(load, 230); got != want {
			t.Errorf("%v kg: got %q, want %q", float64(load), got, want)
		}
	}
}

// Every cause says what naming it asks for.
func TestAsked(t *testing.T) {
	for _, c := range cause.All {
		if ratio, weight := cause.Asked(c); ratio < 1 || weight <= 0.5 || weight >= 1 {
			t.Errorf("%s: got a ratio of %v and a weight of %v, want at least 1 and more than half", c, ratio, weight)
		}
	}
}
