package intake_test

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"os"
	"reflect"
	"slices"
	"strings"
	"testing"

	"ratchetmark/internal/dossier"
	"ratchetmark/internal/intake"
	"ratchetmark/internal/record"
)

func demoFiles(t testing.TB) []string {
	t.Helper()
	files, err := os.ReadDir(testdata + "demo")
	if err != nil {
		t.Fatal(err)
	}
	var out []string
	for _, f := range files {
		if strings.HasSuffix(f.Name(), ".case.json") {
			out = append(out, f.Name())
		}
	}
	if len(out) < 5 {
		t.Fatalf("got %d demo files, want at least 5", len(out))
	}
	return out
}

func TestDemoFilesReadClean(t *testing.T) {
	for _, name := range demoFiles(t) {
		batch, err := read(t, "demo/"+name)
		if err != nil || len(batch.Records) != 1 || len(batch.Records[0].Findings) > 0 {
			t.Errorf("%s: got %v and %+v, want one record without a finding", name, err, batch.Records)
		}
	}
}

// What is read, written by encoding/json and read again is the same case: a
// saved case loses nothing.
func TestRoundTrip(t *testing.T) {
	paths := []string{"bad/html-in-fields.case.json", "bad/unsorted.case.json", "delimited/two-machines-tab.txt", "delimited/template.csv", "bad/huge-hours.case.json"}
	for _, name := range demoFiles(t) {
		paths = append(paths, "demo/"+name)
	}
	for _, files := range shapes {
		for name := range files {
			paths = append(paths, "shapes/"+name)
		}
	}
	for _, path := range paths {
		batch, err := read(t, path)
		if err != nil {
			t.Fatal(err)
		}
		for _, r := range batch.Records {
			again(t, path, r.Case)
		}
	}
}

// again writes a case, reads it and compares.
func again(t *testing.T, path string, c record.Case) {
	t.Helper()
	written, err := json.Marshal(c)
	if err != nil {
		t.Errorf("%s: got %v, want it written", path, err)
		return
	}
	batch, err := intake.ReadBytes("again.case.json", written)
	if err != nil || len(batch.Records) != 1 || len(batch.Records[0].Findings) > 0 {
		t.Errorf("%s: got %v and %+v, want it read without a finding", path, err, batch.Records)
		return
	}
	if got := batch.Records[0].Case; !reflect.DeepEqual(got, c) {
		rewritten, _ := json.Marshal(got)
		t.Errorf("%s: got\n%s\nwant\n%s", path, rewritten, written)
	}
}

// A case with nothing in it, and one with every part, survive as well.
func TestRoundTripOfAllParts(t *testing.T) {
	batch, err := intake.ReadBytes("whole.case.json", []byte(whole))
	if err != nil || len(batch.Records[0].Findings) > 0 {
		t.Fatalf("got %v and %+v, want no finding", err, batch.Records)
	}
	again(t, "whole", batch.Records[0].Case)
	again(t, "empty", record.Case{Format: record.Format})
}

