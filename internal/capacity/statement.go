package capacity

import (
	"slices"

	"ratchetmark/internal/assume"
	"ratchetmark/internal/record"
)

// Statement is what a rule or a regulator says, in our words.
type Statement struct {
	ID      string          `json:"id"`
	Regions []Region        `json:"-"` // Everywhere: all
	Kinds   []record.Kind   `json:"-"`
	What    string          `json:"what"`
	Who     string          `json:"who,omitempty"` // who has to do it; empty where it is a property of the machine
	Sources []assume.Source `json:"sources"`
}

var (
	everywhere = []Region{Everywhere}
	a9220      = assume.Source{Document: "ANSI/SAIA A92.20", Status: assume.Restated}
	dguv32     = assume.Source{Document: "DGUV Information 208-019", Clause: "3.2", Status: assume.Read}
	ownRule    = assume.Source{Document: "this program", Status: assume.Own}
)

// sensing is how the machine itself answers an overload, and what the plate states.
var sensing = []Statement{
	{ID: "plate-separate", Regions: everywhere, What: "the plate states the persons and the load beside them separately",
		Sources: []assume.Source{assume.Source{Document: "DGUV Information 208-019", Clause: "4.1", Status: assume.Read}}},
	{ID: "sensing-light", Regions: everywhere, What: "a red light, as long as the overload lasts", Sources: []assume.Source{a9220, dguv32}},
	{ID: "sensing-sound", Regions: everywhere, What: "a sound, at least 5 s in every minute", Sources: []assume.Source{a9220, dguv32}},
	{ID: "sensing-blocked", Regions: everywhere, What: "from standstill all movement is blocked until the load is taken off", Sources: []assume.Source{a9220, dguv32}},
	{ID: "sensing-moving", Regions: everywhere, What: "an overload that appears while the machine moves leaves movement possible", Sources: []assume.Source{a9220, dguv32}},
	{ID: "sensing-raising", Regions: []Region{UnitedStates}, Kinds: scissor,
		What: "may sense only when raising from the lowest position; the overload test is then 150 %", Sources: []assume.Source{a9220}},
}

// afterwards is what is asked for after an overload. No row says that the
// machine may be used.
var afterwards = []Statement{
	{ID: "out-of-use", Regions: everywhere, What: "keep the machine out of use until it has been examined",
		Who: "whoever has the machine; examined by a competent person", Sources: []assume.Source{ownRule}},
	{ID: "maker", Regions: everywhere, What: "do what the maker's manual asks for after an overload; it and local codes come before this table",
		Who: "whoever has the machine", Sources: []assume.Source{ownRule}},
	{ID: "load-test", Regions: everywhere, What: "where a load test is part of the examination, load as the maker states; passing it does not clear a history of overloads",
		Who: "a competent person", Sources: []assume.Source{ownRule}},
	{ID: "major-inspection", Regions: everywhere, What: "major inspection within 10 years, then every 5; earlier where exceptional circumstances may have affected the structure",
		Who: "a competent person", Sources: []assume.Source{assume.Source{Document: "IPAF guidance", Edition: "May 2014", Status: assume.Read}}},
	{ID: "tests-europe", Regions: []Region{Europe, France}, What: "static test load 125 % of the rated load, 150 % for machines moved by hand, without permanent deformation; dynamic test load 110 % at nominal speeds",
		Who: "as the examination asks", Sources: []assume.Source{assume.Source{Document: "Regulation (EU) 2023/1230", Clause: "Annex III, 4.1.2.3", Status: assume.Read}}},
	{ID: "tests-france", Regions: []Region{France}, What: "static and dynamic test at the same shares of the rated load",
		Who: "as the examination asks", Sources: []assume.Source{assume.Source{Document: "French order of 1 March 2004", Clause: "art. 10 and 11", Status: assume.Read}}},
	{ID: "britain-exceptional", Regions: []Region{Britain}, What: "thorough examination after exceptional circumstances; overload is named among them",
		Who: "a competent person", Sources: []assume.Source{assume.Source{Document: "LOLER", Edition: "1998", Clause: "reg. 9(3)", Status: assume.Read}, assume.Source{Document: "CFTS", Status: assume.Read}}},
	{ID: "britain-usual", Regions: []Region{Britain}, What: "thorough examination every 6 months where persons are lifted",
		Who: "a competent person", Sources: []assume.Source{assume.Source{Document: "LOLER", Edition: "1998", Clause: "reg. 9(3)", Status: assume.Read}}},
	{ID: "australia-usual", Regions: []Region{Australia}, What: "inspection at least every 12 months, major inspection at 10 years",
		Who: "a competent person", Sources: []assume.Source{assume.Source{Document: "AS 2550.10", Status: assume.Read}, assume.Source{Document: "WorkSafe Tasmania", Status: assume.Read}}},
	{ID: "usa-frequent", Regions: []Region{UnitedStates}, What: "frequent inspection every 3 months or 150 h",
		Who: "a competent person", Sources: []assume.Source{assume.Source{Document: "WAC 296-869-40010", Status: assume.Read}}},
	{ID: "usa-annual", Regions: []Region{UnitedStates}, What: "annual inspection, at most 13 months after the one before",
		Who: "a competent person", Sources: []assume.Source{assume.Source{Document: "ANSI A92", Status: assume.Restated}}},
}

