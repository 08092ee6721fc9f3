package intake

import (
	"slices"
	"strings"

	"ratchetmark/internal/wording"
)

// layout is one shape a table may have: what it must hold, what it may hold.
type layout struct {
	name string
	// needs are groups of fields; a table of this shape has a column for one of each group.
	needs [][]wording.Field
	// fields it may hold. Where a heading can mean several, the first here counts.
	fields []wording.Field
	// key is the column that tells a row of the table from a line of text.
	key []wording.Field
}

// bandHours is the field of a column that holds the hours of one band.
const bandHours wording.Field = "band_hours"

var machineFields = []wording.Field{"machine", "kind", "rated_load_kg", "persons", "load_sensing_kg", "mass_kg", "in_service"}

var readingFields = []wording.Field{"reading_at", "reading_date", "reading_time", "powered_h", "moving_h", "peak_kg", "peak_at"}

// layouts lists the shapes, the most particular first.
var layouts = []layout{
	{
		name:   "custody",
		needs:  [][]wording.Field{{"holder", "who"}, {"custody_from", "custody_to"}},
		fields: []wording.Field{"machine", "custody_from", "custody_to", "holder", "who", "note"},
		key:    []wording.Field{"custody_from", "custody_to"},
	},
	{
		name:   "one row for each band",
		needs:  [][]wording.Field{{"band", "from_kg", "to_kg"}, {"hours", "share"}},
		fields: join(machineFields, readingFields, []wording.Field{"band", "from_kg", "to_kg", "hours", "share"}),
		key:    []wording.Field{"hours", "share"},
	},
	{
		name:   "one column for each band",
		needs:  [][]wording.Field{{bandHours}},
		fields: join(machineFields, readingFields, []wording.Field{bandHours}),
		key:    []wording.Field{bandHours},
	},
	{
		name:   "daily use",
		needs:  [][]wording.Field{{"daily_date"}, {"powered_h", "moving_h"}},
		fields: []wording.Field{"machine", "daily_date", "powered_h", "moving_h"},
		key:    []wording.Field{"daily_date"},
	},
	{
		name:   "readings",
		needs:  [][]wording.Field{{"powered_h", "peak_kg"}, {"machine", "reading_at", "reading_date", "peak_at", "peak_kg"}},
		fields: join(machineFields, readingFields),
		key:    []wording.Field{"powered_h", "peak_kg"},
	},
	{
		name:   "events",
		needs:  [][]wording.Field{{"event_kind"}, {"event_at", "reading_date"}},
		fields: []wording.Field{"machine", "event_at", "event_kind", "event_load_kg", "note", "reading_date", "reading_time"},
		key:    []wording.Field{"event_at", "reading_date"},
	},
	{
		name:   "machines",
		needs:  [][]wording.Field{{"machine"}, {"rated_load_kg", "persons", "kind"}},
		fields: machineFields,
		key:    []wording.Field{"rated_load_kg", "persons"},
	},
}

func join(lists ...[]wording.Field) (out []wording.Field) {
	for _, l := range lists {
		out = append(out, l...)
	}
	return out
}

// candidate is what one heading can mean.
type candidate struct {
	fields    []wording.Field
	unit      wording.Unit
	label     *wording.Label // of a heading that is a band
	text      string
	bareShare bool   // its cells are shares, and nothing says that they are percent
	strange   string // what stands in brackets and is no unit that is known
}

// candidateOf looks a heading up. A heading that is a word of the trade is not
// taken for a band.
func candidateOf(heading string, decimal wording.Mark) candidate {
	text := strings.TrimSpace(heading)
	if text == "" || len(text) > maxHeading {
		return candidate{text: text}
	}
	if wording.OverRated(text) {
		return candidate{fields: []wording.Field{bandHours}, label: overRated(), text: text}
	}
	fields, unit := wording.Fields(text)
	if u := strings.ToLower(text); len(fields) > 0 && slices.Contains(bareMinutes, u) {
		fields = nil // beside a column of hours it is the rest of them, and no hour meter
	}
	c := candidate{fields: fields, unit: unit, text: text}
	c.strange = strangeUnit(text)
	if u := bracketUnit(text); u != wording.NoUnit && c.measures() {
		c.unit = u // "Time in band (s)" is no plural
	}
	if len(fields) > 0 {
		return c
	}
	c.band(decimal)
	return c
}

