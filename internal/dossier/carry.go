package dossier

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"ratchetmark/internal/assume"
	"ratchetmark/internal/capacity"
)

// RulesLine says which rules the machine is held against.
func (k *Capacity) RulesLine() string {
	switch {
	case k.Stated && k.Region != "":
		return fmt.Sprintf("Held against %s, as stated; region: %s.", k.Edition, k.Region)
	case k.Stated:
		return fmt.Sprintf("Held against %s, as stated; no region is stated.", k.Edition)
	case k.Region != "":
		return fmt.Sprintf("Held against %s, the usual one in the region (%s).", k.Edition, k.Region)
	}
	return fmt.Sprintf("No region is stated: held against %s.", k.Edition)
}

// LeftLine says what persons leave of the rated load for tools and materials,
// by the assumed mass and by the mean of the crew; empty where nothing can be said.
func (k *Capacity) LeftLine(person float64) string {
	if len(k.Left) == 0 {
		return ""
	}
	last := k.Left[len(k.Left)-1]
	text := "For tools and materials: " + leaves(last.Persons, last.Assumed, "of "+Mass(person))
	if k.Crew == nil || last.Real == nil {
		return text + "."
	}
	real := fmt.Sprintf("of %s (mean of %s, and %s worn)", Mass(k.Crew.Mean+k.Crew.Worn), k.Crew.People, Mass(k.Crew.Worn))
	return text + "; " + leaves(last.Persons, *last.Real, real) + "."
}

// leaves says what persons leave: "2 persons of 80 kg leave 70 kg".
func leaves(n int, left float64, which string) string {
	verb := "leave"
	if n == 1 {
		verb = "leaves"
	}
	if left < 0 {
		return fmt.Sprintf("%s %s %s nothing: %s", persons(n), which, verb, spare(left))
	}
	return fmt.Sprintf("%s %s %s %s", persons(n), which, verb, spare(left))
}

// spare writes what is left of a load. What is left is rounded down, what is
// over up, so that the words never promise more than there is.
func spare(left float64) string {
	const grain = 1e-6
	if left < 0 {
		return "over by " + Kg(math.Ceil(-left-grain))
	}
	return Kg(math.Floor(left + grain))
}

// Mass writes a mass in kg with as many digits as it has, to 100 g.
func Mass(x float64) string { return strings.TrimSuffix(digits(x, 1), ".0") + " kg" }

// Lb writes a mass in lb, to a tenth.
func Lb(x float64) string { return strings.TrimSuffix(digits(x, 1), ".0") + " lb" }

// ExceededLine says which loads were exceeded for shares of the counted hours.
func (k *Capacity) ExceededLine() string {
	var parts []string
	for _, e := range k.ExceededFor {
		text := fmt.Sprintf("for %s %% of the counted hours ", Plain(100*e.Share))
		switch {
		case e.High == nil:
			text += "at least " + Kg(e.Low) + ", with nothing that bounds it above"
		case Kg(e.Low) == Kg(*e.High):
			text += Kg(e.Low)
		default:
			text += fmt.Sprintf("between %s and %s%s", digits(e.Low, 0), Kg(*e.High), about(e.Uniform, e.Smooth, Kg))
		}
		parts = append(parts, text)
	}
	if len(parts) == 0 {
		return ""
	}
	return "Load that was exceeded: " + strings.Join(parts, "; ") + "."
}

// about writes the two estimates: ", about 215 kg uniform in the band, 210 kg smooth".
func about(uniform, smooth *float64, write func(float64) string) string {
	if uniform == nil || smooth == nil {
		return ""
	}
	if a, b := write(*uniform), write(*smooth); a != b {
		return fmt.Sprintf(", about %s with loads uniform in the band, %s by a smooth curve", a, b)
	}
	return ", about " + write(*uniform)
}

// ApartLine says how far the two estimates of loads within a band disagree.
func (k *Capacity) ApartLine() string {
	if k.Apart == nil || k.Counted <= 0 {
		return ""
	}
	return fmt.Sprintf("The two estimates differ by at most %s (%s of the counted hours), at %s. Neither is a bound.",
		H(k.Apart.Hours), Percent(k.Apart.Hours/k.Counted), Kg(float64(k.Apart.Load)))
}

