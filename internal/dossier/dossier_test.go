package dossier_test

import (
	"bytes"
	"encoding/json"
	"io"
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"
	"unicode/utf8"

	"ratchetmark/internal/assume"
	"ratchetmark/internal/batch"
	"ratchetmark/internal/dossier"
	"ratchetmark/internal/intake"
	"ratchetmark/internal/record"
)

// assess reads a case from JSON and assesses it.
func assess(t testing.TB, text string) dossier.Dossier {
	t.Helper()
	got, err := intake.ReadBytes("x", []byte(text))
	if err != nil {
		t.Fatal(err)
	}
	return dossier.From([]batch.Batch{got})[0]
}

func written(t testing.TB, d dossier.Dossier) string {
	t.Helper()
	var out bytes.Buffer
	if err := dossier.WriteJSON(&out, &d); err != nil {
		t.Fatal(err)
	}
	if err := dossier.WriteText(&out, &d); err != nil {
		t.Fatal(err)
	}
	return out.String()
}

// The same case gives the same bytes, as often as one likes, and is not changed.
func TestSameBytes(t *testing.T) {
	for _, path := range goldenFiles {
		first := dossiers(t, path)
		for range 3 {
			for i, d := range dossiers(t, path) {
				if got, want := written(t, d), written(t, first[i]); got != want {
					t.Fatalf("%s: got\n%s\nwant\n%s", path, got, want)
				}
			}
		}
		for _, d := range first {
			before, _ := json.Marshal(d.History.Case)
			again := dossier.Assess(d.History.Case, nil, nil, nil)
			if after, _ := json.Marshal(again.History.Case); string(after) != string(before) {
				t.Errorf("%s: got the case changed by assessing it", path)
			}
		}
	}
}

const small = `{"format":"ratchetmark case 1","machine":{"id":"T","kind":"boom","rated_load_kg":240},
 "readings":[{"at":"2026-02-02T08:10:00Z","peak_kg":221,"bands":[{"from_kg":0,"to_kg":240,"hours":100},{"from_kg":240,"to_kg":null,"hours":0}]}]%s}`

func with(more string) string { return strings.Replace(small, "%s", more, 1) }

// A case's own assumptions change the figures and are named as such; one that
// is refused is a finding, and the usual one stays.
func TestOwnAssumptions(t *testing.T) {
	usual := assess(t, with(""))
	own := assess(t, with(`,"assumptions":{"design_cycles":{"low":80000,"value":80000,"high":80000}}`))
	if got, want := own.Exposure.Relative, usual.Exposure.Relative; math.Abs(got.Low-want.Low/2) > 1e-12 || math.Abs(*got.High-*want.High/2) > 1e-9 {
		t.Errorf("double budget: got %v, want half of %v", got, want)
	}
	if row := rowOf(own, assume.DesignCycles); !row.Edited || row.Value != 80_000 {
		t.Errorf("double budget: got %+v, want it edited", row)
	}
	if !strings.Contains(written(t, own), "set for this case") {
		t.Error("double budget: got no word of it in the text, want one")
	}
	for name, more := range map[string]string{
		"unordered": `{"cycles_per_hour":{"low":5,"value":4,"high":6}}`, "out of range": `{"cycles_per_hour":{"low":0,"value":0,"high":0}}`, "unknown": `{"mood":{"low":1,"value":1,"high":1}}`,
	} {
		d := assess(t, with(`,"assumptions":`+more))
		if len(d.Findings) != 1 || d.Findings[0].Code != "assumption-refused" || d.Findings[0].Line != 2 || d.Blocked() {
			t.Errorf("%s: got %+v, want a finding in line 2 that blocks nothing", name, d.Findings)
		}
		if *d.Exposure.Relative.High != *usual.Exposure.Relative.High || rowOf(d, assume.CyclesPerHour).Edited {
			t.Errorf("%s: got %v, want the usual figures", name, d.Exposure.Relative)
		}
	}
}

func rowOf(d dossier.Dossier, id assume.ID) assume.Assumption {
	i := slices.IndexFunc(d.Assumptions, func(a assume.Assumption) bool { return a.ID == id })
	return d.Assumptions[i]
}

// The findings of reading come first, those of checking after, each placed.
func TestFindingsInOrder(t *testing.T) {
	d := assess(t, strings.Replace(with(`,"x":1`), `"hours":100`, `"hours":-100`, 1))
	var got []string
	for _, f := range d.Findings {
		got = append(got, f.Code)
	}
	if want := []string{"member-unknown", "value-negative"}; !slices.Equal(got, want) || d.Findings[1].Line != 2 {
		t.Errorf("got %q, want %q in line 2", got, want)
	}
}

