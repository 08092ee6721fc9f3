package app

import (
	"fmt"

	"ratchetmark/internal/chart"
	"ratchetmark/internal/dossier"
	"ratchetmark/internal/lashing"
	"ratchetmark/internal/record"
)

// stowedOf draws the machine with the strap over its platform.
func stowedOf(d *dossier.Dossier, id string, width float64) string {
	t := d.Transport
	s := chart.Stowed{
		Label: "A stowed machine on a deck. " + dossier.StrapText(d), Scissor: d.Machine.Kind == record.Scissor || d.Machine.Kind == record.Mast,
		Route: string(t.Over.Route), AngleDeg: t.Over.AngleDeg, Blocked: t.Over.Blocked, Cell: "load cell",
		Side: "from the side, its front to the left", End: fmt.Sprintf("from the end, straps at %.0f\u00b0", t.Over.AngleDeg),
		Reads: dossier.ReadsText(t),
	}
	if t.Over.Route == lashing.NotOver {
		s.End = "from the end: nothing over it"
	}
	return chart.DrawStowed(id, s, width)
}

// cardDrawing is the machine as it should ride: platform on a block, nothing
// over it.
func cardDrawing(d *dossier.Dossier) chart.Stowed {
	return chart.Stowed{
		Label: "The machine stowed: platform on a block, nothing over it", Scissor: d.Machine.Kind == record.Scissor || d.Machine.Kind == record.Mast,
		Route: string(lashing.NotOver), Blocked: true,
	}
}

// loadsOf draws what the cell reads, tensioned and settled, against the rated
// load, the test loads and the peak.
func loadsOf(d *dossier.Dossier, id string, width float64) string {
	t := d.Transport
	row := func(words string, r lashing.Reading) chart.Range {
		return chart.Range{Words: words, Figures: dossier.LoadRange(r), Low: float64(r.Low), High: float64(r.High), Mark: float64(r.Estimate), HasMark: true}
	}
	rows := []chart.Range{row("on the cell, tensioned", t.Strap.Apparent), row("after settling on the road", t.Strap.Settled)}
	var marks []chart.Mark
	if d.Capacity != nil {
		rated := float64(d.Capacity.Rated)
		marks = append(marks, chart.Mark{At: rated, Words: "rated load " + dossier.Kg(rated)})
		for _, m := range []struct {
			pct   float64
			words string
		}{{110, "110 %, dynamic test"}, {125, "125 %, static test"}, {150, "150 %, end of type tests"}} {
			marks = append(marks, chart.Mark{At: rated * m.pct / 100, Words: m.words})
		}
		if p := d.Capacity.Peak; p != nil && *p > rated {
			marks = append(marks, chart.Mark{At: *p, Words: "peak on record " + dossier.Kg(*p)})
		}
	}
	return chart.Loads(id, "Load on the cell. "+dossier.StrapText(d), "kg", rows, marks, width)
}

// planOf draws how the machine is held in each direction.
func planOf(d *dossier.Dossier, id string, width float64) string {
	t := d.Transport
	p := chart.Plan{Label: "Plan of the machine on its vehicle. " + dossier.HeldText(t), Front: "front"}
	for i, words := range []string{"forward", "rear", "left", "right"} {
		m := t.Held.Margins[min(i, 2)]
		p.Margins[i] = chart.PlanMargin{Words: words, Percent: -1}
		if m.Percent != nil {
			p.Margins[i].Percent = *m.Percent
		}
	}
	for _, l := range d.History.Case.Transport.Lashings {
		p.Lines = append(p.Lines, chart.PlanLine{Way: l.Way, Count: l.Count, PlanDeg: l.Plan})
	}
	return chart.DrawPlan(id, p, width)
}
