package app

import (
	"fmt"
	"slices"
	"strings"

	"ratchetmark/internal/assume"
	"ratchetmark/internal/chart"
	"ratchetmark/internal/dossier"
)

// Over answers what went over the rated load, and why.
type Over struct{ view }

// mostShown is how many pieces a sheet shows; a record with more is hardly one
// of a machine, and the rest is in the saved result.
const mostShown = 60

// told returns what is told together, as far as the sheet shows it.
func (c *Over) told() []dossier.Told {
	var out []dossier.Told
	left := mostShown
	for _, t := range c.d().Told {
		if left == 0 {
			break
		}
		t.Pieces = t.Pieces[:min(len(t.Pieces), left)]
		left -= len(t.Pieces)
		out = append(out, t)
	}
	return out
}

// more says how many pieces are not shown; empty when all are.
func (c *Over) more() string {
	if n := len(c.d().Exceedances) - mostShown; n > 0 {
		return fmt.Sprintf("%d further pieces are not shown here; they are in the result saved as data.", n)
	}
	return ""
}

func (c *Over) piece(j int) *dossier.Exceedance { return &c.d().Exceedances[j] }

func (c *Over) id(i int) string { return fmt.Sprintf("piece-%d", i+1) }

func (c *Over) key(what string, i int) string { return fmt.Sprintf("%s-%d", what, i) }

func (c *Over) single(t dossier.Told) bool { return len(t.Pieces) == 1 }

// compared reports whether pieces that are told together are drawn beside each
// other: where one cause leads in all of them.
func (c *Over) compared(t dossier.Told) bool { return len(t.Pieces) > 1 && dossier.Leads(&t) }

func (c *Over) weights(t dossier.Told, width float64) string {
	j := t.Pieces[0]
	return weightsOf(c.piece(j), fmt.Sprintf("p%d-%.0f", j+1, width), width)
}

func (c *Over) balance(j int, width float64) string {
	return balanceOf(c.piece(j), fmt.Sprintf("b%d-%.0f", j+1, width), width)
}

// stands draws where each of several pieces comes out.
func (c *Over) stands(t dossier.Told, width float64) string {
	first := c.piece(t.Pieces[0])
	b := chart.Balance{
		Label: "Where each piece comes out. " + t.Answer,
		Left:  "for the best rival", Right: "for " + dossier.Short(first.Leader), RightTexture: textures[first.Leader],
	}
	for n, j := range t.Pieces {
		b.Wholes = append(b.Wholes, wholeOf(c.piece(j), fmt.Sprintf("%d. %s", n+1, dossier.Named(c.piece(j)))))
	}
	return chart.DrawBalance(fmt.Sprintf("s%d-%.0f", t.Pieces[0]+1, width), b, width)
}

// lines are what is said of the answer: what else the peak or its band say, the
// best other reading, what turns it over, and what to ask for.
func (c *Over) lines(t dossier.Told) []string {
	var all []string
	switch x := c.piece(t.Pieces[0]); {
	case !c.single(t):
		all = dossier.ToldLines(c.d(), &t)
	case dossier.Leads(&t):
		all = []string{x.Beside, dossier.SharedText(x), x.Otherwise, dossier.TurnsOver(x)}
	default:
		all = []string{x.Beside, dossier.SharedText(x)}
	}
	all = append(all, dossier.AsksText(c.d(), &t))
	return slices.DeleteFunc(all, func(line string) bool { return line == "" })
}

// why opens the reasoning of a piece.
func (c *Over) why(t dossier.Told, n int) string {
	x := c.piece(t.Pieces[n])
	if c.single(t) {
		return fmt.Sprintf("In words: %d things the record shows", len(x.Reasons))
	}
	return fmt.Sprintf("%d. Why: %s", n+1, dossier.PieceTitle(c.d(), &t, x))
}

// name numbers and names a piece that is told with others, on paper; empty for one.
func (c *Over) name(t dossier.Told, n int) string {
	if c.single(t) {
		return ""
	}
	return fmt.Sprintf("%d. %s", n+1, c.sentence(dossier.PieceTitle(c.d(), &t, c.piece(t.Pieces[n]))))
}

// own is what a piece that is told with others says by itself; empty for one.
func (c *Over) own(t dossier.Told, j int) string {
	if c.single(t) {
		return ""
	}
	return c.sentence(dossier.PieceLine(c.piece(j)))
}

// class sets pieces that are drawn beside each other apart: they take more room.
func (c *Over) class(t dossier.Told) string {
	if c.compared(t) {
		return "piece together"
	}
	return "piece"
}

// reasons are what the record shows of a piece, beyond what is said of all.
func (c *Over) reasons(t dossier.Told, j int) []string {
	x := c.piece(j)
	telling, alike := dossier.Own(&t, x)
	var out []string
	for _, r := range telling {
		out = append(out, c.sentence(r.Text)+": "+dossier.PullText(x, r)+".")
	}
	if text := dossier.AlikeText(alike); text != "" {
		out = append(out, text)
	}
	return out
}

// matters opens the assumptions that move a piece most; empty with none.
func (c *Over) matters(j int) string {
	x := c.piece(j)
	if len(x.Matters) == 0 {
		return ""
	}
	return fmt.Sprintf("What matters most of the assumptions, with how many times as well the record then fits %s as %s:", dossier.Short(x.Leader), dossier.Short(x.Ratio.Against))
}

// combine says how the figures come together; empty where nothing went over.
func (c *Over) combine() string {
	if len(c.d().Exceedances) == 0 {
		return ""
	}
	return dossier.CombineText(c.d())
}

// set says, on paper, which assumptions are not the usual ones; the table of all
// is in the result saved as data.
func (c *Over) set() string {
	var own []string
	for _, a := range c.d().Assumptions {
		if a.Group == assume.ForCauses && a.Edited {
			own = append(own, dossier.AssumptionValue(a))
		}
	}
	if len(own) == 0 {
		return "Weighed with the usual assumptions of " + c.d().Method + "; they are listed in the result saved as data."
	}
	return "Weighed with assumptions set for this case: " + strings.Join(own, "; ") + ". All are listed in the result saved as data."
}

func (c *Over) group() string { return assume.ForCauses }

func (c *Over) settleAnswer() string { return dossier.SettleAnswer(c.d()) }

func (c *Over) doubt(s dossier.Settle) string { return dossier.DoubtText(&s) }

func (c *Over) tells(s dossier.Settle) string {
	return "What it shows: " + s.Tell + "."
}

// bears names what a record bears on where that is not all of it.
func (c *Over) bears(s dossier.Settle) string { return dossier.BearsText(&s) }

// sentence begins words with a capital.
func (c *Over) sentence(words string) string {
	if words == "" {
		return ""
	}
	return strings.ToUpper(words[:1]) + words[1:]
}
