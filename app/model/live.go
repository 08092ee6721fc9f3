package model

import (
	"fmt"
	"strings"
	"time"

	"ratchetmark/internal/dossier"
	"ratchetmark/internal/record"
	"ratchetmark/internal/wording"
)

// Earlier returns the reading before the i-th: the latest of those with an
// earlier time, or the one above it where times do not tell. It is nil where
// there is none.
func (f *Form) Earlier(i int) *FormReading {
	if i < 0 || i >= len(f.Readings) {
		return nil
	}
	at, ok := moment(f.Readings[i].At)
	best, latest := -1, time.Time{}
	for j := range f.Readings {
		if t, dated := moment(f.Readings[j].At); ok && dated && j != i && t.Before(at) && !t.Before(latest) {
			best, latest = j, t
		}
	}
	if best < 0 && i > 0 {
		if _, dated := moment(f.Readings[i-1].At); !ok || !dated {
			best = i - 1
		}
	}
	if best < 0 {
		return nil
	}
	return &f.Readings[best]
}

// moment reads a time without a word about what is wrong with it.
func moment(text string) (time.Time, bool) {
	if text == "" {
		return time.Time{}, false
	}
	t, err := readTime(text)
	return t, err == nil
}

// value reads a number without a word about what is wrong with it.
func value(text string) (float64, bool) {
	x, err := wording.Number(text, wording.Unknown)
	return x, err == nil
}

// Last returns what an earlier reading has in a field that counts on from
// reading to reading; empty for other fields and where there is none.
func (f *Form) Last(x Field, earlier *FormReading) string {
	if earlier == nil {
		return ""
	}
	switch x.part {
	case OfReading:
		switch x.name {
		case "powered_h":
			return earlier.Powered
		case "moving_h":
			return earlier.Moving
		case "peak_kg":
			return earlier.Peak
		}
	case OfBand:
		if x.name == "hours" && f.slot(x) != nil {
			return earlier.hoursOf(f.Readings[x.I].Bands[x.J])
		}
	}
	return ""
}

// hoursOf returns the hours of the band with the same edges.
func (r *FormReading) hoursOf(b FormBand) string {
	for _, c := range r.Bands {
		if sameLoad(b.From, c.From) && sameLoad(b.To, c.To) {
			return c.Hours
		}
	}
	return ""
}

func sameLoad(a, b string) bool {
	if a == b {
		return true
	}
	x, ok := value(a)
	y, too := value(b)
	return ok && too && x == y
}

// Words names a band for a person: "90 to 230 kg", "over 320 kg".
func (b FormBand) Words() string {
	from, to := strings.TrimSpace(b.From), strings.TrimSpace(b.To)
	switch {
	case from == "":
		return "Edges not typed yet"
	case to == "":
		return "Over " + from + " kg"
	}
	return from + " to " + to + " kg"
}

// Hint says what the last reading had in a field. Where what is typed does not
// go with it or with its neighbours, it says so instead, and doubt is true; that
// stands in nobody's way.
func (f *Form) Hint(x Field, earlier *FormReading) (text string, doubt bool) {
	if x.part == OfCustody {
		text = f.custodyDoubt(x)
		return text, text != ""
	}
	last := strings.TrimSpace(f.Last(x, earlier))
	if last == "" {
		return "", false
	}
	before, ok := value(last)
	now, typed := value(f.Typed(x))
	switch {
	case !ok || !typed || now >= before:
		return "last time " + last, false
	case x.name == "peak_kg":
		return "less than last time (" + last + "): a peak falls only when it is cleared", true
	}
	return "less than last time (" + last + "): counters never run backwards", true
}

// custodyDoubt says what keeps a line of custody from being used.
func (f *Form) custodyDoubt(x Field) string {
	if x.name != "to" || f.slot(x) == nil {
		return ""
	}
	u := f.Custody[x.I]
	from, ok := moment(u[1])
	to, too := moment(u[2])
	switch {
	case u == FormLine{}:
		return ""
	case u[1] == "" || u[2] == "":
		return "without both times this line is not used"
	case !ok || !too:
		return "" // the field says why
	case !to.After(from):
		return "this end does not come after the beginning; the line is not used"
	}
	for j, v := range f.Custody {
		begin, ok := moment(v[1])
		end, too := moment(v[2])
		if j != x.I && ok && too && from.Before(end) && begin.Before(to) {
			return fmt.Sprintf("overlaps line %d; neither is used to say who had it", j+1)
		}
	}
	return ""
}

// Total compares the hours typed into the bands of a reading with its hour meter.
func (f *Form) Total(i int) string {
	sum, ok := f.sum(i)
	if !ok {
		return "The hours cannot be added up yet."
	}
	text := "The bands add up to " + dossier.H(sum)
	powered, ok := value(f.Readings[i].Powered)
	if !ok {
		return text + "."
	}
	switch rest := powered - sum; {
	case rest < -0.05:
		return fmt.Sprintf("%s, %s more than the powered hours.", text, dossier.H(-rest))
	case rest > 0.05:
		return fmt.Sprintf("%s; %s of the powered hours are in no band.", text, dossier.H(rest))
	}
	return text + ", as many as the powered hours."
}

// Doubts says in sentences what of a reading does not go together, while it is
// typed. Nothing of it stands in the way of the sheet.
func (f *Form) Doubts(i int) string {
	var out []string
	r := &f.Readings[i]
	if text := r.peakDoubt(); text != "" {
		out = append(out, text)
	}
	earlier := f.Earlier(i)
	fields := Fields(OfReading, i, 0)
	for j := range r.Bands {
		fields = append(fields, FieldOf(OfBand, "hours", i, j))
	}
	for _, x := range fields {
		if _, doubt := f.Hint(x, earlier); doubt {
			steps := strings.Split(string(x.Path()), "/")
			words := record.Path(strings.Join(steps[2:], "/")).Words()
			out = append(out, upper(words)+": less than last time.")
		}
	}
	return strings.Join(out, " ")
}

// peakDoubt says so when the peak lies below the highest band that has hours.
func (r *FormReading) peakDoubt() string {
	peak, ok := value(r.Peak)
	if !ok {
		return ""
	}
	highest, edge := -1.0, ""
	for _, b := range r.Bands {
		from, ok := value(b.From)
		if hours, has := value(b.Hours); ok && has && hours > 0 && from > highest {
			highest, edge = from, strings.TrimSpace(b.From)
		}
	}
	if peak >= highest {
		return ""
	}
	return fmt.Sprintf("The peak, %s kg, lies below %s kg, where the highest band with hours begins.", strings.TrimSpace(r.Peak), edge)
}

// sum adds up the hours typed into the bands of a reading; ok is false while
// one of them cannot be read.
func (f *Form) sum(i int) (sum float64, ok bool) {
	for _, b := range f.Readings[i].Bands {
		if strings.TrimSpace(b.Hours) == "" {
			continue
		}
		x, ok := value(b.Hours)
		if !ok {
			return 0, false
		}
		sum += x
	}
	return sum, true
}

// upper writes words as the beginning of a sentence.
func upper(s string) string { return strings.ToUpper(s[:1]) + s[1:] }
