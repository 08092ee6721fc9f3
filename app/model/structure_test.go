package model

import (
	"encoding/json"
	"slices"
	"strings"
	"testing"

	"ratchetmark/internal/record"
)

// tell types into a field about the structure.
func tell(t *testing.T, m *Model, id, text string) {
	t.Helper()
	fill(t, m, "told-"+id, text)
}

func shows(m *Model, id string) bool {
	return slices.ContainsFunc(m.StructureInputs(), func(x Input) bool { return x.ID == "told-"+id })
}

// What is told goes into the case, is kept on the device, and leaves no trace
// once it is taken back.
func TestTell(t *testing.T) {
	m, d := opened(t, lashed())
	for _, step := range []struct{ id, text, want string }{
		{"cycles-from", "moving", `{"cycles_from":"moving"}`},
		{"disposal", "2031-04-01", `{"cycles_from":"moving","disposal":"2031-04-01"}`},
		{"cycles-from", "", `{"disposal":"2031-04-01"}`},
		{"disposal", "", `null`},
		{"duty-record", "process", `{"duty_record":"process"}`},
		{"duty-record", "", `null`},
		{"maker-test", "345", `{"maker_test_kg":345}`},
		{"maker-test", "", `null`},
		{"load-cycles", "4100", `{"load_cycles":4100}`},
		{"load-cycles", "", `null`},
		{"claim", "crack", `{"claim":"crack"}`},
		{"part", " jib ", `{"claim":"crack","part":"jib"}`},
		{"part", "", `{"claim":"crack"}`},
		{"claim", "", `null`},
		{"stress-range", "82,5", `{"stress_range_mpa":82.5}`},
		{"standard", "EN 1993-1-9", `{"stress_range_mpa":82.5,"curve":{"standard":"EN 1993-1-9"}}`},
		{"category", "71", `{"stress_range_mpa":82.5,"curve":{"standard":"EN 1993-1-9","category":71}}`},
		{"stress", "shear", `{"stress_range_mpa":82.5,"curve":{"standard":"EN 1993-1-9","category":71,"stress":"shear"}}`},
		{"assessment", "safe life/low", `{"stress_range_mpa":82.5,"curve":{"standard":"EN 1993-1-9","category":71,"stress":"shear","concept":"safe life","consequence":"low"}}`},
		{"gamma-ff", "1.1", `{"stress_range_mpa":82.5,"curve":{"standard":"EN 1993-1-9","category":71,"stress":"shear","concept":"safe life","consequence":"low","gamma_ff":1.1}}`},
		{"standard", "EN 13001-3-1", `{"stress_range_mpa":82.5,"curve":{"standard":"EN 13001-3-1","category":71,"gamma_ff":1.1}}`},
		{"welded", "no", `{"stress_range_mpa":82.5,"curve":{"standard":"EN 13001-3-1","category":71,"gamma_ff":1.1,"welded":false}}`},
		{"welded", "", `{"stress_range_mpa":82.5,"curve":{"standard":"EN 13001-3-1","category":71,"gamma_ff":1.1}}`},
		{"gamma-mf", "1.25", `{"stress_range_mpa":82.5,"curve":{"standard":"EN 13001-3-1","category":71,"gamma_mf":1.25,"gamma_ff":1.1}}`},
		{"standard", "own", `{"stress_range_mpa":82.5,"curve":{"gamma_ff":1.1,"slope":5}}`},
		{"curve-stress", "160", `{"stress_range_mpa":82.5,"curve":{"gamma_ff":1.1,"slope":5,"range_or_amplitude_at":[160,null]}}`},
		{"curve-cycles", "1e6", `{"stress_range_mpa":82.5,"curve":{"gamma_ff":1.1,"slope":5,"range_or_amplitude_at":[160,1000000]}}`},
		{"below", "slope", `{"stress_range_mpa":82.5,"curve":{"gamma_ff":1.1,"slope":5,"range_or_amplitude_at":[160,1000000],"below":"slope"}}`},
		{"slope-below", "9", `{"stress_range_mpa":82.5,"curve":{"gamma_ff":1.1,"slope":5,"range_or_amplitude_at":[160,1000000],"below":"slope","slope_below":9}}`},
		{"standard", "", `{"stress_range_mpa":82.5}`},
		{"stress-range", "", `null`},
	} {
		tell(t, m, step.id, step.text)
		got, _ := json.Marshal(m.Case().Group.Case.Structure)
		if string(got) != step.want {
			t.Errorf("%s %q: got %s, want %s", step.id, step.text, got, step.want)
		}
		if got := at(t, m, "told-"+step.id); got.Text != step.text || got.Problem != "" {
			t.Errorf("%s: got %q shown, want %q as it was typed", step.id, got.Text, step.text)
		}
	}
	if !m.Case().Changed || d.puts < 2 {
		t.Error("got no change kept, want one")
	}
}