// Without a rated load, or without a reading, nothing is concluded.
func TestNothingToConclude(t *testing.T) {
	for _, path := range []string{"bad/no-rated-load.case.json", "bad/no-reading.case.json"} {
		d := dossiers(t, path)[0]
		if d.Capacity != nil || d.Exposure != nil || len(d.Exceedances) > 0 || !d.Blocked() {
			t.Errorf("%s: got %+v, want nothing concluded", path, d)
		}
		if !strings.HasPrefix(d.Answers.Summary, "Nothing can be concluded yet: ") {
			t.Errorf("%s: got %q, want it to say so", path, d.Answers.Summary)
		}
	}
}

// A machine must never be called clean while its record shows a load, or hours
// that may have been, over the rated load.
func TestOverIsNeverHidden(t *testing.T) {
	const bands = `"bands":[{"from_kg":0,"to_kg":240,"hours":%d},{"from_kg":240,"to_kg":null,"hours":%d}]`
	reading := func(month string, below, above int, peak string) string {
		text := `{"at":"2026-` + month + `-02T08:10:00Z","peak_kg":` + peak
		if below > 0 {
			text += "," + strings.Replace(strings.Replace(bands, "%d", itoa(below), 1), "%d", itoa(above), 1)
		}
		return text + "}"
	}
	changed := strings.NewReplacer(`"to_kg":240`, `"to_kg":250`, `"from_kg":240`, `"from_kg":250`)
	for name, readings := range map[string]string{
		"a peak first seen in the second reading": reading("02", 100, 0, "null") + "," + reading("03", 110, 0, "812"),
		"a peak over two readings":                reading("02", 100, 0, "200") + "," + reading("03", 110, 0, "null") + "," + reading("04", 120, 0, "812"),
		"a peak that was cleared":                 reading("02", 100, 0, "812") + "," + reading("03", 110, 0, "200"),
		"hours where the bands changed":           reading("02", 100, 0, "200") + "," + changed.Replace(reading("03", 110, 5, "null")),
		"hours where a counter ran backwards":     reading("02", 100, 0, "200") + "," + reading("03", 90, 5, "null"),
		"hours faster than the clock":             reading("02", 100, 0, "200") + "," + reading("03", 9000, 5, "null"),
		"hours after a reading without bands":     reading("02", 100, 0, "200") + "," + reading("03", 0, 0, "200") + "," + reading("04", 110, 5, "null"),
		"hours before a reading without bands":    reading("02", 100, 5, "null") + "," + reading("03", 0, 0, "200"),
		"hours with the peak cleared":             reading("02", 100, 5, "200") + "," + reading("03", 110, 6, "100"),
	} {
		d := assess(t, `{"format":"ratchetmark case 1","machine":{"id":"T","rated_load_kg":240},"readings":[`+readings+`]}`)
		if len(d.Exceedances) == 0 {
			t.Errorf("%s: got no exceedance, want one", name)
		}
		if d.Capacity.HoursOver[0].High == 0 && *d.Capacity.Peak <= 240 {
			t.Errorf("%s: got %+v, want hours or a peak over the rated load", name, d.Capacity)
		}
		if strings.Contains(d.Answers.Summary, "no load over") || strings.Contains(d.Answers.Summary, "no hours over") {
			t.Errorf("%s: got %q, want it to say what went over", name, d.Answers.Summary)
		}
	}
}

func itoa(n int) string {
	b, _ := json.Marshal(n)
	return string(b)
}

// What is dangerous to act on says so, in every dossier and first.
func TestCautions(t *testing.T) {
	has := func(d dossier.Dossier, words string) bool {
		return slices.ContainsFunc(d.Cautions, func(c string) bool { return strings.Contains(c, words) })
	}
	for path, want := range map[string]map[string]bool{
		"demo/clean.case.json":   {"stays out of use": false, "beyond anything the type test covers": false, "reads wrongly": false},
		"demo/lashed.case.json":  {"stays out of use": true, "beyond anything the type test covers": true, "reads wrongly": true},
		"demo/worked.case.json":  {"stays out of use": true, "beyond anything the type test covers": false, "reads wrongly": true},
		"demo/drifted.case.json": {"stays out of use": true, "beyond anything the type test covers": false, "reads wrongly": true},
		"demo/mixed.case.json":   {"stays out of use": true, "beyond anything the type test covers": true, "reads wrongly": true},
	} {
		d := dossiers(t, path)[0]
		if !strings.HasPrefix(d.Cautions[0], "This is not a certificate") {
			t.Errorf("%s: got %q first, want what it is not", path, d.Cautions[0])
		}
		for words, is := range want {
			if has(d, words) != is {
				t.Errorf("%s: got %v for a caution with %q, want %v", path, !is, words, is)
			}
		}
		for _, never := range []string{"125 % test is no licence", "does not clear a history", "does not say how long"} {
			if !has(d, never) {
				t.Errorf("%s: got no caution with %q, want it", path, never)
			}
		}
	}
}