// OverLine says for how many hours a load that was asked about was exceeded.
func OverLine(e capacity.Exceeding) string {
	text := "Over " + Mass(float64(e.Load)) + ": "
	switch {
	case e.Unbounded:
		return text + "at least " + H(e.Low) + "; hours are missing from the record, so nothing bounds it above."
	case e.High == 0:
		return text + "no counted hours."
	case H(e.Low) == H(e.High):
		return text + H(e.High) + "."
	case e.Uniform == nil:
		return text + HoursBetween(e.Low, e.High) + "; no estimate, because no peak closes the open band."
	}
	return text + HoursBetween(e.Low, e.High) + about(e.Uniform, e.Smooth, H) + "."
}

// Line says how probable it is that the crew is over the rated load.
func (c *Crew) Line() string {
	var parts []string
	for _, o := range c.Over {
		parts = append(parts, fmt.Sprintf("over %s (%s %%) in %s of crews", Kg(float64(o.Load)), Plain(o.Percent), ChanceText(o.Chance)))
	}
	return fmt.Sprintf("%s drawn from %s, each with %s worn, and %s of tools: %s.",
		Capital(people(c.Persons)), c.People, Mass(c.Worn), Mass(c.Tools), strings.Join(parts, "; "))
}

// people counts persons who are drawn: "two people".
func people(n int) string {
	if n == 1 {
		return "one person"
	}
	return fmt.Sprintf("%d people", n)
}

// ChanceText writes a probability; only what is certain is 0 or 100 %.
func ChanceText(p float64) string {
	switch {
	case p > 0.995 && p < 1:
		return "over 99 %"
	case p > 0 && p < 0.001:
		return "under 0.1 %"
	case p < 0.1:
		return Percent(p)
	}
	return digits(100*p, 0) + " %"
}

// WorthLine says what the band edges are worth in persons.
func (k *Capacity) WorthLine(person float64) string {
	var parts []string
	for _, w := range k.Edges {
		if w.Persons > 0 {
			parts = append(parts, Kg(float64(w.Load))+" = "+w.Words())
		}
	}
	if len(parts) == 0 {
		return ""
	}
	return "Band edges in persons of " + Mass(person) + ": " + strings.Join(parts, "; ") + ". That says nothing of who or what was on the platform."
}

// Line says what a plan leaves, for every rated load.
func (p *Plan) Line() string {
	text := "The plan of " + Mass(float64(p.Total)) + ": " + p.Words
	for _, z := range p.Zones {
		text += "; " + z.Name + ": " + spare(z.Left)
		if z.Left >= 0 {
			text += " left"
		}
	}
	return text + "."
}

// ZoneLines say what further rated loads do to the hours; none without one.
func (k *Capacity) ZoneLines() []string {
	if k.Several == nil {
		return nil
	}
	var out []string
	for _, z := range k.Several.Zones {
		text := fmt.Sprintf("Rated load of %s: %s", z.Name, Kg(float64(z.Rated)))
		if z.Persons > 0 {
			text += " for " + persons(z.Persons)
		}
		if z.Smallest > 0 {
			text += fmt.Sprintf(" (the rule asks for %s)", Kg(float64(z.Smallest)))
		}
		out = append(out, text+"; "+hoursIn(z)+" over it.")
	}
	if text := k.bandSides(); text != "" {
		out = append(out, text)
	}
	return append(out, k.zonesTogether())
}

// bandSides says on which side of the rated loads the bands with hours lie.
func (k *Capacity) bandSides() string {
	var parts []string
	for _, side := range []capacity.Side{capacity.WithinAll, capacity.OverSome, capacity.OverAll} {
		var bands []string
		for _, b := range k.Several.Bands {
			if b.Side == side {
				bands = append(bands, BandText(b.From, b.To))
			}
		}
		if len(bands) > 0 {
			parts = append(parts, list(bands, "and")+" "+string(side))
		}
	}
	if len(parts) == 0 {
		return ""
	}
	return "Bands: " + strings.Join(parts, "; ") + "."
}

