package intake_test

import (
	"bytes"
	"encoding/json"
	"fmt"
	"reflect"
	"slices"
	"strings"
	"testing"

	"ratchetmark/internal/intake"
	"ratchetmark/internal/record"
)

func mustJSON(v any) []byte {
	text, err := json.Marshal(v)
	if err != nil {
		panic(err)
	}
	return text
}

const guideHead = `{"format":"ratchetmark guide 1","heading":`

// guides are guides for files whose headings alone say too little, and what is
// read with them.
var guides = []struct {
	vector, guide, want string
	found               []string
}{
	{"guide.plain.csv", guideHead + `["Kennung","Tafel","Wann","Zähler A","Zähler B"],"columns":[{"field":"machine"},{"field":"rated_load_kg","unit":"kg"},{"field":"reading_at"},{"field":"powered_h","unit":"h"},{"field":"peak_kg","unit":"kg"}]}`,
		"EX-61 240 | 2026-03-02T08:10:00Z on 412.5 peak 312", []string{"guide-used 2:1", "zone-assumed 3:11"}},
	{"guide.plain.csv", guideHead + `[" KENNUNG","tafel ","Wann","zähler a","Zähler B",""],"zone":"+01:00","columns":[{"field":"machine"},{},{"field":"reading_at"},{"field":"powered_h","unit":"h"},{"field":"peak_kg","unit":"t"}]}`,
		"EX-61 | 2026-03-02T07:10:00Z on 412.5 peak 312000", []string{"guide-used 2:1", "zone-assumed 3:11"}},
	{"guide.data.csv", guideHead + `["EX-61","scissor","240","2026-03-02T08:10:00Z","412.5","312"],"heading_is_data":true,"columns":[{"field":"machine"},{"field":"kind"},{"field":"rated_load_kg","unit":"kg"},{"field":"reading_at"},{"field":"powered_h","unit":"h"},{"field":"peak_kg","unit":"kg"}]}`,
		"EX-61 240 | 2026-03-02T08:10:00Z on 412.5 peak 312; EX-62 230 | 2026-03-02T08:10:00Z on 300.5 peak 200", []string{"guide-used 2:1"}},
	{"guide.classes.csv", guideHead + `["machine","rated_load_kg","reading_at","powered_h","peak_kg","class one","class two","class three"],"columns":[{"field":"machine"},{"field":"rated_load_kg","unit":"kg"},{"field":"reading_at"},{"field":"powered_h","unit":"h"},{"field":"peak_kg","unit":"kg"},{"field":"band_hours","unit":"h","to_kg":120},{"field":"band_hours","unit":"h","from_kg":120,"to_kg":240},{"field":"band_hours","unit":"h","from_kg":240}]}`,
		"EX-61 240 | 2026-03-02T08:10:00Z on 412.5 peak 312 [0-120:300 120-240:100 240-:12.5]", []string{"guide-used 2:1"}},
	{"guide.classes.csv", guideHead + `["machine","rated_load_kg","reading_at","powered_h","peak_kg","class one","class two","class three"],"columns":[{"field":"machine"},{"field":"rated_load_kg","unit":"kg"},{"field":"reading_at"},{"field":"powered_h","unit":"h"},{"field":"peak_kg","unit":"kg"},{"field":"band_hours","unit":"min","from_kg":0,"to_kg":120},{"field":"band_hours","unit":"min","from_kg":120,"to_kg":240},{}]}`,
		"EX-61 240 | 2026-03-02T08:10:00Z on 412.5 peak 312 [0-120:5 120-240:1.6666666666666667]", []string{"guide-used 2:1"}},
	{"guide.pounds.csv", guideHead + `["machine","rated load","reading_at","peak","band","hours"],"columns":[{"field":"machine"},{"field":"rated_load_kg","unit":"lb"},{"field":"reading_at"},{"field":"peak_kg","unit":"lb"},{"field":"band","unit":"lb"},{"field":"hours","unit":"h"}]}`,
		"EX-61 453.59237 | 2026-03-02T08:10:00Z peak 544.310844 [0-453.59237:165 453.59237-:3]", []string{"guide-used 2:1"}},
	{"guide.zone.csv", guideHead + `["machine","rated_load_kg","reading_at","peak_kg","peak_at"],"zone":"+01:00"}`,
		"EX-61 240 | 2026-03-02T08:10:00Z peak 312 at 2026-02-27T23:30:00Z", []string{"guide-used 2:1", "zone-assumed 3:11"}},
	{"ask.dates.csv", guideHead + `["machine","rated_load_kg","reading_at","peak_kg"],"dates":"month-first"}`,
		"EX-61 240 | 2026-03-04T00:00:00Z peak 200 | 2026-05-06T00:00:00Z peak 210", []string{"guide-used 2:1"}},
	{"ask.both.csv", guideHead + `["machine","rated_load_kg","reading_at","peak_kg","powered_h"],"dates":"day-first","decimal":"comma"}`,
		"EX-61 240 | 2026-04-03T00:00:00Z on 1234 peak 200", []string{"guide-used 2:1"}},
}

