package intake_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"ratchetmark/internal/batch"
	"ratchetmark/internal/dossier"
	"ratchetmark/internal/intake"
	"ratchetmark/internal/record"
)

// batchOf reads a case of machine A from text.
func batchOf(t *testing.T, name, text string) intake.Batch {
	t.Helper()
	b, err := intake.ReadBytes(name, []byte(text))
	if err != nil {
		t.Fatal(err)
	}
	return b
}

// caseOf writes a case with readings at days of March 2026 and hours in one band.
func caseOf(machine string, days ...int) string {
	var readings []string
	for _, day := range days {
		readings = append(readings, fmt.Sprintf("\n"+`{"at":"2026-03-%02dT08:00:00Z","bands":[{"from_kg":0,"to_kg":90,"hours":%d}],"peak_kg":88}`, day, day))
	}
	return fmt.Sprintf(`{"format":"ratchetmark case 1","machine":%s,"readings":[%s]}`, machine, strings.Join(readings, ","))
}

func days(g batch.Grouped) []int {
	var out []int
	for _, r := range g.Case.Readings {
		out = append(out, r.At.Day())
	}
	return out
}

// Two files of one machine become one record with the readings of both, each
// once, and both files are named.
func TestGroupJoinsFilesOfAMachine(t *testing.T) {
	a := batchOf(t, "a", caseOf(`{"id":"A","rated_load_kg":230}`, 1, 2))
	b := batchOf(t, "b", caseOf(`{"id":" A ","rated_load_kg":240,"persons":2}`, 2, 3))
	groups := batch.Group([]intake.Batch{a, b})
	if len(groups) != 1 || !slices.Equal(days(groups[0]), []int{1, 2, 3}) {
		t.Fatalf("got %+v, want one machine with days 1, 2, 3", groups)
	}
	g := groups[0]
	if len(g.Sources) != 2 || g.Sources[0].Name != "a" || g.Sources[1].Name != "b" {
		t.Errorf("got sources %v, want a and b", g.Sources)
	}
	if *g.Case.Machine.RatedLoad != 230 || *g.Case.Machine.Persons != 2 {
		t.Errorf("got %+v, want the first rated load and the only persons", g.Case.Machine)
	}
	var codes []string
	for _, f := range g.Findings {
		codes = append(codes, f.Code+" "+f.Where+" "+f.File)
	}
	if want := []string{"reading-twice reading 2 b", "value-differs machine, rated load b"}; !slices.Equal(codes, want) {
		t.Errorf("got %q, want %q", codes, want)
	}
}

// Readings of one moment that say different things both stay, and are found.
func TestGroupKeepsReadingsThatDiffer(t *testing.T) {
	b := batchOf(t, "b", strings.ReplaceAll(caseOf(`{"id":"A","rated_load_kg":230}`, 2), `"hours":2`, `"hours":2.5`))
	groups := batch.Group([]intake.Batch{batchOf(t, "a", caseOf(`{"id":"A","rated_load_kg":230}`, 1, 2)), b})
	d := dossier.Of(&groups[0])
	if !slices.Equal(days(groups[0]), []int{1, 2, 2}) || len(d.Findings) == 0 || d.Findings[0].Code != "readings-same-time" {
		t.Errorf("got days %v and %+v, want both and a finding", days(groups[0]), d.Findings)
	}
}

// What is found in a joined reading names the file and the line it came from.
func TestGroupKeepsPlaces(t *testing.T) {
	a := batchOf(t, "a", caseOf(`{"id":"A","rated_load_kg":230}`, 1, 2))
	b := batchOf(t, "b", strings.ReplaceAll(caseOf(`{"id":"A"}`, 3, 4), `"hours":4`, `"hours":-4`))
	groups := batch.Group([]intake.Batch{a, b})
	d := dossier.Of(&groups[0])
	f := d.Findings[0]
	if f.Code != "value-negative" || f.File != "b" || f.Line != 3 || f.Where != "reading 4, band 1, hours" {
		t.Errorf("got %+v, want a negative value in line 3 of b, as reading 4", f)
	}
}

