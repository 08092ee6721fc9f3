package model

import (
	"strings"

	"ratchetmark/internal/endurance"
	"ratchetmark/internal/fatigue"
	"ratchetmark/internal/record"
)

// Own is the word for a curve of one's own.
const Own = "own"

// told is one thing that a person may tell of the structure: a field beside the
// fourth question. What is told is kept with the case.
type told struct {
	id, label, unit, hint string
	as                    Entered
	choices               []Choice
	only                  []string // curves that it belongs to; none: shown always
	text                  func(s *record.Structure, c *record.Curve) string
	set                   func(f *Form, s *record.Structure, c *record.Curve, text string)
}

// choice makes a field of words, of which the first is that of none.
func choice(id, label, none string, at func(s *record.Structure, c *record.Curve) *string, choices ...Choice) told {
	return told{id: id, label: label, as: AsChoice, choices: append([]Choice{{"", none}}, choices...),
		text: func(s *record.Structure, c *record.Curve) string { return *at(s, c) },
		set:  func(_ *Form, s *record.Structure, c *record.Curve, text string) { *at(s, c) = text },
	}
}

// figure makes a field of a number.
func figure(id, label, unit, hint string, only []string, at func(s *record.Structure, c *record.Curve) **float64) told {
	return told{id: id, label: label, unit: unit, hint: hint, as: AsNumber, only: only,
		text: func(s *record.Structure, c *record.Curve) string { return numberText(*at(s, c)) },
		set: func(f *Form, s *record.Structure, c *record.Curve, text string) {
			*at(s, c) = number[float64](f, "", text)
		},
	}
}

// The curves that a field may belong to.
var (
	standards = []string{endurance.StandardEN1993, endurance.StandardEN13001, endurance.StandardIIW}
	anyCurve  = append([]string{Own}, standards...)
)

// tellings are all fields in the order in which they are shown.
var tellings = []told{
	choice("cycles-from", "Load cycles by", "Counted hours at a rate", func(s *record.Structure, _ *record.Curve) *string { return &s.CyclesFrom },
		Choice{string(fatigue.ByMoving), "Moving hours at a rate"}, Choice{string(fatigue.ByCount), "The machine's own count"}),
	figure("load-cycles", "Load cycles, its own count", "", "over its life", nil, func(s *record.Structure, _ *record.Curve) **float64 { return &s.LoadCycles }),
	choice("duty-record", "How its use is known", "By its recorder", func(s *record.Structure, _ *record.Curve) *string { return &s.DutyRecord }, dutyChoices()...),
	{id: "maker-test", label: "Test load the maker gives", unit: "kg", as: AsNumber,
		text: func(s *record.Structure, _ *record.Curve) string { return numberText(s.MakerTest) },
		set: func(f *Form, s *record.Structure, _ *record.Curve, text string) {
			s.MakerTest = number[record.Kilogram](f, "", text)
		}},
	{id: "disposal", label: "Planned disposal", as: AsDay,
		text: func(s *record.Structure, _ *record.Curve) string {
			if s.Disposal == nil {
				return ""
			}
			return s.Disposal.String()
		},
		set: func(f *Form, s *record.Structure, _ *record.Curve, text string) {
			s.Disposal = f.date("", text)
		}},
	choice("claim", "What is claimed", "Nothing", func(s *record.Structure, _ *record.Curve) *string { return &s.Claim },
		Choice{"crack", "A crack"}, Choice{"bent", "A bent part"}),
	{id: "part", label: "Where", as: AsText,
		text: func(s *record.Structure, _ *record.Curve) string { return s.Part },
		set:  func(_ *Form, s *record.Structure, _ *record.Curve, text string) { s.Part = strings.TrimSpace(text) }},
	figure("stress-range", "Stress range at rated load", "MPa", "of the detail, from the maker or a calculation", nil, func(s *record.Structure, _ *record.Curve) **float64 { return &s.StressRange }),
	{id: "standard", label: "Curve of the detail", as: AsChoice, choices: []Choice{{"", "None"},
		{endurance.StandardEN1993, "EN 1993-1-9, a category"}, {endurance.StandardEN13001, "EN 13001-3-1, a notch class"}, {endurance.StandardIIW, "IIW, a class"}, {Own, "One of your own"}},
		text: func(_ *record.Structure, c *record.Curve) string { return standardOf(c) },
		set:  setStandard},
	figure("category", "Category", "MPa", "160 140 125 112 100 90 80 71 63 56 50 45 40 36", standards, func(_ *record.Structure, c *record.Curve) **float64 { return &c.Category }),
	only(endurance.StandardEN1993, choice("stress", "Stress", "Normal", func(_ *record.Structure, c *record.Curve) *string { return &c.Stress }, Choice{"shear", "Shear"})),
	{id: "assessment", label: "If it fails", only: []string{endurance.StandardEN1993}, as: AsChoice, choices: assessmentChoices(),
		text: func(_ *record.Structure, c *record.Curve) string {
			if c.Concept == "" {
				return ""
			}
			return c.Concept + "/" + c.Consequence
		},
		set: func(_ *Form, _ *record.Structure, c *record.Curve, text string) {
			c.Concept, c.Consequence, _ = strings.Cut(text, "/")
		}},
	{id: "welded", label: "Detail", only: []string{endurance.StandardEN13001}, as: AsChoice, choices: []Choice{{"", "Welded"}, {"no", "Not welded"}},
		text: func(_ *record.Structure, c *record.Curve) string {
			if c.Welded == nil || *c.Welded {
				return ""
			}
			return "no"
		},
		set: func(_ *Form, _ *record.Structure, c *record.Curve, text string) {
			c.Welded = nil
			if text == "no" {
				c.Welded = record.Of(false)
			}
		}},
	figure("gamma-mf", "Factor gamma_mf", "", "1.25 if left blank", []string{endurance.StandardEN13001, endurance.StandardIIW}, func(_ *record.Structure, c *record.Curve) **float64 { return &c.GammaMf }),
	figure("slope", "Slope of the curve", "", "", []string{Own}, func(_ *record.Structure, c *record.Curve) **float64 { return &c.Slope }),
	point("curve-stress", "A point of it: range", "MPa", 0),
	point("curve-cycles", "A point of it: cycles", "", 1),
	only(Own, choice("below", "Below that point", "The same slope", func(_ *record.Structure, c *record.Curve) *string { return &c.Below },
		Choice{"none", "No damage"}, Choice{"slope", "Another slope"})),
	figure("slope-below", "Slope below it", "", "", []string{Own}, func(_ *record.Structure, c *record.Curve) **float64 { return &c.SlopeBelow }),
	figure("gamma-ff", "Factor gamma_Ff on stress", "", "1 if left blank", anyCurve, func(_ *record.Structure, c *record.Curve) **float64 { return &c.GammaFf }),
}

