package dossier

import (
	"fmt"
	"slices"

	"ratchetmark/internal/assume"
	"ratchetmark/internal/endurance"
	"ratchetmark/internal/fatigue"
	"ratchetmark/internal/record"
)

// What a person may tell of the structure. Beyond it a figure is a slip; no source.
var (
	stressRanges = assume.Limits("stress range at rated load", "MPa", 0.1, 2000, "check the unit: MPa, that is N/mm²")
	cycleCounts  = assume.Limits("load cycles counted", "", 1, 1e9, "read the counter again")
	makerTests   = assume.Limits("maker's test value", "kg", 1, 100_000, "check the load and its unit")
)

// inRange returns a figure that may be used; nil for others.
func inRange(x *float64, r assume.Range) *float64 {
	if x == nil || r.Check(*x, "") != nil {
		return nil
	}
	return x
}

// structureFindings says what of the structure cannot be used. Nothing of it
// withholds what the record itself says.
func structureFindings(s *record.Structure) []record.Finding {
	if s == nil {
		return nil
	}
	at := record.Path("structure")
	var out []record.Finding
	add := func(f *record.Finding) {
		if f != nil {
			f.Severity = record.Doubt
			out = append(out, *f)
		}
	}
	if s.StressRange != nil {
		add(stressRanges.Check(*s.StressRange, at.At("stress_range_mpa")))
	}
	if s.LoadCycles != nil {
		add(cycleCounts.Check(*s.LoadCycles, at.At("load_cycles")))
	}
	if s.MakerTest != nil {
		add(makerTests.Check(float64(*s.MakerTest), at.At("maker_test_kg")))
	}
	var records []string
	for _, r := range fatigue.DutyRecords {
		records = append(records, r.ID)
	}
	for _, w := range []struct {
		member, word string
		known        []string
	}{
		{"cycles_from", s.CyclesFrom, []string{"hours", "moving", "count"}},
		{"duty_record", s.DutyRecord, records},
		{"claim", s.Claim, []string{"crack", "bent"}},
	} {
		if w.word != "" && !slices.Contains(w.known, w.word) {
			add(&record.Finding{
				Code: "structure-refused", Path: at.At(w.member), Where: at.At(w.member).Words(),
				Message: fmt.Sprintf("the word %q", w.word), Expected: list(w.known, "or"), Effect: "it is not used", Hint: "choose one of these",
			})
		}
	}
	if s.Curve != nil {
		_, findings := specOf(s.Curve).Read(at.At("curve"))
		for _, f := range findings {
			add(&f)
		}
	}
	return out
}

// basisFinding says so where load cycles cannot be counted as was asked.
func basisFinding(told record.Structure, e *Exposure) []record.Finding {
	if e == nil || told.CyclesFrom == "" || fatigue.Basis(told.CyclesFrom) == e.Basis || !slices.Contains(fatigue.Bases, fatigue.Basis(told.CyclesFrom)) {
		return nil
	}
	at := record.Path("structure").At("cycles_from")
	return []record.Finding{{
		Code: "basis-missing", Severity: record.Doubt, Path: at, Where: at.Words(),
		Message:  "the record does not have what load cycles are to be counted by",
		Expected: "moving hours in every interval, or a count of load cycles",
		Effect:   "load cycles are taken by the counted hour", Hint: "add the counter, or choose counted hours",
	}}
}

// specOf turns the curve of a case into that of package endurance.
func specOf(c *record.Curve) endurance.Spec {
	return endurance.Spec{
		Standard: c.Standard, Category: c.Category, Stress: c.Stress, Concept: c.Concept, Consequence: c.Consequence,
		GammaMf: c.GammaMf, GammaFf: c.GammaFf, Welded: c.Welded, Slope: c.Slope, At: c.At, Below: c.Below, SlopeBelow: c.SlopeBelow,
	}
}

// detailOf works out the damage of a detail; nil without a stress range and a
// curve that can be used.
func detailOf(told record.Structure, use *fatigue.Use) *Detail {
	at := inRange(told.StressRange, stressRanges)
	if at == nil || told.Curve == nil {
		return nil
	}
	design, findings := specOf(told.Curve).Read("structure/curve")
	if len(findings) > 0 {
		return nil
	}
	got := use.Detail(*at, design)
	d := &Detail{StressRange: *at, Curve: curveWords(told.Curve, design), Damage: got.Damage, Terms: got.Terms}
	if told.Curve.Standard == endurance.StandardEN13001 {
		d.History = got.Classed
	}
	return d
}

// curveWords names a curve with its factors.
func curveWords(c *record.Curve, d endurance.Design) string {
	text := ""
	switch c.Standard {
	case endurance.StandardEN1993:
		text = "EN 1993-1-9:2005, category " + Plain(d.Category) + ", " + orWord(c.Stress, "normal") + " stress"
	case endurance.StandardEN13001:
		text = "EN 13001-3-1, notch class " + Plain(d.Category) + " MPa"
		if !d.Welded {
			text += ", not welded"
		}
	case "":
		return "a curve of one's own, slope " + Plain(*c.Slope) + " through " + Plain(*c.At[0]) + " MPa at " + Count(*c.At[1]) + " cycles" + factorWords(d)
	default:
		text = c.Standard + ", class " + Plain(d.Category) + " (from memory)"
	}
	return text + factorWords(d)
}

func factorWords(d endurance.Design) string {
	return fmt.Sprintf("; gamma_Mf %s, gamma_Ff %s", Plain(d.GammaMf), Plain(d.GammaFf))
}

func orWord(word, usual string) string {
	if word == "" {
		return usual
	}
	return word
}
