package dossier

import (
	"fmt"

	"ratchetmark/internal/lashing"
)

// LoadRange writes what the cell reads as a range.
func LoadRange(r lashing.Reading) string { return rangeText(float64(r.Low), float64(r.High), Kg) }

// ReadsText writes what straps over the platform make the cell read.
func ReadsText(t *Transport) string { return LoadRange(t.Strap.Apparent) }

var wayWords = map[lashing.Way]string{
	lashing.ToFront: "from the machine to the front", lashing.ToRear: "from the machine to the rear", lashing.OverTop: "over the chassis",
}

// LashingLines names what holds the machine, a row each.
func LashingLines(d *Dossier) []string {
	own := d.History.Case.Transport
	if own == nil {
		return nil
	}
	var out []string
	for _, l := range own.Lashings {
		gear := lashing.GearOf(l.Gear)
		if gear == nil {
			continue
		}
		text := fmt.Sprintf("%d x %s, %s, %s degrees to the deck", l.Count, gear.Name, wayWords[lashing.Way(l.Way)], Plain(l.Angle))
		if lashing.Way(l.Way) != lashing.OverTop {
			text += fmt.Sprintf(", %s in plan", Plain(l.Plan))
		}
		if d.Transport.Check != nil && d.Transport.Check.Rule.ByWLL {
			text += fmt.Sprintf("; working load limit %s lb (49 CFR 393.108; %s)", Count(gear.WLL), gear.WLLFrom)
		} else {
			text += fmt.Sprintf("; capacity %s daN (%s; %s)", Count(gear.LC), gear.LCFrom, gear.LCFrom.Status)
		}
		out = append(out, text+".")
	}
	return out
}

// SumLines writes out how each direction was worked out.
func SumLines(t *Transport) []string {
	c := t.Check
	out := []string{"Friction under the wheels: " + pairs() + ". Above 0.6 nothing is worked out."}
	if c == nil || len(c.Margins) == 0 {
		return append(out, "Nothing was worked out yet.")
	}
	for _, m := range c.Margins {
		text := fmt.Sprintf("%s: needed %s g x weight = %s daN; held %s daN = friction %s + over the top %s + direct %s", Capital(string(m.Direction)),
			Plain(c.Rule.Share(m.Direction)), Count(m.Needed), Count(m.Held), Count(m.Friction), Count(m.Over), Count(m.Direct))
		if m.Block > 0 {
			text += " + blocked " + Count(m.Block)
		}
		out = append(out, text+".")
	}
	out = append(out, fmt.Sprintf("Over the top each adds 2/fs x friction x tension x sin of its angle, fs %s forward and %s else (EN 12195-1:2010, 5.4). Direct ones add capacity x (part along the way + %s x friction x part downwards), and beside them all friction counts with %s (5.5).",
		Plain(c.Rule.FsForward), Plain(c.Rule.Fs), Plain(c.Rule.FMu), Plain(c.Rule.FMu)))
	if c.Tip != nil {
		out = append(out, fmt.Sprintf("Tipping to the side: needed %s daN m, held %s daN m beside the machine's own standing (EN 12195-1:2010, 5.2, from memory).", Count(c.Tip.Needed), Count(c.Tip.Held)))
	} else {
		out = append(out, "Tipping was not checked: it needs the height of the centre of gravity and the track.")
	}
	if a := c.Aggregate; a != nil {
		out = append(out, fmt.Sprintf("49 CFR 393.106(d): working load limits count %s lb, direct ones with half, of %s lb needed; %d tie-downs of at least %d (393.110, from memory; 393.130). Held upwards: %s of %s daN (393.102, 20 %% of the weight).",
			Count(a.Counted), Count(a.Required), a.Number, a.Least, Count(c.Downforce.Held), Count(c.Downforce.Needed)))
	}
	return out
}

// pairs writes the table of friction with its sources.
func pairs() string {
	var out []string
	for _, p := range lashing.Pairs {
		out = append(out, fmt.Sprintf("%s %s", Plain(p.Mu), p.Words))
	}
	first := lashing.Pairs[0].Source
	return list(out, "and") + fmt.Sprintf(", but for the example by %s (%s)", first, first.Status)
}

// StrapSources says what the load on the cell rests on, with its sources.
func StrapSources(t *Transport) []string {
	if t.Over.Route == lashing.NotOver {
		return nil
	}
	between := func(low, usual, high float64) string {
		return fmt.Sprintf("%s (%s to %s)", Plain(usual), Plain(low), Plain(high))
	}
	share := lashing.RouteShare(t.Over.Route)
	out := []string{
		"Pull down of a strap: tension x sin a x (1 + exp(-2 a mu)), a its angle to the deck and mu the friction of the edge (computed from the loss over an edge that the GDV handbook gives, read).",
		fmt.Sprintf("Tension: %s daN; %s (%s).", between(t.Over.Low, t.Over.Usual, t.Over.High), t.Device.Source, t.Device.Source.Status),
		fmt.Sprintf("Friction of the edge: %s; %s (%s; the interval is an assumption).", between(t.Over.Edge.Low, t.Over.Edge.Usual, t.Over.Edge.High), lashing.EdgeSource, lashing.EdgeSource.Status),
		fmt.Sprintf("Share through the cell: %s; %s (%s).", between(share.Low, share.Usual, share.High), share.Source, share.Source.Status),
	}
	if t.Over.Blocked {
		out = append(out, fmt.Sprintf("Share left by a block: %s; %s (%s).", between(lashing.Past.Low, lashing.Past.Usual, lashing.Past.High), lashing.Past.Source, lashing.Past.Source.Status))
	}
	s := lashing.Settled
	return append(out, fmt.Sprintf("Left after settling: %s of it; %s (%s).", between(s.Low, s.Usual, s.High), s.Source, s.Source.Status))
}
