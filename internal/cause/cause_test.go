package cause_test

import (
	"fmt"
	"math/rand/v2"
	"os"
	"slices"
	"strings"
	"testing"
	"time"

	"ratchetmark/internal/cause"
	"ratchetmark/internal/intake"
	"ratchetmark/internal/record"
)

// weigh reads a demo file and returns all that is concluded, one line a piece:
// interval, piece, loads, hours, causes left open, verdict.
func weigh(t *testing.T, name string) []string {
	t.Helper()
	data, err := os.ReadFile("../../testdata/demo/" + name + ".case.json")
	if err != nil {
		t.Fatal(err)
	}
	batch, err := intake.ReadBytes(name, data)
	if err != nil {
		t.Fatal(err)
	}
	var out []string
	for _, o := range cause.Weigh(record.Lay(&batch.Records[0].Case)) {
		var open []string
		for _, c := range o.Open {
			open = append(open, string(c))
		}
		hours := ""
		if o.What == cause.Band {
			hours = fmt.Sprintf(" %v..%v h", o.Low, o.High)
		}
		out = append(out, fmt.Sprintf("%d %s from %v kg%s: %s = %s", o.Interval, o.What, o.From, hours, strings.Join(open, " "), o.Verdict))
	}
	return out
}

// The demo machines are invented with their truth, which stands in their notes.
func TestDemoMachines(t *testing.T) {
	const all = "worked lashed shock drift"
	for name, want := range map[string][]string{
		"clean": nil,
		"lashed": {
			"3 peak from 812 kg: lashed shock = undecided",
			"3 band from 640 kg 1.9..1.9 h: lashed = lashed",
		},
		"drifted": {
			"3 peak from 341 kg: " + all + " = undecided",
			"3 band from 250 kg 19.9..19.9 h: worked lashed drift = undecided",
			"3 band from 320 kg 3.6..3.6 h: worked lashed drift = undecided",
			"4 peak from 346 kg: " + all + " = undecided",
			"4 band from 250 kg 14.1..14.1 h: worked lashed drift = undecided",
			"4 band from 320 kg 2.1..2.1 h: worked lashed drift = undecided",
			"5 band from 250 kg 14.1..14.1 h: worked lashed drift = undecided",
			"5 band from 320 kg 2.9..2.9 h: worked lashed drift = undecided",
		},
		"worked": {
			"4 peak from 299 kg: " + all + " = undecided",
			"4 band from 240 kg 10.8..10.8 h: worked lashed drift = undecided",
			"4 band from 290 kg 0.7..0.7 h: worked lashed drift = undecided",
		},
		"mixed": {
			"2 peak from 262 kg: " + all + " = undecided",
			"2 band from 180 kg 0..23.5 h: " + all + " = undecided",
			"2 band from 240 kg 3.6..3.6 h: worked lashed drift = undecided",
			"3 peak from 674 kg: " + all + " = undecided",
			"3 band from 180 kg 0..7.1 h: " + all + " = undecided",
			"3 band from 520 kg 0.6..0.6 h: worked lashed drift = undecided",
			"4 band from 180 kg 0..8.2 h: " + all + " = undecided",
			"4 band from 240 kg 0.9..0.9 h: worked lashed drift = undecided",
			"5 band from 180 kg 0..10.8 h: " + all + " = undecided",
		},
	} {
		if got := weigh(t, name); !slices.Equal(got, want) {
			t.Errorf("%s: got\n\t%s\nwant\n\t%s", name, strings.Join(got, "\n\t"), strings.Join(want, "\n\t"))
		}
	}
}

// Accusing a user wrongly is the worst error: no record that this version can
// be given ends with "worked", nor excuses an overload as "drift". And whatever is concluded holds together.
func TestNothingIsEverWorked(t *testing.T) {
	rng := rand.New(rand.NewPCG(2026, 11))
	seen := map[cause.Cause]int{}
	for range 30_000 {
		c := randomCase(rng)
		for _, o := range cause.Weigh(record.Lay(c)) {
			seen[o.Verdict]++
			if o.Verdict == cause.Worked || o.Verdict == cause.Drift {
				t.Fatalf("got worked or drift, want never: %+v of %+v", o, c)
			}
			consistent(t, o)
		}
	}
	for _, c := range []cause.Cause{cause.Lashed, cause.Undecided} {
		if seen[c] < 10 {
			t.Errorf("got %d pieces with %s, want enough of each to mean something", seen[c], c)
		}
	}
}

