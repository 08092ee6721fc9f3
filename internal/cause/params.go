package cause

import (
	"math"

	"ratchetmark/internal/assume"
	"ratchetmark/internal/record"
)

// param numbers an assumption: models read their parameters by number.
type param int

const (
	workedRate param = iota
	workedBrief
	workedDwell
	extraPerson
	heavyMaterial
	heavyMass
	lightTools
	realPerson
	aboveWindow
	usualUse
	lashedHabit
	shortTension
	longTension
	chainTension
	longShare
	chainShare
	twoStraps
	cellShare
	tensionKept
	strapAngle
	edgeFriction
	leftPowered
	offAfter
	tripLength
	tripRate
	shockRate
	shockExcess
	shockSnag
	shockDwell
	driftRate
	driftOffset
	custodyWrong
	alwaysOccupied
	alarmLogged
	tieDownSeen
	tieDownTold
	checkSpread
	checkTrue
	zeroShows
	driftLasts
	driftKept
	cellWrong
	reliance
	modelDoubt
	paramCount
)

// touches names the models that read a parameter.
type touches [4]bool

var (
	ofWorked  = touches{true, false, false, false}
	ofLashed  = touches{false, true, false, false}
	ofShock   = touches{false, false, true, false}
	ofDrift   = touches{false, false, false, true}
	ofAll     = touches{true, true, true, true}
	butDrift  = touches{true, true, true, false}
	butLashed = touches{true, false, true, true}
)

// paramTable ties each parameter to its assumption, to the models that read it
// and to what of them it touches. What items read of it by themselves is told in
// [askedBy].
var paramTable = [paramCount]struct {
	id      assume.ID
	touches touches
	parts   parts
}{
	workedRate:     {assume.WorkedRate, ofWorked, often},
	workedBrief:    {assume.WorkedBrief, ofWorked, lasting},
	workedDwell:    {assume.WorkedDwell, ofWorked, lasting},
	extraPerson:    {assume.ExtraPerson, ofWorked, loads | often},
	heavyMaterial:  {assume.HeavyMaterial, ofWorked, loads | often},
	heavyMass:      {assume.HeavyMass, ofWorked, loads | often},
	lightTools:     {assume.LightTools, ofWorked, loads | often},
	realPerson:     {assume.RealPerson, ofWorked, loads | often},
	aboveWindow:    {assume.AboveWindow, ofWorked, loads | often},
	usualUse:       {assume.UsualUse, ofDrift, loads},
	lashedHabit:    {assume.LashedHabit, ofLashed, often | hidden},
	shortTension:   {assume.ShortTension, ofLashed, loads},
	longTension:    {assume.LongTension, ofLashed, loads},
	chainTension:   {assume.ChainTension, ofLashed, loads},
	longShare:      {assume.LongShare, ofLashed, loads},
	chainShare:     {assume.ChainShare, ofLashed, loads},
	twoStraps:      {assume.TwoStraps, ofLashed, loads},
	cellShare:      {assume.CellShare, ofLashed, loads},
	tensionKept:    {assume.TensionKept, ofLashed, loads},
	strapAngle:     {assume.StrapAngle, ofLashed, loads},
	edgeFriction:   {assume.EdgeFriction, ofLashed, loads},
	leftPowered:    {assume.LeftPowered, ofLashed, lasting},
	offAfter:       {assume.OffAfter, ofLashed, lasting},
	tripLength:     {assume.TripLength, ofLashed, lasting},
	tripRate:       {assume.TripRate, ofLashed, often},
	shockRate:      {assume.ShockRate, ofShock, often},
	shockExcess:    {assume.ShockExcess, ofShock, loads},
	shockSnag:      {assume.ShockSnag, ofShock, loads},
	shockDwell:     {assume.ShockDwell, ofShock, lasting},
	driftRate:      {assume.DriftRate, ofDrift, often},
	driftOffset:    {assume.DriftOffset, ofDrift, hidden | loads},
	custodyWrong:   {assume.CustodyWrong, touches{iWorked: true, iLashed: true}, often},
	alwaysOccupied: {assume.AlwaysOccupied, touches{}, 0},
	alarmLogged:    {assume.AlarmLogged, touches{}, 0},
	tieDownSeen:    {assume.TieDownSeen, touches{}, 0},
	tieDownTold:    {assume.TieDownTold, touches{}, 0},
	checkSpread:    {assume.CheckSpread, touches{}, 0},
	checkTrue:      {assume.CheckTrue, touches{}, 0},
	zeroShows:      {assume.ZeroShows, touches{}, 0},
	driftLasts:     {assume.DriftLasts, touches{}, 0},
	driftKept:      {assume.DriftKept, touches{}, 0},
	cellWrong:      {assume.CellWrong, touches{}, 0},
	reliance:       {assume.Reliance, touches{}, scaling},
	modelDoubt:     {assume.ModelDoubt, touches{}, scaling},
}

// params are the values of all parameters.
type params [paramCount]float64

// usualParams returns the usual values, and the rows they come from.
func usualParams(set assume.Set) (values params, rows [paramCount]assume.Assumption) {
	for p := range values {
		rows[p] = set.Get(paramTable[p].id)
		values[p] = rows[p].Value
	}
	return values, rows
}

// priorsOf returns the weight of each cause before any evidence; they add up to 1.
func priorsOf(set assume.Set) [4]float64 {
	p := [4]float64{set.Value(assume.PriorWorked), set.Value(assume.PriorLashed), set.Value(assume.PriorShock), set.Value(assume.PriorDrift)}
	return normal(p)
}

// normal scales weights so that they add up to 1.
func normal(w [4]float64) [4]float64 {
	sum := w[0] + w[1] + w[2] + w[3]
	for i := range w {
		w[i] /= sum
	}
	return w
}

// platform is what the models know of the machine.
type platform struct {
	rated    float64
	persons  int     // on the plate; else as many as the rated load covers
	usage    usage   // of its bands up to the rated load
	windowTo float64 // load above which the load-sensing system has to have acted; infinite where the rules ask for none
}

func platformOf(h record.History, set assume.Set) platform {
	p := platform{rated: float64(h.Rated), usage: usageOf(h)}
	tools := 0.0
	if row, ok := set.Find(assume.ToolsMass); ok {
		tools = row.Value
	}
	p.persons = int((p.rated - tools) / set.Value(assume.PersonMass))
	if n := h.Case.Machine.Persons; n != nil && *n > 0 {
		p.persons = min(*n, int(p.rated/leastPerson)) // a plate that names more cannot be right
	}
	p.persons = min(max(p.persons, 1), mostPersons)
	p.windowTo = math.Inf(1)
	if row, ok := set.Find(assume.SensingTo); ok {
		p.windowTo = p.rated * row.Value / 100
	}
	if s := h.Case.Machine.LoadSensing; s != nil && float64(*s) > p.rated {
		p.windowTo = float64(*s)
	}
	return p
}

// mostPersons bounds how many persons are worked with: more hardly fit.
const mostPersons = 12

// leastPerson is the mass for which nobody would have a person stand for, in kg;
// an assumption.
const leastPerson = 70
