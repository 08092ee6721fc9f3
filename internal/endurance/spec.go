package endurance

import (
	"fmt"
	"math"
	"strings"

	"ratchetmark/internal/assume"
	"ratchetmark/internal/record"
)

// The standards a curve may name.
const (
	StandardEN1993  = "EN 1993-1-9"
	StandardEN13001 = "EN 13001-3-1"
	StandardIIW     = "IIW-1823"
)

// Spec says in words and figures which curve is meant. A nil figure is one that
// was not given.
type Spec struct {
	Standard    string       `json:"standard"` // empty: a curve of one's own
	Category    *float64     `json:"category"` // MPa at two million cycles
	Stress      string       `json:"stress"`   // normal (usual) or shear
	GammaMf     *float64     `json:"gamma_mf"`
	GammaFf     *float64     `json:"gamma_ff"` // multiplies every range; usual 1
	Concept     string       `json:"concept"`  // with consequence, in place of gamma_mf
	Consequence string       `json:"consequence"`
	Welded      *bool        `json:"welded"` // usual: true
	Slope       *float64     `json:"slope"`
	At          *[2]*float64 `json:"range_or_amplitude_at"` // a point of the curve, in the measure of the spectrum
	Below       string       `json:"below"`                 // same slope (usual), none, slope
	SlopeBelow  *float64     `json:"slope_below"`
	MeanStress  string       `json:"mean_stress"` // none (usual), goodman, gerber
	Ultimate    *float64     `json:"ultimate_mpa"`
}

// Figures that a curve may have. Beyond them one is a slip; none has a source.
var (
	ranges     = assume.Limits("stress range", "MPa", 0, 1e5, "check the unit: MPa, that is N/mm²")
	cycles     = assume.Limits("cycles", "", 0, 1e15, "check the count")
	categories = assume.Limits("category", "MPa", 1, 1000, "give the stress range at two million cycles")
	gammas     = assume.Limits("partial factor", "", 0.5, 5, "usual are 1.00 to 1.35")
	slopes     = assume.Limits("slope", "", 1, 20, "usual are 3 to 13")
	points     = assume.Limits("stress of the point", "MPa", 0.1, 1e5, "give a point of the curve as [stress, cycles]")
	pointsAt   = assume.Limits("cycles of the point", "", 1, 1e10, "give a point of the curve as [stress, cycles]")
	strengths  = assume.Limits("ultimate strength", "MPa", 10, 5000, "a mean-stress correction needs it")
)

// Design is a curve with the factor on the ranges that are held against it.
type Design struct {
	Curve
	GammaFf, GammaMf, Category float64
	Welded                     bool
	correct                    func(mean float64) (factor float64, ok bool) // nil: none
}

// reader turns a Spec into a Design and gathers what is wrong with it.
type reader struct {
	at       record.Path
	findings []record.Finding
}

// Read returns the curve that a Spec means, or what is wrong with it. Findings
// are placed below a path.
func (s Spec) Read(at record.Path) (Design, []record.Finding) {
	r := &reader{at: at}
	d := Design{GammaFf: r.figure(s.GammaFf, "gamma_ff", gammas, 1), Welded: s.Welded == nil || *s.Welded}
	switch s.Standard {
	case StandardEN1993, StandardEN13001, StandardIIW:
		d.Category = r.figure(s.Category, "category", categories, math.NaN())
		d.GammaMf = r.gamma(s)
	case "":
		d.GammaMf = 1
	default:
		r.word("standard", s.Standard, StandardEN1993, StandardEN13001, StandardIIW, "none, with slope and point")
	}
	if s.Standard != "" && (s.Slope != nil || s.At != nil) {
		r.find("slope", "a slope or point beside the standard "+s.Standard, "one of the two", "leave the standard out for a curve of your own")
	}
	if len(r.findings) == 0 {
		d.Curve = r.curve(s, d)
	}
	r.meanStress(s, &d)
	return d, r.findings
}

