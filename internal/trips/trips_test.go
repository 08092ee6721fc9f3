package trips_test

import (
	"math"
	"os"
	"strings"
	"testing"
	"time"

	"ratchetmark/internal/intake"
	"ratchetmark/internal/record"
	"ratchetmark/internal/trips"
)

func at(text string) time.Time {
	t, err := time.Parse("2006-01-02 15:04", text)
	if err != nil {
		panic(err)
	}
	return t
}

func reading(when string, peak record.Kilogram) record.Reading {
	return record.Reading{At: at(when), Peak: &peak}
}

// trip is one trip on 10 June from 8 to 11, with readings before and after.
func trip() *record.Case {
	return &record.Case{
		Machine:  record.Machine{ID: "T", RatedLoad: record.Of(record.Kilogram(230))},
		Readings: []record.Reading{reading("2025-06-01 08:00", 200), reading("2025-06-10 07:50", 210), reading("2025-06-10 11:20", 640)},
		Custody: []record.Custody{
			{From: at("2025-06-02 08:00"), To: at("2025-06-09 08:00"), Holder: record.Hire, Who: "hirer"},
			{From: at("2025-06-10 08:00"), To: at("2025-06-10 11:00"), Holder: record.Transit, Who: "haulier A, crew 2"},
		},
	}
}

func TestBracketedTrip(t *testing.T) {
	all := trips.Of(record.Lay(trip()))
	if len(all) != 1 || !all[0].Bracketed || !all[0].Rose || all[0].Peak != 640 || !all[0].Over || all[0].Haulier != "haulier A" || all[0].Crew != "crew 2" {
		t.Errorf("got %+v, want one trip that raised the peak to 640 kg", all)
	}
}

// A trip counts only where readings stand around it, and it is said why not.
func TestNotBracketed(t *testing.T) {
	for name, v := range map[string]struct {
		change func(c *record.Case)
		why    string
	}{
		"no reading after":  {func(c *record.Case) { c.Readings = c.Readings[:2] }, "no reading with a date was taken after it"},
		"no reading before": {func(c *record.Case) { c.Readings = c.Readings[2:] }, "no reading was taken before it"},
		"hire between":      {func(c *record.Case) { c.Readings = []record.Reading{c.Readings[0], c.Readings[2]} }, "time on hire"},
		"another trip between": {func(c *record.Case) {
			c.Readings = []record.Reading{c.Readings[0], c.Readings[2]}
			c.Custody[0].Holder = record.Transit
			c.Custody[0].From = at("2025-06-09 06:00")
		}, "another trip"},
		"days between":   {func(c *record.Case) { c.Readings[1].At = at("2025-06-01 09:00"); c.Custody = c.Custody[1:] }, "more than two days"},
		"ends too early": {func(c *record.Case) { c.Readings[2].At = at("2025-06-10 10:00") }, "no reading was taken after it"},
		"no peak":        {func(c *record.Case) { c.Readings[2].Peak = nil; c.Readings[2].Bands = nil }, "has no peak"},
		"no peak before": {func(c *record.Case) { c.Readings[1].Peak = nil }, "has no peak"},
		"contested":      {func(c *record.Case) { c.Custody[0].To = at("2025-06-10 09:00") }, "something else for the same time"},
	} {
		c := trip()
		v.change(c)
		all := trips.Of(record.Lay(c))
		last := all[len(all)-1]
		if last.Bracketed || !strings.Contains(last.Why, v.why) || last.Rose {
			t.Errorf("%s: got %+v, want it not to count: %s", name, last, v.why)
		}
	}
}

// A reading taken while papers are signed stands for the end of the trip, and a
// trip that raised nothing counts as well.
func TestBracketedToo(t *testing.T) {
	c := trip()
	c.Readings[2] = reading("2025-06-10 10:45", 210)
	c.Readings = append(c.Readings, reading("2025-07-10 10:45", 300))
	if all := trips.Of(record.Lay(c)); !all[0].Bracketed || all[0].Rose {
		t.Errorf("got %+v, want it to count and to have raised nothing", all[0])
	}
}

