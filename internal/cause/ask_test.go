package cause

import (
	"math"
	"slices"
	"testing"

	"ratchetmark/internal/record"
)

// asked returns what is asked for of the n-th piece, best first.
func asked(c *record.Case, n int) []Ask { return Weigh(record.Lay(c))[n].AskFor }

func records(asks []Ask) []string {
	var out []string
	for _, a := range asks {
		out = append(out, a.Record)
	}
	return out
}

const (
	zeroCheck = "zero check with the platform empty, and with a known mass on it"
	custody   = "complete custody: who had the machine when, and when it was on a truck"
	bracket   = "readings taken before loading and after unloading"
	tieDown   = "the tie-down that was used: photo, delivery note, the crew's word"
	eventList = "the machine's own event list: alarms, power on and off"
	movingH   = "the counter of moving hours at both readings"
	peakTime  = "when the peak was set"
)

// A record is asked for where the case lacks it and it tells the open causes
// apart. Of k causes it tells j with equal weight: H(j/k) bits.
func TestAskFor(t *testing.T) {
	hired := func() *record.Case { // on hire the whole time: nothing is ruled out of the peak
		c := trip()
		c.Custody[1].Holder = record.Hire
		return c
	}
	half, quarter := 1.0, 0.8112781244591328
	for _, v := range []struct {
		name   string
		change func(c *record.Case)
		want   []string
		bits   []float64
	}{
		{"on hire", func(c *record.Case) {}, []string{bracket, eventList, peakTime, zeroCheck, tieDown}, []float64{half, half, half, quarter, quarter}},
		{"with events", func(c *record.Case) {
			c.Events = []record.Event{{At: at("2025-06-11 08:00"), Kind: record.PowerOn}}
		}, []string{bracket, peakTime, zeroCheck, tieDown}, []float64{half, half, quarter, quarter}},
		{"with the time of the peak", func(c *record.Case) { c.Readings[1].PeakAt = record.Of(at("2025-06-11 08:00")) },
			[]string{bracket, eventList, zeroCheck, tieDown}, []float64{half, half, quarter, quarter}},
		{"without custody", func(c *record.Case) { c.Custody = nil },
			[]string{custody, eventList, peakTime, zeroCheck, tieDown}, []float64{half, half, half, quarter, quarter}},
		{"without moving hours", func(c *record.Case) { c.Readings[1].Moving = nil },
			[]string{bracket, eventList, peakTime, zeroCheck, tieDown, movingH}, []float64{half, half, half, quarter, quarter, quarter}},
	} {
		c := hired()
		v.change(c)
		got := asked(c, 0)
		if !slices.Equal(records(got), v.want) {
			t.Errorf("%s: got %q, want %q", v.name, records(got), v.want)
			continue
		}
		for i := range got {
			if math.Abs(got[i].Bits-v.bits[i]) > 1e-12 {
				t.Errorf("%s, %s: got %v bit, want %v", v.name, got[i].Record, got[i].Bits, v.bits[i])
			}
		}
	}
}

// With tie-down and shock left, only what tells these two apart is asked for.
func TestAskForWhatTellsTheOpenCausesApart(t *testing.T) {
	got := asked(trip(), 0)
	if want := []string{tieDown, eventList}; !slices.Equal(records(got), want) || got[0].Bits != 1 {
		t.Errorf("got %v, want %q with 1 bit", got, want)
	}
	if got := asked(trip(), 1); len(got) != 0 {
		t.Errorf("with a verdict: got %v, want nothing", got)
	}
}
