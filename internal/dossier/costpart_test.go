package dossier_test

import (
	"strings"
	"testing"

	"ratchetmark/internal/batch"
	"ratchetmark/internal/dossier"
	"ratchetmark/internal/intake"
)

// part assesses a case and returns one part of the fourth question.
func part(t *testing.T, text, id string) dossier.CostPart {
	t.Helper()
	got, err := intake.ReadBytes("x", []byte(text))
	if err != nil {
		t.Fatal(err)
	}
	d := dossier.From([]batch.Batch{got})[0]
	for _, p := range dossier.CostParts(&d) {
		if p.ID == id {
			return p
		}
	}
	return dossier.CostPart{}
}

const (
	peakAlone = `"readings":[{"at":"2026-03-02T08:10:00Z","peak_kg":PEAK}]`
	ordinary  = `"readings":[{"at":"2026-03-02T08:10:00Z","peak_kg":190,"bands":[{"from_kg":0,"to_kg":100,"hours":300},{"from_kg":100,"to_kg":200,"hours":200}]}]`
	heavy     = `"readings":[{"at":"2026-03-02T08:10:00Z","peak_kg":480,"bands":[{"from_kg":0,"to_kg":100,"hours":10},{"from_kg":100,"to_kg":400,"hours":0},{"from_kg":400,"to_kg":500,"hours":200}]}],"assumptions":{"prior_worked":{"low":1000,"value":1000,"high":1000}}` // of work, nearly for certain
	either    = `"readings":[{"at":"2026-03-02T08:10:00Z","peak_kg":480,"bands":[{"from_kg":0,"to_kg":100,"hours":100},{"from_kg":100,"to_kg":500,"hours":90}]}]`
)

func told(structure, readings string) string {
	return `{"format":"ratchetmark case 1","machine":{"rated_load_kg":200},` + readings + `,"structure":{` + structure + `}}`
}

// The answer says which did more, or that it cannot be told, and never names
// somebody.
func TestClaimWords(t *testing.T) {
	for _, v := range []struct{ structure, readings, want string }{
		{``, ordinary, "All of the exposure came from use within the rated load"},
		{`"claim":"crack"`, ordinary, "For a fatigue crack: all of the exposure came from use within the rated load"},
		{`"claim":"crack","part":"jib"`, heavy, "loads over the rated load did most of it, between 99 % and 100 %"},
		{`"claim":"crack","part":"jib"`, heavy, "Whether that holds at the jib depends on the stress there"},
		{`"claim":"crack"`, either, "it cannot be told which did more"},
		{`"claim":"bent"`, ordinary, "the record shows none over the rated load."},
		{`"claim":"bent"`, heavy, "the highest recorded is 480 kg, 240 % of the rated load; its cause is undecided."},
		{`"claim":"bent"`, strings.Replace(peakAlone, "PEAK", "270", 1), "the highest recorded is 270 kg, 135 % of the rated load; its cause is undecided."},
		{`"claim":"crack"`, strings.Replace(peakAlone, "PEAK", "270", 1), "hours or a peak are missing"},
	} {
		p := part(t, told(v.structure, v.readings), "claim")
		if !strings.Contains(p.Answer, v.want) {
			t.Errorf("%s, %s: got %q, want %q in it", v.structure, v.readings, p.Answer, v.want)
		}
		if strings.Contains(p.Answer, "..") || strings.Contains(p.Answer, " .") {
			t.Errorf("%s: got %q, want one stop at an end", v.structure, p.Answer)
		}
	}
}

// A peak without hours has its static demand, and no exposure.
func TestStaticWithoutHours(t *testing.T) {
	p := part(t, told(``, strings.Replace(peakAlone, "PEAK", "270", 1)), "static")
	if !strings.Contains(p.Answer, "270 kg, 135 % of the rated load. It lies above the static test") {
		t.Errorf("got %q", p.Answer)
	}
	if p := part(t, told(``, strings.Replace(peakAlone, "PEAK", "200", 1)), "static"); p.Title != "" {
		t.Errorf("at the rated load: got %+v, want nothing", p)
	}
}

// What is told and cannot be used is a doubt at its place, and blocks nothing.
func TestStructureFindings(t *testing.T) {
	for structure, want := range map[string]string{
		`"stress_range_mpa":-5`:                      "structure, stress range at rated load",
		`"load_cycles":0`:                            "structure, load cycles counted",
		`"maker_test_kg":1e9`:                        "structure, maker's test value",
		`"cycles_from":"moon"`:                       "structure, what load cycles are counted by",
		`"cycles_from":"moving"`:                     "structure, what load cycles are counted by", // the record has none
		`"duty_record":"hearsay"`:                    "structure, duty record",
		`"claim":"rust"`:                             "structure, claim",
		`"curve":{"standard":"EN 1993-1-9"}`:         "structure, curve, detail category",
		`"curve":{"slope":3,"category":71}`:          "structure, curve, point of the curve",
		`"curve":{"standard":"EN 9","category":71}`:  "structure, curve, standard",
		`"curve":{"standard":"IIW-1823","slope":30}`: "structure, curve, slope",
	} {
		got, err := intake.ReadBytes("x", []byte(told(structure, ordinary)))
		if err != nil {
			t.Fatal(err)
		}
		d := dossier.From([]batch.Batch{got})[0]
		found := false
		for _, f := range d.Findings {
			found = found || f.Where == want && f.Severity == "doubt" && f.Expected != "" && f.Line > 0
		}
		if !found || d.Blocked() || d.Exposure == nil {
			t.Errorf("%s: got %+v, want a doubt at %q and nothing blocked", structure, d.Findings, want)
		}
	}
}
