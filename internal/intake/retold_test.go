package intake_test

import (
	"encoding/json"
	"fmt"
	"math"
	"os"
	"reflect"
	"slices"
	"strings"
	"testing"

	"ratchetmark/internal/intake"
	"ratchetmark/internal/record"
)

// wantCases returns the canonical cases that a vector must read to: those of the
// case file that its name begins with.
func wantCases(t testing.TB, vector string) []record.Case {
	t.Helper()
	name, _, _ := strings.Cut(vector, ".")
	batch, err := read(t, "retold/"+name+".case.json")
	if err != nil {
		t.Fatal(err)
	}
	var out []record.Case
	for _, r := range batch.Records {
		if len(r.Findings) > 0 {
			t.Fatalf("%s: got %+v, want a canonical case without a finding", name, r.Findings)
		}
		r.Case.Note = "" // that it is invented
		out = append(out, r.Case)
	}
	return out
}

// said lists the findings of a batch as "code line:column", or "code sheet
// cell"; those of a further record behind its number, those all records share
// once.
func said(batch intake.Batch) (out []string) {
	shared := map[string]bool{}
	for i, r := range batch.Records {
		for _, f := range r.Findings {
			at := fmt.Sprintf("%d:%d", f.Line, f.Column)
			if f.Cell != "" {
				at = f.Sheet + " " + f.Cell
			}
			if strings.HasSuffix(batch.Name, ".zip") {
				at = f.File + " " + at
			}
			text := f.Code + " " + at
			if i == 0 {
				shared[text] = true
			} else if shared[text] {
				continue
			} else {
				text = fmt.Sprintf("%d: %s", i+1, text)
			}
			out = append(out, text)
		}
	}
	return out
}

// Files of one record in other shapes read to the identical case, and say no
// more about it than is listed.
func TestSameRecord(t *testing.T) {
	for _, v := range sameRecord {
		settle(t, v.vector, sameRecordFaults(t, v.vector, v.within, v.found))
	}
}

func sameRecordFaults(t *testing.T, vector string, within float64, found []string) (wrong []string) {
	t.Helper()
	name, data := shapeBytes(t, vector)
	batch, err := intake.ReadBytes(name, data)
	if err != nil {
		return []string{fmt.Sprintf("got %v, want it read", err)}
	}
	wrong = unlike(t, batch, wantCases(t, vector), within)
	if got := said(batch); !slices.Equal(got, found) {
		wrong = append(wrong, fmt.Sprintf("got the findings %q, want %q", got, found))
	}
	if got := askedIn(batch); len(got) > 0 {
		wrong = append(wrong, fmt.Sprintf("got the questions %q, want none", got))
	}
	return wrong
}

// unlike sets the cases of a batch against those it is to hold; loads may
// differ by so many kg.
func unlike(t testing.TB, batch intake.Batch, want []record.Case, within float64) (wrong []string) {
	t.Helper()
	if len(batch.Records) != len(want) {
		return []string{fmt.Sprintf("got %d records, %q, want %d", len(batch.Records), briefs(batch), len(want))}
	}
	for i, r := range batch.Records {
		got := r.Case
		if within > 0 {
			got = snapped(t, got, want[i], within)
		}
		if !reflect.DeepEqual(got, want[i]) {
			got, want := differ(asJSON(t, got), asJSON(t, want[i]))
			wrong = append(wrong, fmt.Sprintf("record %d: got %s, want %s", i+1, got, want))
		}
	}
	return wrong
}

// snapped puts the loads of another case in the place of those that are within
// so many kg of them: a pound is no round number of kg.
func snapped(t testing.TB, c, want record.Case, within float64) record.Case {
	t.Helper()
	snap := func(p *record.Kilogram, to *record.Kilogram) {
		if p != nil && to != nil && math.Abs(float64(*p-*to)) <= within {
			*p = *to
		}
	}
	snap(c.Machine.RatedLoad, want.Machine.RatedLoad)
	snap(c.Machine.LoadSensing, want.Machine.LoadSensing)
	snap(c.Machine.Mass, want.Machine.Mass)
	for i := range c.Readings {
		if i >= len(want.Readings) {
			break
		}
		r, w := &c.Readings[i], &want.Readings[i]
		snap(r.Peak, w.Peak)
		for j := range r.Bands {
			if j < len(w.Bands) {
				snap(&r.Bands[j].From, &w.Bands[j].From)
				snap(r.Bands[j].To, w.Bands[j].To)
			}
		}
	}
	return c
}

// Every file of the folder is in one of the lists.
func TestEveryRetoldIsListed(t *testing.T) {
	files, err := os.ReadDir(testdata + "retold")
	if err != nil {
		t.Fatal(err)
	}
	listed := map[string]bool{}
	for _, v := range allVectors() {
		name, _, _ := strings.Cut(v, "!")
		listed[name] = true
	}
	for _, f := range files {
		if !listed[f.Name()] && !strings.HasSuffix(f.Name(), ".case.json") {
			t.Errorf("%s: got no expectation, want one", f.Name())
		}
	}
	if len(listed) < 60 {
		t.Errorf("got %d files, want at least 60", len(listed))
	}
}

// allVectors names the vectors of all lists.
func allVectors() (out []string) {
	for _, v := range sameRecord {
		out = append(out, v.vector)
	}
	for _, v := range questions {
		out = append(out, v.vector)
	}
	for name := range refused {
		out = append(out, name)
	}
	for _, v := range doubted {
		out = append(out, v.vector)
	}
	for _, v := range guides {
		out = append(out, v.vector)
	}
	return out
}

func asJSON(t testing.TB, c record.Case) string {
	t.Helper()
	text, err := json.Marshal(c)
	if err != nil {
		t.Fatal(err)
	}
	return string(text)
}

// differ cuts two texts to where they differ, with some of what stands around.
func differ(a, b string) (string, string) {
	const around = 40
	start := 0
	for start < min(len(a), len(b)) && a[start] == b[start] {
		start++
	}
	end := 0
	for end < min(len(a), len(b))-start && a[len(a)-1-end] == b[len(b)-1-end] {
		end++
	}
	from := max(0, start-around)
	return "..." + a[from:min(len(a), len(a)-end+around)], "..." + b[from:min(len(b), len(b)-end+around)]
}

// settle reports what is wrong with a vector.
func settle(t testing.TB, name string, wrong []string) {
	t.Helper()
	for _, w := range wrong {
		t.Errorf("%s: %s", name, w)
	}
}
