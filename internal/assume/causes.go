package assume

// What weighing the causes takes for granted. The usual values hold for an
// interval of which nothing particular is known.
const (
	WorkedRate     ID = "worked_rate"
	WorkedBrief    ID = "worked_brief"
	WorkedDwell    ID = "worked_dwell_h"
	ExtraPerson    ID = "worked_extra_person"
	HeavyMaterial  ID = "worked_heavy_material"
	HeavyMass      ID = "worked_heavy_mass"
	LightTools     ID = "worked_tools_kg"
	RealPerson     ID = "worked_person_kg"
	AboveWindow    ID = "worked_above_window"
	UsualUse       ID = "usual_load_share"
	LashedHabit    ID = "lashed_habit"
	ShortTension   ID = "lashed_short_lever_dan"
	LongTension    ID = "lashed_long_lever_dan"
	ChainTension   ID = "lashed_chain_dan"
	LongShare      ID = "lashed_long_lever_share"
	ChainShare     ID = "lashed_chain_share"
	TwoStraps      ID = "lashed_two_straps"
	CellShare      ID = "lashed_cell_share"
	TensionKept    ID = "lashed_kept"
	StrapAngle     ID = "lashed_angle_deg"
	EdgeFriction   ID = "lashed_edge_friction"
	LeftPowered    ID = "lashed_left_powered"
	OffAfter       ID = "lashed_off_after_h"
	TripLength     ID = "lashed_trip_h"
	TripRate       ID = "trip_rate"
	ShockRate      ID = "shock_rate"
	ShockExcess    ID = "shock_excess"
	ShockSnag      ID = "shock_snag"
	ShockDwell     ID = "shock_dwell_s"
	DriftRate      ID = "drift_rate"
	DriftOffset    ID = "drift_offset"
	CustodyWrong   ID = "custody_wrong"
	AlwaysOccupied ID = "always_occupied"
	AlarmLogged    ID = "alarm_logged"
	TieDownSeen    ID = "tie_down_seen"
	TieDownTold    ID = "tie_down_told"
	CheckSpread    ID = "check_spread"
	CheckTrue      ID = "check_true"
	ZeroShows      ID = "drift_at_zero"
	DriftLasts     ID = "drift_lasts_d"
	DriftKept      ID = "drift_kept"
	CellWrong      ID = "cell_wrong"
	Reliance       ID = "reliance"
	ModelDoubt     ID = "model_doubt"
	PriorWorked    ID = "prior_worked"
	PriorLashed    ID = "prior_lashed"
	PriorShock     ID = "prior_shock"
	PriorDrift     ID = "prior_drift"
)

// ForCauses is the group of the assumptions that weigh causes.
const ForCauses = "causes"

const (
	gdv    = "GDV, German insurers' handbook on securing cargo in road transport"
	nchs   = "NCHS Series 3 No. 50 (2025), Table 3, men and women mixed, with what is worn; interval an assumption"
	noBody = "none"
)

