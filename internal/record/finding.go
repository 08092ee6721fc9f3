package record

import (
	"fmt"
	"strconv"
	"strings"
)

// Severity says how far a finding reaches.
type Severity string

// The severities, from least to most.
const (
	Note     Severity = "note"     // worth knowing, changes no conclusion
	Doubt    Severity = "doubt"    // a conclusion stands on less than it seems
	Blocking Severity = "blocking" // a conclusion is withheld
)

// Finding is one thing about a record that does not fit: what was found and
// where, what was expected, what it does to the conclusions, what to do.
type Finding struct {
	Code     string   `json:"code"`
	Severity Severity `json:"severity"`
	Where    string   `json:"where"`
	Message  string   `json:"message"`
	Expected string   `json:"expected,omitempty"`
	Effect   string   `json:"effect"`
	Hint     string   `json:"hint,omitempty"`
	File     string   `json:"file,omitempty"`
	Sheet    string   `json:"sheet,omitempty"`
	Line     int      `json:"line,omitempty"`
	Column   int      `json:"column,omitempty"`
	Cell     string   `json:"cell,omitempty"`

	Path Path `json:"-"` // where in the case, to look up the place in the file
}

// Blocks reports whether any of the findings withholds a conclusion.
func Blocks(fs []Finding) bool {
	for _, f := range fs {
		if f.Severity == Blocking {
			return true
		}
	}
	return false
}

// Path names a place in a case, as "readings/2/bands/3/hours"; numbers count from 1.
type Path string

// At returns the path one step further down.
func (p Path) At(step any) Path {
	words := ""
	switch s := step.(type) {
	case string:
		words = s
	case int:
		words = strconv.Itoa(s)
	default:
		words = fmt.Sprint(step)
	}
	if p == "" {
		return Path(words)
	}
	return p + "/" + Path(words)
}

// pathWords turns the steps of a path into words.
var pathWords = map[string]string{
	"readings": "reading", "bands": "band", "custody": "custody entry",
	"events": "event", "daily": "day", "machine": "machine", "assumptions": "assumption",
	"rated_load_kg": "rated load", "persons": "persons", "load_sensing_kg": "load sensing",
	"mass_kg": "mass", "in_service": "in service", "at": "time of reading",
	"powered_h": "powered hours", "moving_h": "moving hours", "peak_kg": "peak",
	"peak_at": "time of the peak", "from_kg": "lower edge", "to_kg": "upper edge",
	"structure": "structure", "stress_range_mpa": "stress range at rated load", "maker_test_kg": "maker's test value",
	"category": "detail category", "cycles_from": "what load cycles are counted by", "load_cycles": "load cycles counted",
	"duty_record": "duty record", "range_or_amplitude_at": "point of the curve", "disposal": "planned disposal",
	"hours": "hours", "from": "from", "to": "to", "holder": "holder", "kind": "kind",
	"transport": "transport", "lashings": "lashing", "angle_deg": "angle", "plan_deg": "angle in plan", "block_dan": "blocking",
	"gravity_height_m": "height of the centre of gravity", "track_m": "track", "length_m": "length", "way": "way", "gear": "kind",
	"load_kg": "load", "date": "date", "id": "machine name",
	"zones": "further rated load", "region": "region", "edition": "edition", "name": "name",
	"plan": "plan", "items": "item", "body": "mass of the body", "clothing": "clothing", "harness": "harness", "mass": "mass", "count": "number", "unit": "unit",
	"crew": "crew", "population": "group of people", "worn_kg": "mass of what is worn", "tools_kg": "mass of tools and materials",
	"checks": "check", "shown_kg": "load shown", "checks/at": "time of the check", "checks/mass_kg": "mass on the platform",
	"tie_downs": "tie-down", "over_platform": "over the platform", "how": "how it is known", "tie_downs/at": "time of the tie-down",
	"thresholds_kg": "load asked about", "moved_by_hand": "moved by hand", "senses_only_raising": "senses only when raising",
}

// Words writes the path for a person: "reading 2, band 3, hours".
func (p Path) Words() string {
	if p == "" {
		return "the whole record"
	}
	var words []string
	steps := strings.Split(string(p), "/")
	for _, step := range steps {
		isNumber := strings.Trim(step, "0123456789") == ""
		word, known := pathWords[steps[0]+"/"+step] // a member that means something else there
		if !known {
			word, known = pathWords[step]
		}
		switch {
		case isNumber && len(words) > 0:
			words[len(words)-1] += " " + step
		case known:
			words = append(words, word)
		default:
			words = append(words, step)
		}
	}
	if last := len(words) - 1; words[last] == "band" || words[last] == "reading" || words[last] == "lashing" { // all of them, no number follows
		words[last] += "s"
	}
	return strings.Join(words, ", ")
}

// Up returns the path without its last step; of a one-step path, the empty one.
func (p Path) Up() Path {
	i := strings.LastIndexByte(string(p), '/')
	if i < 0 {
		return ""
	}
	return p[:i]
}

// Origin is a place in a file; lines and columns count from 1, 0 is unknown. In
// a spreadsheet, Sheet and Cell name the place and Line is the row.
type Origin struct {
	File         string
	Sheet        string `json:",omitempty"`
	Line, Column int
	Cell         string `json:",omitempty"` // as "B7"
}

// Origin returns where in a file a finding was made.
func (f *Finding) Origin() Origin { return Origin{f.File, f.Sheet, f.Line, f.Column, f.Cell} }

// At returns the finding with its place in a file.
func (f Finding) At(o Origin) Finding {
	f.File, f.Sheet, f.Line, f.Column, f.Cell = o.File, o.Sheet, o.Line, o.Column, o.Cell
	return f
}

// String writes the place as "file:line:column", or "file, sheet, cell".
func (o Origin) String() string {
	text := o.File
	if o.Sheet != "" {
		text += ", " + o.Sheet
	}
	switch {
	case o.Cell != "":
		return text + ", " + o.Cell
	case o.Line > 0 && o.Sheet != "":
		text += fmt.Sprintf(", row %d", o.Line)
	case o.Line > 0:
		text += fmt.Sprintf(":%d", o.Line)
		if o.Column > 0 {
			text += fmt.Sprintf(":%d", o.Column)
		}
	}
	return text
}

// Origins tells where in a file each part of a case was read.
type Origins map[Path]Origin

// Find returns the origin of the path or of the nearest part that encloses it.
func (o Origins) Find(p Path) (Origin, bool) {
	for {
		if at, ok := o[p]; ok {
			return at, true
		}
		if p == "" {
			return Origin{}, false
		}
		p = p.Up()
	}
}

// Place fills in where each finding was made, in words and, if known, in the file.
func (o Origins) Place(fs []Finding) {
	for i := range fs {
		f := &fs[i]
		if f.Where == "" {
			f.Where = f.Path.Words()
		}
		if at, ok := o.Find(f.Path); ok && f.Line == 0 {
			*f = f.At(at)
		}
	}
}
