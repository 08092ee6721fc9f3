package fatigue

import (
	"fmt"
	"strconv"

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

// TypeTests are the usual loads of type tests, in percent of the rated load, in
// ascending order.
var TypeTests = []Test{
	{Name: "dynamic test", Percent: 110, Source: "Regulation (EU) 2023/1230, Annex III, 4.1.2.3, read"},
	{Name: "static test", Percent: 125, Source: "Regulation (EU) 2023/1230, Annex III, 4.1.2.3, read"},
	{Name: enhanced, Percent: 150, Source: "EN 280, 5.4.1.6, from memory"},
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

// StaticOf holds a peak against the type tests of the rules that hold, in
// ascending order, and a value that the maker gives; nil where the peak does not
// lie above the rated load.
func StaticOf(peak, rated record.Kilogram, tests []Test, maker *record.Kilogram) *Static {
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
		s.Tests = append(s.Tests, Test{Name: theMakers, Load: *maker, Percent: 100 * float64(*maker/rated), Source: "given for this machine", Passed: peak > *maker})
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
		if t.Passed && t.Name != theMakers {
			beyond = max(beyond, t.Percent)
		}
		maker = maker || t.Name == theMakers && !t.Passed
	}
	text := within(s.Tests, beyond)
	if maker {
		text += " It does not go over the value that the maker gives."
	}
	return text + " A test on a sound machine is no proof for this one."
}

// within says between which type tests a peak lies that went over those up to a
// percentage.
func within(tests []Test, beyond float64) string {
	var over, next *Test
	for i := range tests {
		switch t := &tests[i]; {
		case t.Name == theMakers:
		case t.Percent <= beyond:
			over = t
		case next == nil:
			next = t
		}
	}
	switch {
	case over == nil && next == nil:
		return "The rules that are chosen name no type test to hold it against: have it examined."
	case over == nil:
		return fmt.Sprintf("It lies within what the %s puts on a machine of its type.", next.Name)
	case next == nil:
		return "It lies beyond anything the type test covers: have it examined."
	}
	above := fmt.Sprintf("It lies above the %s (%s %%)", over.Name, percent(over.Percent))
	if next.Name == enhanced { // not every type has to pass one
		return fmt.Sprintf("%s: only the %s (%s %%) covers it, where the type has passed one.", above, next.Name, percent(next.Percent))
	}
	return fmt.Sprintf("%s, within the %s (%s %%) of a machine of its type.", above, next.Name, percent(next.Percent))
}

func percent(x float64) string { return strconv.FormatFloat(x, 'g', 4, 64) }

// enhanced is the name of the test that only some types have to pass.
const enhanced = "enhanced overload test"

// theMakers is the name of the value that the maker gives.
const theMakers = "the maker's value"

// TieDown says what a strap over the platform does that a crowd of the same
// weight does not.
var TieDown = []string{
	"A crowd stands on the floor; a strap pulls down at the rails, where it bends them and their posts inwards and presses on one line of the floor or none.",
	"A crowd comes and goes with the work; a strap holds its force for the whole trip.",
	"On the road the vibration comes on top: the platform's own weight and the strap's pull change with every bump, on a structure that is stowed, not raised.",
	"The cell shows the pull only as far as it passes through the cell; a block under the platform carries a part that no reading shows.",
}