// With a guide a file is read whose headings alone do not say what it holds.
func TestGuides(t *testing.T) {
	for i, v := range guides {
		t.Run(fmt.Sprint(i+1, " ", v.vector), func(t *testing.T) {
			g, err := intake.ReadGuide([]byte(v.guide))
			if err != nil {
				t.Fatalf("got %v, want the guide read", err)
			}
			name, data := shapeBytes(t, v.vector)
			batch, err := intake.Read(name, bytes.NewReader(data), intake.GuidesOf(g), nil)
			if err != nil {
				t.Fatalf("got %v, want it read", err)
			}
			if got := briefs(batch); got != v.want {
				t.Errorf("got %q, want %q", got, v.want)
			}
			if got := said(batch); !slices.Equal(got, v.found) {
				t.Errorf("got the findings %q, want %q", got, v.found)
			}
			if len(batch.Guides) != 1 || !reflect.DeepEqual(batch.Guides[0], g) {
				t.Errorf("got the guides %+v used, want %+v", batch.Guides, g)
			}
			if len(batch.Questions) > 0 {
				t.Errorf("got the questions %q, want none", askedIn(batch))
			}
		})
	}
}

// A guide that is saved and opened is the same guide.
func TestGuideRoundTrip(t *testing.T) {
	for _, v := range guides {
		g, err := intake.ReadGuide([]byte(v.guide))
		if err != nil {
			t.Fatal(err)
		}
		again, err := intake.ReadGuide(mustJSON(g))
		if err != nil || !reflect.DeepEqual(again, g) {
			t.Errorf("%s: got %+v, %v, want %+v", v.vector, again, err, g)
		}
	}
}

// A guide that says what the headings say already changes nothing.
func TestOwnGuideChangesNothing(t *testing.T) {
	for _, v := range sameRecord {
		name, data := shapeBytes(t, v.vector)
		batch, err := intake.ReadBytes(name, data)
		if err != nil {
			t.Fatal(err)
		}
		var own []intake.Guide
		for _, s := range batch.Sheets {
			if s.Read {
				own = append(own, s.Guide)
			}
		}
		again, err := intake.Read(name, bytes.NewReader(data), intake.GuidesOf(own...), nil)
		if err != nil {
			t.Errorf("%s: got %v with its own guides, want it read", v.vector, err)
			continue
		}
		if !slices.EqualFunc(again.Records, batch.Records, func(a, b intake.Record) bool { return reflect.DeepEqual(a.Case, b.Case) }) {
			t.Errorf("%s: got %q with its own guides, want %q", v.vector, briefs(again), briefs(batch))
		}
	}
}

// A heading has the same signature however it is spaced or capitalised, and
// another one when a word differs or stands elsewhere.
func TestSignatureOfHeadings(t *testing.T) {
	base := intake.Signature([]string{"Machine", "Hours in band", "Größe"})
	if len(base) != 16 || strings.Trim(base, "0123456789abcdef") != "" {
		t.Errorf("got %q, want 16 hexadecimal digits", base)
	}
	for text, same := range map[string]bool{
		"machine|hours in band|größe": true, " MACHINE |HOURS IN BAND|GRÖSSE": false, " MACHINE |\tHours In Band|GRÖßE ": true,
		"Machine|Hours in band|Größe||": true, "Machine|Hours in band|Größe| ": true,
		"Machine||Hours in band|Größe": false, "Hours in band|Machine|Größe": false, "Machine|Hoursinband|Größe": false, "Machine|Hours in band": false, "": false,
	} {
		if got := intake.Signature(strings.Split(text, "|")); (got == base) != same {
			t.Errorf("%q: got %s beside %s, want the same: %v", text, got, base, same)
		}
	}
}

