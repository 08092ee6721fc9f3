package record_test

import (
	"encoding/json"
	"math"
	"slices"
	"strings"
	"testing"
	"time"

	"ratchetmark/internal/record"
)

// vectors spoil the sound case in one way each. expect is the closed list of
// what is found: a rule alone, and where.
var vectors = []struct {
	rule   string
	spoil  func(c *record.Case)
	expect []string // where; each is one finding of the rule
}{
	{"format-unknown", func(c *record.Case) { c.Format = "something else" }, []string{"format"}},
	{"format-unknown", func(c *record.Case) { c.Format = "" }, []string{"format"}},
	{"rated-load-missing", func(c *record.Case) { c.Machine.RatedLoad = nil }, []string{"machine, rated load"}},
	{"rated-load-missing", func(c *record.Case) { c.Machine.RatedLoad = kg(0) }, []string{"machine, rated load"}},
	{"rated-load-missing", func(c *record.Case) { c.Machine.RatedLoad = kg(1e-300) }, []string{"machine, rated load"}},
	{"persons-out-of-range", func(c *record.Case) { c.Machine.Persons = record.Of(0) }, []string{"machine, persons"}},
	{"persons-out-of-range", func(c *record.Case) { c.Machine.Persons = record.Of(21) }, []string{"machine, persons"}},
	{"kind-unknown", func(c *record.Case) { c.Machine.Kind = "crane" }, []string{"machine, kind"}},
	{"load-sensing-below-rated", func(c *record.Case) { c.Machine.LoadSensing = kg(239) }, []string{"machine, load sensing"}},

	{"value-not-a-number", func(c *record.Case) { c.Readings[1].Peak = kg(math.NaN()) }, []string{"reading 2, peak"}},
	{"value-not-a-number", func(c *record.Case) { c.Readings[1].Bands[4].Hours = record.Hour(math.NaN()) }, []string{"reading 2, band 5, hours"}},
	{"value-not-a-number", func(c *record.Case) { c.Machine.Mass = kg(math.Inf(1)) }, []string{"machine, mass"}},
	{"value-negative", func(c *record.Case) { c.Readings[0].Bands[3].Hours = -0.5 }, []string{"reading 1, band 4, hours"}},
	{"value-negative", func(c *record.Case) { c.Machine.Mass = kg(-1) }, []string{"machine, mass"}},
	{"value-negative", func(c *record.Case) { c.Daily[0].Moving = hour(-1) }, []string{"day 1, moving hours"}},
	{"value-beyond-range", func(c *record.Case) { c.Readings[1].Bands[2].Hours = 1e308 }, []string{"reading 2, band 3, hours"}},
	{"value-beyond-range", func(c *record.Case) { c.Events[0].Load = kg(100_001) }, []string{"event 1, load"}},
	{"value-beyond-range", func(c *record.Case) { c.Readings[1].Peak = kg(1e308) }, []string{"reading 2, peak"}},

	{"band-reversed", func(c *record.Case) { edit(c, func(b []record.Band) { b[1].From, b[1].To = 160, kg(80) }) }, []string{"reading 1, band 2", "reading 2, band 2"}},
	{"band-reversed", func(c *record.Case) { edit(c, func(b []record.Band) { b[1].From, b[1].To = 80, kg(80) }) }, []string{"reading 1, band 2", "reading 2, band 2"}},
	{"band-duplicate", func(c *record.Case) { insert(c, 2, record.Band{From: 80, To: kg(160), Hours: 30}) }, []string{"reading 1, band 3", "reading 2, band 3"}},
	{"band-overlap", func(c *record.Case) { edit(c, func(b []record.Band) { b[1].From = 70 }) }, []string{"reading 1, band 2", "reading 2, band 2"}},
	{"band-overlap", func(c *record.Case) { edit(c, func(b []record.Band) { b[3].To = nil }) }, []string{"reading 1, band 5", "reading 2, band 5"}},
	{"band-gap", func(c *record.Case) { edit(c, func(b []record.Band) { b[1].From = 95 }) }, []string{"reading 1, band 2", "reading 2, band 2"}},
	{"band-unsorted", func(c *record.Case) { edit(c, func(b []record.Band) { b[1], b[2] = b[2], b[1] }) }, []string{"reading 1, band 3", "reading 2, band 3"}},
	{"bands-start-above-zero", func(c *record.Case) { edit(c, func(b []record.Band) { b[0].From = 5 }) }, []string{"reading 1, bands", "reading 2, bands"}},

	{"reading-missing", func(c *record.Case) { c.Readings = nil }, []string{"readings"}},
	{"reading-empty", func(c *record.Case) { c.Readings = []record.Reading{{At: at("2026-02-02 08:10"), Powered: hour(40)}} }, []string{"reading 1"}},
	// 5 bands may be rounded by 0.05 h each, the hour meter by 0.05 h: 0.3 h in all.
	{"hours-exceed-powered", func(c *record.Case) { c.Readings[1].Powered = hour(61.69) }, []string{"reading 2, bands"}},
	{"hours-short-of-powered", func(c *record.Case) { c.Readings[1].Powered = hour(65.6) }, []string{"reading 2, bands"}}, // 95 % less 0.3 h is 62.02 h
	{"moving-exceeds-powered", func(c *record.Case) { c.Readings[1].Moving = hour(62.2) }, []string{"reading 2, moving hours"}},
	{"peak-below-occupied-band", func(c *record.Case) { c.Readings[0].Peak, c.Readings[1].Peak = kg(159), kg(159) }, []string{"reading 1, peak", "reading 2, peak"}},
	{"peak-at-limit", func(c *record.Case) {
		c.Readings = c.Readings[:1]
		c.Readings[0].Peak = record.Of(record.Kilogram(65535))
	}, []string{"reading 1, peak"}},
	{"peak-above-all-bands", func(c *record.Case) {
		edit(c, func(b []record.Band) { b[4].To = kg(330) })
		c.Readings[1].Peak = kg(335)
	}, []string{"reading 2, peak"}},
	{"peak-after-reading", func(c *record.Case) { c.Readings[1].PeakAt = record.Of(at("2026-03-02 08:11")) }, []string{"reading 2, time of the peak"}},

	{"reading-undated", func(c *record.Case) { c.Readings[1].At = at("0001-01-01 00:00") }, []string{"reading 2, time of reading"}},
	{"reading-undated", func(c *record.Case) { // alone, but custody asks for a time
		c.Readings = c.Readings[:1]
		c.Readings[0].At = at("0001-01-01 00:00")
	}, []string{"reading 1, time of reading"}},
	{"readings-out-of-order", func(c *record.Case) { c.Readings[0], c.Readings[1] = c.Readings[1], c.Readings[0] }, []string{"reading 2, time of reading"}},
	{"readings-same-time", func(c *record.Case) { c.Readings[1] = c.Readings[0] }, []string{"reading 2, time of reading"}},
	{"bands-changed", func(c *record.Case) { c.Readings[1].Bands[1].To, c.Readings[1].Bands[2].From = kg(165), 165 }, []string{"reading 2, bands"}},
	{"bands-missing", func(c *record.Case) { c.Readings[1].Bands = nil }, []string{"reading 2, bands"}},
	{"counter-backwards", func(c *record.Case) { c.Readings[1].Bands = bands(edges, 37, 12, 13, 0, 0) }, []string{"reading 2, band 2, hours"}},
	{"counter-backwards", func(c *record.Case) { c.Readings[1].Moving = hour(13.9) }, []string{"reading 2, moving hours"}},
	{"counter-backwards", func(c *record.Case) { // seen across a reading without the counter
		c.Readings = append(c.Readings, reading("2026-03-03 08:10", 62, 13.9, 228, 28, 21, 13, 0, 0))
		c.Readings[1].Moving = nil
	}, []string{"reading 3, moving hours"}},
	{"peak-fell", func(c *record.Case) { c.Readings[1].Peak = kg(220) }, []string{"reading 2, peak"}},
	{"peak-fell", func(c *record.Case) { // seen across a reading without a peak
		c.Readings = append(c.Readings, reading("2026-03-03 08:10", 62, 21.5, 220, 28, 21, 13, 0, 0))
		c.Readings[1].Peak = nil
	}, []string{"reading 3, peak"}},
	// 22 h gained may be 0.3 h less: 21.7 h have to fit into the time between.
	{"faster-than-clock", func(c *record.Case) { c.Readings[1].At = at("2026-02-03 05:51") }, []string{"reading 2"}},

	{"custody-reversed", func(c *record.Case) { c.Custody[1].To = c.Custody[1].From }, []string{"custody entry 2"}},
	{"custody-reversed", func(c *record.Case) { c.Custody[2].From = at("0001-01-01 00:00") }, []string{"custody entry 3"}},
	{"custody-overlap", func(c *record.Case) { c.Custody[1].From = at("2026-02-02 06:59") }, []string{"custody entry 2"}},
	{"holder-unknown", func(c *record.Case) { c.Custody[0].Holder = "garage" }, []string{"custody entry 1"}},
	{"event-unknown", func(c *record.Case) { c.Events[0].Kind = "door_open" }, []string{"event 1, kind"}},
	{"day-too-long", func(c *record.Case) { c.Daily[0].Powered = hour(24.1) }, []string{"day 1"}},
	{"day-too-long", func(c *record.Case) { c.Daily[0].Moving = hour(24.1) }, []string{"day 1"}},

	{"check-unknown", func(c *record.Case) { c.Checks[0].Kind = "span" }, []string{"check 1, kind"}},
	{"check-undated", func(c *record.Case) { c.Checks[1].At = time.Time{} }, []string{"check 2, time of the check"}},
	{"check-far-off", func(c *record.Case) { c.Checks[0].At = at("2062-03-02 08:15") }, []string{"check 1, time of the check"}},
	{"check-far-off", func(c *record.Case) { c.Checks[0].At = at("2025-06-01 08:15") }, []string{"check 1, time of the check"}}, // not in service yet
	{"check-nothing-shown", func(c *record.Case) { c.Checks[0].Shown = nil }, []string{"check 1, load shown"}},
	{"check-nothing-shown", func(c *record.Case) { c.Checks[0].Shown = kg(-100_001) }, []string{"check 1, load shown"}},
	{"check-nothing-shown", func(c *record.Case) { c.Checks[1].Shown = kg(math.NaN()) }, []string{"check 2, load shown"}},
	{"check-mass-unclear", func(c *record.Case) { c.Checks[0].Mass = kg(80) }, []string{"check 1, mass on the platform"}},
	{"check-mass-unclear", func(c *record.Case) { c.Checks[1].Mass = nil }, []string{"check 2, mass on the platform"}},
	{"check-mass-unclear", func(c *record.Case) { c.Checks[1].Mass = kg(-150) }, []string{"check 2, mass on the platform"}},
	{"check-mass-unclear", func(c *record.Case) { c.Checks[1].Mass = kg(math.Inf(1)) }, []string{"check 2, mass on the platform"}},
	{"check-reads-wrong", func(c *record.Case) { c.Checks[0].Shown = kg(12.1) }, []string{"check 1, load shown"}}, // over 5 % of 240 kg
	{"check-reads-wrong", func(c *record.Case) { c.Checks[0].Shown = kg(-12.1) }, []string{"check 1, load shown"}},
	{"check-reads-wrong", func(c *record.Case) { c.Checks[1].Shown = kg(60) }, []string{"check 2, load shown"}},
	{"tie-down-undated", func(c *record.Case) { c.TieDowns[0].At = time.Time{} }, []string{"tie-down 1, time of the tie-down"}},
	{"tie-down-far-off", func(c *record.Case) { c.TieDowns[0].At = at("2034-02-02 08:00") }, []string{"tie-down 1, time of the tie-down"}},
	{"tie-down-unsaid", func(c *record.Case) { c.TieDowns[0].Over = nil }, []string{"tie-down 1, over the platform"}},
	{"tie-down-source-unknown", func(c *record.Case) { c.TieDowns[0].How = "dreamt" }, []string{"tie-down 1, how it is known"}},
	{"tie-down-without-trip", func(c *record.Case) { c.TieDowns[0].At = at("2026-02-03 09:01") }, []string{"tie-down 1, time of the tie-down"}},
}

