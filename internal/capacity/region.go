package capacity

import "ratchetmark/internal/record"

// Region is where a machine is used, or where its rule comes from.
type Region string

// The regions that are told apart. Everywhere is no choice, but the region of
// what holds in all of them.
const (
	Everywhere    Region = "everywhere"
	Europe        Region = "Europe"
	Britain       Region = "Great Britain"
	France        Region = "France"
	UnitedStates  Region = "United States"
	Australia     Region = "Australia"
	Russia        Region = "Russia"
	International Region = "elsewhere"
)

// Regions lists the regions to choose from.
var Regions = []Region{Europe, Britain, France, UnitedStates, Australia, Russia, International}

// kindOf reports whether a row for some kinds holds for one; no kinds are all.
func kindOf(kinds []record.Kind, kind record.Kind) bool {
	for _, k := range kinds {
		if k == kind {
			return true
		}
	}
	return len(kinds) == 0
}