// The demo machine with a trip that raised its peak.
func TestDemo(t *testing.T) {
	data, err := os.ReadFile("../../testdata/demo/lashed.case.json")
	if err != nil {
		t.Fatal(err)
	}
	batch, err := intake.ReadBytes("lashed", data)
	if err != nil {
		t.Fatal(err)
	}
	all := trips.Of(record.Lay(&batch.Records[0].Case))
	total := trips.Total(all)
	if len(all) != 8 || total.Raised != 1 || total.Trips < 1 || total.Trips+total.Unread != 8 {
		t.Fatalf("got %d trips, %+v, want 8 with one that raised the peak", len(all), total)
	}
	for _, g := range trips.ByHaulier(all) {
		if (g.Haulier == "haulier C") != (g.Rate.Raised == 1) || g.Haulier == "haulier C" && g.Peaks[0].Peak != 812 {
			t.Errorf("got %+v, want haulier C's trip to have raised it to 812 kg", g)
		}
	}
}

// Exact intervals as tables of the Poisson distribution give them (Garwood 1936
// and later handbooks; from memory): 0: 0 to 3.689; 1: 0.025 to 5.572; 2: 0.242
// to 7.225; 5: 1.623 to 11.668; 10: 4.795 to 18.390; 100: 81.36 to 121.63.
func TestPoisson(t *testing.T) {
	for k, want := range map[int][2]float64{0: {0, 3.689}, 1: {0.0253, 5.572}, 2: {0.2422, 7.225}, 5: {1.623, 11.668}, 10: {4.795, 18.39}, 100: {81.36, 121.63}} {
		low, high := trips.Poisson(k)
		if math.Abs(low-want[0]) > 0.005 || math.Abs(high-want[1]) > 0.005 {
			t.Errorf("%d: got %v to %v, want %v", k, low, high, want)
		}
	}
	last := [2]float64{-1, -1}
	for k := range 300 {
		low, high := trips.Poisson(k)
		if low <= last[0] && k > 1 || high <= last[1] || low > float64(k) || high < float64(k) {
			t.Fatalf("%d: got %v to %v after %v, want both to rise around it", k, low, high, last)
		}
		last = [2]float64{low, high}
	}
}

// many makes trips of a haulier, the first of which raised the peak.
func many(haulier string, n, raised int, from string) (out []trips.Trip) {
	for i := range n {
		out = append(out, trips.Trip{Haulier: haulier, From: at(from).AddDate(0, 0, i), Bracketed: true, Rose: i < raised, Peak: 500})
	}
	return out
}

// Two bad trips are not a trend; twenty of twenty-five against none of fifty are.
func TestBeforeAndAfter(t *testing.T) {
	day := at("2025-06-01 00:00")
	few := append(many("A", 5, 2, "2025-01-01 08:00"), many("A", 5, 0, "2025-07-01 08:00")...)
	before, after := trips.Around(few, day)
	if before.Apart(after) || before.Raised != 2 || after.Raised != 0 || !strings.Contains(trips.Compared(before, after), "do not show") {
		t.Errorf("few: got %+v and %+v, want them not told apart", before, after)
	}
	lots := append(many("A", 25, 20, "2025-01-01 08:00"), many("A", 50, 0, "2025-07-01 08:00")...)
	if before, after = trips.Around(lots, day); !before.Apart(after) || !strings.Contains(trips.Compared(before, after), "changed") {
		t.Errorf("lots: got %+v and %+v, want them told apart", before, after)
	}
	if before, after = trips.Around(few, at("2024-01-01 00:00")); !strings.Contains(trips.Compared(before, after), "nothing to compare") {
		t.Errorf("all after: got %q", trips.Compared(before, after))
	}
}

func TestGroups(t *testing.T) {
	all := append(many("B", 2, 1, "2025-01-01 08:00"), many("A", 3, 2, "2025-01-01 09:00")...)
	all = append(all, trips.Trip{Haulier: "A", Crew: "crew 1", From: at("2025-03-01 08:00")}, trips.Trip{})
	got := ""
	for _, g := range trips.ByHaulier(all) {
		got += g.Name() + ": " + g.Rate.Words() + "\n"
	}
	want := `A: 2 of 3 trips with readings raised the peak: between 8 and 100 of 100 such trips, by so few
B: 1 of 2 trips with readings raised the peak: between 1 and 100 of 100 such trips, by so few
haulier not named: no trip has readings before and after; one further trip has no readings around it
A, crew 1: no trip has readings before and after; one further trip has no readings around it
`
	if got != want {
		t.Errorf("got\n%swant\n%s", got, want)
	}
	for _, g := range trips.ByHaulier(all) {
		if g.Haulier == "A" && g.Crew == "" && (len(g.Peaks) != 2 || !g.Peaks[0].From.After(g.Peaks[1].From)) {
			t.Errorf("got %v, want the newest first", g.Peaks)
		}
	}
}