const whole = `{"format":"ratchetmark case 1","note":"n",
 "machine":{"id":"T-01","kind":"mast","rated_load_kg":215.5,"persons":2,"load_sensing_kg":244,"mass_kg":2690,"in_service":"2024-02-29",
  "region":"Great Britain","edition":"EN 280-1:2022","moved_by_hand":true,"senses_only_raising":true,
  "zones":[{"name":"restricted reach","rated_load_kg":350.5,"persons":3},{"name":"deck extended","rated_load_kg":null,"persons":null}]},
 "readings":[{"at":"2026-03-02T08:10:00.5+01:00","powered_h":1.25,"moving_h":0,"bands":[{"from_kg":0,"to_kg":90,"hours":1},{"from_kg":90,"to_kg":null,"hours":0}],"peak_kg":99,"peak_at":"2026-03-01T08:10:00Z"},
             {"at":null,"powered_h":null,"moving_h":null,"bands":null,"peak_kg":1,"peak_at":null}],
 "custody":[{"from":"2026-01-01T00:00:00Z","to":"2026-02-01T00:00:00Z","holder":"transit","who":"w","note":"n"}],
 "events":[{"at":"2026-01-01T00:00:00Z","kind":"tilt_alarm","load_kg":null,"note":"n"},{"at":"2026-01-01T00:00:00Z","kind":"peak_rise","load_kg":99}],
 "daily":[{"date":"2026-03-02","powered_h":0,"moving_h":null}],
 "checks":[{"at":"2026-03-02T08:15:00+01:00","kind":"zero","shown_kg":-1.5,"mass_kg":null,"by":"b","note":"n"},{"at":"2026-03-02T08:20:00Z","kind":"known_mass","shown_kg":148,"mass_kg":150.5}],
 "tie_downs":[{"at":"2026-01-15T00:00:00Z","over_platform":false,"how":"paper","note":"n"},{"over_platform":null,"how":"told"}],
 "structure":{"cycles_from":"count","load_cycles":4100,"duty_record":"process","stress_range_mpa":82.5,
  "curve":{"standard":"","category":71,"stress":"shear","concept":"safe life","consequence":"low","gamma_mf":1.15,"gamma_ff":1.1,"welded":false,"slope":5,"range_or_amplitude_at":[160,1000000],"below":"slope","slope_below":9},
  "maker_test_kg":310,"disposal":"2031-04-01","claim":"crack","part":"jib, left weld"},
 "assumptions":{"slope":{"low":5,"value":5,"high":5}},
 "plan":{"persons":[{"name":"p","body":118,"clothing":4,"harness":2.5},{"body":176,"unit":"lb"}],"items":[{"name":"cable","mass":60},{"mass":6.5,"count":2,"unit":"kg"}]},
 "crew":{"population":"us-women","persons":3,"worn_kg":0,"tools_kg":40},"thresholds_kg":[250,99.5],
 "transport":{"device":"web-50","route":"rails","straps":2,"angle_deg":60.5,"edge":"rail","blocked":false,"rule":"EN 12195-1:2010","friction":0.3,"block_dan":0,
  "gravity_height_m":1.1,"track_m":2,"length_m":6.5,"lowered":true,"lashings":[{"gear":"chain-8","way":"front","count":2,"angle_deg":40,"plan_deg":30}],"briefed_on":"2026-03-02","language":"de"}}`

