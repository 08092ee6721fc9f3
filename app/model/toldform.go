package model

import (
	"slices"
	"strings"

	"ratchetmark/internal/record"
)

// fillTold fills the lists of checks and tie-downs with those of a case.
func (f *Form) fillTold(c record.Case) {
	for _, k := range c.Checks {
		f.Checks = append(f.Checks, FormLine{string(k.Kind), timeText(k.At), numberText(k.Shown), numberText(k.Mass), k.By, k.Note})
	}
	for _, t := range c.TieDowns {
		f.TieDowns = append(f.TieDowns, FormLine{yesOrNo(t.Over), string(t.How), timeText(t.At), t.Note})
	}
}

// yesOrNo writes an answer; an empty text for one that is not given.
func yesOrNo(b *bool) string {
	switch {
	case b == nil:
		return ""
	case *b:
		return "yes"
	}
	return "no"
}

func (f *Form) check(at record.Path, k FormLine) record.LoadCheck {
	out := record.LoadCheck{Kind: record.LoadKind(k[0]), By: k[4], Note: k[5]}
	out.At = f.needed(at.At("at"), k[1])
	out.Shown = number[record.Kilogram](f, at.At("shown_kg"), k[2])
	out.Mass = number[record.Kilogram](f, at.At("mass_kg"), k[3])
	blank := func(i int) bool { return strings.TrimSpace(k[i]) == "" }
	if blank(0) {
		f.problem(at.At("kind"), "choose what was on the platform, or remove the line")
	}
	if blank(2) {
		f.problem(at.At("shown_kg"), "the load shown is missing; write 0 if it showed 0")
	}
	switch {
	case out.Kind == record.MassCheck && blank(3):
		f.problem(at.At("mass_kg"), "the mass is missing; without it the check says nothing")
	case out.Kind == record.ZeroCheck && out.Mass != nil && *out.Mass != 0:
		f.problem(at.At("mass_kg"), "leave this blank, or choose a known mass")
	}
	return out
}

func (f *Form) tieDown(at record.Path, t FormLine) record.TieDown {
	out := record.TieDown{How: record.Known(t[1]), At: f.needed(at.At("at"), t[2]), Note: t[3]}
	switch t[0] {
	case "yes", "no":
		out.Over = record.Of(t[0] == "yes")
	default:
		f.problem(at.At("over_platform"), "choose yes or no, or remove the line")
	}
	if t[1] == "" {
		f.problem(at.At("how"), "choose how that is known, or remove the line")
	}
	return out
}

// Enter opens the machine on the sheet for correcting, at a new line of a list;
// at its last line where nothing stands in that yet.
func (m *Model) Enter(part Part) {
	m.Correct()
	if m.Page != Typing || !slices.Contains(Lists, part) {
		return
	}
	f := &m.Form
	last := f.Lines(part, 0) - 1
	if last >= 0 && (*f.list(part))[last] == (FormLine{}) {
		f.reveal(part, last, false)
		m.host.Show(Fields(part, last, 0)[0].ID())
		return
	}
	m.AddLine(part)
}
