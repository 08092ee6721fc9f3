package cause

import (
	"fmt"
	"math"
	"strings"

	"ratchetmark/internal/record"
)

func hoursText(f *facts) string {
	if f.x.What == Band {
		return hoursWords(f.hours) + " were counted at such loads"
	}
	if f.inBand <= 0 {
		return "no hours were counted in the band of the peak"
	}
	return hoursWords(f.inBand) + " were counted in the band of the peak"
}

func occasionText(f *facts) string {
	text := hoursWords(f.o.powered) + " of powered time"
	c := f.custody
	switch {
	case f.loose:
		return text + ", in all of which it may have come about"
	case !c.known || len(f.h.Case.Custody) == 0:
		return text + ", and nothing says who had the machine"
	case c.transit >= mostlyTrip*c.total:
		return fmt.Sprintf("%s, and in transit for %s of %s by the clock", text, hoursWords(c.transit), hoursWords(c.total))
	case c.trips > 0:
		return fmt.Sprintf("%s with %s in transit", text, trips(c.trips))
	case c.implied >= 0.5:
		return text + ", and custody names no trip between two places"
	case c.unnamed > 0.1*c.total:
		return text + ", for part of which nobody is named"
	}
	return text + " without a trip"
}

func trips(n float64) string {
	if whole := math.Round(n); whole > 1 {
		return fmt.Sprintf("%.0f trips", whole)
	}
	return "one trip"
}

func sizeText(f *facts) string {
	load, what := float64(f.x.From), "the band begins at"
	if f.x.What == Band && f.x.From < f.h.Rated {
		return "the band holds loads on both sides of the rated load"
	}
	if f.x.What == Peak {
		what = "the peak is"
	}
	return fmt.Sprintf("%s %s of the rated load (%s)", what, SharePercent(load/float64(f.h.Rated)), LoadOver(f.x.From, f.h.Rated))
}

func neighboursText(f *facts) string {
	gained := 0
	for _, n := range f.neighbours {
		if n.hours > 0 {
			gained++
		}
	}
	others := "the other band over the rated load"
	switch n := len(f.neighbours); {
	case n == 1:
		return others + choose(gained == 1, " gained hours too", " gained nothing")
	case gained == 0:
		return fmt.Sprintf("the %d other bands over the rated load gained nothing", n)
	case gained == n:
		return fmt.Sprintf("the %d other bands over the rated load gained hours too", n)
	default:
		return fmt.Sprintf("of the %d other bands over the rated load, %d gained hours too", n, gained)
	}
}

func choose(ok bool, yes, no string) string {
	if ok {
		return yes
	}
	return no
}

func peakPlaceText(f *facts) string {
	where := "in this band"
	if f.x.To != nil && *f.v.Peak >= *f.x.To {
		where = "above this band"
	}
	return fmt.Sprintf("the highest load of the interval, %s, lies %s", LoadOver(*f.v.Peak, f.h.Rated), where)
}

func emptyText(f *facts) string {
	text := fmt.Sprintf("the lowest band holds %s of the counted hours", percent(f.empty.now))
	if f.empty.usual >= 0 && f.empty.shares.at == 2 {
		return text + ", no less than usual: " + percent(f.empty.usual) + " in the machine's other intervals"
	}
	if f.empty.usual >= 0 {
		return text + ", against " + percent(f.empty.usual) + " in the machine's other intervals"
	}
	return text + "; no other interval of this machine tells what is usual"
}

func movementText(f *facts) string {
	return fmt.Sprintf("the machine moved in %s of %s of powered time", hoursWords(float64(*f.moving)), hoursWords(float64(*f.v.Powered)))
}

func momentText(f *facts) string {
	when := f.when.at.UTC().Format("2 January 2006, 15:04 UTC")
	if midnight(f.when.at) {
		when = f.when.at.UTC().Format("2 January 2006")
	}
	switch w := f.when; {
	case w.missed > 0.95:
		return "the peak was set on " + when + ", about when it must have been carried on a trip that custody does not name"
	case w.transit > 0.95:
		return "the peak was set on " + when + ", in transit"
	case w.transit < 0.05 && w.never < 0.05:
		return "the peak was set on " + when + ", not in transit"
	case midnight(w.at):
		return "the peak was set on " + when + ", a day that custody divides"
	default:
		return "the peak was set on " + when + ", when one hands over to the next"
	}
}

func powerText(f *facts) string {
	source := "by its event list"
	if f.power.daily {
		source = "by its daily use"
	}
	return fmt.Sprintf("%s the machine was powered for %s in transit and for up to %s elsewhere", source, hoursWords(f.power.transit), hoursWords(f.power.elsewhere))
}

func alarmsText(f *facts) string {
	a := f.alarms
	if a.all() == 0 {
		return "the event list holds no overload alarm " + choose(a.others > 0, "at such loads in this interval", "in this interval")
	}
	var parts []string
	for _, p := range []struct {
		n     int
		where string
	}{{a.transit, "in transit"}, {a.elsewhere, "elsewhere"}, {a.unnamed, "while nobody is named"}} {
		if p.n > 0 {
			parts = append(parts, fmt.Sprintf("%d %s", p.n, p.where))
		}
	}
	return "overload alarms" + choose(a.others > 0, " at such loads", "") + ": " + strings.Join(parts, ", ")
}

func afterText(f *facts) string {
	if f.after.over > 0 {
		return fmt.Sprintf("the interval after counted %s over the rated load again", hoursWords(f.after.over))
	}
	return fmt.Sprintf("the interval after counted nothing over the rated load in %s", hoursWords(f.after.hours))
}

func patternText(f *facts) string {
	p := f.pattern
	return fmt.Sprintf("of the other intervals, %d of %d with a trip went over, and %d of %d without", p.tripOver, p.tripOver+p.tripNot, p.restOver, p.restOver+p.restNot)
}

func haulierText(f *facts) string {
	h := f.haulier
	return fmt.Sprintf("on other machines, %d of %d trips of the same haulier went over", h.Over, h.Over+h.Not)
}

// SharePercent writes a share of the rated load in percent. A load just over or
// just under it is not written as 100 %: the digits say on which side it lies.
func SharePercent(share float64) string {
	p := 100 * share
	if math.Round(p) != 100 || p == 100 {
		return fmt.Sprintf("%.0f %%", p)
	}
	if one := math.Round(10*p) / 10; one != 100 {
		return fmt.Sprintf("%.1f %%", one)
	}
	if p > 100 {
		return "just over 100 %"
	}
	return "just under 100 %"
}

// LoadOver writes a load in kg. One over the rated load that would read as the
// rated load itself keeps a digit after the point, or says that it is just over.
func LoadOver(load, rated record.Kilogram) string {
	whole := func(x record.Kilogram) string { return fmt.Sprintf("%.0f kg", math.Round(float64(x))) }
	if load <= rated || whole(load) != whole(rated) {
		return whole(load)
	}
	if one := math.Round(10*float64(load)) / 10; one > float64(rated) {
		return fmt.Sprintf("%.1f kg", one)
	}
	return "just over " + record.Number(rated) + " kg"
}

func percent(x float64) string {
	if x > 0 && x < 0.01 {
		return "under 1 %"
	}
	return fmt.Sprintf("%.0f %%", 100*x)
}

// hoursWords writes hours with digits that mean something.
func hoursWords(h float64) string {
	switch {
	case h >= 100:
		return fmt.Sprintf("%.0f h", h)
	case h >= 0.1 || h == 0:
		return fmt.Sprintf("%.1f h", h)
	}
	return record.Number(math.Round(h*1000)/1000) + " h"
}