func TestEveryPartIsRead(t *testing.T) {
	batch, err := intake.ReadBytes("whole.case.json", []byte(whole))
	if err != nil {
		t.Fatal(err)
	}
	c := batch.Records[0].Case
	s := c.Structure
	got := fmt.Sprint(
		c.Format, c.Note, c.Machine.ID, c.Machine.Kind, *c.Machine.RatedLoad, *c.Machine.Persons, *c.Machine.LoadSensing, *c.Machine.Mass, *c.Machine.InService,
		c.Readings[0].At.UTC(), *c.Readings[0].Powered, *c.Readings[0].Moving, len(c.Readings[0].Bands), *c.Readings[0].Bands[0].To, c.Readings[0].Bands[1].Open(), *c.Readings[0].Peak, *c.Readings[0].PeakAt,
		c.Readings[1].At.IsZero(), c.Readings[1].Powered == nil, c.Readings[1].Bands == nil, c.Readings[1].PeakAt == nil,
		c.Custody[0].From, c.Custody[0].To, c.Custody[0].Holder, c.Custody[0].Who, c.Custody[0].Note,
		c.Events[0].At, c.Events[0].Kind, c.Events[0].Load == nil, c.Events[0].Note, *c.Events[1].Load,
		c.Daily[0].Date, *c.Daily[0].Powered, c.Daily[0].Moving == nil, c.Assumptions["slope"],
		c.Machine.Region, c.Machine.Edition, c.Machine.ByHand, c.Machine.RaisingOnly, c.Machine.Zones[0].Name, *c.Machine.Zones[0].RatedLoad, *c.Machine.Zones[0].Persons, c.Machine.Zones[1].RatedLoad == nil,
		c.Plan.Persons, c.Plan.Items, c.Crew.Population, *c.Crew.Persons, *c.Crew.Worn, *c.Crew.Tools, c.Thresholds,
		s.CyclesFrom, *s.LoadCycles, s.DutyRecord, *s.StressRange, *s.MakerTest, s.Disposal, s.Claim, s.Part,
		s.Curve.Standard, *s.Curve.Category, s.Curve.Stress, s.Curve.Concept, s.Curve.Consequence, *s.Curve.GammaMf, *s.Curve.GammaFf, *s.Curve.Welded,
		*s.Curve.Slope, *s.Curve.At[0], *s.Curve.At[1], s.Curve.Below, *s.Curve.SlopeBelow, transportOf(c),
		c.Checks[0].At.UTC(), c.Checks[0].Kind, *c.Checks[0].Shown, c.Checks[0].Mass == nil, c.Checks[0].By, c.Checks[0].Note, c.Checks[1].Kind, *c.Checks[1].Shown, *c.Checks[1].Mass,
		c.TieDowns[0].At, *c.TieDowns[0].Over, c.TieDowns[0].How, c.TieDowns[0].Note, c.TieDowns[1].At.IsZero(), c.TieDowns[1].Over == nil, c.TieDowns[1].How)
	want := "ratchetmark case 1" + "n" + "T-01mast215.52" + " 244 2690 2024-02-29 2026-03-02 07:10:00.5 +0000 UTC 1.25 0 2 90 true 99 2026-03-01 08:10:00 +0000 UTC true true true true " +
		"2026-01-01 00:00:00 +0000 UTC 2026-02-01 00:00:00 +0000 UTC transitwn 2026-01-01 00:00:00 +0000 UTC tilt_alarm truen 99 2026-03-02 0 true {5 5 5}" +
		"Great Britain EN 280-1:2022 true true restricted reach 350.5 3 true [{p 118 4 2.5 } { 176 0 0 lb}] [{cable 60 0 } { 6.5 2 kg}] us-women 3 0 40 [250 99.5]" +
		"count 4100 process 82.5 310 2031-04-01 crack jib, left weld" + "71 shear safe life low 1.15 1.1 false 5 160 1e+06 slope 9" +
		`{"device":"web-50","route":"rails","straps":2,"angle_deg":60.5,"edge":"rail","blocked":false,"rule":"EN 12195-1:2010","friction":0.3,"block_dan":0,"gravity_height_m":1.1,"track_m":2,"length_m":6.5,"lowered":true,` +
		`"lashings":[{"gear":"chain-8","way":"front","count":2,"angle_deg":40,"plan_deg":30}],"briefed_on":"2026-03-02","language":"de"}` +
		"2026-03-02 07:15:00 +0000 UTC zero -1.5 true b n known_mass 148 150.5 2026-01-15 00:00:00 +0000 UTC false paper n true true told"
	if strings.ReplaceAll(got, " ", "") != strings.ReplaceAll(want, " ", "") {
		t.Errorf("got\n%s\nwant\n%s", got, want)
	}
}

func transportOf(c record.Case) string {
	text, _ := json.Marshal(c.Transport)
	return string(text)
}