// Values at the ends of what can be written still give a dossier whose numbers
// are numbers and in order.
func TestHostileValues(t *testing.T) {
	rng := rand.New(rand.NewPCG(13, 17))
	values := []string{"0", "-0", "1", "-1", "5e-324", "1e-310", "1e-9", "0.1", "79.99999999", "80", "240", "999", "1e5", "2e5", "100001", "1e15", "1e308", "-1e308", "1.7976931348623157e308", "null"}
	pick := func() string { return values[rng.IntN(len(values))] }
	mostly := func(usual string) string { // the usual value, or now and then another
		if rng.IntN(4) > 0 {
			return usual
		}
		return pick()
	}
	for range 5000 {
		var readings []string
		for i := range 1 + rng.IntN(3) {
			var bands []string
			for j := range rng.IntN(5) {
				bands = append(bands, `{"from_kg":`+mostly(itoa(j*80))+`,"to_kg":`+mostly(itoa(j*80+80))+`,"hours":`+pick()+`}`)
			}
			readings = append(readings, `{"at":"2026-0`+itoa(i+1)+`-02T08:10:00Z","powered_h":`+pick()+`,"moving_h":`+pick()+`,"peak_kg":`+pick()+`,"bands":[`+strings.Join(bands, ",")+`]}`)
		}
		own := ""
		for _, id := range []string{"cycles_per_hour", "self_weight_share", "design_cycles", "slope", "person_mass_kg", "tools_mass_kg", "load_sensing_from_pct", "load_sensing_to_pct"} {
			if rng.IntN(6) == 0 {
				x := []string{"1", "0.01", "15", "1000", "0", "1e9", "250", "0.5"}[rng.IntN(8)]
				own += `,"` + id + `":{"low":` + x + `,"value":` + x + `,"high":` + x + `}`
			}
		}
		text := `{"format":"ratchetmark case 1","machine":{"id":"T","rated_load_kg":` + mostly("240") + `,"persons":` + mostly("2") + `,"load_sensing_kg":` + pick() + `},"readings":[` + strings.Join(readings, ",") + `],"assumptions":{` + strings.TrimPrefix(own, ",") + `}}`
		d := assess(t, text)
		if err := dossier.WriteJSON(io.Discard, &d); err != nil {
			t.Fatalf("got %v, want it written: %s", err, text)
		}
		sound(t, &d)
		if t.Failed() {
			t.Fatal(text)
		}
	}
}

// Text from a file stays one line and as wide as the print where it can.
func TestTextWidth(t *testing.T) {
	for _, path := range goldenFiles {
		for _, d := range dossiers(t, path) {
			var out strings.Builder
			if err := dossier.WriteText(&out, &d); err != nil {
				t.Fatal(err)
			}
			for line := range strings.Lines(out.String()) {
				if n := utf8.RuneCountInString(strings.TrimRight(line, "\n")); n > 79 && !strings.Contains(line, "SHA-256") && !strings.Contains(line, ".json") && !strings.Contains(line, ".csv") {
					t.Errorf("%s: got a line of %d characters, want at most 79: %s", path, n, line)
				}
				if strings.TrimRight(line, "\n") != strings.TrimRight(line, " \n") {
					t.Errorf("%s: got blanks at the end of %q", path, line)
				}
			}
		}
	}
}

func TestNumbers(t *testing.T) {
	for got, want := range map[string]string{
		dossier.Kg(812): "812 kg", dossier.Kg(0): "0 kg", dossier.Kg(-0.2): "0 kg",
		dossier.H(1.94): "1.9 h", dossier.H(0): "0.0 h", dossier.H(0.04): "0.04 h",
		dossier.Percent(0): "0 %", dossier.Percent(0.00005): "under 0.01 %", dossier.Percent(0.0024): "0.24 %", dossier.Percent(0.0562): "5.6 %", dossier.Percent(3.53): "353 %",
		dossier.Count(0): "0", dossier.Count(999): "999", dossier.Count(1000): "1 000", dossier.Count(40_000): "40 000", dossier.Count(1234567): "1 234 567", dossier.Count(-1000): "-1 000",
		dossier.HoursBetween(1.9, 1.9): "1.9 h", dossier.HoursBetween(0, 3.2): "up to 3.2 h", dossier.HoursBetween(0.6, 3.2): "between 0.6 and 3.2 h",
		dossier.PercentBounds(record.Bounds{Low: 0.021, Estimate: record.Of(0.054), High: record.Of(0.14)}): "2.1 % to 14 %, about 5.4 %",
		dossier.PercentBounds(record.Bounds{Low: 0.021}):                                                    "at least 2.1 %, not bounded above",
		dossier.CountBounds(record.Bounds{Low: 5, High: record.Of(5.0)}):                                    "5",
	} {
		if got != want {
			t.Errorf("got %q, want %q", got, want)
		}
	}
}