// band takes a heading for a band. A unit in brackets behind it is that of the
// cells where it is a time or a percentage: "0-90 kg [min]".
func (c *candidate) band(decimal wording.Mark) {
	c.unit = wording.NoUnit
	words, unit := wording.HeadingUnit(c.text)
	if rest, ok := cutShare(c.text); ok {
		words, unit = rest, wording.Percent
		c.bareShare = !strings.Contains(strings.ToLower(c.text), "percent") && !strings.Contains(strings.ToLower(c.text), "prozent")
	}
	ofCells := unit.IsTime() || unit == wording.Percent
	label, err := wording.Band(c.text, decimal, wording.NoUnit)
	if ofCells && (err != nil || inBrackets(c.text)) {
		if inner, err2 := wording.Band(words, decimal, wording.NoUnit); err2 == nil {
			label, err, c.unit = inner, nil, unit
		}
	}
	if err != nil {
		return
	}
	c.label, c.fields = &label, []wording.Field{bandHours}
	if label.Unit == wording.NoUnit && c.unit == wording.Percent {
		c.strange = "%" // of the rated load, or of the hours
	}
}

// shareWords say behind a band that its cells are shares.
var shareWords = []string{"share", "anteil", "part", "cuota", "quota", "percentage", "percent", "prozent"}

func cutShare(text string) (rest string, ok bool) {
	i := strings.LastIndexByte(text, ' ')
	if i < 0 || !slices.Contains(shareWords, strings.ToLower(strings.Trim(text[i:], " ()[]"))) {
		return "", false
	}
	return strings.TrimSpace(text[:i]), true
}

func inBrackets(text string) bool { return text[len(text)-1] == ']' || text[len(text)-1] == ')' }

// bareMinutes are headings that are nothing but the name of a part of an hour.
var bareMinutes = []string{"minutes", "minute", "min", "minuten", "minuti", "minutos", "seconds", "sekunden", "secondes", "segundos", "secondi"}

// maxHeading is the longest text, in bytes, that can be a heading.
const maxHeading = 200

// fit finds the layout a row of headings has, and what each column is in it;
// nil where it is no row of headings.
func fit(candidates []candidate) (*layout, []column) {
	known, labels := 0, 0
	for _, c := range candidates {
		if len(c.fields) > 0 {
			known++
		}
		if c.label != nil {
			labels++
		}
	}
	if known < 2 || labels == 1 && known == 2 {
		return nil, nil
	}
	for i := range layouts {
		if labels > 1 && layouts[i].name != "one column for each band" {
			continue // "Load" beside columns of bands is a load and no label, "Location" no custody
		}
		if l := &layouts[i]; l.fits(candidates) && !l.strays(candidates) {
			return l, l.columns(candidates)
		}
	}
	return nil, nil
}

// strays reports whether a table has columns for a band although its layout has
// none: it is a table of bands that lacks something, not one of this layout.
func (l *layout) strays(candidates []candidate) bool {
	labels := 0
	for _, c := range candidates {
		if c.label != nil {
			labels++
		}
	}
	if labels > 1 {
		return false // a load beside columns of bands is not their label
	}
	for _, c := range candidates {
		if len(c.fields) == 0 {
			continue
		}
		if (l.name == "daily use" || l.name == "custody") && (c.fields[0] == "peak_kg" || c.fields[0] == "rated_load_kg") {
			return true
		}
		switch c.fields[0] {
		case "band", "from_kg", "to_kg":
			if c.best(l.fields, nil) == "" {
				return true
			}
		case "hours":
			if len(c.fields) == 1 && l.name == "machines" {
				return true
			}
		}
	}
	return false
}

// fits reports whether there is a column for each group the layout needs, no
// column standing for two.
func (l *layout) fits(candidates []candidate) bool {
	taken := make([]bool, len(candidates))
	for _, group := range l.needs {
		found := false
		for i, c := range candidates {
			if !taken[i] && c.can(group) {
				taken[i], found = true, true
				break
			}
		}
		if !found {
			return false
		}
	}
	return true
}

func (c candidate) can(group []wording.Field) bool {
	for _, f := range c.fields {
		for _, g := range group {
			if f == g {
				return true
			}
		}
	}
	return false
}

