package dossier

import (
	"fmt"

	"ratchetmark/internal/assume"
)

// AssumptionValue writes an assumption with its interval.
func AssumptionValue(a assume.Assumption) string {
	value := Grouped(a.Value)
	if a.Stated != "" && !a.Edited { // the value is that of another unit, with endless digits
		value = digits(a.Value, 1)
	}
	if a.Low != a.High {
		value += fmt.Sprintf(" (%s to %s)", Grouped(a.Low), Grouped(a.High))
	}
	if a.Unit != "1" && a.Unit != "1/h" { // the name says it already
		value += " " + a.Unit
	}
	if a.Stated != "" && !a.Edited {
		value += " (" + a.Stated + ")"
	}
	return a.Name + " " + value
}

// sourceText says where the value of an assumption is from.
func sourceText(a assume.Assumption) string {
	switch {
	case a.Edited:
		return "set for this case"
	case a.Status == assume.Guess:
		return string(a.Status)
	}
	return fmt.Sprintf("%s; %s", a.Source, a.Status)
}
