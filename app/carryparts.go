package app

import (
	"fmt"
	"strings"

	"ratchetmark/internal/assume"
	"ratchetmark/internal/bodymass"
	"ratchetmark/internal/capacity"
	"ratchetmark/internal/dossier"
)

// parts are what may be laid open below the answer.
func (c *Carry) parts() []part {
	out := []part{c.rulesPart()}
	if !c.known() {
		return out
	}
	out = append(out, c.planPart())
	if c.hasHours() {
		out = append(out, c.loadPart())
	}
	out = append(out, c.crewPart())
	if len(c.d().Capacity.Edges) > 0 {
		out = append(out, c.worthPart())
	}
	return append(out, c.afterPart())
}

// carryPart begins a part of the second question.
func (c *Carry) carryPart(id, title string) part { return c.part(id, "carry-part", id, title) }

// loadPart says for how many hours any load was exceeded, and which load was
// exceeded for a share of them.
func (c *Carry) loadPart() part {
	k := c.d().Capacity
	p := c.carryPart("any", "Hours over any load")
	if len(k.OverLoads) > 0 {
		text, _, _ := strings.Cut(dossier.OverLine(k.OverLoads[0]), ", about")
		p.title += ". " + strings.TrimSuffix(text, ".")
	}
	if !p.open {
		return p
	}
	var lines []string
	for _, e := range k.OverLoads {
		lines = append(lines, dossier.OverLine(e))
	}
	p.blocks = []block{
		{rows: rowOf("load", c.Model.LoadInput()), lines: linesOf(append(lines, k.ExceededLine(), k.ApartLine())...)},
		{note: "The bounds are exact for any load, within a band too. Both estimates lie between them: one takes loads as uniform within a band, the other lays a smooth curve through the hours at the edges. The load is kept with the machine."},
	}
	return p
}

// crewPart says how probable it is that people drawn at random are too heavy.
func (c *Carry) crewPart() part {
	crew := c.d().Capacity.Crew
	p := c.carryPart("crews", "How probable is it that a crew is over the rated load?")
	p.answer = "Not worked out: a field or the rated load says why."
	lines := []string{
		"People are drawn one by one, without regard to each other or to the work. A real crew is neither random nor of that country: weigh, do not guess, where it is close.",
		fmt.Sprintf("People who work at height are heavier than that: a 95th percentile of %s underestimates theirs (HSE RR342, read).", dossier.Kg(bodymass.AtHeight95)),
	}
	if crew != nil {
		p.title = fmt.Sprintf("A crew of %d drawn at random is over the rated load in %s of cases", crew.Persons, dossier.ChanceText(crew.Over[0].Chance))
		p.answer = crew.Line()
		lines = append([]string{fmt.Sprintf("Mean of %s: %s (%s; %s). The spread of body mass is taken as that of adults in the United States (NCHS Series 3 No. 50, 2025, Table 3, read).",
			crew.People, dossier.Mass(crew.Mean), crew.Source, crew.Source.Status)}, lines...)
	}
	if p.open {
		p.blocks = []block{{rows: rowOf("crew", c.Model.CrewInputs()), lines: linesOf(lines...)}}
	}
	return p
}

// worthPart says what each band is worth in persons and tools.
func (c *Carry) worthPart() part {
	p := c.carryPart("worth", "What the bands are worth in persons, and what persons leave for tools")
	if !p.open {
		return p
	}
	b := block{note: fmt.Sprintf("A person taken as %s. It says nothing of who or what was on the platform.", dossier.Mass(value(c.d(), assume.PersonMass)))}
	edges := c.d().Capacity.Edges
	for i, w := range edges {
		if i+1 < len(edges) {
			b.lines = append(b.lines, partLine{fmt.Sprintf("%s to %s:", dossier.Kg(float64(w.Load)), dossier.Kg(float64(edges[i+1].Load))), worthWords(w) + " to " + worthWords(edges[i+1])})
		} else {
			b.lines = append(b.lines, partLine{"From " + dossier.Kg(float64(w.Load)) + " up:", worthWords(w) + " and more"})
		}
	}
	person := value(c.d(), assume.PersonMass)
	p.blocks = []block{b, {note: "Left of the rated load for tools and materials, with persons of the assumed mass, and of the mean of the crew above with what they wear:", lines: linesOf(c.d().Capacity.LeftLines(person)...)}}
	return p
}

func worthWords(w capacity.Worth) string {
	if w.Load == 0 {
		return "nothing"
	}
	return w.Words()
}

// afterPart lists what is asked for after an overload: open where something
// went over, unless a person closed it.
func (c *Carry) afterPart() part {
	list, over := c.d().Capacity.After, true
	fold := "after-over"
	if list == nil {
		in := dossier.AfterIn(c.d().Capacity.Region)
		list, over, fold = &in, false, "after"
	}
	p := c.part("after", "carry-part", fold, "After an overload: what is asked, and of whom")
	p.open = over != p.open
	b := block{note: list.Line()}
	if over {
		b.head = "Asked for after an overload" // on paper, which has no titles
	}
	for _, row := range list.Rows {
		b.lines = append(b.lines, partLine{dossier.Capital(row.What) + ".", dossier.WhoLine(row)})
	}
	p.blocks = []block{b}
	return p
}
