package capacity

import (
	"ratchetmark/internal/assume"
	"ratchetmark/internal/record"
)

// Edition names the document a machine was built to.
type Edition string

// The editions. GOST R 53037-2008 follows ISO 16368 where the table has no
// value of its own (from memory).
const (
	EN2022     Edition = "EN 280-1:2022"
	EN2001     Edition = "EN 280:2001 to 2015"
	ISO        Edition = "ISO 16368"
	ANSI       Edition = "ANSI/SAIA A92.20"
	GOST       Edition = "GOST R 53037-2008"
	Decree1947 Edition = "decree 47-1592"
)

// EditionRow says where an edition is the usual one.
type EditionRow struct {
	Edition Edition
	Regions []Region // where it is the usual one; none: only for older machines
	Words   string
}

// Editions lists the editions to choose from. The regions are from memory.
var Editions = []EditionRow{
	{EN2022, []Region{Europe, Britain, France}, "European machines of today"},
	{EN2001, nil, "European machines built to an earlier edition"},
	{ISO, []Region{International, Australia}, "international rule"},
	{ANSI, []Region{UnitedStates}, "machines of the United States, in pounds"},
	{GOST, []Region{Russia}, "Russian machines"},
	{Decree1947, nil, "old French machines under the decree of 1947"},
}

// Condition says for which machines of its edition a row holds.
type Condition string

// The conditions.
const (
	Always      Condition = ""
	Manual      Condition = "moved by hand"
	RaisingOnly Condition = "senses the load only when raising from the lowest position"
)

// Param names a value of the rules.
type Param string

// The values of the rules.
const (
	FirstPerson   Param = "first_person"
	FurtherPerson Param = "further_person"
	Tools         Param = "tools"
	WindowFrom    Param = "window_from"
	WindowTo      Param = "window_to"
	DynamicTest   Param = "dynamic_test"
	StaticTest    Param = "static_test"
	EnhancedTest  Param = "enhanced_test"
	FromRail      Param = "person_from_rail"
	Apart         Param = "persons_apart"
	ToolsFloor    Param = "tools_floor"
	ToolsPressure Param = "tools_pressure"
	ForceOne      Param = "manual_force_one"
	ForceMore     Param = "manual_force_more"
)

// paramRanges says what each value may be, in kg where it is a mass.
var paramRanges = []struct {
	param  Param
	limits assume.Range
}{
	{FirstPerson, assume.Range{Name: "mass of the first person", Unit: "kg", Least: 30, Most: 250, Hint: hintRule}},
	{FurtherPerson, assume.Range{Name: "mass of a further person", Unit: "kg", Least: 30, Most: 250, Hint: hintRule}},
	{Tools, assume.Range{Name: "least mass of tools and materials", Unit: "kg", Most: 5000, Hint: hintRule}},
	{WindowFrom, assume.Range{Name: "load sensing acts from", Unit: "%", Least: 50, Most: 200, Hint: hintRule}},
	{WindowTo, assume.Range{Name: "load sensing acts before", Unit: "%", Least: 100, Most: 300, Hint: hintRule}},
	{DynamicTest, assume.Range{Name: "dynamic test load", Unit: "%", Least: 100, Most: 300, Hint: hintRule}},
	{StaticTest, assume.Range{Name: "static test load", Unit: "%", Least: 100, Most: 300, Hint: hintRule}},
	{EnhancedTest, assume.Range{Name: "enhanced overload criterion", Unit: "%", Least: 100, Most: 300, Hint: hintRule}},
	{FromRail, assume.Range{Name: "person inside the edge of the rail", Unit: "m", Most: 2, Hint: hintRule}},
	{Apart, assume.Range{Name: "distance between persons", Unit: "m", Most: 2, Hint: hintRule}},
	{ToolsFloor, assume.Range{Name: "part of the floor under the tools", Unit: "%", Least: 1, Most: 100, Hint: hintRule}},
	{ToolsPressure, assume.Range{Name: "pressure of the tools on the floor", Unit: "kN/m²", Most: 20, Hint: hintRule}},
	{ForceOne, assume.Range{Name: "manual force of one person", Unit: "N", Most: 2000, Hint: hintRule}},
	{ForceMore, assume.Range{Name: "manual force of more than one person", Unit: "N", Most: 2000, Hint: hintRule}},
}