// SensingAnswers returns how a machine of a kind in a region answers an
// overload, and what its plate states.
func SensingAnswers(region Region, kind record.Kind) []Statement { return pick(sensing, region, kind) }

// AfterOverload returns what is asked for after an overload in a region: first
// what holds everywhere. own is false where the table has no row of that
// region's own; the law of the place then has to be asked.
func AfterOverload(region Region) (rows []Statement, own bool) {
	rows = pick(afterwards, region, record.Other)
	return rows, slices.ContainsFunc(rows, func(s Statement) bool { return slices.Contains(s.Regions, region) })
}

func pick(from []Statement, region Region, kind record.Kind) []Statement {
	var out []Statement
	for _, s := range from {
		if (slices.Contains(s.Regions, Everywhere) || slices.Contains(s.Regions, region)) && kindOf(s.Kinds, kind) {
			out = append(out, s)
		}
	}
	return out
}

// Stage is how far over the rated load something went, and what that means.
type Stage struct {
	Over  float64 `json:"over_pct"` // percent of the rated load; the stage reaches up to the next one
	Words string  `json:"words"`
}

// Stages sorts a load by the rules: within, in the load-sensing window, above
// it, and beyond the tests. Rules without a window have no stage for it.
func (r Rules) Stages() []Stage {
	out := []Stage{{0, "within the rated load"}}
	if _, ok := r.Get(WindowTo); ok {
		out = append(out, Stage{r.percent(WindowFrom), "where a sound load-sensing system has to act"},
			Stage{r.percent(WindowTo), "above where load sensing acts: overload taken on while moving, contact with a structure, lashing, a sensor fault or an override; whether it did damage has to be examined"})
	} else {
		out = append(out, Stage{100, "over the rated load"})
	}
	if top := max(r.percent(StaticTest), r.percent(EnhancedTest)); top > 0 {
		out = append(out, Stage{top, "beyond anything the type test covers: have it examined"})
	}
	return out
}

// percent returns a share of the rated load; 0 where the rules have none.
func (r Rules) percent(p Param) float64 {
	row, _ := r.Get(p)
	return row.Value
}

// StageOf returns the stage a load lies in: the last one that it is over.
func (r Rules) StageOf(load, rated record.Kilogram) (Stage, *record.Finding) {
	if f := assume.First(assume.AnyLoad.Check(float64(load), "load_kg"), assume.RatedLoads.Check(float64(rated), "machine/rated_load_kg")); f != nil {
		return Stage{}, f
	}
	stages := r.Stages()
	at := stages[0]
	for _, s := range stages[1:] {
		if load > shareOf(rated, s.Over) {
			at = s
		}
	}
	return at, nil
}
