package intake

import (
	"fmt"
	"slices"
	"strings"

	"ratchetmark/internal/record"
	"ratchetmark/internal/wording"
)

// otherUnits are units and scales that are not read: a heading with one in
// brackets is not taken for one without a unit.
var otherUnits = []string{"n", "bar", "psi", "stone", "st", "ton", "tons", "kip", "kips", "lbf", "persons", "person", "pers", "people", "days", "day", "d", "weeks", "week", "months", "month", "ms", "k",
	"thousands", "thousand", "hundreds", "tenths", "tausend", "tsd", "hundert", "zehntel", "milliers", "mille", "miles", "migliaia", "tage", "wochen", "monate", "jours", "días", "giorni", "count", "counts", "lifts", "cycles"}

// strangeUnit returns what stands in the brackets of a heading where it looks
// like a unit or a scale and is none that is known; empty for nothing such.
func strangeUnit(heading string) string {
	for rest := heading; ; {
		i := strings.IndexAny(rest, "([")
		if i < 0 {
			return ""
		}
		inside, after, _ := strings.Cut(rest[i+1:], string([]byte{")]"[strings.IndexByte("([", rest[i])]}))
		rest = after
		text := strings.ToLower(strings.TrimSpace(inside))
		if _, unit := wording.HeadingUnit("x [" + text + "]"); text == "" || unit != wording.NoUnit {
			continue
		}
		if _, err := wording.Band(text, wording.Unknown, wording.NoUnit); err == nil {
			continue
		}
		if isStrange(text) {
			return inside
		}
	}
}

// isStrange reports whether a text in brackets speaks of a unit or a scale.
func isStrange(text string) bool {
	if strings.ContainsAny(text, "0123456789×*%/:#") {
		return true
	}
	for _, word := range []string{"in ", "en "} { // "Std. (in Tausend)"
		text = strings.TrimPrefix(text, word)
	}
	return slices.Contains(otherUnits, text)
}

// bracketUnit returns the unit that stands in brackets behind a blank.
func bracketUnit(heading string) wording.Unit {
	for _, pair := range [][2]string{{" (", ")"}, {" [", "]"}} {
		if _, rest, ok := strings.Cut(heading, pair[0]); ok {
			inside, _, _ := strings.Cut(rest, pair[1])
			if _, unit := wording.HeadingUnit("x [" + inside + "]"); unit != wording.NoUnit {
				return unit
			}
		}
	}
	return wording.NoUnit
}

// strangeUnitIn is the finding for a heading, or the name of a value, with a
// unit that is not known.
func strangeUnitIn(what, unit string) record.Finding {
	f := record.Finding{
		Code: "unit-unknown", Severity: record.Blocking, Where: "heading row",
		Message: fmt.Sprintf("%s has %q in brackets, which is no unit that is known", what, short(unit)), Expected: "kg, lb, t, kN, daN, h, min, s, h:mm or %",
		Effect: "it is not used; its values are not taken for kg or hours", Hint: "convert the values, or point out the unit",
	}
	if unit == "%" {
		f.Message = what + " may be a band in percent of the rated load, or hold shares of the hours"
		f.Expected, f.Hint = "0-50 % of rated load, or 0-90 kg [%]", "write which of the two it is"
	}
	return f
}