// A guide that makes no sense is refused with words; "" is a guide that does.
func TestGuidesThatAreWrong(t *testing.T) {
	for text, want := range map[string]string{
		`{`:  "the guide cannot be read: unexpected end of JSON input",
		`[]`: "the guide cannot be read",
		`{}`: `the guide's format is ""; expected "ratchetmark guide 1"`,
		`{"format":"ratchetmark guide 2","heading":["a"]}`:                                      `the guide's format is "ratchetmark guide 2"; expected "ratchetmark guide 1"`,
		`{"format":"ratchetmark guide 1"}`:                                                      "the guide names no heading; expected the cells of the row the table begins with",
		guideHead + `["a"],"decimal":"dot"}`:                                                    `the guide's decimal is "dot"; expected point or comma`,
		guideHead + `["a"],"dates":"iso"}`:                                                      `the guide's dates are "iso"; expected day-first or month-first`,
		guideHead + `["a"],"zone":"CET"}`:                                                       `the guide's zone is "CET"; expected one such as +01:00`,
		guideHead + `["a"],"columns":[{"unit":"stone"}]}`:                                       "the guide cannot be read",
		guideHead + `["a"]}`:                                                                    "",
		guideHead + `["a"],"columns":[{"field":"machine"},{},{"field":"peak_kg","unit":"lb"}]}`: "",
	} {
		_, err := intake.ReadGuide([]byte(text))
		switch {
		case want == "" && err != nil:
			t.Errorf("%s: got %v, want it read", text, err)
		case want != "" && (err == nil || !strings.HasPrefix(err.Error(), want)):
			t.Errorf("%s: got %v, want %s", text, err, want)
		}
	}
}

// A guide whose columns cannot be what it says is refused as well.
func TestGuideColumnsThatCannotBe(t *testing.T) {
	for name, columns := range map[string]string{
		"a field that does not exist":   `[{"field":"shoe"}]`,
		"a load in hours":               `[{"field":"peak_kg","unit":"h"}]`,
		"hours in kilograms":            `[{"field":"hours","unit":"kg"}]`,
		"one field twice":               `[{"field":"machine"},{"field":"machine"}]`,
		"an upper edge below the lower": `[{"field":"band_hours","from_kg":240,"to_kg":120}]`,
		"an edge below zero":            `[{"field":"band_hours","from_kg":-5,"to_kg":120}]`,
		"edges of no band":              `[{"field":"peak_kg","from_kg":5,"to_kg":120}]`,
	} {
		var wrong []string
		if _, err := intake.ReadGuide([]byte(guideHead + `["a","b"],"columns":` + columns + "}")); err == nil {
			wrong = append(wrong, "got no error, want one that names the column")
		}
		settle(t, "guide with "+name, wrong)
	}
}

// A guide that does not fit the columns of its table does not hide the table:
// it is read as its headings say, or refused, never with columns of another.
func TestGuideForAnotherTable(t *testing.T) {
	name, data := shapeBytes(t, "one.en.csv")
	plain, err := intake.ReadBytes(name, data)
	if err != nil {
		t.Fatal(err)
	}
	g := plain.Sheets[0].Guide
	g.Heading = append(slices.Clone(g.Heading), "one more")
	g.Columns = slices.Clone(g.Columns)
	slices.Reverse(g.Columns)
	batch, err := intake.Read(name, bytes.NewReader(data), intake.GuidesOf(g), nil)
	if err != nil || len(batch.Guides) > 0 || !slices.EqualFunc(batch.Records, plain.Records, sameRecords) {
		t.Errorf("got %v, %q with the guides %+v, want %q without one", err, briefs(batch), batch.Guides, briefs(plain))
	}
}

func sameRecords(a, b intake.Record) bool {
	return reflect.DeepEqual(a.Case, b.Case) && record.Blocks(a.Findings) == record.Blocks(b.Findings)
}
