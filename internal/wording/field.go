package wording

import (
	"slices"
	"strings"
	"sync"
)

// Field is what a column or a line of a record means. The names are those of
// the case file where it has one.
type Field string

// The fields. Of several meanings that fit a heading, the earlier one here comes first.
const (
	FieldMachine     Field = "machine"
	FieldKind        Field = "kind"
	FieldRatedLoad   Field = "rated_load_kg"
	FieldPersons     Field = "persons"
	FieldLoadSensing Field = "load_sensing_kg"
	FieldMass        Field = "mass_kg"
	FieldInService   Field = "in_service"
	FieldReadingTime Field = "reading_time" // time of day, with the date in another column
	FieldReadingAt   Field = "reading_at"
	FieldReadingDate Field = "reading_date"
	FieldBand        Field = "band" // a label of a band, see Band
	FieldFrom        Field = "from_kg"
	FieldTo          Field = "to_kg"
	FieldHours       Field = "hours"
	FieldShare       Field = "share" // of the powered time, in the band
	FieldPowered     Field = "powered_h"
	FieldMoving      Field = "moving_h"
	FieldPeak        Field = "peak_kg"
	FieldPeakAt      Field = "peak_at"
	FieldCustodyFrom Field = "custody_from"
	FieldCustodyTo   Field = "custody_to"
	FieldHolder      Field = "holder"
	FieldWho         Field = "who"
	FieldDailyDate   Field = "daily_date"
	FieldEventAt     Field = "event_at"
	FieldEventKind   Field = "event_kind"
	FieldEventLoad   Field = "event_load_kg"
	FieldNote        Field = "note"
)

// Fields returns what a heading can mean, best first, and its unit. Case,
// accents (ü and ue, ß and ss), punctuation, underscores, spaces, articles and
// units are passed over. "From" alone can mean a load or a day: all meanings
// are returned, and the company that the column keeps decides. A meaning that
// does not go with the unit is left out; hours in percent are a share. None
// means that the heading is not known.
func Fields(heading string) (fields []Field, unit Unit) {
	if len(heading) > longestHeading {
		return nil, NoUnit
	}
	words, unit := HeadingUnit(heading)
	if words == "" {
		switch {
		case unit == Percent:
			return []Field{FieldShare}, unit
		case unit.IsTime():
			return []Field{FieldHours}, unit
		}
		return nil, unit
	}
	if found := lookup(words); unit != NoUnit && namesUnit(words, unit) && found != nil {
		return suitingWords(found, unit)
	}
	for _, text := range [...]string{words, heading, withoutBrackets(words), timeAsHours(words, unit)} {
		if found := suiting(lookup(text), unit); found != nil {
			return found, unit
		}
	}
	return suiting(inParts(words), unit), unit
}

// longestHeading is the size in bytes beyond which a text is no heading, and
// no word for a kind, a holder or an event; it bounds the work on hostile input.
const longestHeading = 400

// lookup finds the meanings of a wording: as written, then without articles and
// plurals, then without words that add nothing.
func lookup(text string) []Field {
	index := fieldIndex()
	tokens := headingTokens(text)
	if found := index.exact[strings.Join(tokens, "")]; found != nil {
		return found
	}
	if found := index.loose[looseKey(tokens, false)]; found != nil {
		return found
	}
	return index.loose[looseKey(tokens, true)]
}

// inParts reads a heading in two languages, "Stunden / hours": what all its
// parts mean.
func inParts(words string) []Field {
	var common []Field
	parts := strings.FieldsFunc(words, func(r rune) bool { return r == '/' || r == '|' || r == '\n' })
	if len(parts) < 2 {
		return nil
	}
	for i, part := range parts {
		found := lookup(part)
		if i == 0 {
			common = slices.Clone(found)
		}
		common = slices.DeleteFunc(common, func(f Field) bool { return !slices.Contains(found, f) })
	}
	return common
}

// withoutBrackets drops what stands in round or square brackets.
func withoutBrackets(s string) string {
	for {
		i := strings.IndexAny(s, "([")
		if i < 0 {
			return s
		}
		n := strings.IndexAny(s[i:], ")]")
		if n < 0 {
			return s
		}
		s = s[:i] + " " + s[i+n+1:]
	}
}

