package dossier

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"ratchetmark/internal/assume"
	"ratchetmark/internal/cause"
)

// exceedances prints what went over: each answer first, then what pulls which
// way, what would turn it over, and last what to ask for.
func (p *printer) exceedances(d *Dossier) {
	for i := range d.Told {
		t := &d.Told[i]
		p.line("")
		p.wrap("  - ", "    ", Capital(t.Title)+"; "+t.When+".")
		p.wrap("    ", "    ", t.Answer)
		if len(t.Pieces) == 1 {
			p.piece(d, t, &d.Exceedances[t.Pieces[0]])
		} else {
			p.together(d, t)
		}
		if text := AsksText(d, t); text != "" {
			p.wrap("    ", "      ", text)
		}
	}
	if len(d.Exceedances) > 0 {
		p.line("")
		p.wrap("  ", "  ", CombineText(d))
	}
	if slices.ContainsFunc(d.Exceedances, func(x Exceedance) bool { return x.Verdict == cause.Worked }) {
		p.wrap("  ", "  ", "That a load came from work does not say who put it there.")
	}
	p.settle(d)
}

// together prints pieces of which the same came.
func (p *printer) together(d *Dossier, t *Told) {
	for _, text := range ToldLines(d, t) {
		p.wrap("    ", "      ", text)
	}
	for _, i := range t.Pieces {
		x := &d.Exceedances[i]
		p.wrap("    * ", "      ", Capital(PieceTitle(d, t, x))+": "+PieceLine(x))
		if Leads(t) {
			p.evidence(t, x, "      ")
		}
	}
}

// ToldLines is what is said once of pieces that are told together: what the
// record shows of all, the best other readings, and what turns them over. Where
// no cause leads there is none.
func ToldLines(d *Dossier, t *Told) []string {
	if !Leads(t) {
		return nil
	}
	all := append(SharedReasons(d, t), Alternatives(d, t), TurnOvers(d, t))
	if slices.ContainsFunc(d.piecesOf(t.Pieces), func(x *Exceedance) bool { return x.LoadTest }) {
		all = append(all, strings.TrimSpace(loadTest))
	}
	return slices.DeleteFunc(all, func(text string) bool { return text == "" })
}

// piece prints what stands behind the answer of a piece by itself.
func (p *printer) piece(d *Dossier, t *Told, x *Exceedance) {
	for _, text := range []string{x.Beside, SharedText(x)} {
		if text != "" {
			p.wrap("    ", "      ", text)
		}
	}
	p.wrap("    ", "      ", "Weights: "+WeightsText(x)+".")
	if Leads(t) {
		p.evidence(t, x, "    ")
	}
}

// evidence prints what pulls towards the leader and towards its best rival, and
// the assumptions that move the balance most.
func (p *printer) evidence(t *Told, x *Exceedance, margin string) {
	telling, alike := Own(t, x)
	var lead, rival []string
	for _, r := range telling {
		pull := Pull(x, r)
		text := Times(math.Pow(10, math.Abs(pull))) + " times, " + r.Text
		if pull > 0 {
			lead = append(lead, text)
		} else {
			rival = append(rival, text)
		}
	}
	if len(lead) > 0 {
		p.wrap(margin, margin+"  ", fmt.Sprintf("For %s: %s.", plainly(x.Leader), strings.Join(lead, "; ")))
	}
	text := ""
	if len(t.Pieces) == 1 {
		text = Alternative(x)
	}
	if len(rival) > 0 {
		text += fmt.Sprintf(" For %s: %s.", plainly(x.Ratio.Against), strings.Join(rival, "; "))
	} else if len(t.Pieces) == 1 {
		text += " Nothing in the record fits it better."
	}
	if x.LoadTest && len(t.Pieces) == 1 {
		text += loadTest
	}
	if text != "" {
		p.wrap(margin, margin+"  ", text)
	}
	if len(t.Pieces) > 1 {
		return // what moves them is told of all
	}
	if len(alike) > 0 {
		p.wrap(margin, margin+"  ", AlikeText(alike))
	}
	if text := AssumedText(x); text != "" {
		p.wrap(margin, margin+"  ", text)
	}
}

// settle prints what to ask for.
func (p *printer) settle(d *Dossier) {
	if len(d.Settle) == 0 {
		return
	}
	p.line("")
	p.wrap("  ", "  ", "What would settle it? "+SettleAnswer(d))
	for i := range d.Settle {
		s := &d.Settle[i]
		p.wrap(fmt.Sprintf("  %d. ", i+1), "     ", fmt.Sprintf("%s, %s. %s", Capital(s.Name), DoubtText(s), SettleText(s)))
	}
}

// PieceTitle names a piece that is told with others, and when where that is not
// the same for all.
func PieceTitle(d *Dossier, t *Told, x *Exceedance) string {
	if IntervalText(d.History, x.Interval) != t.When {
		return Named(x) + ", " + until(d, x.Interval)
	}
	return Named(x)
}

// until names an interval among others by its end.
func until(d *Dossier, number int) string {
	if v := d.History.Intervals[number]; !v.From.IsZero() && !v.To.IsZero() && day(v.From) != day(v.To) {
		return "to " + day(v.To)
	}
	return IntervalText(d.History, number)
}

// PieceLine says of a piece that is told with others what is its own: how it
// stands, and its weights.
func PieceLine(x *Exceedance) string {
	text := standsText(x) + WeightsText(x) + "."
	for _, more := range []string{x.Beside, SharedText(x)} {
		if more != "" {
			text += " " + more
		}
	}
	return text
}

// standsText is the ratio of a piece with its range; empty where it means little.
func standsText(x *Exceedance) string {
	if x.MayBeUnder {
		return ""
	}
	r := x.Ratio
	return fmt.Sprintf("fits %s %s times as well as %s (%s to %s); ", plainly(x.Leader), Times(r.Value), plainly(r.Against), lowText(r.Low), Times(r.High))
}

// AssumedText names the assumptions that move the ratio most, and says which
// would turn it over, at which value, or that none does by itself.
func AssumedText(x *Exceedance) string {
	if len(x.Matters) == 0 || x.Ratio.Value < 1 || x.MayBeUnder {
		return ""
	}
	var parts []string
	flips := false
	for _, m := range x.Matters {
		parts = append(parts, m.Text)
		flips = flips || m.FlipsAt != nil
	}
	text := "Moved most by " + strings.Join(parts, "; ") + "."
	if flips {
		return text
	}
	return text + " " + TurnsOver(x)
}

// CombineText says how what the record shows of a piece comes together: enough
// for another person to work it out again.
func CombineText(d *Dossier) string {
	text := fmt.Sprintf("How the figures come together: what the record shows multiplies; all together counts at %s of its strength, that is to the power of %s, because the models are rough, with a chance of %s that none of them holds.",
		Percent(assumed(d, assume.Reliance)), Plain(assumed(d, assume.Reliance)), Percent(assumed(d, assume.ModelDoubt)))
	return text + " The weights follow with those set before any evidence, " + priorText(d) + "."
}

// priorText writes the weights before any evidence.
func priorText(d *Dossier) string {
	var parts []string
	ids := []assume.ID{assume.PriorWorked, assume.PriorLashed, assume.PriorShock, assume.PriorDrift}
	same := true
	for _, id := range ids {
		same = same && assumed(d, id) == assumed(d, ids[0])
	}
	if same {
		return "the same for all four causes"
	}
	for i, id := range ids {
		parts = append(parts, Short(cause.All[i])+" "+Plain(assumed(d, id)))
	}
	return strings.Join(parts, ", ")
}
