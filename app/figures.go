package app

import (
	"fmt"
	"math"
	"slices"
	"strconv"

	"ratchetmark/internal/assume"
	"ratchetmark/internal/capacity"
	"ratchetmark/internal/cause"
	"ratchetmark/internal/chart"
	"ratchetmark/internal/dossier"
	"ratchetmark/internal/record"
)

// poundsPerKg is exact by definition: 1 lb = 0.45359237 kg (international
// yard and pound agreement, 1959).
const poundsPerKg = 1 / 0.45359237

// textures tells causes apart without colour.
var textures = map[cause.Cause]chart.Texture{
	cause.Worked: chart.Solid, cause.Lashed: chart.Hatch, cause.Shock: chart.Dots,
	cause.Drift: chart.Hollow, cause.Undecided: chart.Rules,
}

var outcomes = []cause.Cause{cause.Worked, cause.Lashed, cause.Shock, cause.Drift, cause.Undecided}

// rulerOf makes the data of the load ruler from a dossier with a rated load.
func rulerOf(d *dossier.Dossier, pounds bool) chart.Ruler {
	unit, factor := "kg", 1.0
	if pounds {
		unit, factor = "lb", poundsPerKg
	}
	k := d.Capacity
	at := func(kg record.Kilogram) float64 { return float64(kg) * factor }
	r := chart.Ruler{
		Label: "Load ruler. " + d.Answers.Recorded + " " + d.Answers.Carry,
		Unit:  unit, Rated: at(k.Rated), Over: "over it", Within: "within the rated load",
		Window: [2]float64{at(k.SensingFrom), at(k.SensingTo)},
	}
	if k.Peak != nil {
		r.Peak = *k.Peak * factor
	}
	r.Sense = "load sensing acts here"
	if k.SensingFrom != k.SensingTo {
		r.Sense = "load sensing acts within this window"
	}
	if k.SensingFrom == 0 {
		r.Sense = ""
	}
	r.Marks = testMarks(k, at)
	r.Steps, r.StepWords = personSteps(d, pounds, at)
	for _, b := range lifeBands(d.History) {
		r.Blocks = append(r.Blocks, blockOf(d, b, at))
	}
	return r
}

// testWords are the words of the test loads on the ruler.
var testWords = map[capacity.Param]string{
	capacity.DynamicTest: "dynamic test", capacity.StaticTest: "static test", capacity.EnhancedTest: "end of type tests",
}

// testMarks are the test loads of the edition; two at one load are one mark.
func testMarks(k *dossier.Capacity, at func(record.Kilogram) float64) []chart.Mark {
	var out []chart.Mark
	for _, s := range k.Shares {
		words, ok := testWords[s.Param]
		switch last := len(out) - 1; {
		case !ok:
		case last >= 0 && out[last].At == at(s.Load):
			out[last].Words += ", " + words
		default:
			out = append(out, chart.Mark{At: at(s.Load), Words: dossier.Plain(s.Percent) + " %, " + words})
		}
	}
	return out
}

// personSteps are the loads that 1, 2, 3 ... persons with tools ask for.
func personSteps(d *dossier.Dossier, pounds bool, at func(record.Kilogram) float64) ([]chart.Mark, string) {
	var out []chart.Mark
	for i, m := range d.Capacity.Marks {
		out = append(out, chart.Mark{At: at(m.At), Words: strconv.Itoa(i + 1)})
	}
	mass := func(id assume.ID) string {
		if x := value(d, id); pounds {
			return dossier.Lb(x * poundsPerKg)
		} else {
			return dossier.Mass(x)
		}
	}
	words := "persons of " + mass(assume.PersonMass)
	if _, own := first(d); own {
		words = "persons by the rule"
	}
	if value(d, assume.ToolsMass) > 0 {
		words += ", with " + mass(assume.ToolsMass) + " of tools"
	}
	return out, words
}

// first returns the mass of the first person where the rule has one of its own.
func first(d *dossier.Dossier) (kg float64, ok bool) {
	kg = value(d, capacity.FirstPerson.ID())
	return kg, kg > 0
}

// lifeBands returns the hours in each band over the whole life.
func lifeBands(h record.History) []record.Band {
	var out []record.Band
	for _, v := range h.Life() {
		for _, b := range v.Bands {
			i := slices.IndexFunc(out, b.SameEdges)
			if i < 0 {
				out = append(out, b)
				continue
			}
			out[i].Hours += b.Hours
		}
	}
	return record.Sorted(out)
}

// blockOf draws a band, its hours over the rated load divided by verdict.
func blockOf(d *dossier.Dossier, b record.Band, at func(record.Kilogram) float64) chart.Block {
	out := chart.Block{From: at(b.From), Open: b.Open(), Hours: float64(b.Hours), To: at(b.From)}
	if !b.Open() {
		out.To = at(*b.To)
	}
	var low, high float64
	for _, verdict := range outcomes {
		piece := chart.Piece{Texture: textures[verdict]}
		for _, x := range d.Exceedances {
			if x.What == cause.Band && x.Verdict == verdict && b.SameEdges(record.Band{From: x.From, To: x.To}) {
				piece.Hours += x.Hours.Estimate
				low, high = low+x.Hours.Low, high+x.Hours.High
			}
		}
		if piece.Hours > 0 {
			out.Parts = append(out.Parts, piece)
			out.Hours -= piece.Hours
		}
	}
	if out.Hours < 1e-9 {
		out.Hours = 0
	}
	out.Words = dossier.H(float64(b.Hours))
	if high > 0 {
		out.OverWords = dossier.HoursBetween(low, high)
		if low != high {
			out.OverWords += " above"
		}
	}
	return out
}