// Checks and tie-downs that stand in both files are one, whatever the zone their
// time is written in; what is found in one names the file it came from.
func TestGroupJoinsWhatIsTold(t *testing.T) {
	with := func(told string) string {
		return strings.TrimSuffix(caseOf(`{"id":"A","rated_load_kg":230}`, 1), "}") + "," + told + "}"
	}
	a := batchOf(t, "a", with(`"checks":[{"at":"2026-03-02T08:00:00Z","kind":"zero","shown_kg":2,"by":"one"}],"tie_downs":[{"at":"2026-02-02T08:00:00Z","over_platform":true,"how":"photo"}]`))
	b := batchOf(t, "b", with("\n"+`"checks":[{"at":"2026-03-02T09:00:00+01:00","kind":"zero","shown_kg":2,"mass_kg":null},{"at":"2026-03-02T08:00:00Z","kind":"zero","shown_kg":3},`+
		"\n"+`{"at":"2026-03-02T08:05:00Z","kind":"known_mass","shown_kg":3}],"tie_downs":[{"at":"2026-02-02T08:00:00Z","over_platform":true,"how":"told"},{"at":"2026-02-02T08:00:00Z","over_platform":true,"how":"photo"}]`))
	groups := batch.Group([]intake.Batch{a, b})
	c := groups[0].Case
	if len(c.Checks) != 3 || len(c.TieDowns) != 2 || *c.Checks[1].Shown != 3 || c.TieDowns[1].How != record.ToldOf {
		t.Fatalf("got %+v and %+v, want what differs once each", c.Checks, c.TieDowns)
	}
	d := dossier.Of(&groups[0])
	if f := d.Findings[len(d.Findings)-1]; f.Code != "check-mass-unclear" || f.File != "b" || f.Line != 4 || f.Where != "check 3, mass on the platform" {
		t.Errorf("got %+v, want the missing mass in line 4 of b, as check 3", f)
	}
	if again := batch.Group([]intake.Batch{a, b}); len(again[0].Case.Checks) != 3 || len(a.Records[0].Case.Checks) != 1 {
		t.Error("got more the second time, want what was read left alone")
	}
}

func TestGroupKeepsApart(t *testing.T) {
	for name, v := range map[string]struct {
		batches []intake.Batch
		want    []int // sources of each group
	}{
		"other machines":           {[]intake.Batch{batchOf(t, "a", caseOf(`{"id":"A"}`, 1)), batchOf(t, "b", caseOf(`{"id":"B"}`, 1))}, []int{1, 1}},
		"without a name":           {[]intake.Batch{batchOf(t, "a", caseOf(`{"id":""}`, 1)), batchOf(t, "b", caseOf(`{"id":""}`, 2))}, []int{1, 1}},
		"a stream, case by case":   {[]intake.Batch{batchOf(t, "a", caseOf(`{"id":"A"}`, 1)+caseOf(`{"id":"A"}`, 2))}, []int{1, 1}},
		"one name in another case": {[]intake.Batch{batchOf(t, "a", caseOf(`{"id":"T-1 a"}`, 1)), batchOf(t, "b", caseOf(`{"id":"t-1  A "}`, 2))}, []int{2}},
		"three files":              {[]intake.Batch{batchOf(t, "a", caseOf(`{"id":"A"}`, 1)), batchOf(t, "b", caseOf(`{"id":"A"}`, 2)), batchOf(t, "c", caseOf(`{"id":"A"}`, 3))}, []int{3}},
		"nothing":                  {nil, nil},
	} {
		var got []int
		for _, g := range batch.Group(v.batches) {
			got = append(got, len(g.Sources))
		}
		if !slices.Equal(got, v.want) {
			t.Errorf("%s: got %v, want %v", name, got, v.want)
		}
	}
}

