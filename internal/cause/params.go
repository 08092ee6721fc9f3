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

// paramTable ties each parameter to its assumption and to the models that read it.
var paramTable = [paramCount]struct {
	id      assume.ID
	touches touches
	only    string // the one item, or group, that reads it; empty for more
	also    string // the item or group that reads it under every cause, beside the model
}{
	workedRate:     {assume.WorkedRate, ofWorked, "", ""},
	workedBrief:    {assume.WorkedBrief, ofWorked, "", ""},
	workedDwell:    {assume.WorkedDwell, ofWorked, "", ""},
	extraPerson:    {assume.ExtraPerson, ofWorked, "", ""},
	heavyMaterial:  {assume.HeavyMaterial, ofWorked, "", ""},
	heavyMass:      {assume.HeavyMass, ofWorked, "", ""},
	lightTools:     {assume.LightTools, ofWorked, "", ""},
	realPerson:     {assume.RealPerson, ofWorked, "", ""},
	aboveWindow:    {assume.AboveWindow, ofWorked, "", ""},
	usualUse:       {assume.UsualUse, ofDrift, "", ""},
	lashedHabit:    {assume.LashedHabit, ofLashed, "", "habit"},
	shortTension:   {assume.ShortTension, ofLashed, "", ""},
	longTension:    {assume.LongTension, ofLashed, "", ""},
	chainTension:   {assume.ChainTension, ofLashed, "", ""},
	longShare:      {assume.LongShare, ofLashed, "", ""},
	chainShare:     {assume.ChainShare, ofLashed, "", ""},
	twoStraps:      {assume.TwoStraps, ofLashed, "", ""},
	cellShare:      {assume.CellShare, ofLashed, "", ""},
	tensionKept:    {assume.TensionKept, ofLashed, "", ""},
	strapAngle:     {assume.StrapAngle, ofLashed, "", ""},
	edgeFriction:   {assume.EdgeFriction, ofLashed, "", ""},
	leftPowered:    {assume.LeftPowered, ofLashed, "", "power"},
	offAfter:       {assume.OffAfter, ofLashed, "", ""},
	tripLength:     {assume.TripLength, ofLashed, "", ""},
	tripRate:       {assume.TripRate, ofLashed, "", ""},
	shockRate:      {assume.ShockRate, ofShock, "", ""},
	shockExcess:    {assume.ShockExcess, ofShock, "", ""},
	shockSnag:      {assume.ShockSnag, ofShock, "", ""},
	shockDwell:     {assume.ShockDwell, ofShock, "", ""},
	driftRate:      {assume.DriftRate, ofDrift, "", ""},
	driftOffset:    {assume.DriftOffset, ofDrift, "", ""},
	custodyWrong:   {assume.CustodyWrong, ofAll, "", ""},
	alwaysOccupied: {assume.AlwaysOccupied, ofAll, "empty-band", ""},
	alarmLogged:    {assume.AlarmLogged, ofAll, "alarms", ""},
	tieDownSeen:    {assume.TieDownSeen, touches{}, "tie-down", "tie-down"},
	tieDownTold:    {assume.TieDownTold, touches{}, "tie-down", "tie-down"},
	checkSpread:    {assume.CheckSpread, touches{}, "checks", "checks"},
	checkTrue:      {assume.CheckTrue, touches{}, "checks", "checks"},
	zeroShows:      {assume.ZeroShows, touches{}, "checks", "checks"},
	driftLasts:     {assume.DriftLasts, touches{}, "checks", "checks"},
	driftKept:      {assume.DriftKept, touches{}, "checks", "checks"},
	cellWrong:      {assume.CellWrong, touches{}, "checks", "checks"},
	reliance:       {assume.Reliance, touches{}, "", ""},
	modelDoubt:     {assume.ModelDoubt, touches{}, "", ""},
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
	windowTo float64 // load above which the load-sensing system has to have acted; infinite where the rules ask for none
}

func platformOf(h record.History, set assume.Set) platform {
	p := platform{rated: float64(h.Rated)}
	tools := 0.0
	if row, ok := set.Find(assume.ToolsMass); ok {
		tools = row.Value
	}
	p.persons = int((p.rated - tools) / set.Value(assume.PersonMass))
	if n := h.Case.Machine.Persons; n != nil && *n > 0 {
		p.persons = *n
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