// LeftLines say what each number of persons leaves for tools and materials.
func (k *Capacity) LeftLines(person float64) []string {
	var out []string
	for _, l := range k.Left {
		text := leaves(l.Persons, l.Assumed, "of "+Mass(person))
		if l.Real != nil && k.Crew != nil {
			text += "; of " + Mass(k.Crew.Mean+k.Crew.Worn) + " " + spare(*l.Real)
		}
		out = append(out, Capital(text)+".")
	}
	return out
}

// zonesTogether says what is certain and what is possible.
func (k *Capacity) zonesTogether() string {
	z := k.Several
	possible := "not known, because hours are missing from the record"
	if z.High != nil {
		possible = "up to " + H(*z.High)
	}
	return fmt.Sprintf("The record does not know in which zone a load was carried: certain over a rated load are %s, possible %s.", H(z.Low), possible)
}

// Mixed says what a person is to be told where nothing went over the machine's
// rated load and something may have been over a smaller one; empty otherwise.
func (k *Capacity) Mixed() string {
	if k.Several == nil {
		return ""
	}
	least := k.Several.Zones[0]
	for _, z := range k.Several.Zones {
		if z.Rated < least.Rated {
			least = z
		}
	}
	if least.Rated >= k.Rated {
		return ""
	}
	where := fmt.Sprintf("over the %s of %s, if it was in that zone: the record does not tell", Kg(float64(least.Rated)), least.Name)
	switch {
	case least.High == nil || *least.High > 0:
		return hoursIn(least) + " may have been " + where
	case k.Peak != nil && *k.Peak > float64(least.Rated):
		return "the peak of " + Kg(*k.Peak) + " may have been " + where
	}
	return ""
}

// hoursIn writes the hours over the rated load of a zone.
func hoursIn(z capacity.ZoneOver) string {
	if z.High == nil {
		return "at least " + H(z.Low)
	}
	if *z.High == 0 {
		return "no counted hours"
	}
	return HoursBetween(z.Low, *z.High)
}

// CarryLines are what is said of what the machine may carry beside the hours
// over shares of the rated load, a sentence each.
func CarryLines(d *Dossier) []string {
	k := d.Capacity
	person := personMass(d)
	out := append([]string{k.RulesLine()}, k.ZoneLines()...)
	if k.Stage != nil {
		out = append(out, "The peak lies "+k.Stage.Words+".")
	}
	out = append(out, k.LeftLine(person), k.WorthLine(person), k.ExceededLine(), k.ApartLine())
	for _, e := range k.OverLoads {
		out = append(out, OverLine(e))
	}
	if k.Plan != nil {
		out = append(out, k.Plan.Line())
	}
	if k.Crew != nil {
		out = append(out, k.Crew.Line())
	}
	for _, f := range k.Asked {
		out = append(out, FindingText(f))
	}
	return slices.DeleteFunc(out, func(s string) bool { return s == "" })
}

// personMass returns the mass of a person that the rule assumes.
func personMass(d *Dossier) float64 {
	for _, a := range d.Assumptions {
		if a.ID == assume.PersonMass {
			return a.Value
		}
	}
	return 0
}

// AskedLine writes what is asked for after an overload, with who and where it says so.
func AskedLine(s capacity.Statement) string { return Capital(s.What) + ". " + WhoLine(s) }

// WhoLine writes who has to do what is asked for, and where it says so.
func WhoLine(s capacity.Statement) string {
	text := ""
	if s.Who != "" {
		text = "Who: " + s.Who + ". "
	}
	var sources []string
	for _, src := range s.Sources {
		if src.Status == assume.Own {
			sources = append(sources, string(src.Status))
			continue
		}
		sources = append(sources, src.String()+" ("+string(src.Status)+")")
	}
	return text + "Source: " + strings.Join(sources, "; ") + "."
}

// Line says what the list stands on.
func (a *After) Line() string {
	switch {
	case a.Region == "":
		return "No region is stated: this holds everywhere; ask what the law of the place asks beyond it."
	case !a.Own:
		return fmt.Sprintf("No rule of the region (%s) is listed here: ask what its law asks beyond this.", a.Region)
	}
	return fmt.Sprintf("Region: %s. The list is not complete: the maker's manual and the law of the place come first.", a.Region)
}
