package spectrum_test

import (
	"bytes"
	"encoding/json"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"ratchetmark/internal/spectrum"
)

func read(t *testing.T, text string) spectrum.Result {
	t.Helper()
	r, err := spectrum.Read("x", strings.NewReader(text))
	if err != nil {
		t.Fatalf("%s: got %v", text, err)
	}
	return r
}

func near(t *testing.T, what string, got, want float64) {
	t.Helper()
	if !(math.Abs(got-want) <= 1e-9*math.Abs(want)) {
		t.Errorf("%s: got %v, want %v", what, got, want)
	}
}

// The vectors of the standards, through the form that the command reads.
func TestFilesOfVectors(t *testing.T) {
	for name, want := range map[string]float64{
		"en1993.json":    0.16235552658692667, // testdata/vectors/endurance.json, ec3_damage
		"one-slope.json": 0.461396516864,      // Haibach 2006, p. 271
		"en13001.json":   (120.*120*120*20000 + 60.*60*60*180000) * math.Pow(1.25/112, 3) / 2e6,
		"goodman.json":   1e4/(1e6*math.Pow(160/(180/(1-0.2)), 5)) + 4e5/(1e6*math.Pow(160/(90/(1-0.1)), 9)),
	} {
		f, err := os.Open("../../testdata/damage/" + name)
		if err != nil {
			t.Fatal(err)
		}
		r, err := spectrum.Read(name, f)
		f.Close()
		if err != nil || r.Damage == nil {
			t.Errorf("%s: got %v and %+v, want a damage", name, err, r.Findings)
			continue
		}
		near(t, name, *r.Damage, want)
		if (r.History != nil) != strings.HasPrefix(name, "en13001") {
			t.Errorf("%s: got history %v", name, r.History)
		}
	}
	if files, _ := filepath.Glob("../../testdata/damage/*.json"); len(files) != 4 {
		t.Errorf("got %d files, want the 4 above", len(files))
	}
}

const en = `"curve":{"standard":"EN 1993-1-9","category":71,"gamma_mf":1}`

// The order of the members does not matter; a range below the cut-off has no
// endurance, which is null.
func TestOrderAndNull(t *testing.T) {
	a := read(t, `{`+en+`,"spectrum":[{"range_mpa":100,"cycles":10000},{"range_mpa":20,"cycles":10000}]}`)
	b := read(t, `{"spectrum":[{"cycles":10000,"range_mpa":100},{"range_mpa":20,"cycles":10000}],`+en+`}`)
	if *a.Damage != *b.Damage || len(b.Terms) != 2 {
		t.Errorf("got %v and %v, want the same", *a.Damage, *b.Damage)
	}
	var out bytes.Buffer
	if err := spectrum.Write(&out, a); err != nil {
		t.Fatal(err)
	}
	if want := `{"range_mpa":20,"cycles":10000,"endurance":null,"damage":0,"share":0}`; !strings.Contains(out.String(), want) {
		t.Errorf("got %s, want %s in it", out.String(), want)
	}
}

func TestFindings(t *testing.T) {
	for text, want := range map[string]string{
		`{` + en + `,"spectrum":[{"range_mpa":100,"cycles":-1}]}`:                                                         "value-out-of-range blocking spectrum 1, cycles",
		`{` + en + `,"spectrum":[{"range_mpa":1},{"range_mpa":2}]}`:                                                       "row-refused blocking spectrum 1",
		`{` + en + `,"spectrum":[{"range_mpa":1,"cycles":1,"cyles":2}]}`:                                                  "member-unknown note spectrum 1, cyles",
		`{"curve":{"standard":"EN 1993-1-9","category":71,"colour":"red"},"spectrum":[]}`:                                 "member-unknown note curve, colour",
		`{"curve":{"standard":"EN 2"},"spectrum":[{"range_mpa":1,"cycles":1}]}`:                                           "curve-refused blocking curve, standard",
		`{` + en + `,"spectrum":[{"range_mpa":50,"cycles":1},{"range_mpa":600,"cycles":1},{"range_mpa":700,"cycles":1}]}`: "endurance-short doubt spectrum 2",
		`{` + en + `,"spectrum":[],"more":{"a":[1]}}`:                                                                     "member-unknown note more",
	} {
		r := read(t, text)
		if len(r.Findings) != 1 {
			t.Errorf("%s: got %+v, want one finding", text, r.Findings)
			continue
		}
		f := r.Findings[0]
		if got := fmt.Sprintf("%s %s %s", f.Code, f.Severity, f.Where); got != want {
			t.Errorf("%s: got %s, want %s", text, got, want)
		}
		if (r.Damage == nil) != (f.Severity == "blocking") {
			t.Errorf("%s: got damage %v with a finding that is %s", text, r.Damage, f.Severity)
		}
	}
}

