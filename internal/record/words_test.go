package record_test

import (
	"encoding/json"
	"math"
	"testing"

	"ratchetmark/internal/record"
)

func TestPathWords(t *testing.T) {
	for path, want := range map[record.Path]string{
		"":                          "the whole record",
		"format":                    "format",
		"machine/rated_load_kg":     "machine, rated load",
		"readings":                  "readings",
		"readings/2":                "reading 2",
		"readings/2/bands":          "reading 2, bands",
		"readings/2/bands/3":        "reading 2, band 3",
		"readings/2/bands/3/hours":  "reading 2, band 3, hours",
		"custody/12":                "custody entry 12",
		"assumptions/slope":         "assumption, slope",
		"assumptions/<b>\"&/../x/7": "assumption, <b>\"&, .., x 7",
		"7":                         "7",
	} {
		equal(t, string(path), path.Words(), want)
	}
}

func TestPathSteps(t *testing.T) {
	p := record.Path("readings").At(2).At("bands").At(record.Path("x"))
	equal(t, "path", p, "readings/2/bands/x")
	equal(t, "up", p.Up().Up(), "readings/2")
	equal(t, "top", record.Path("readings").Up(), "")
	equal(t, "first step", record.Path("").At(3), "3")
}

// A finding is placed where its own part stands, else where the nearest part
// stands that encloses it; a finding that has a line keeps it.
func TestOriginsPlace(t *testing.T) {
	origins := record.Origins{"readings/2": {File: "a", Line: 20, Column: 5}, "readings/2/peak_kg": {File: "a", Line: 31, Column: 18}}
	findings := []record.Finding{
		{Path: "readings/2/peak_kg"}, {Path: "readings/2/bands/1/hours"}, {Path: "readings/1"},
		{Path: "readings/2", File: "b", Line: 3, Column: 1, Where: "here"},
	}
	origins.Place(findings)
	for i, want := range []struct {
		file         string
		line, column int
		where        string
	}{
		{"a", 31, 18, "reading 2, peak"}, {"a", 20, 5, "reading 2, band 1, hours"}, {"", 0, 0, "reading 1"}, {"b", 3, 1, "here"},
	} {
		f := findings[i]
		equal(t, want.where, f.Where, want.where)
		equal(t, want.where, f.Origin(), record.Origin{File: want.file, Line: want.line, Column: want.column})
	}
}

func TestNumber(t *testing.T) {
	for x, want := range map[float64]string{0: "0", 111.3: "111.3", 0.1 + 0.2: "0.3", 1e6: "1000000", 1e308: "1e+308", -0.5: "-0.5"} {
		equal(t, want, record.Number(x), want)
	}
}

func TestFinite(t *testing.T) {
	for _, x := range []float64{math.NaN(), math.Inf(1), math.Inf(-1)} {
		equal(t, "not finite", record.Finite(x), false)
	}
	equal(t, "largest", record.Finite(math.MaxFloat64), true)
}

func TestDate(t *testing.T) {
	d, err := record.ParseDate("2024-02-29")
	if err != nil {
		t.Fatalf("got %v, want a date", err)
	}
	equal(t, "words", d.String(), "2024-02-29")
	b, err := json.Marshal(map[string]record.Date{"day": d})
	equal(t, "json", string(b), `{"day":"2024-02-29"}`)
	equal(t, "error", err, nil)
	var back struct{ Day, Other *record.Date }
	equal(t, "error", json.Unmarshal([]byte(`{"Day":"2024-02-29","Other":null}`), &back), nil)
	if back.Day == nil || *back.Day != d || back.Other != nil {
		t.Errorf("read back: got %v and %v, want %v and none", back.Day, back.Other, d)
	}
	for _, s := range []string{"2023-02-29", "2024-2-9", "29.02.2024", ""} {
		if _, err := record.ParseDate(s); err == nil {
			t.Errorf("%q: got a date, want an error", s)
		}
	}
}

func TestBoundsScale(t *testing.T) {
	b := record.Bounds{Low: 1, Estimate: record.Of(2.0), High: record.Of(3.0)}.Scale(10, 20, 30)
	equal(t, "scaled", [3]float64{b.Low, *b.Estimate, *b.High}, [3]float64{10, 40, 90})
	open := record.Bounds{Low: 1}.Scale(10, 20, 30)
	equal(t, "open", open.Low, 10)
	if open.Estimate != nil || open.High != nil {
		t.Errorf("open: got %v, want no estimate and no high", open)
	}
}

// A plate value that cannot be one is as good as none.
func TestStated(t *testing.T) {
	for _, n := range []int{-1, 0, 21} {
		if p := (record.Machine{Persons: &n}).StatedPersons(); p != nil {
			t.Errorf("%d persons: got %d, want none", n, *p)
		}
	}
	for _, s := range []float64{-1, 0, 100_001, math.NaN()} {
		if got := (record.Machine{LoadSensing: kg(s)}).StatedSensing(); got != nil {
			t.Errorf("sensing at %v: got %v, want none", s, *got)
		}
	}
	equal(t, "persons", *record.Machine{Persons: record.Of(2)}.StatedPersons(), 2)
	equal(t, "sensing", *record.Machine{LoadSensing: kg(268)}.StatedSensing(), 268)
}