// timeAsHours puts hours for a last word such as minutes: the words of the
// table are for hours, the unit is told apart from them.
func timeAsHours(words string, u Unit) string {
	if i := lastStart(words); u == Minute || u == Second {
		if _, name, ok := unitOf(folded(words[i:])); ok && name {
			return words[:i] + "hours"
		}
	}
	return words
}

// suiting leaves out the meanings that do not go with a unit.
func suiting(fields []Field, u Unit) []Field {
	var out []Field
	for _, f := range fields {
		if u == Percent && f == FieldHours {
			f = FieldShare
		}
		if suits(f, u) && !slices.Contains(out, f) {
			out = append(out, f)
		}
	}
	return out
}

// namesUnit reports whether the last word of a heading is the name of the unit:
// "Powered hours", "Share of hours", "Date et heure".
func namesUnit(words string, u Unit) bool {
	named, name, ok := unitOf(folded(words[lastStart(words):]))
	return ok && name && named == u
}

// suitingWords keeps every meaning of a heading whose last word is the name of
// a unit; where none goes with the unit, that word was not meant as one.
func suitingWords(fields []Field, u Unit) ([]Field, Unit) {
	if suiting(fields, u) == nil {
		u = NoUnit
	}
	return slices.Clone(fields), u
}

// IsField reports whether a field is one of those that columns can have.
func IsField(f Field) bool { return slices.Contains(fieldOrder, f) }

// Suits reports whether values of a field can have a unit.
func Suits(f Field, u Unit) bool { return suits(f, u) }

// suits says which units a field can have; edges and peaks may be in percent of
// the rated load, a time of day may have its form behind it.
func suits(f Field, u Unit) bool {
	switch f {
	case FieldRatedLoad, FieldLoadSensing, FieldMass:
		return u == NoUnit || u.IsLoad()
	case FieldBand, FieldFrom, FieldTo, FieldPeak, FieldEventLoad:
		return u == NoUnit || u.IsLoad() || u == Percent
	case FieldHours, FieldPowered, FieldMoving:
		return u == NoUnit || u.IsTime()
	case FieldShare:
		return u == NoUnit || u == Percent
	case FieldReadingTime, FieldReadingAt, FieldEventAt, FieldPeakAt:
		return u == NoUnit || u == Clock
	}
	return u == NoUnit
}

// fieldTable has the meanings of each wording: exactly as in the table of
// words, and without articles and plurals. An exact wording goes before, so
// that "heure" and "heures" are told apart.
type fieldTable struct{ exact, loose map[string][]Field }

// fieldIndex lays the table of words out, once. Nothing is laid out in a
// program that never asks.
func fieldIndex() fieldTable {
	indexOnce.Do(func() {
		index = fieldTable{map[string][]Field{}, map[string][]Field{}}
		for _, rows := range [...][]fieldRow{fieldWords, bandFieldWords} {
			for _, row := range rows {
				index.enter(row)
			}
		}
	})
	return index
}

var (
	indexOnce sync.Once
	index     fieldTable
)

// enter puts the phrases of a row into the table.
func (t fieldTable) enter(row fieldRow) {
	for phrase := range strings.SplitSeq(row.phrases, ";") {
		for _, spelling := range spellings(phrase) {
			tokens := headingTokens(spelling)
			enterField(t.exact, strings.Join(tokens, ""), row.field)
			enterField(t.loose, looseKey(tokens, false), row.field)
		}
	}
}

// enterField keeps the fields of a key in the order of preference.
func enterField(m map[string][]Field, key string, f Field) {
	if slices.Contains(m[key], f) {
		return
	}
	m[key] = append(m[key], f)
	slices.SortFunc(m[key], func(a, b Field) int { return slices.Index(fieldOrder, a) - slices.Index(fieldOrder, b) })
}

// fieldOrder is the order of preference: that of the constants.
var fieldOrder = []Field{
	FieldMachine, FieldKind, FieldRatedLoad, FieldPersons, FieldLoadSensing, FieldMass, FieldInService,
	FieldReadingTime, FieldReadingAt, FieldReadingDate, FieldBand, FieldFrom, FieldTo, FieldHours, FieldShare,
	FieldPowered, FieldMoving, FieldPeak, FieldPeakAt, FieldCustodyFrom, FieldCustodyTo, FieldHolder, FieldWho,
	FieldDailyDate, FieldEventAt, FieldEventKind, FieldEventLoad, FieldNote,
}