// causeTable holds what weighing causes takes for granted.
var causeTable = []Assumption{
	cause(WorkedRate, "occasions on which work goes over the rated load", "per 100 powered hours", 0.2, 0.7, 3, 0.001, 1000),
	cause(WorkedBrief, "share of overloads at work that end when the alarm sounds", "1", 0.05, 0.12, 0.3, 0.001, 0.999),
	cause(WorkedDwell, "how long the other overloads at work last, median", "h", 0.3, 0.8, 1.6, 0.01, 10),
	cause(ExtraPerson, "share of lifts with one person more than the plate", "1", 0.004, 0.012, 0.05, 0.0001, 0.9),
	cause(HeavyMaterial, "share of lifts with heavy material", "1", 0.08, 0.23, 0.45, 0.0001, 0.9),
	cause(HeavyMass, "mass of heavy material beyond tools, mean", "of rated load", 0.1, 0.22, 0.5, 0.02, 5),
	cause(LightTools, "mass of tools and small material, mean", "kg", 10, 25, 50, 1, 500),
	cause(RealPerson, "mass of a real person with what is worn, mean", "kg", 85, 92, 100, 50, 160).from(nchs, Read),
	cause(AboveWindow, "share of lifts that go on above the load-sensing window", "1", 0.15, 0.4, 0.7, 0.001, 1),
	cause(UsualUse, "mean load in ordinary use, as a share of the rated load", "1", 0.4, 0.6, 0.75, 0.05, 1),
	cause(LashedHabit, "share of trips with a strap over the platform", "1", 0.05, 0.12, 0.3, 0.005, 0.5),
	cause(ShortTension, "tension of a short-lever ratchet", "daN", 180, 300, 420, 20, 1000).from(gdv+"; interval an assumption", Restated),
	cause(LongTension, "tension of a long-lever ratchet", "daN", 400, 550, 900, 50, 2000).from(gdv+"; interval an assumption", Restated),
	cause(ChainTension, "tension of a chain with its tensioner", "daN", 800, 1300, 2200, 100, 6000).from("BGHM-I 108, 0.25 of the capacity; interval an assumption", Read),
	cause(LongShare, "share of tie-downs with a long lever", "1", 0.25, 0.5, 0.75, 0.001, 0.9),
	cause(ChainShare, "share of tie-downs with a chain", "1", 0.01, 0.04, 0.12, 0.001, 0.9),
	cause(TwoStraps, "share of tie-downs with two straps", "1", 0.35, 0.65, 0.85, 0.001, 0.999),
	cause(CellShare, "share of the pull that reaches the load cell, mounts and blocks included", "1", 0.45, 0.8, 0.95, 0.05, 1),
	cause(TensionKept, "share of the pull that stays once it has settled", "1", 0.25, 0.5, 0.85, 0.02, 1).from(gdv+" (can fall to zero); a supplier (30 % relaxation of polyester); interval an assumption", Restated),
	cause(StrapAngle, "angle of the strap to the deck", "degrees", 50, 68, 85, 15, 90),
	cause(EdgeFriction, "friction of the strap at the rail", "1", 0.1, 0.2, 0.35, 0, 0.8),
	cause(LeftPowered, "share of trips on which the machine stays powered", "1", 0.25, 0.55, 0.8, 0.001, 0.999),
	cause(OffAfter, "powered time after lashing where it is switched off, median", "h", 0.03, 0.07, 0.18, 0.005, 2),
	cause(TripLength, "length of a trip where no custody gives it, median", "h", 1, 2.8, 6, 0.1, 48),
	cause(TripRate, "trips where no custody gives them", "per 100 powered hours", 1.5, 3.6, 10, 0.01, 200),
	cause(ShockRate, "shocks over the rated load", "per 100 powered hours", 0.1, 0.3, 1.5, 0.001, 1000),
	cause(ShockExcess, "how far a shock goes over the rated load, mean", "of rated load", 0.35, 0.75, 1.4, 0.02, 3),
	cause(ShockSnag, "share of shocks that come from snagging, between four and five times as far", "1", 0.05, 0.16, 0.4, 0.001, 0.9),
	cause(ShockDwell, "how long a shock lasts, median", "s", 0.4, 1.3, 6, 0.05, 600),
	cause(DriftRate, "drifts of the cell", "per 1000 powered hours", 0.08, 0.25, 0.8, 0.001, 100),
	cause(DriftOffset, "size of a drift, median", "of rated load", 0.1, 0.25, 0.5, 0.005, 5),
	cause(CustodyWrong, "share of custody entries that are wrong or missing", "1", 0.02, 0.05, 0.15, 0.0001, 0.5),
	cause(AlwaysOccupied, "share of intervals in which a platform is never empty", "1", 0.002, 0.006, 0.03, 0.0001, 0.9),
	cause(AlarmLogged, "share of overloads that the event list holds", "1", 0.3, 0.55, 0.85, 0.05, 0.999),
	cause(TieDownSeen, "share of tie-downs seen, or on a photo, that are as they are said to be", "1", 0.85, 0.95, 0.99, 0.5, 0.999),
	cause(TieDownTold, "share of what a crew tells of a tie-down that is so", "1", 0.6, 0.8, 0.95, 0.5, 0.999),
	cause(CheckSpread, "how far a check shows a sound cell off, standard deviation", "of rated load", 0.005, 0.015, 0.04, 0.001, 0.3),
	cause(CheckTrue, "share of checks that are written down as they were shown", "1", 0.85, 0.95, 0.99, 0.5, 0.999),
	cause(ZeroShows, "share of drifts that are of the zero and show with the platform empty", "1", 0.5, 0.75, 0.95, 0.01, 0.99),
	cause(DriftLasts, "how long a drift lasts until somebody corrects it, median", "d", 40, 150, 600, 1, 5000),
	cause(DriftKept, "share of drifts that a workshop leaves as they are", "1", 0.15, 0.4, 0.8, 0.001, 0.999),
	cause(CellWrong, "share of cells that are wrong without having caused it", "1", 0.02, 0.05, 0.15, 0.001, 0.5),
	cause(Reliance, "share of its strength that the evidence keeps, because its models are rough", "1", 0.5, 0.63, 0.75, 0.01, 1),
	cause(ModelDoubt, "chance that none of the models holds", "1", 0.001, 0.003, 0.01, 0.00001, 0.5),
	chosen(PriorWorked, "weight of work before any evidence", 1),
	chosen(PriorLashed, "weight of tie-down before any evidence", 1),
	chosen(PriorShock, "weight of a shock before any evidence", 1),
	chosen(PriorDrift, "weight of a drifted cell before any evidence", 1),
}

func cause(id ID, name, unit string, low, value, high, least, most float64) Assumption {
	return Assumption{ID: id, Name: name, Unit: unit, Low: low, Value: value, High: high, Least: least, Most: most,
		Source: noBody, Status: Guess, Group: ForCauses}
}

// chosen is a weight that a person sets: it has no interval.
func chosen(id ID, name string, value float64) Assumption {
	a := cause(id, name, "1", value, value, value, 0.001, 1000)
	a.Fixed = true
	return a
}

func (a Assumption) from(source string, status Status) Assumption {
	a.Source, a.Status = source, status
	return a
}
