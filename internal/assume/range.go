package assume

import (
	"ratchetmark/internal/record"
)

// Range is what a figure that a person sets may be.
type Range struct {
	Name, Unit  string
	Least, Most float64
	Hint        string
}

// Limits names what a figure may be.
func Limits(name, unit string, least, most float64, hint string) Range {
	return Range{Name: name, Unit: unit, Least: least, Most: most, Hint: hint}
}

// Ranges of what is worked with. None has a source: beyond them a figure is a
// slip of the hand rather than a platform, a person or a tool.
var (
	PersonCount = Range{"number of persons", "", 1, 20, "enter the persons on the platform, at least one"}
	RatedLoads  = Range{"rated load", "kg", 80, 5000, "read the plate again: rated load and unit; it covers at least one person"}
	PersonLoad  = Range{"mass of a person", "kg", 30, 400, "check the mass and its unit"}
	ItemLoad    = Range{"mass of an item", "kg", 0, 5000, "check the mass and its unit"}
	AnyLoad     = Range{"load", "kg", 0, 100_000, "check the load and its unit"}
	Shares      = Range{"share", "", 0, 1, "enter a share between 0 and 1, that is 0 to 100 %"}
	AnyPercent  = Range{"per cent of the rated load", "%", 1, 1000, "enter a percentage of the rated load, as 120"}
)

// Check returns a finding where x is no number of the range; nil where it is.
// Nothing is worked out from a value that was refused.
func (r Range) Check(x float64, at record.Path) *record.Finding {
	if record.Finite(x) && x >= r.Least && x <= r.Most {
		return nil
	}
	found := "is not a number"
	if record.Finite(x) {
		found = "is " + r.number(x)
	}
	return &record.Finding{
		Code: "value-out-of-range", Severity: record.Blocking, Path: at, Where: at.Words(),
		Message:  r.Name + " " + found,
		Expected: "from " + record.Number(r.Least) + " to " + r.number(r.Most),
		Effect:   "nothing is worked out from it",
		Hint:     r.Hint,
	}
}

func (r Range) number(x float64) string {
	if r.Unit == "" {
		return record.Number(x)
	}
	return record.Number(x) + " " + r.Unit
}

// First returns the first finding there is.
func First(fs ...*record.Finding) *record.Finding {
	for _, f := range fs {
		if f != nil {
			return f
		}
	}
	return nil
}
