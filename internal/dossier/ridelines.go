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
		text := fmt.Sprintf("%s: needed %s g x weight = %s daN; held %s daN = friction %s + over the top %s + direct %s", capital(string(m.Direction)),
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

// pairs writes the table of friction with its source.
func pairs() string {
	text := ""
	for _, p := range lashing.Pairs {
		text += fmt.Sprintf("%s %s, ", Plain(p.Mu), p.Words)
	}
	return text + fmt.Sprintf("by %s (%s)", lashing.Pairs[0].Source, lashing.Pairs[0].Source.Status)
}
