package dossier

import (
	"cmp"
	"fmt"
	"slices"

	"ratchetmark/internal/assume"
	"ratchetmark/internal/capacity"
	"ratchetmark/internal/cause"
	"ratchetmark/internal/endurance"
	"ratchetmark/internal/fatigue"
	"ratchetmark/internal/record"
)

// Exposure is what use has cost the structure, with all that is said about it.
type Exposure struct {
	fatigue.Result
	Basis          fatigue.Basis      `json:"cycles_from"`
	Counted        []Counted          `json:"cycles_by"`
	Against        []fatigue.Against  `json:"against"`
	Spread         []fatigue.Spread   `json:"spread"`
	EquivalentLoad record.Bounds      `json:"equivalent_load_kg"`
	FullLoadHours  record.Bounds      `json:"full_load_h"`
	Classes        fatigue.Classes    `json:"classes"`
	DutyRecord     Duty               `json:"duty_record"`
	Stretches      []fatigue.Stretch  `json:"stretches"`
	Detail         *Detail            `json:"detail"` // nil without a stress range and a curve
	Road           *fatigue.Road      `json:"road"`   // nil without a trip in custody
	Claim          Claim              `json:"claim"`
	Forecast       []fatigue.Forecast `json:"forecast"`
}

// Counted is the load cycles by one basis, and the exposure they make.
type Counted struct {
	Basis      fatigue.Basis `json:"basis"`
	LoadCycles record.Bounds `json:"load_cycles"`
	Relative   record.Bounds `json:"relative"`
}

// Duty is how the use is known, and the exposure times the factor of that.
type Duty struct {
	ID       string        `json:"id"`
	F1       float64       `json:"f1"`
	Relative record.Bounds `json:"relative"`
}

// Detail is the damage of a detail with the curve and the stress range it is for.
type Detail struct {
	StressRange float64              `json:"stress_range_mpa"`
	Curve       string               `json:"curve"` // in words
	Damage      record.Bounds        `json:"damage"`
	Terms       []fatigue.DetailTerm `json:"terms"`
	History     *endurance.History   `json:"stress_history,omitempty"` // of EN 13001-3-1
}

// Claim is the exposure by what it came from.
type Claim struct {
	Damage string          `json:"damage"` // crack, bent, or empty
	Part   string          `json:"part"`
	Shares []fatigue.Share `json:"shares"`
	Words  string          `json:"words"`
}

// structure returns what is told of the structure; an empty one without.
func (d *Dossier) structure() record.Structure {
	if s := d.History.Case.Structure; s != nil {
		return *s
	}
	return record.Structure{}
}

// expose works out the exposure; nil without hours.
func (d *Dossier) expose(set assume.Set) *Exposure {
	told := d.structure()
	life := fatigue.Life{
		Intervals: d.History.Life(), Case: d.History.Case, Rated: d.History.Rated, Set: set,
		Basis: fatigue.Basis(told.CyclesFrom), Count: inRange(told.LoadCycles, cycleCounts),
		AtLeast: d.Capacity.Counted == 0 || incomplete(d) != "",
	}
	if !slices.Contains(fatigue.Bases, life.Basis) {
		life.Basis = fatigue.ByHours
	}
	use, ok := life.Open()
	if !ok {
		life.Basis = fatigue.ByHours
		if use, ok = life.Open(); !ok {
			return nil
		}
	}
	e := &Exposure{Result: use.Result(), Basis: use.Basis}
	e.Counted = d.counted(&life, set)
	e.Against, e.Spread = use.Compare(), use.Spread()
	e.EquivalentLoad, e.FullLoadHours = use.EquivalentLoad(set.Value(assume.Slope)), use.FullLoadHours()
	e.Classes = use.Classes()
	row := fatigue.DutyRecordOf(told.DutyRecord)
	e.DutyRecord = Duty{row.ID, row.F1, e.Relative.Scale(row.F1, row.F1, row.F1)}
	e.Stretches = d.stretches(&life)
	e.Detail = detailOf(told, &use)
	last := d.History.Intervals[len(d.History.Intervals)-1].To
	e.Road = fatigue.RoadOf(d.History.Case, last, set, e.Relative)
	e.Claim = d.claim(told, &use, life.Intervals)
	e.Forecast, _ = life.Forecast(e.Relative, fatigue.Due(told.Disposal, d.Machine.InService))
	tidyDeep(e)
	return e
}

