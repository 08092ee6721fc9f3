package fatigue

import (
	"ratchetmark/internal/record"
)

// Static is what the highest load asked of the structure once, whatever it did
// to its fatigue.
type Static struct {
	Peak    record.Kilogram `json:"peak_kg"`
	Percent float64         `json:"peak_pct"`
	Tests   []Test          `json:"tests"`
	Words   string          `json:"words"`
	Examine []Examine       `json:"examine"`
}

// Test is a load that a machine of its type has borne, or the maker says it bears.
type Test struct {
	Name    string          `json:"name"`
	Load    record.Kilogram `json:"load_kg"`
	Percent float64         `json:"pct"`
	Source  string          `json:"source"`
	Passed  bool            `json:"passed"` // the peak went over it
}

// Examine is a thing to look at after an overload, and by whom.
type Examine struct {
	What string `json:"what"`
	Whom string `json:"by"`
}

// tests are the loads of type tests, in percent of the rated load.
var tests = []Test{
	{Name: "dynamic test", Percent: 110, Source: "Regulation (EU) 2023/1230, Annex III, 4.1.2.3, read"},
	{Name: "static test", Percent: 125, Source: "Regulation (EU) 2023/1230, Annex III, 4.1.2.3, read"},
	{Name: "enhanced overload test", Percent: 150, Source: "EN 280, 5.4.1.6, from memory"},
}

// examinations lists what to look at once a peak, in percent of the rated load,
// lies above a row's. The loads are those of the tests; what to look at is the
// force's way from the platform to the ground; common practice, no source.
var examinations = []struct {
	above float64
	Examine
}{
	{100, Examine{"check the load cell: zero, and a known mass at the middle and at the edges of the platform", "a service engineer with test weights"}},
	{100, Examine{"examine platform rails, their posts and gates, the floor and its mounting", "a competent person for lifting platforms"}},
	{110, Examine{"examine levelling cylinder or linkage, rotator, jib and its pins", "a competent person for lifting platforms"}},
	{125, Examine{"examine the welds of platform mount, jib, boom sections or scissor arms, for cracks by dye penetrant or magnetic particles; straightness of all of them", "a person qualified for such testing, as the maker says"}},
	{125, Examine{"examine pins, bushes, wear pads, cylinders and their mounts; lowering under load", "a competent person, with the maker's limits at hand"}},
	{150, Examine{"ask whether the structure may be used at all", "the maker"}},
}

// StaticOf holds a peak against the tests and a value that the maker gives; nil
// where the peak does not lie above the rated load.
func StaticOf(peak, rated record.Kilogram, maker *record.Kilogram) *Static {
	if peak <= rated {
		return nil
	}
	s := &Static{Peak: peak, Percent: 100 * float64(peak/rated), Examine: []Examine{}}
	for _, t := range tests {
		t.Load = rated * record.Kilogram(t.Percent/100)
		t.Passed = peak > t.Load*(1+1e-9)
		s.Tests = append(s.Tests, t)
	}
	if maker != nil && *maker > 0 {
		s.Tests = append(s.Tests, Test{Name: "the maker's value", Load: *maker, Percent: 100 * float64(*maker/rated), Source: "given for this machine", Passed: peak > *maker})
	}
	s.Words = s.words()
	for _, e := range examinations {
		if peak > rated*record.Kilogram(e.above/100)*(1+1e-9) {
			s.Examine = append(s.Examine, e.Examine)
		}
	}
	return s
}

func (s *Static) words() string {
	beyond, maker := 0., false
	for _, t := range s.Tests {
		if t.Passed && t.Name != "the maker's value" {
			beyond = max(beyond, t.Percent)
		}
		maker = maker || t.Name == "the maker's value" && !t.Passed
	}
	text := "It lies within what the dynamic test puts on a machine of its type."
	switch beyond {
	case 110:
		text = "It lies above the dynamic test (110 %), within the static test (125 %) of a machine of its type."
	case 125:
		text = "It lies above the static test (125 %): only the enhanced test (150 %) covers it, where the type has passed one."
	case 150:
		text = "It lies beyond anything the type test covers: have it examined."
	}
	if maker {
		text += " It does not go over the value that the maker gives."
	}
	return text + " A test on a sound machine is no proof for this one."
}

// TieDown says what a strap over the platform does that a crowd of the same
// weight does not.
var TieDown = []string{
	"A crowd stands on the floor; a strap pulls down at the rails, where it bends them and their posts inwards and presses on one line of the floor or none.",
	"A crowd comes and goes with the work; a strap holds its force for the whole trip.",
	"On the road the vibration comes on top: the platform's own weight and the strap's pull change with every bump, on a structure that is stowed, not raised.",
	"The cell shows the pull only as far as it passes through the cell; a block under the platform carries a part that no reading shows.",
}
