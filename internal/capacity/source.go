package capacity

import (
	"ratchetmark/internal/assume"
	"ratchetmark/internal/record"
)

// Computed is the status of a value that follows from others; Own of what this
// program asks for without a document that does.
const (
	Computed assume.Status = "computed from the values named"
	Own      assume.Status = "a rule of this program, not of a standard"
)

// Source is where a value or a statement stands, and how it is known.
type Source struct {
	Document, Edition, Clause string
	Status                    assume.Status
}

// String writes the source as "ANSI/SAIA A92.20" or "EN 280-1:2022, 4.2".
func (s Source) String() string {
	text := s.Document
	if s.Edition != "" {
		text += ":" + s.Edition
	}
	if s.Clause != "" {
		text += ", " + s.Clause
	}
	return text
}

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