// edit changes the bands of both readings.
func edit(c *record.Case, f func([]record.Band)) {
	for i := range c.Readings {
		f(c.Readings[i].Bands)
	}
}

func insert(c *record.Case, at int, b record.Band) {
	for i := range c.Readings {
		c.Readings[i].Bands = slices.Insert(c.Readings[i].Bands, at, b)
	}
}

func TestSoundCaseHasNoFinding(t *testing.T) {
	if got := codes(sound()); len(got) > 0 {
		t.Errorf("got %v, want none", got)
	}
}

func TestRuleAlone(t *testing.T) {
	for _, v := range vectors {
		c := sound()
		v.spoil(c)
		var want []string
		for _, where := range v.expect {
			want = append(want, v.rule+" at "+where)
		}
		if got := codes(c); !slices.Equal(got, want) {
			t.Errorf("%s: got %q, want %q", v.rule, got, want)
		}
	}
}

func TestEveryRuleHasAVector(t *testing.T) {
	seen := map[string]bool{}
	for _, r := range record.Rules() {
		if seen[r.ID] {
			t.Errorf("rule %s: got it twice, want once", r.ID)
		}
		seen[r.ID] = true
		if !slices.ContainsFunc(vectors, func(v struct {
			rule   string
			spoil  func(*record.Case)
			expect []string
		}) bool {
			return v.rule == r.ID
		}) {
			t.Errorf("rule %s: got no vector, want at least one", r.ID)
		}
	}
	for _, v := range vectors {
		if !seen[v.rule] {
			t.Errorf("vector %s: got no such rule, want one", v.rule)
		}
	}
}