// rangeOf returns what a value may be.
func rangeOf(p Param) assume.Range {
	for _, r := range paramRanges {
		if r.param == p {
			return r.limits
		}
	}
	return assume.Range{Name: string(p)}
}

const hintRule = "compare with the rule in force where the machine is used"

// Row is a value of the rules with where it holds and where it comes from.
type Row struct {
	Param    Param
	Editions []Edition
	When     Condition
	Kinds    []record.Kind // none: all
	Value    float64
	Unit     Unit
	Source   assume.Source
	Edited   bool
}

var (
	en      = []Edition{EN2022, EN2001}
	scissor = []record.Kind{record.Scissor}
)

// ruleRows holds every value; where two rows give the same value for a
// machine, the later one, which is the narrower, holds.
var ruleRows = []Row{
	{Param: FirstPerson, Editions: []Edition{EN2022}, Value: 80, Unit: Kg, Source: assume.Source{Document: "EN 280-1", Edition: "2022", Clause: "4.2", Status: assume.Memory}},
	{Param: FurtherPerson, Editions: []Edition{EN2022}, Value: 80, Unit: Kg, Source: assume.Source{Document: "EN 280-1", Edition: "2022", Clause: "4.2", Status: assume.Memory}},
	{Param: Tools, Editions: []Edition{EN2022}, Value: 40, Unit: Kg, Source: assume.Source{Document: "EN 280-1", Edition: "2022", Clause: "4.2", Status: assume.Memory}},
	{Param: FirstPerson, Editions: []Edition{EN2001}, Value: 80, Unit: Kg, Source: assume.Source{Document: "EN 280", Edition: "2001 to 2015", Clause: "5.2.2.1", Status: assume.Memory}},
	{Param: FurtherPerson, Editions: []Edition{EN2001}, Value: 80, Unit: Kg, Source: assume.Source{Document: "EN 280", Edition: "2001 to 2015", Clause: "5.2.2.1", Status: assume.Memory}},
	{Param: Tools, Editions: []Edition{EN2001}, Value: 40, Unit: Kg, Source: assume.Source{Document: "EN 280", Edition: "2001 to 2015", Clause: "5.2.2.1", Status: assume.Memory}},
	{Param: FirstPerson, Editions: []Edition{ISO, GOST}, Value: 80, Unit: Kg, Source: assume.Source{Document: "ISO 16368", Status: assume.Memory}},
	{Param: FurtherPerson, Editions: []Edition{ISO, GOST}, Value: 80, Unit: Kg, Source: assume.Source{Document: "ISO 16368", Status: assume.Memory}},
	{Param: Tools, Editions: []Edition{ISO, GOST}, Value: 40, Unit: Kg, Source: assume.Source{Document: "ISO 16368", Status: assume.Memory}},
	{Param: FirstPerson, Editions: []Edition{ANSI}, Value: 175, Unit: Lb, Source: assume.Source{Document: "ANSI/SAIA A92.20", Status: assume.Memory}},
	{Param: FurtherPerson, Editions: []Edition{ANSI}, Value: 175, Unit: Lb, Source: assume.Source{Document: "ANSI/SAIA A92.20", Status: assume.Memory}},
	{Param: Tools, Editions: []Edition{ANSI}, Value: 90, Unit: Lb, Source: assume.Source{Document: "ANSI/SAIA A92.20", Status: assume.Memory}},
	{Param: FirstPerson, Editions: []Edition{Decree1947}, Value: 165, Unit: Kg, Source: assume.Source{Document: "decree 47-1592", Clause: "art. 26a", Status: assume.Read}},
	{Param: FurtherPerson, Editions: []Edition{Decree1947}, Value: 100, Unit: Kg, Source: assume.Source{Document: "decree 47-1592", Clause: "art. 26a", Status: assume.Read}},

	{Param: WindowFrom, Editions: []Edition{ANSI}, Value: 100, Unit: Percent, Source: assume.Source{Document: "ANSI/SAIA A92.20", Status: assume.Restated}},
	{Param: WindowTo, Editions: []Edition{ANSI}, Value: 120, Unit: Percent, Source: assume.Source{Document: "ANSI/SAIA A92.20", Status: assume.Restated}},
	{Param: WindowFrom, Editions: []Edition{EN2022}, Value: 100, Unit: Percent, Source: assume.Source{Document: "EN 280-1", Edition: "2022", Clause: "4.4.1.2", Status: assume.Memory}},
	{Param: WindowTo, Editions: []Edition{EN2022}, Value: 120, Unit: Percent, Source: assume.Source{Document: "EN 280-1", Edition: "2022", Clause: "4.4.1.2", Status: assume.Memory}},
	{Param: WindowFrom, Editions: []Edition{EN2001, ISO, GOST}, Value: 100, Unit: Percent, Source: assume.Source{Document: "EN 280", Edition: "2001 to 2015", Clause: "5.4.1.2", Status: assume.Memory}},
	{Param: WindowTo, Editions: []Edition{EN2001, ISO}, Value: 120, Unit: Percent, Source: assume.Source{Document: "EN 280", Edition: "2001 to 2015", Clause: "5.4.1.2", Status: assume.Memory}},
	{Param: WindowTo, Editions: []Edition{GOST}, Value: 110, Unit: Percent, Source: assume.Source{Document: "GOST R 53037-2008", Clause: "5.4.1.2", Status: assume.Read}},

	{Param: DynamicTest, Editions: en, Value: 110, Unit: Percent, Source: assume.Source{Document: "Regulation (EU) 2023/1230", Clause: "Annex III, 4.1.2.3", Status: assume.Read}},
	{Param: StaticTest, Editions: en, Value: 125, Unit: Percent, Source: assume.Source{Document: "Regulation (EU) 2023/1230", Clause: "Annex III, 4.1.2.3", Status: assume.Read}},
	{Param: StaticTest, Editions: en, When: Manual, Value: 150, Unit: Percent, Source: assume.Source{Document: "Regulation (EU) 2023/1230", Clause: "Annex III, 4.1.2.3", Status: assume.Read}},
	{Param: DynamicTest, Editions: []Edition{Decree1947}, Value: 110, Unit: Percent, Source: assume.Source{Document: "French order of 1 March 2004", Clause: "art. 11", Status: assume.Read}},
	{Param: StaticTest, Editions: []Edition{Decree1947}, Value: 125, Unit: Percent, Source: assume.Source{Document: "French order of 1 March 2004", Clause: "art. 10", Status: assume.Read}},
	{Param: StaticTest, Editions: []Edition{Decree1947}, When: Manual, Value: 150, Unit: Percent, Source: assume.Source{Document: "French order of 1 March 2004", Clause: "art. 10", Status: assume.Read}},
	{Param: StaticTest, Editions: []Edition{ANSI}, When: RaisingOnly, Kinds: scissor, Value: 150, Unit: Percent, Source: assume.Source{Document: "ANSI/SAIA A92.20", Status: assume.Restated}},
	{Param: EnhancedTest, Editions: en, Value: 150, Unit: Percent, Source: assume.Source{Document: "EN 280", Clause: "5.4.1.6", Status: assume.Memory}},

	{Param: FromRail, Editions: en, Value: 0.1, Unit: Metre, Source: assume.Source{Document: "EN 280", Clause: "5.2.3.1", Status: assume.Memory}},
	{Param: Apart, Editions: en, Value: 0.5, Unit: Metre, Source: assume.Source{Document: "EN 280", Clause: "5.2.3.1", Status: assume.Memory}},
	{Param: ToolsFloor, Editions: en, Value: 25, Unit: Floor, Source: assume.Source{Document: "EN 280", Clause: "5.2.3.1", Status: assume.Memory}},
	{Param: ToolsPressure, Editions: en, Value: 3, Unit: Pressure, Source: assume.Source{Document: "EN 280", Clause: "5.2.3.1", Status: assume.Memory}},
	{Param: ForceOne, Editions: en, Value: 200, Unit: Newton, Source: assume.Source{Document: "EN 280", Clause: "5.2.3.4", Status: assume.Memory}},
	{Param: ForceMore, Editions: en, Value: 400, Unit: Newton, Source: assume.Source{Document: "EN 280", Clause: "5.2.3.4", Status: assume.Memory}},
}