func TestRefused(t *testing.T) {
	for _, text := range []string{
		``, `{`, `[]`, `5`, `{}`, `{` + en + `}`, `{"spectrum":[]}`, `{` + en + `,"spectrum":5}`, `{` + en + `,"spectrum":[5]}`,
		`{` + en + `,"spectrum":[]} x`, `{` + en + `,` + en + `,"spectrum":[]}`, `{"curve":{"slope":"3"},"spectrum":[]}`,
		`{` + en + `,"spectrum":[{"range_mpa":1e999,"cycles":1}]}`, `{` + en + `,"spectrum":[{"range_mpa":1`,
	} {
		if r, err := spectrum.Read("x", strings.NewReader(text)); err == nil {
			t.Errorf("%s: got %+v, want a refusal", text, r)
		}
	}
}

// rows writes a spectrum of many rows.
func rows(n int) string {
	var b strings.Builder
	b.WriteString(`{` + en + `,"spectrum":[`)
	for i := range n {
		if i > 0 {
			b.WriteByte(',')
		}
		fmt.Fprintf(&b, `{"range_mpa":%d.5,"cycles":%d}`, 10+i%150, 1+i%7)
	}
	b.WriteString(`]}`)
	return b.String()
}

// Many rows are read as few are: twice as many make twice the damage.
func TestManyRows(t *testing.T) {
	few, many := read(t, rows(1050)), read(t, rows(105_000)) // whole turns of 150 and of 7
	if len(many.Terms) != 105_000 || many.Damage == nil || len(many.Findings) > 0 {
		t.Fatalf("got %d terms, %+v", len(many.Terms), many.Findings)
	}
	var sum float64
	for _, term := range many.Terms {
		sum += term.Share
	}
	near(t, "shares", math.Round(sum*1e9)/1e9, 1)
	near(t, "a hundred times the rows", *many.Damage, 100**few.Damage)
}

// One row more than there may be is refused.
func TestLimit(t *testing.T) {
	if _, err := spectrum.ReadUpTo("x", strings.NewReader(rows(20)), 20); err != nil {
		t.Errorf("at the limit: got %v, want it read", err)
	}
	if _, err := spectrum.ReadUpTo("x", strings.NewReader(rows(21)), 20); err == nil || !strings.Contains(err.Error(), "more than 20 rows") {
		t.Errorf("beyond it: got %v, want a refusal", err)
	}
}

// BenchmarkMillion reads the longest spectrum there may be.
func BenchmarkMillion(b *testing.B) {
	text := rows(1_000_000)
	b.SetBytes(int64(len(text)))
	for b.Loop() {
		if _, err := spectrum.Read("x", strings.NewReader(text)); err != nil {
			b.Fatal(err)
		}
	}
}

// Whatever is read, what is printed is JSON, and no figure in it is infinite.
func FuzzRead(f *testing.F) {
	f.Add(`{` + en + `,"spectrum":[{"range_mpa":100,"cycles":10000},{"range_mpa":20,"cycles":1e15}]}`)
	f.Add(`{"curve":{"slope":20,"range_or_amplitude_at":[0.1,1]},"spectrum":[{"range_mpa":1e5,"cycles":1e15}]}`)
	f.Add(`{"curve":{"slope":5,"range_or_amplitude_at":[1,1e6],"welded":false,"mean_stress":"gerber","ultimate_mpa":600},"spectrum":[{"range_mpa":1,"cycles":1,"mean_mpa":599.999999}]}`)
	f.Add(`{"spectrum":[{"range_mpa":null}],"curve":{}}`)
	f.Fuzz(func(t *testing.T, text string) {
		r, err := spectrum.Read("x", strings.NewReader(text))
		if err != nil {
			return
		}
		var out bytes.Buffer
		if err := spectrum.Write(&out, r); err != nil {
			t.Fatalf("%q: got %v, want it written", text, err)
		}
		if !json.Valid(out.Bytes()) {
			t.Errorf("%q: got %s, want JSON", text, out.String())
		}
	})
}