// columns gives each heading its field: the needed ones first, then the best
// of what it can mean that is not taken.
func (l *layout) columns(candidates []candidate) []column {
	cols := make([]column, len(candidates))
	taken := map[wording.Field]bool{}
	assign := func(i int, f wording.Field) {
		c := candidates[i]
		cols[i].Field, cols[i].Unit, cols[i].label, cols[i].bareShare = f, c.unit, c.label, c.bareShare
		taken[f] = f != bandHours
	}
	for _, group := range l.needs {
		if i, f := needed(candidates, cols, group, taken); f != "" {
			assign(i, f)
		}
	}
	for i, c := range candidates {
		if cols[i].Field == "" && c.strange == "" && len(c.fields) == 1 && (c.fields[0] == "rated_load_kg" || c.fields[0] == "peak_kg") && l.holds(c.fields[0]) && !taken[c.fields[0]] {
			assign(i, c.fields[0])
		}
	}
	for i, c := range candidates {
		cols[i].heading, cols[i].can, cols[i].inHeading = c.text, c.fields, c.unit
		if cols[i].Field != "" {
			continue
		}
		if c.strange != "" && c.measures() {
			cols[i].strange = c.strange
		} else if c.twofold() && l.holds("rated_load_kg") && l.holds("peak_kg") && !taken["rated_load_kg"] && !taken["peak_kg"] {
			cols[i].twofold, cols[i].Unit = true, c.unit
		} else if repeated(candidates[:i], c) {
			cols[i].twice = true
		} else if f := c.best(l.fields, taken); f != "" {
			assign(i, f)
		} else if f := c.best(l.fields, nil); f != "" {
			cols[i].twice = true
		}
	}
	return cols
}

// measures reports whether a heading stands over loads or hours.
func (c candidate) measures() bool { return measures(c.fields) }

func measures(fields []wording.Field) bool {
	return slices.ContainsFunc(fields, func(f wording.Field) bool {
		switch f {
		case "rated_load_kg", "load_sensing_kg", "mass_kg", "peak_kg", "event_load_kg", "band", "from_kg", "to_kg", "hours", "share", "powered_h", "moving_h", bandHours, twofoldField:
			return true
		}
		return false
	})
}

// twofold reports whether a heading may mean the rated load or the peak, as
// "max load" does: one is what the machine may carry, the other what it did.
func (c candidate) twofold() bool {
	return slices.Contains(c.fields, "rated_load_kg") && slices.Contains(c.fields, "peak_kg")
}

func (l *layout) holds(f wording.Field) bool { return slices.Contains(l.fields, f) }

// needed finds the column for a group of fields: one that means it in the first
// place, else one that can mean it.
func needed(candidates []candidate, cols []column, group []wording.Field, taken map[wording.Field]bool) (int, wording.Field) {
	other := -1
	for i, c := range candidates {
		if cols[i].Field != "" || c.strange != "" && c.measures() || c.twofold() || !c.can(group) || c.best(group, taken) == "" {
			continue
		}
		if (candidate{fields: c.fields[:1]}).can(group) {
			return i, c.best(group, taken)
		}
		if other < 0 {
			other = i
		}
	}
	if other < 0 {
		return 0, ""
	}
	return other, candidates[other].best(group, taken)
}

// repeated reports whether the same heading stands before; bands apart, which may.
func repeated(before []candidate, c candidate) bool {
	for _, b := range before {
		if len(c.fields) > 0 && c.label == nil && strings.EqualFold(b.text, c.text) {
			return true
		}
	}
	return false
}

// best returns the first meaning of a heading that is in a list and not taken.
func (c candidate) best(list []wording.Field, taken map[wording.Field]bool) wording.Field {
	for _, f := range c.fields {
		if taken[f] {
			continue
		}
		for _, g := range list {
			if f == g {
				return f
			}
		}
	}
	return ""
}

// column is a column of the table in hand.
type column struct {
	Column
	heading   string
	label     *wording.Label  // of a band
	twice     bool            // its meaning is taken by a column before it
	can       []wording.Field // what its heading can mean
	inHeading wording.Unit    // of a column that is not used as well
	units     int             // the column with the units of its cells; 0 for none
	used      string          // what it says where it is no column of values; empty for nothing
	strange   string          // what stands in its brackets and is no unit that is known
	twofold   bool            // it may be the rated load or the peak
	bareShare bool            // its cells are shares, of 100 or of 1
}