// Rests names the assumption that turns hours into load cycles; none where the
// machine counts them.
func (e *Exposure) Rests() []assume.ID {
	switch e.Basis {
	case fatigue.ByMoving:
		return []assume.ID{assume.CyclesPerMovingHour}
	case fatigue.ByCount:
		return nil
	}
	return []assume.ID{assume.CyclesPerHour}
}

// counted compares the bases that the record has.
func (d *Dossier) counted(life *fatigue.Life, set assume.Set) []Counted {
	out := []Counted{}
	for _, basis := range fatigue.Bases {
		u, ok := fatigue.UseOf(life.Intervals, life.Rated, set, basis, life.Count)
		if u.AtLeast = life.AtLeast; ok {
			out = append(out, Counted{basis, u.Cycles(), u.Relative(set.Value(assume.Slope), set.Value(assume.DesignCycles))})
		}
	}
	return out
}

// mostStretches is how many stretches of one kind are worked out; a record with
// more is hardly one of a machine.
const mostStretches = 200

func (d *Dossier) stretches(l *fatigue.Life) []fatigue.Stretch {
	out := []fatigue.Stretch{}
	for _, list := range [][]fatigue.Stretch{l.ByInterval(), l.ByHire(), l.ByYear()} {
		for i, s := range list {
			if i == mostStretches {
				break
			}
			if s.Interval != nil {
				s.Title = Capital(IntervalText(d.History, *s.Interval))
			}
			out = append(out, s)
		}
	}
	return out
}

// claim divides the exposure by what it came from.
func (d *Dossier) claim(told record.Structure, use *fatigue.Use, intervals []record.Interval) Claim {
	groups := []fatigue.Group{}
	for _, c := range cause.All {
		groups = append(groups, fatigue.Group(c))
	}
	c := Claim{Damage: told.Claim, Part: told.Part, Shares: use.Shares(intervals, d.pieces(), append(groups, fatigue.Unsettled))}
	c.Words = d.claimWords(c)
	return c
}

// pieces turns the exceedances into what the shares are worked out from.
func (d *Dossier) pieces() []fatigue.Over {
	var out []fatigue.Over
	for _, x := range d.Exceedances {
		o := fatigue.Over{Interval: x.Interval, From: x.From, To: x.To, Peak: x.What == cause.Peak, Verdict: fatigue.Group(x.Verdict)}
		o.Once = x.Verdict == cause.Lashed || x.Verdict == cause.Shock
		for _, c := range cause.All {
			if x.Verdict == cause.Undecided && x.Posterior.Get(c) >= hardly {
				o.Open = append(o.Open, fatigue.Group(c))
				o.Once = o.Once || c == cause.Lashed || c == cause.Shock
			}
		}
		out = append(out, o)
	}
	return out
}

// hardly is the weight under which a cause is left out of what may be.
const hardly = 0.02

// mayBe reports whether a cause has weight in any piece.
func mayBe(d *Dossier, c cause.Cause) bool {
	return slices.ContainsFunc(d.Exceedances, func(x Exceedance) bool { return x.Posterior.Get(c) >= hardly })
}

// typeTests lists the type tests of the rules that are chosen.
func (d *Dossier) typeTests() []fatigue.Test {
	if d.Capacity == nil {
		return fatigue.TypeTests
	}
	names := map[capacity.Param]string{capacity.DynamicTest: "dynamic test", capacity.StaticTest: "static test", capacity.EnhancedTest: "enhanced overload test"}
	var out []fatigue.Test
	for _, s := range d.Capacity.Shares {
		if name := names[s.Param]; name != "" {
			out = append(out, fatigue.Test{Name: name, Percent: s.Percent, Source: fmt.Sprintf("%s; %s", s.Source, s.Source.Status)})
		}
	}
	record.SortStable(out, func(a, b fatigue.Test) int { return cmp.Compare(a.Percent, b.Percent) })
	return out
}

// static holds the highest peak against the tests.
func (d *Dossier) static() *fatigue.Static {
	peak := capacity.HighestPeak(d.History)
	if peak == nil {
		return nil
	}
	told := d.structure()
	var maker *record.Kilogram
	if x := told.MakerTest; x != nil && makerTests.Check(float64(*x), "") == nil {
		maker = x
	}
	s := fatigue.StaticOf(*peak, d.History.Rated, d.typeTests(), maker)
	if s != nil {
		tidyDeep(s)
	}
	return s
}