// Values of the wrong sort become findings, each at its own place; the rest of
// the case is read.
func TestWrongSorts(t *testing.T) {
	for _, v := range []struct {
		json string
		want []string
	}{
		{`{"format":5}`, []string{"value-unreadable 1:11"}},
		{`{"format":"f","machine":5}`, []string{"value-unreadable 1:25"}},
		{`{"format":"f","machine":{"persons":2.5}}`, []string{"value-unreadable 1:36"}},
		{`{"format":"f","machine":{"region":5}}`, []string{"value-unreadable 1:35"}},
		{`{"format":"f","machine":{"moved_by_hand":"yes"}}`, []string{"value-unreadable 1:42"}},
		{`{"format":"f","machine":{"zones":5}}`, []string{"value-unreadable 1:34"}},
		{`{"format":"f","machine":{"zones":[{"persons":"two","reach":3}]}}`, []string{"value-unreadable 1:46", "member-unknown 1:52"}},
		{`{"format":"f","plan":[]}`, []string{"value-unreadable 1:22"}},
		{`{"format":"f","plan":{"persons":[{"body":"heavy","mood":1}],"items":[{"count":1.5}]}}`, []string{"value-unreadable 1:42", "member-unknown 1:50", "value-unreadable 1:79"}},
		{`{"format":"f","crew":{"persons":"many"}}`, []string{"value-unreadable 1:33"}},
		{`{"format":"f","thresholds_kg":[1,"2"]}`, []string{"value-unreadable 1:34"}},
		{`{"format":"f","machine":{"persons":1e99}}`, []string{"value-unreadable 1:36"}},
		{`{"format":"f","machine":{"rated_load_kg":"240"}}`, []string{"value-unreadable 1:42"}},
		{`{"format":"f","machine":{"in_service":"2024-02-30"}}`, []string{"value-unreadable 1:39"}},
		{`{"format":"f","machine":{"in_service":20240229}}`, []string{"value-unreadable 1:39"}},
		{`{"format":"f","transport":5}`, []string{"value-unreadable 1:27"}},
		{`{"format":"f","transport":{"blocked":"no"}}`, []string{"value-unreadable 1:38"}},
		{`{"format":"f","transport":{"lashings":[{"count":1.5}]}}`, []string{"value-unreadable 1:49"}},
		{`{"format":"f","readings":{}}`, []string{"value-unreadable 1:26"}},
		{`{"format":"f","readings":[5]}`, []string{"value-unreadable 1:27"}},
		{`{"format":"f","readings":[{"at":"2026-03-02T08:10:00+24:00"}]}`, []string{"value-unreadable 1:33"}},
		{`{"format":"f","readings":[{"bands":[5]}]}`, []string{"value-unreadable 1:37", "bands-incomplete 1:36"}},
		{`{"format":"f","readings":[{"bands":[{"from_kg":0,"hours":1}]}]}`, nil}, // no upper edge is an open band
		{`{"format":"f","readings":[{"bands":[{"from_kg":0,"to_kg":"x","hours":1}]}]}`, []string{"value-unreadable 1:58", "bands-incomplete 1:36"}},
		{`{"format":"f","readings":[{"bands":[{"to_kg":5,"hours":1}]}]}`, []string{"bands-incomplete 1:36"}},
		{`{"format":"f","readings":[{"bands":[{"from_kg":0,"to_kg":5}]}]}`, []string{"bands-incomplete 1:36"}},
		{`{"format":"f","readings":[{"bands":"none"}]}`, []string{"value-unreadable 1:36", "bands-incomplete 1:36"}},
		{`{"format":"f","note":"a\u202eb"}`, []string{"hidden-characters 1:22"}},
		{`{"format":"f","assumptions":{"a\u001bb":{"low":1,"value":1,"high":1}}}`, []string{"hidden-characters 1:30"}},
		{`{"format":"f","assumptions":[]}`, []string{"value-unreadable 1:29"}},
		{`{"format":"f","structure":5}`, []string{"value-unreadable 1:27"}},
		{`{"format":"f","structure":{"curve":{"welded":"no","range_or_amplitude_at":[1]}}}`, []string{"value-unreadable 1:46", "value-unreadable 1:75"}},
		{`{"format":"f","structure":{"range":5,"disposal":"soon"}}`, []string{"member-unknown 1:28", "value-unreadable 1:49"}},
		{`{"format":"f","note":"a","note":"b"}`, []string{"member-twice 1:26"}},
		{"{\"format\":\"f\",\n\"nöte\":1,\"x\":2}", []string{"member-unknown 2:1", "member-unknown 2:10"}}, // columns count characters
	} {
		batch, err := intake.ReadBytes("x", []byte(v.json))
		if err != nil {
			t.Errorf("%s: got %v, want it read", v.json, err)
			continue
		}
		var got []string
		for _, f := range batch.Records[0].Findings {
			got = append(got, fmt.Sprintf("%s %d:%d", f.Code, f.Line, f.Column))
		}
		if !slices.Equal(got, v.want) {
			t.Errorf("%s: got %q, want %q", v.json, got, v.want)
		}
	}
}