// legendOf names the textures that the drawings of a dossier use.
func legendOf(d *dossier.Dossier) []legendEntry {
	out := []legendEntry{{chart.Swatch("k-plain", chart.Plain), "within the rated load"}}
	for _, verdict := range outcomes {
		for _, x := range d.Exceedances {
			if x.What == cause.Band && x.Verdict == verdict {
				out = append(out, legendEntry{chart.Swatch("k-"+string(verdict), textures[verdict]), causeWords(verdict)})
				break
			}
		}
	}
	return out
}

func causeWords(c cause.Cause) string {
	if c == cause.Undecided {
		return "undecided"
	}
	return dossier.Phrase(c)
}

// hoursOver draws the hours over each share of the rated load as ranges.
func hoursOver(d *dossier.Dossier, id string, width float64) string {
	var rows []chart.Range
	for _, o := range d.Capacity.HoursOver {
		row := chart.Range{
			Words:   fmt.Sprintf("over %d %%, %s", o.Percent, dossier.Kg(float64(d.Capacity.Rated)*float64(o.Percent)/100)),
			Figures: dossier.HoursBetween(o.Low, o.High), Low: o.Low, High: o.High, Open: o.Unbounded,
		}
		if o.Unbounded {
			row.Figures = "at least " + dossier.H(o.Low)
		}
		if o.Estimate != nil {
			row.Mark, row.HasMark = *o.Estimate, true
		}
		rows = append(rows, row)
	}
	for _, e := range d.Capacity.OverLoads {
		row := chart.Range{Words: "over " + dossier.Mass(float64(e.Load)) + ", asked", Figures: dossier.HoursBetween(e.Low, e.High), Low: e.Low, High: e.High, Open: e.Unbounded}
		if e.Unbounded {
			row.High, row.Figures = e.Low, "at least "+dossier.H(e.Low)
		} else if e.Uniform != nil {
			row.Mark, row.HasMark = *e.Uniform, true
		}
		rows = append(rows, row)
	}
	return chart.Ranges(id, "Hours over shares of the rated load. "+d.Answers.Carry, "h", rows, width)
}

// costRanges draws the ranges of a part of the fourth question.
func costRanges(p dossier.CostPart, id string, width float64) string {
	var rows []chart.Range
	for _, r := range p.Ranges {
		row := chart.Range{Words: r.Words, Figures: r.Figures, Low: r.Bounds.Low, Open: r.Bounds.High == nil}
		if r.Bounds.High != nil {
			row.High = *r.Bounds.High
		}
		if r.Bounds.Estimate != nil {
			row.Mark, row.HasMark = *r.Bounds.Estimate, true
		}
		rows = append(rows, row)
	}
	return chart.Ranges(id, p.Title+". "+p.Answer, p.Unit, rows, width)
}

// weightsOf draws the weight of each cause of an exceedance.
func weightsOf(x *dossier.Exceedance, id string, width float64) string {
	var rows []chart.Weight
	for _, c := range cause.All {
		w := x.Posterior.Get(c)
		rows = append(rows, chart.Weight{Texture: textures[c], Words: dossier.Short(c), Figure: dossier.WeightText(w), Share: w})
	}
	return chart.Weights(id, "Weights: "+dossier.WeightsText(x)+".", rows, width)
}

// balanceOf draws what pulls towards the leading cause and what towards its
// best rival.
func balanceOf(x *dossier.Exceedance, id string, width float64) string {
	b := chart.Balance{
		Label: "Balance of evidence. " + x.Answer,
		Left:  "for " + dossier.Short(x.Ratio.Against), Right: "for " + dossier.Short(x.Leader),
		LeftTexture: textures[x.Ratio.Against], RightTexture: textures[x.Leader],
		Wholes: []chart.Whole{wholeOf(x, "all together")},
	}
	telling, _ := dossier.Telling(x)
	for _, r := range telling {
		by := dossier.Pull(x, r)
		b.Pulls = append(b.Pulls, chart.Pull{Words: r.Title, Figure: dossier.Times(math.Pow(10, math.Abs(by))) + " times", By: by})
	}
	return chart.DrawBalance(id, b, width)
}

// wholeOf is where a piece comes out, on the axis of what pulls.
func wholeOf(x *dossier.Exceedance, words string) chart.Whole {
	r := x.Ratio
	return chart.Whole{Words: words, Figure: dossier.Times(r.Value) + " times", Low: math.Log10(r.Low), At: math.Log10(r.Value), High: math.Log10(r.High)}
}
