package intake

import (
	"fmt"
	"slices"
	"strings"

	"ratchetmark/internal/record"
	"ratchetmark/internal/wording"
)

// column says what cannot be used of a heading.
func (s *sheet) column(i int) {
	c := &s.cols[i]
	if c.Field != "" || c.heading == "" || c.used != "" || s.guide != nil && len(s.guide.Columns) > 0 {
		return
	}
	clean, _ := Visible(fmt.Sprintf("%q", short(c.heading)))
	f := record.Finding{
		Code: "column-unknown", Severity: record.Note, Where: "heading row",
		Message: "column " + clean + " is not known", Expected: "a heading that says what the column is, as in the template",
		Effect: "it is not used", Hint: "point out what it is if it was meant to count",
	}
	if c.strange != "" {
		s.g.find(nil, s.place(i), strangeUnitIn("column "+clean, c.strange))
		return
	}
	switch strings.ToLower(c.heading) {
	case "month", "monat", "mois", "mes", "mese", "week", "woche", "quarter", "quartal":
		f.Severity, f.Effect = record.Doubt, "it is not used; the readings have no time from it"
		f.Hint = "give the day of each reading; hours of single months must be added up to counters that run on"
	}
	severity := unreadSeverity(c.heading)
	if severity == record.Note {
		severity = s.beyondBands(i)
	}
	if severity != record.Note && !c.twice && !c.twofold && !s.countsBeside(c.heading) && !s.partOfPeak(c.heading) {
		f.Severity, f.Code = severity, "column-unread"
		f.Message, f.Effect = "column "+clean+" may hold loads or hours, and is not known", "it is not used: loads over the rated load may be in it"
	}
	if near, ok := wording.Near(c.heading); ok && !c.twice && !c.twofold {
		f.Message += fmt.Sprintf(": perhaps %q is meant", near)
		f.Hint = fmt.Sprintf("write %q if it is, or point out what the column is", near)
	}
	if c.twofold {
		s.twofold(c, s.place(i))
		return
	}
	if c.twice {
		f = s.columnTwice(c, f, clean)
	}
	s.g.find(nil, s.place(i), f)
}

// twofold settles a column that may be the rated load or the peak by what the
// lines above say; where they say neither it is asked.
func (s *sheet) twofold(c *column, at record.Origin) {
	switch f := s.about.other(); {
	case f != "":
		c.Field = f
	default:
		s.askLoad(c.heading)
		s.g.find(nil, at, loadTwofold(c.heading))
	}
}

// loadTwofold is the finding for a load that may be the rated load or the peak.
func loadTwofold(name string) record.Finding {
	clean, _ := Visible(fmt.Sprintf("%q", short(name)))
	return record.Finding{
		Code: "load-twofold", Severity: record.Blocking, Where: "heading row",
		Message: clean + " may be the rated load or the highest load recorded", Expected: "a name that says which, such as rated load or peak",
		Effect: "it is not used; it is not guessed", Hint: "say which of the two it is",
	}
}

// weighty are words of headings over values that bear on loads; a column with
// one of them is not passed over lightly.
var weighty = []string{"overload", "over load", "over-load", "überlast", "ueberlast", "surcharge", "sobrecarga", "sovraccarico", "peak", "highest", "max", "spitze", "höchst", ">", "over ", "kg", "lb", "band ", "bin ", "klasse ", "class "}

// noLoads are units of what is no load and no time: wind, tilt, pressure, current.
var noLoads = []string{"m/s", "km/h", "mph", "kn/h", "deg", "°", "degrees", "grad", "bar", "psi", "mpa", "kpa", "v", "a", "ma", "mm", "cm", "m", "ft", "in", "°c", "°f", "rpm", "1/min", "kw", "l", "gal"}

// otherThings are words of headings that are not over loads, unless they name them too.
var otherThings = []string{"slope", "height", "speed", "wind", "tilt", "angle", "gradient", "reach", "temperature", "voltage", "höhe", "hoehe", "neigung", "hauteur", "pente", "vitesse", "altezza", "velocità", "altura", "velocidad"}

// harmless are words of headings over loads that are no more than ordinary.
var harmless = []string{"current load", "average", "mean", "min load", "minimum", "aktuell", "mittel", "durchschnitt", "moyen", "actuel", "media", "promedio", "attuale", "empty", "tare"}

// beyondBands tells how much it matters that a column right of the highest band
// is not known where that band is closed: the hours above it may stand there.
func (s *sheet) beyondBands(i int) record.Severity {
	if i == 0 || s.cols[i-1].label == nil || s.cols[i-1].label.To == nil || isSum(s.cols[i].heading) {
		return record.Note
	}
	text := strings.ToLower(s.cols[i].heading)
	if slices.ContainsFunc(append(slices.Clone(countWords), otherThings...), func(w string) bool { return strings.Contains(text, w) }) || strings.ContainsAny(text, "([") {
		return record.Note
	}
	cells := s.sample(i)
	if len(cells) == 0 || slices.ContainsFunc(cells, func(c string) bool { return c == "" || !startsNumber(c) }) {
		return record.Note
	}
	return record.Blocking
}

// partOfPeak reports whether a heading names the peak of a part of the time,
// beside that of all of it.
func (s *sheet) partOfPeak(heading string) bool {
	if !s.has("peak_kg") {
		return false
	}
	words := strings.Fields(strings.ToLower(heading))
	return slices.ContainsFunc(words, func(w string) bool {
		return slices.Contains([]string{"today", "yesterday", "month", "week", "shift", "heute", "monat", "woche", "schicht"}, w)
	})
}

// unreadSeverity tells how much it matters that a column is not used.
func unreadSeverity(heading string) record.Severity {
	text := strings.ToLower(heading)
	if text != "" && strings.Trim(text, "0123456789.,") == "" {
		return record.Blocking // an edge alone
	}
	if slices.Contains(bareMinutes, text) {
		return record.Blocking // the rest of the hours
	}
	for _, w := range harmless {
		if strings.Contains(text, w) {
			return record.Note
		}
	}
	ofLoads := slices.ContainsFunc([]string{"kg", "lb", "load", "last", "charge", "carga", "carico"}, func(w string) bool { return strings.Contains(text, w) })
	for _, w := range otherThings {
		if !ofLoads && strings.Contains(text, w) {
			return record.Note
		}
	}
	for _, w := range []string{" no", " no.", " nr", " nr.", " number", " #", " id"} {
		if strings.HasSuffix(text, w) {
			return record.Note // a number of something
		}
	}
	if i := strings.LastIndexAny(text, "(["); i >= 0 && slices.Contains(noLoads, strings.Trim(text[i:], "()[] ")) {
		return record.Note
	}
	for _, w := range weighty {
		if strings.Contains(text, w) {
			return record.Blocking
		}
	}
	return record.Note
}