// Broken JSON is refused with its place.
func TestBrokenJSON(t *testing.T) {
	for text, want := range map[string]string{
		`{"format":"f"`:                `x:1:14: the file ends in the middle of a value`,
		`{"format":"f",}`:              `x:1:15: the JSON is broken`,
		"{\"format\":\"f\"}\n}":        `x:2:1: the JSON is broken`,
		`{"format":"f"} garbage`:       `x:1:16: the JSON is broken`,
		`{format:"f"}`:                 `x:1:2: the JSON is broken`,
		`{"format":NaN}`:               `x:1:11: the JSON is broken`,
		`{"format":01}`:                `x:1:12: the JSON is broken`,
		`[]`:                           `x:1:1: a list that is not a case`,
		`{}`:                           `x:1:1: an object that is not a case`,
		`{"format":"f"} 5`:             `x:1:16: the number 5 that is not a case`,
		`["a"]`:                        `x:1:2: the text "a" that is not a case`,
		`[[{"format":"f"}]]`:           `x: no row is a heading that is known; the first is "format"`,
		`[null]`:                       `x:1:2: null that is not a case`,
		`{"type":"FeatureCollection"}`: `x: no row is a heading that is known; the first is "type"`,
	} {
		_, err := intake.ReadBytes("x", []byte(text))
		if err == nil || !strings.HasPrefix(err.Error(), want) {
			t.Errorf("%s: got %v, want %s", text, err, want)
		}
	}
}

// A list of cases, and a stream of one case a line, give a record each.
func TestSeveralCases(t *testing.T) {
	one := `{"format":"ratchetmark case 1","machine":{"id":"A"}}`
	other := `{"format":"ratchetmark case 1","machine":{"id":"B"}}`
	for _, text := range []string{one + "\n" + other + "\n", "[" + one + "," + other + "]", one + other, "\ufeff" + one + "\r\n\r\n" + other} {
		batch, err := intake.ReadBytes("x", []byte(text))
		if err != nil || len(batch.Records) != 2 || batch.Records[0].Case.Machine.ID != "A" || batch.Records[1].Case.Machine.ID != "B" {
			t.Errorf("%q: got %+v, %v, want A and B", text, batch.Records, err)
		}
	}
}

// A file is read to its end, so that whoever hashes what passes has all of it.
func TestReadsToTheEnd(t *testing.T) {
	for name, text := range map[string]string{
		"case":      whole + strings.Repeat("\n", 100_000),
		"delimited": heading + "A,boom,230,2,,2026-03-02,1,,99,,0,90,1\n" + strings.Repeat("\n", 100_000),
	} {
		r := &counting{r: strings.NewReader(text)}
		batch, err := intake.Read("x", r, intake.Options{}, nil)
		if err != nil || batch.Bytes != int64(len(text)) || r.n != int64(len(text)) || !r.ended {
			t.Errorf("%s: got %d bytes, %v, want all %d and the end", name, batch.Bytes, err, len(text))
		}
	}
}

// What was read can be handed to another program as JSON: the dossier of it is
// the same to the byte.
func TestReadingCanBeHandedOver(t *testing.T) {
	var paths []string
	for name := range bad {
		paths = append(paths, "bad/"+name)
	}
	for _, name := range demoFiles(t) {
		paths = append(paths, "demo/"+name)
	}
	paths = append(paths, "delimited/two-machines-tab.txt", "delimited/two-readings-semicolon.csv")
	for _, path := range paths {
		var reading, over intake.Reading
		var err error
		reading.Batch, err = read(t, path)
		errors.As(err, &reading.Refusal)
		data, err := json.Marshal(reading)
		if err != nil {
			t.Errorf("%s: got %v, want it written", path, err)
			continue
		}
		if err := json.Unmarshal(data, &over); err != nil {
			t.Errorf("%s: got %v, want it read", path, err)
			continue
		}
		if !reflect.DeepEqual(over.Refusal, reading.Refusal) {
			t.Errorf("%s: got refusal %v, want %v", path, over.Refusal, reading.Refusal)
		}
		if got, want := dossiers(t, over.Batch), dossiers(t, reading.Batch); got != want {
			t.Errorf("%s: got\n%s\nwant\n%s", path, got, want)
		}
	}
}