// Fields of a curve are shown for that curve alone.
func TestTellingsFollowTheCurve(t *testing.T) {
	m, _ := opened(t, lashed())
	for standard, want := range map[string]string{
		"": "", "EN 1993-1-9": "category stress assessment gamma-ff", "EN 13001-3-1": "category welded gamma-mf gamma-ff",
		"IIW-1823": "category gamma-mf gamma-ff", "own": "slope curve-stress curve-cycles below slope-below gamma-ff",
	} {
		tell(t, m, "standard", standard)
		for _, id := range []string{"category", "stress", "assessment", "welded", "gamma-mf", "gamma-ff", "slope", "curve-stress", "curve-cycles", "below", "slope-below"} {
			if got := shows(m, id); got != strings.Contains(" "+want+" ", " "+id+" ") {
				t.Errorf("%q: got %s shown %v, want %v", standard, id, got, !got)
			}
		}
	}
}

// What cannot be read is kept as typed, with the reason, and changes nothing.
func TestTellRefused(t *testing.T) {
	m, _ := opened(t, lashed())
	tell(t, m, "stress-range", "80")
	for id, text := range map[string]string{"stress-range": "much", "disposal": "soon", "load-cycles": "1,234"} {
		tell(t, m, id, text)
		if f := at(t, m, "told-"+id); f.Text != text || f.Problem == "" {
			t.Errorf("%s: got %q and %q, want it as typed, with the reason", id, f.Text, f.Problem)
		}
	}
	if s := m.Case().Group.Case.Structure; s == nil || *s.StressRange != 80 || s.Disposal != nil {
		t.Errorf("got %+v, want the stress range as before and nothing else", s)
	}
}

// What is told changes the dossier: the damage of a detail, the forecast, the
// words about a claim.
func TestTellReachesTheDossier(t *testing.T) {
	m, _ := opened(t, lashed())
	if m.Case().Dossier.Exposure.Detail != nil {
		t.Error("got a detail, want none before it is told of")
	}
	for id, text := range map[string]string{"stress-range": "82", "disposal": "2029-01-01", "claim": "bent", "cycles-from": "moving"} {
		tell(t, m, id, text)
	}
	tell(t, m, "standard", "EN 1993-1-9")
	tell(t, m, "category", "71")
	e := m.Case().Dossier.Exposure
	if e.Detail == nil || e.Forecast[0].At.String() != "2029-01-01" || !strings.HasPrefix(e.Claim.Words, "A part bends") || e.Basis != "moving" {
		t.Errorf("got %+v, %+v, %q, %q", e.Detail, e.Forecast, e.Claim.Words, e.Basis)
	}
	var c record.Case
	data, _ := json.Marshal(m.Case().Group.Case)
	if err := json.Unmarshal(data, &c); err != nil || c.Structure == nil || *c.Structure.Curve.Category != 71 {
		t.Errorf("got %v and %+v, want it in the saved case", err, c.Structure)
	}
}
