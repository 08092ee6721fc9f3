package capacity

import (
	"slices"

	"ratchetmark/internal/assume"
	"ratchetmark/internal/record"
)

// Choice says which rules hold for a machine.
type Choice struct {
	Edition     Edition
	Kind        record.Kind
	Manual      bool // moved by hand
	RaisingOnly bool // senses the load only when raising from the lowest position
}

// UsualEdition returns the edition that is usual in a region; the
// international one where none is.
func UsualEdition(region Region) Edition {
	for _, e := range Editions {
		if slices.Contains(e.Regions, region) {
			return e.Edition
		}
	}
	return ISO
}

// Rules are the values that hold for one machine. A value for which the table
// has no row is missing, not zero.
type Rules struct {
	rows []Row
}

// Choose returns the rules for a machine.
func Choose(c Choice) Rules {
	var r Rules
	for _, row := range ruleRows {
		if slices.Contains(row.Editions, c.Edition) && c.meets(row.When) && kindOf(row.Kinds, c.Kind) {
			r.put(row)
		}
	}
	return r
}

func (c Choice) meets(when Condition) bool {
	switch when {
	case Manual:
		return c.Manual
	case RaisingOnly:
		return c.RaisingOnly
	}
	return true
}

// put adds a row or puts it in the place of the one with the same name.
func (r *Rules) put(row Row) {
	if i := r.index(row.Param); i >= 0 {
		r.rows[i] = row
		return
	}
	r.rows = append(r.rows, row)
}

func (r Rules) index(p Param) int {
	return slices.IndexFunc(r.rows, func(row Row) bool { return row.Param == p })
}

// Rows returns the values in the order of the table.
func (r Rules) Rows() []Row { return slices.Clone(r.rows) }

// Get returns one value in the unit of its row; ok is false where the rules
// have none.
func (r Rules) Get(p Param) (row Row, ok bool) {
	if i := r.index(p); i >= 0 {
		return r.rows[i], true
	}
	return Row{}, false
}

// Name returns what a value is, in words.
func (r Row) Name() string { return rangeOf(r.Param).Name }

// Range returns what the value may be, in the unit of the row.
func (r Row) Range() assume.Range {
	limits := rangeOf(r.Param)
	if r.Unit == Lb {
		limits.Unit, limits.Least, limits.Most = "lb", limits.Least/KgPerLb, limits.Most/KgPerLb
	}
	return limits
}

// With returns the rules with one value changed, in the unit of its row. A
// value that makes no sense, or that the rules do not have, is a finding, and
// the rules stay as they are. The receiver is never changed.
func (r Rules) With(p Param, x float64) (Rules, *record.Finding) {
	at := record.Path("rules").At(string(p))
	i := r.index(p)
	if i < 0 {
		return r, &record.Finding{
			Code: "rule-unknown", Severity: record.Doubt, Path: at, Where: at.Words(),
			Message: "these rules have no such value", Expected: "one of the values listed for the edition",
			Effect: "it is not used", Hint: "choose the edition that the machine was built to",
		}
	}
	if f := r.rows[i].Range().Check(x, at); f != nil {
		return r, f
	}
	changed := Rules{slices.Clone(r.rows)}
	row := &changed.rows[i]
	row.Edited = row.Edited || row.Value != x
	row.Value = x
	return changed, nil
}

// mass returns a value in kg; 0 where there is none.
func (r Rules) mass(p Param) float64 {
	row, _ := r.Get(p)
	return float64(Mass{row.Value, row.Unit}.Kilograms())
}

// Persons returns the persons-plus-tools rule in kg.
func (r Rules) Persons() PersonRule {
	return PersonRule{First: r.mass(FirstPerson), Further: r.mass(FurtherPerson), Tools: r.mass(Tools)}
}

// Share is a load that the rules name as a share of the rated load.
type Share struct {
	Param   Param           `json:"id"`
	Words   string          `json:"words"`
	Percent float64         `json:"pct"`
	Load    record.Kilogram `json:"load_kg"`
	Source  assume.Source   `json:"source"`
}

// shareParams are the values that are shares of the rated load, from the
// lowest usual one up.
var shareParams = []Param{WindowFrom, DynamicTest, WindowTo, StaticTest, EnhancedTest}

// SharesOf returns the load-sensing window and the test loads of a rated load,
// those that the rules have.
func (r Rules) SharesOf(rated record.Kilogram) ([]Share, *record.Finding) {
	if f := assume.RatedLoads.Check(float64(rated), "machine/rated_load_kg"); f != nil {
		return nil, f
	}
	var out []Share
	for _, p := range shareParams {
		if row, ok := r.Get(p); ok {
			out = append(out, Share{p, row.Name(), row.Value, shareOf(rated, row.Value), row.Source})
		}
	}
	return out, nil
}

// shareOf returns a percentage of a rated load, in kg.
func shareOf(rated record.Kilogram, percent float64) record.Kilogram {
	return rated * record.Kilogram(percent) / 100
}