// Grouping leaves what was read alone, so that grouping again gives the same.
func TestGroupTwice(t *testing.T) {
	spoilt := strings.ReplaceAll(caseOf(`{"id":"A","rated_load_kg":240}`, 2, 3), `"hours":3`, `"hours":-3`)
	batches := []intake.Batch{batchOf(t, "a", caseOf(`{"id":"A","rated_load_kg":230}`, 1, 2)), batchOf(t, "b", spoilt)}
	origins := len(batches[0].Records[0].Origins)
	spare := append(make([]record.Reading, 0, 9), batches[0].Records[0].Case.Readings...) // room behind the readings
	batches[0].Records[0].Case.Readings = spare
	var first []int
	for range 2 {
		g := batch.Group(batches)[0]
		got := []int{len(g.Case.Readings), len(g.Findings), len(g.Sources), len(g.Origins)}
		if first != nil && !slices.Equal(got, first) {
			t.Errorf("got %v, want %v", got, first)
		}
		first = got
		if behind := spare[:9][2]; !behind.At.IsZero() {
			t.Errorf("got %+v written behind the readings, want nothing", behind)
		}
		if r := batches[0].Records[0]; len(r.Case.Readings) != 2 || len(r.Findings) != 0 || len(r.Origins) != origins {
			t.Errorf("got %d readings, %d findings and %d origins in what was read, want 2, 0 and %d", len(r.Case.Readings), len(r.Findings), len(r.Origins), origins)
		}
	}
}

// Custody, events and days of both files are taken, each once; the first note
// and the first assumptions count.
func TestGroupJoinsTheRest(t *testing.T) {
	const more = `,"custody":[{"from":"2026-01-01T00:00:00Z","to":"2026-02-01T00:00:00Z","holder":"hire","who":"%s"}],` +
		`"events":[{"at":"2026-01-05T00:00:00Z","kind":"power_on"}],"daily":[{"date":"2026-01-0%d","powered_h":1}],"note":"%[1]s","assumptions":{"slope":{"low":%[2]d,"value":%[2]d,"high":%[2]d}}}`
	text := func(who string, n int) string {
		return strings.TrimSuffix(caseOf(`{"id":"A"}`, n), "}") + fmt.Sprintf(more, who, n)
	}
	g := batch.Group([]intake.Batch{batchOf(t, "a", text("hirer A", 3)), batchOf(t, "b", text("hirer B", 4))})[0]
	if len(g.Case.Custody) != 2 || len(g.Case.Events) != 1 || len(g.Case.Daily) != 2 || g.Case.Note != "hirer A" || g.Case.Assumptions["slope"].Value != 3 {
		t.Errorf("got %+v, want two custody entries, one event, two days, the first note and slope", g.Case)
	}
}

// Region, edition and further rated loads, and what was planned, are those of
// the first file that has them.
func TestGroupJoinsConditions(t *testing.T) {
	bare := caseOf(`{"id":"A"}`, 1)
	full := strings.TrimSuffix(caseOf(`{"id":"A","region":"France","zones":[{"name":"z","rated_load_kg":120}]}`, 2), "}") + `,"thresholds_kg":[%d]}`
	for _, order := range [][]string{{bare, fmt.Sprintf(full, 99)}, {fmt.Sprintf(full, 99), bare}, {fmt.Sprintf(full, 99), fmt.Sprintf(full, 98)}} {
		g := batch.Group([]intake.Batch{batchOf(t, "a", order[0]), batchOf(t, "b", order[1])})[0]
		if m := g.Case.Machine; m.Region != "France" || len(m.Zones) != 1 || !slices.Equal(g.Case.Thresholds, []record.Kilogram{99}) {
			t.Errorf("got %+v and %v, want France with one zone, and 99", m, g.Case.Thresholds)
		}
	}
}

// Split over two files, a demo machine gives the figures of its one file.
func TestSplitFileGivesTheSame(t *testing.T) {
	whole, err := read(t, "demo/lashed.case.json")
	if err != nil {
		t.Fatal(err)
	}
	first, second := whole.Records[0], whole.Records[0]
	first.Case.Readings, second.Case.Readings = whole.Records[0].Case.Readings[:3], whole.Records[0].Case.Readings[3:]
	first.Case.Custody, first.Case.Events = first.Case.Custody[:5], nil
	groups := batch.Group([]intake.Batch{{Name: "a", Records: []intake.Record{first}}, {Name: "b", Records: []intake.Record{second}}})
	if len(groups) != 1 {
		t.Fatalf("got %d machines, want 1", len(groups))
	}
	got := figures(t, dossier.Of(&groups[0]))
	if want := figures(t, dossier.From([]intake.Batch{whole})[0]); strings.ReplaceAll(got, "2 files", "one file") != strings.ReplaceAll(want, "2 files", "one file") {
		t.Errorf("got\n%s\nwant\n%s", got, want)
	}
}
