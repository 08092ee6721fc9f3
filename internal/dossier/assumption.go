package dossier

import (
	"fmt"

	"ratchetmark/internal/assume"
)

// AssumptionText writes an assumption with its interval and where it is from.
func AssumptionText(a assume.Assumption) string {
	value := Plain(a.Value)
	if a.Value >= 10_000 {
		value = Count(a.Value)
	}
	if a.Low != a.High {
		value += fmt.Sprintf(" (%s to %s)", Plain(a.Low), Plain(a.High))
	}
	if a.Unit != "1" {
		value += " " + a.Unit
	}
	if a.Edited {
		return fmt.Sprintf("%s %s; set for this case", a.Name, value)
	}
	if a.Status == assume.Guess {
		return fmt.Sprintf("%s %s; %s", a.Name, value, a.Status)
	}
	return fmt.Sprintf("%s %s; %s; %s", a.Name, value, a.Source, a.Status)
}