// dossiers writes the dossiers of a batch whole.
func dossiers(t *testing.T, b intake.Batch) string {
	t.Helper()
	var out strings.Builder
	for _, d := range dossier.From([]intake.Batch{b}) {
		if err := dossier.WriteJSON(&out, &d); err != nil {
			t.Fatal(err)
		}
	}
	return out.String()
}

// Too many faults are counted, not listed.
func TestFindingsAreCut(t *testing.T) {
	text := `{"format":"f"` + strings.Repeat(`,"x":1`, 700) + `}`
	batch, err := intake.ReadBytes("x", []byte(text))
	if err != nil {
		t.Fatal(err)
	}
	findings := batch.Records[0].Findings
	if last := findings[len(findings)-1]; len(findings) != 501 || last.Code != "findings-cut" || last.Message != "200 further findings are not listed" {
		t.Errorf("got %d findings, the last %+v, want 500 and the count of 200", len(findings), last)
	}
}

// Lists end where a limit says so, and a finding tells.
func TestLimits(t *testing.T) {
	band := `{"from_kg":0,"to_kg":1,"hours":0}`
	for name, v := range map[string]struct{ text, code string }{
		"bands":   {`{"format":"f","readings":[{"bands":[` + band + strings.Repeat(","+band, 200) + `]}]}`, "bands-incomplete"},
		"custody": {`{"format":"f","custody":[{}` + strings.Repeat(",{}", 5000) + `]}`, "too-many"},
	} {
		batch, err := intake.ReadBytes("x", []byte(v.text))
		if err != nil {
			t.Fatal(err)
		}
		if !slices.ContainsFunc(batch.Records[0].Findings, func(f record.Finding) bool { return f.Code == v.code }) {
			t.Errorf("%s: got %+v, want %s", name, batch.Records[0].Findings, v.code)
		}
	}
	_, err := intake.ReadBytes("x", []byte(`[`+strings.Repeat("0,", 1<<20)+`0]`))
	if err == nil || !strings.Contains(err.Error(), "more than 1048576 values") {
		t.Errorf("values: got %v, want a refusal", err)
	}
}

// The whole way: what a stream says of a machine is what its file says.
func TestStreamGivesTheSameAsFiles(t *testing.T) {
	var stream bytes.Buffer
	var want []string
	for _, name := range demoFiles(t) {
		batch, err := read(t, "demo/"+name)
		if err != nil {
			t.Fatal(err)
		}
		line, err := json.Marshal(batch.Records[0].Case)
		if err != nil {
			t.Fatal(err)
		}
		stream.Write(append(line, '\n'))
		want = append(want, figures(t, dossier.From([]intake.Batch{batch})[0]))
	}
	batch, err := intake.Read("stream", &stream, intake.Options{}, nil)
	if err != nil {
		t.Fatal(err)
	}
	var got []string
	for _, d := range dossier.From([]intake.Batch{batch}) {
		got = append(got, figures(t, d))
	}
	if !slices.Equal(got, want) {
		t.Errorf("got\n%s\nwant\n%s", strings.Join(got, "\n"), strings.Join(want, "\n"))
	}
}

// figures writes all that a dossier concludes, without its inputs.
func figures(t *testing.T, d dossier.Dossier) string {
	t.Helper()
	d.Inputs, d.Findings = nil, nil
	var b strings.Builder
	if err := dossier.WriteJSON(&b, &d); err != nil {
		t.Fatal(err)
	}
	return b.String()
}