// curve builds the curve of a Spec whose figures are sound.
func (r *reader) curve(s Spec, d Design) Curve {
	shear := s.Stress == "shear"
	if s.Stress != "" && s.Stress != "normal" && !shear {
		r.word("stress", s.Stress, "normal", "shear")
		return Curve{}
	}
	switch {
	case s.Standard == StandardEN1993 && shear:
		return EN1993Shear(d.Category, d.GammaMf)
	case s.Standard == StandardEN1993:
		return EN1993Normal(d.Category, d.GammaMf)
	case shear:
		r.find("stress", "a curve for shear stress is known of "+StandardEN1993+" alone", "normal", "give shear stress a curve of its own")
		return Curve{}
	case s.Standard == StandardEN13001:
		return EN13001(d.Category, d.GammaMf, d.Welded)
	case s.Standard == StandardIIW:
		return IIW(d.Category, d.GammaMf)
	}
	return r.own(s)
}

// own builds a curve from a slope and a point.
func (r *reader) own(s Spec) Curve {
	m := r.figure(s.Slope, "slope", slopes, math.NaN())
	var at, n float64
	if s.At == nil {
		r.find("range_or_amplitude_at", "no point of the curve", "[stress in MPa, cycles]", "give a standard and a category, or a slope and a point")
	} else {
		at = r.figure(s.At[0], "range_or_amplitude_at", points, math.NaN())
		n = r.figure(s.At[1], "range_or_amplitude_at", pointsAt, math.NaN())
	}
	below := m
	if s.Below == "slope" {
		below = r.figure(s.SlopeBelow, "slope_below", slopes, math.NaN())
	}
	if len(r.findings) > 0 {
		return Curve{}
	}
	switch s.Below {
	case "", "same slope":
		return OneSlope(m, at, n)
	case "none":
		return Limited(m, at, n)
	case "slope":
		return TwoSlopes(m, at, n, below)
	}
	r.word("below", s.Below, "same slope", "none", "slope")
	return Curve{}
}

// gamma returns γMf: as given, or by concept and consequence. EN 13001 and IIW
// take a figure between 1.00 and 1.25 (from memory); 1.25 is used without one.
func (r *reader) gamma(s Spec) float64 {
	if s.GammaMf != nil {
		return r.figure(s.GammaMf, "gamma_mf", gammas, 1)
	}
	if s.Standard != StandardEN1993 {
		return 1.25
	}
	concept, consequence := orUsual(s.Concept, "safe life"), orUsual(s.Consequence, "high")
	gamma, ok := GammaMf(concept, consequence)
	if !ok {
		r.find("concept", fmt.Sprintf("concept %q with consequence %q", concept, consequence),
			"damage tolerant or safe life, with low or high", "choose both in these words, or give gamma_mf")
	}
	return gamma
}

// meanStress puts the correction of a Spec in place.
func (r *reader) meanStress(s Spec, d *Design) {
	if s.MeanStress == "" || s.MeanStress == "none" {
		return
	}
	correct := map[string]func(mean, ultimate float64) (float64, bool){"goodman": Goodman, "gerber": Gerber}[s.MeanStress]
	if correct == nil {
		r.word("mean_stress", s.MeanStress, "none", "goodman", "gerber")
		return
	}
	if s.Standard != "" || d.Welded {
		r.find("mean_stress", "a mean-stress correction of a detail that is as welded, or of a standard's category",
			"none", "a correction is for a curve of your own at fully reversed stress, with \"welded\": false")
		return
	}
	ultimate := r.figure(s.Ultimate, "ultimate_mpa", strengths, math.NaN())
	d.correct = func(mean float64) (float64, bool) { return correct(mean, ultimate) }
}

// figure returns a figure, or the usual one where it is not given. One without a
// usual value, given as NaN, is asked for.
func (r *reader) figure(x *float64, name string, in assume.Range, usual float64) float64 {
	if x == nil && !math.IsNaN(usual) {
		return usual
	}
	if x == nil {
		r.find(name, "no "+in.Name, "a number", in.Hint)
		return usual
	}
	if f := in.Check(*x, r.at.At(name)); f != nil {
		r.findings = append(r.findings, *f)
	}
	return *x
}

func (r *reader) word(name, found string, known ...string) {
	r.find(name, fmt.Sprintf("%s %q", strings.ReplaceAll(name, "_", " "), found), strings.Join(known, ", "), "choose one of these")
}

func (r *reader) find(name, message, expected, hint string) {
	at := r.at.At(name)
	r.findings = append(r.findings, record.Finding{
		Code: "curve-refused", Severity: record.Blocking, Path: at, Where: at.Words(),
		Message: message, Expected: expected, Effect: "no damage is worked out", Hint: hint,
	})
}

func orUsual(text, usual string) string {
	if text == "" {
		return usual
	}
	return text
}