func only(curve string, t told) told {
	t.only = []string{curve}
	return t
}

// point makes the field of one half of a curve's point.
func point(id, label, unit string, half int) told {
	return told{id: id, label: label, unit: unit, as: AsNumber, only: []string{Own},
		text: func(_ *record.Structure, c *record.Curve) string {
			if c.At == nil {
				return ""
			}
			return numberText(c.At[half])
		},
		set: func(f *Form, _ *record.Structure, c *record.Curve, text string) {
			at := [2]*float64{}
			if c.At != nil {
				at = *c.At
			}
			at[half] = number[float64](f, "", text)
			c.At = &at
			if at == [2]*float64{} {
				c.At = nil
			}
		}}
}

func dutyChoices() []Choice {
	var out []Choice
	for _, r := range fatigue.DutyRecords[1:] {
		out = append(out, Choice{r.ID, upper(r.Words)})
	}
	return out
}

func assessmentChoices() []Choice {
	out := []Choice{{"", "The most careful choice"}}
	for _, a := range endurance.Assessments {
		out = append(out, Choice{a.Concept + "/" + a.Consequence, upper(a.Words)})
	}
	return out
}

// standardOf names the curve that is chosen.
func standardOf(c *record.Curve) string {
	if c.Standard == "" && (c.Slope != nil || c.At != nil || c.Below != "" || c.SlopeBelow != nil) {
		return Own
	}
	return c.Standard
}

// setStandard chooses a curve; what belongs to another goes.
func setStandard(_ *Form, _ *record.Structure, c *record.Curve, text string) {
	keep := record.Curve{Standard: text, Category: c.Category, GammaFf: c.GammaFf}
	switch text {
	case Own:
		keep = record.Curve{GammaFf: c.GammaFf, Slope: record.Of(5.0)} // a slope to begin with: it is asked for anyway
	case "":
		keep = record.Curve{}
	}
	*c = keep
}