func TestRulesSayWhatTheyDo(t *testing.T) {
	for _, r := range record.Rules() {
		for what, text := range map[string]string{"asks": r.Asks, "effect": r.Effect, "hint": r.Hint} {
			if text == "" || strings.HasSuffix(text, ".") || strings.ToLower(text[:1]) != text[:1] {
				t.Errorf("rule %s, %s: got %q, want lower-case words without a full stop", r.ID, what, text)
			}
		}
		if !slices.Contains([]record.Severity{record.Note, record.Doubt, record.Blocking}, r.Severity) {
			t.Errorf("rule %s: got severity %q, want note, doubt or blocking", r.ID, r.Severity)
		}
	}
}

// A value at its limit is not yet a finding.
func TestRuleLimits(t *testing.T) {
	for name, change := range map[string]func(c *record.Case){
		"20 persons":                  func(c *record.Case) { c.Machine.Persons = record.Of(20) },
		"1 person":                    func(c *record.Case) { c.Machine.Persons = record.Of(1) },
		"no kind":                     func(c *record.Case) { c.Machine.Kind = "" },
		"sensing at the rated load":   func(c *record.Case) { c.Machine.LoadSensing = kg(240) },
		"load of 100 000 kg":          func(c *record.Case) { c.Events[0].Load = kg(100_000) },
		"bands 0.3 h over powered":    func(c *record.Case) { c.Readings[1].Powered = hour(61.7) },
		"bands 95 % and 0.3 h":        func(c *record.Case) { c.Readings[1].Powered = hour(65.5) },
		"moving 0.1 h over powered":   func(c *record.Case) { c.Readings[1].Moving = hour(62.1) },
		"peak at the band's edge":     func(c *record.Case) { c.Readings[0].Peak, c.Readings[1].Peak = kg(160), kg(160) },
		"peak set when it was read":   func(c *record.Case) { c.Readings[1].PeakAt = record.Of(at("2026-03-02 08:10")) },
		"22 h in 21.7 h by the clock": func(c *record.Case) { c.Readings[1].At = at("2026-02-03 05:52") },
		"a day of 24 h":               func(c *record.Case) { c.Daily[0].Powered = hour(24) },
		"a zero check that names 0":   func(c *record.Case) { c.Checks[0].Mass = kg(0) },
		"a check 5 % off":             func(c *record.Case) { c.Checks[0].Shown = kg(-12) },
		"a check four years later":    func(c *record.Case) { c.Checks[0].At = at("2030-03-01 08:15") },
		"a photo a day after":         func(c *record.Case) { c.TieDowns[0].At = at("2026-02-03 09:00") },
		"a tie-down without custody":  func(c *record.Case) { c.Custody = nil },
		"undated and alone": func(c *record.Case) {
			c.Readings, c.Custody = c.Readings[:1], nil
			c.Readings[0].At = at("0001-01-01 00:00")
		},
		"a peak alone": func(c *record.Case) { c.Readings = []record.Reading{{At: at("2026-02-02 08:10"), Peak: kg(99)}} },
	} {
		c := sound()
		change(c)
		if got := codes(c); len(got) > 0 {
			t.Errorf("%s: got %v, want none", name, got)
		}
	}
}

// No rule may change the case it looks at, whatever is in it.
func TestCheckChangesNothing(t *testing.T) {
	for _, v := range vectors {
		c := sound()
		v.spoil(c)
		before := text(c)
		record.Check(c)
		record.Lay(c).Life()
		if after := text(c); after != before {
			t.Errorf("%s: got %s, want %s", v.rule, after, before)
		}
	}
}

// text writes a case whole; JSON cannot write what is not a number, so it is left out.
func text(c *record.Case) string {
	b, err := json.Marshal(c)
	if err != nil {
		return ""
	}
	return string(b)
}

func TestBlocks(t *testing.T) {
	note, doubt, blocking := record.Finding{Severity: record.Note}, record.Finding{Severity: record.Doubt}, record.Finding{Severity: record.Blocking}
	equal(t, "none", record.Blocks(nil), false)
	equal(t, "note and doubt", record.Blocks([]record.Finding{note, doubt}), false)
	equal(t, "with blocking", record.Blocks([]record.Finding{note, blocking, doubt}), true)
}