// consistent checks one opinion against itself.
func consistent(t *testing.T, o cause.Opinion) {
	t.Helper()
	switch {
	case len(o.Open) == 0:
		t.Fatalf("got no open cause, want at least one: %+v", o)
	case o.Verdict != cause.Undecided && !slices.Equal(o.Open, []cause.Cause{o.Verdict}):
		t.Fatalf("got verdict %s with %v open, want it alone", o.Verdict, o.Open)
	case o.Verdict != cause.Undecided && len(o.AskFor) > 0:
		t.Fatalf("got a verdict and records to ask for: %+v", o)
	case o.What == cause.Band && !(0 <= o.Low && o.Low <= o.Estimate && o.Estimate <= o.High && o.High > 0):
		t.Fatalf("got %v, %v, %v h, want them in order: %+v", o.Low, o.Estimate, o.High, o)
	}
	for i, a := range o.AskFor {
		if a.Bits <= 0 || a.Bits > 1 || i > 1 && a.Bits > o.AskFor[i-1].Bits {
			t.Fatalf("got %v, want gains in (0, 1], in falling order but for a zero check that may come first", o.AskFor)
		}
	}
	for _, r := range o.Reasons {
		if r.Text == "" || r.RestsOn == "" {
			t.Fatalf("got reason %+v, want its words and what it rests on", r)
		}
	}
}

// randomCase makes a case of a few readings, custody entries and events that
// meet each other often.
func randomCase(rng *rand.Rand) *record.Case {
	start := time.Date(2025, 6, 11, 6, 0, 0, 0, time.UTC)
	clock := func(steps int) time.Time { return start.Add(time.Duration(steps) * 6 * time.Hour) }
	kg := func(x float64) *record.Kilogram { return record.Of(record.Kilogram(x)) }
	c := &record.Case{Format: record.Format, Machine: record.Machine{RatedLoad: kg(float64(150 + rng.IntN(120)))}}
	edges := []float64{0, 60, 130, 230, 310}
	hours := make([]float64, len(edges))
	moving, peak := 0.0, 100.0
	for i := range 1 + rng.IntN(4) {
		r := record.Reading{At: clock(i * 8)}
		if rng.IntN(30) == 0 {
			r.At = time.Time{}
		}
		for j := range edges {
			if rng.IntN(2) == 0 {
				hours[j] += float64(rng.IntN(40)) * 0.3
			}
			b := record.Band{From: record.Kilogram(edges[j]), Hours: record.Hour(hours[j])}
			if j+1 < len(edges) {
				b.To = kg(edges[j+1])
			}
			r.Bands = append(r.Bands, b)
		}
		moving += float64(rng.IntN(12))
		if rng.IntN(5) > 0 {
			r.Moving = record.Of(record.Hour(moving))
		}
		if rng.IntN(3) == 0 {
			peak += float64(rng.IntN(400))
		}
		if rng.IntN(6) > 0 {
			r.Peak = kg(peak - float64(rng.IntN(20)/19*50)) // sometimes it fell
		}
		if rng.IntN(3) == 0 {
			r.PeakAt = record.Of(clock(rng.IntN(32)))
		}
		if rng.IntN(25) == 0 {
			r.Bands = nil
		}
		c.Readings = append(c.Readings, r)
	}
	holders := []record.Holder{record.Transit, record.Transit, record.Hire, record.Depot, record.Workshop, "garage"}
	for from := 0; from < 32; {
		to := from + 1 + rng.IntN(16)
		u := record.Custody{From: clock(from), To: clock(to), Holder: holders[rng.IntN(len(holders))]}
		if rng.IntN(8) > 0 {
			c.Custody = append(c.Custody, u)
		}
		from = to - rng.IntN(12)/11
	}
	return c
}
