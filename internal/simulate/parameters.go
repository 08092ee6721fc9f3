package simulate

// Parameter is one quantity of the generator: drawn anew for each life, hire,
// haulier, trip or occasion from Low to High.
type Parameter struct {
	Name      string
	Low, High float64
	Unit      string // empty for a share, a ratio or a number
	Shape     Shape
	Per       string // what it is drawn anew for
	Why       string
}

// Shape is how a parameter is distributed between its limits.
type Shape string

// The shapes.
const (
	Uniform    Shape = "uniform"
	LogUniform Shape = "uniform in the logarithm"
	Triangular Shape = "triangular, mode in the middle"
)

var table []*Parameter

// row adds a parameter to the table.
func row(name string, low, high float64, unit string, shape Shape, per, why string) *Parameter {
	p := &Parameter{name, low, high, unit, shape, per, why}
	table = append(table, p)
	return p
}

// Parameters returns the table. Every row is an assumption; where a range is
// published, the row is wider and says so.
func Parameters() []Parameter {
	out := make([]Parameter, len(table))
	for i, p := range table {
		out[i] = *p
	}
	return out
}

// The machine.
var (
	boomShare    = row("share of boom lifts", 0.40, 0.40, "", Uniform, "life", "a mixed fleet")
	scissorShare = row("share of scissor lifts among the rest", 0.75, 0.75, "", Uniform, "life", "a mixed fleet")
	spareLoad    = row("rated load beyond persons and tools", 0, 1, "of 180 kg (boom), 400 kg (scissor), 80 kg (mast)", Triangular, "life", "plates carry more than the smallest rated load of n x 80 + 40 kg")
	oddPlate     = row("chance that rated load and persons do not agree", 0.12, 0.12, "", Uniform, "life", "older rules, other countries, wrong plates")
	oddRated     = row("rated load of such a machine", 80, 500, "kg", Uniform, "life", "as above")
	sensingAt    = row("load at which load sensing acts, of the rated load", 1.00, 1.28, "", Uniform, "life", "rules say 1.0 to 1.2; wider")
	sensingFails = row("chance that load sensing is missing or overridden", 0.07, 0.07, "", Uniform, "life", "older machines, faults, bridging")
	plateSensing = row("chance that the load of load sensing is known", 0.55, 0.55, "", Uniform, "life", "seldom on the plate")
	platePersons = row("chance that the number of persons is known", 0.85, 0.85, "", Uniform, "life", "plates get unreadable")
	platformMass = row("mass of the platform itself", 60, 600, "kg", LogUniform, "life", "what a jolt sets in motion besides the load")
)

// The counters.
var (
	bandCount    = row("number of bands", 3, 9.99, "", Uniform, "life", "makers differ")
	edgeAtRated  = row("chance that an edge is the rated load", 0.55, 0.55, "", Uniform, "life", "else a band straddles it")
	edgeSpread   = row("width of a band, of the mean width", 0.5, 1.5, "", Uniform, "band", "uneven bands")
	topEdge      = row("highest edge, of the rated load", 0.95, 2.6, "", Uniform, "life", "some end at the rated load, some far above")
	openTop      = row("chance that the last band is open upwards", 0.75, 0.75, "", Uniform, "life", "else loads above it are in no band")
	lowStart     = row("chance that the lowest band begins above zero", 0.05, 0.05, "", Uniform, "life", "some count only loads")
	minuteClock  = row("chance that hours count in minutes", 0.30, 0.30, "", Uniform, "life", "else in tenths")
	truncates    = row("chance that a counter truncates", 0.60, 0.60, "", Uniform, "life", "else it rounds")
	coarsePeak   = row("chance that the peak is kept in steps of 5 kg", 0.20, 0.20, "", Uniform, "life", "else of 1 kg")
	peakHold     = row("least time a load must last to set the peak", 0.05, 3, "s", LogUniform, "life", "filters differ")
	peakCap      = row("chance that the peak has a limit", 0.03, 0.03, "", Uniform, "life", "displays of three digits and the like")
	peakLimit    = row("that limit, of the rated load", 1.5, 3, "", Uniform, "life", "as above")
	movingMeter  = row("chance that moving hours are counted", 0.50, 0.50, "", Uniform, "life", "about half of machines")
	poweredMeter = row("chance that powered hours are counted", 0.95, 0.95, "", Uniform, "life", "nearly all")
	peakClock    = row("chance that the machine keeps when the peak was", 0.35, 0.35, "", Uniform, "life", "newer machines")
	peakReset    = row("chance that a workshop clears the peak", 0.12, 0.12, "", Uniform, "workshop visit", "after an examination")
)

// The load cell.
var (
	cellNoise   = row("noise of the cell, standard deviation of the rated load", 0.001, 0.015, "", LogUniform, "life", "up to 3 % at two standard deviations")
	cellGain    = row("gain of a sound cell, off by", -0.03, 0.03, "", Triangular, "life", "adjusted with test weights of a few per cent")
	cellZero    = row("zero of a sound cell, off by, of the rated load", -0.03, 0.03, "", Triangular, "life", "adjusted to a few kg")
	faultChance = row("chance that the cell goes wrong in a life", 0.40, 0.40, "", Uniform, "life", "so that drift is seen often enough")
	faultStep   = row("share of faults that are a step of the zero", 0.45, 0.45, "", Uniform, "life", "after an impact")
	faultWalk   = row("share of faults of the rest that are a walk of the zero", 0.55, 0.55, "", Uniform, "life", "water, creep; the rest is gain")
	stepSize    = row("step of the zero, of the rated load", 0.06, 0.9, "", LogUniform, "fault", "from hardly seen to absurd")
	walkRate    = row("walk of the zero, of the rated load in 100 days", 0.05, 1.2, "", LogUniform, "fault", "slow to fast")
	gainFault   = row("gain at fault, off by", 0.05, 0.5, "", LogUniform, "fault", "a cell part bypassed by contact, wrong calibration")
	faultUp     = row("chance that a fault reads too much", 0.75, 0.75, "", Uniform, "fault", "too little hides; both occur")
	faultLasts  = row("time until a fault is found", 2, 400, "d", LogUniform, "fault", "alarms without load are soon reported, small shifts are not")
	faultImpact = row("chance that a step comes with a blow that the cell sees", 0.50, 0.50, "", Uniform, "fault", "else handling with the power off")
)

// The calendar.
var (
	tripCount   = row("number of trips", 1, 30.99, "", LogUniform, "life", "weeks to years of hire")
	hireDays    = row("length of a hire", 1, 70, "d", LogUniform, "hire", "a day to a season")
	depotDays   = row("time in the yard between hires", 0.3, 45, "d", LogUniform, "hire", "idle machines")
	tripHours   = row("length of a trip", 0.3, 12, "h", LogUniform, "trip", "round the corner to across the country")
	departs     = row("time of day a trip begins", 5, 13, "h", Uniform, "trip", "mornings")
	toWorkshop  = row("chance of the workshop after a hire", 0.12, 0.12, "", Uniform, "hire", "service and examination")
	workshopFor = row("time in the workshop", 0.3, 10, "d", LogUniform, "workshop visit", "hours to waiting for parts")
	shareUsed   = row("share of days on which the machine is used", 0.3, 0.95, "", Uniform, "hire", "hired is not used")
	dayHours    = row("powered hours of a day in use", 0.5, 10, "h", LogUniform, "day", "an errand to a long shift")
	dayBegins   = row("time of day work begins", 6, 9.5, "h", Uniform, "day", "site hours")
	sessionFor  = row("length of one stretch at one load", 0.15, 2.5, "h", LogUniform, "stretch", "between changes of crew or material")
	yardUse     = row("powered time of a day the machine is handled in the yard", 0.05, 1, "h", LogUniform, "yard stay", "washing, checks, moving")
)

// Work.
var (
	idleShare    = row("share of powered hours with the platform empty", 0.1, 0.6, "", Uniform, "hire", "left on at the ground")
	movingShare  = row("share of loaded hours in movement", 0.08, 0.6, "", Uniform, "hire", "painting to cable pulling")
	womenShare   = row("share of women in crews", 0, 0.3, "", Uniform, "hire", "trades differ")
	workerShift  = row("mass of workers against the general population", -6, 6, "kg", Uniform, "hire", "trades and countries differ")
	wornMass     = row("clothing and harness", 2, 9, "kg", Uniform, "hire", "boots, harness, winter clothing")
	poolSize     = row("people who share the machine", 1, 6.99, "", Uniform, "hire", "the same few come every day")
	toolMass     = row("tools", 2, 60, "kg", LogUniform, "hire", "a brush to a chiselling hammer")
	materialMass = row("material taken up, of the rated load", 0.01, 0.5, "", LogUniform, "stretch", "used up on the way")
	materialWhen = row("chance that a stretch has material", 0.05, 0.6, "", Uniform, "hire", "inspection to cladding")
	fullCrew     = row("chance of as many persons as the plate allows", 0, 0.45, "", Uniform, "hire", "habits differ")
	mindsPlate   = row("chance that a hirer keeps to the rated load", 0.62, 0.62, "", Uniform, "hire", "the crew adds up what goes on the platform")
	mindsAlarm   = row("chance that of the rest a hirer heeds the alarm", 0.75, 0.75, "", Uniform, "hire", "nothing moves with the alarm on")
	overloader   = row("chance that a hirer is one who overloads", 0.40, 0.40, "", Uniform, "hire", "a minority")
	overRate     = row("overloads per powered hour of such a hirer", 0.002, 0.08, "1/h", LogUniform, "hire", "once in a hire to every other day")
	overCrowd    = row("share of overloads by persons", 0.35, 0.35, "", Uniform, "overload", "a lift for everyone")
	overLean     = row("share of the other overloads by leaning or pulling over the rail", 0.25, 0.25, "", Uniform, "overload", "plates leant on the rail, cables pulled")
	crowdMore    = row("persons beyond the plate", 1, 3.4, "", Uniform, "overload", "one more, seldom three")
	overMaterial = row("material of an overload, of the rated load", 0.3, 1.9, "", LogUniform, "overload", "bricks, plates, plant")
	leanPull     = row("pull on the rail", 15, 250, "kg", LogUniform, "overload", "a hand to a chain hoist")
	leanFor      = row("time of leaning or pulling", 0.01, 0.5, "h", LogUniform, "overload", "moments to a break")
	overFor      = row("time of an overload", 0.02, 4, "h", LogUniform, "overload", "until unloaded; moments to an afternoon")
	overMoving   = row("chance that an overload goes on moving", 0.06, 0.06, "", Uniform, "overload", "one that appears in movement leaves movement possible")
	overnight    = row("chance of a night powered and loaded, per day in use", 0.003, 0.003, "", Uniform, "day", "key left on, material left up")
	nightLoad    = row("material left overnight, of the rated load", 0.1, 1.5, "", LogUniform, "night", "what is needed next morning")
)

// Shocks.
var (
	shockRate = row("shocks per powered hour of work", 0.0003, 0.02, "1/h", LogUniform, "hire", "driving over kerbs, snags, dropped loads")
	shockAmp  = row("load of a shock, of the static load", 1.2, 3, "", LogUniform, "shock", "amplification from a kerb to a drop")
	shockFor  = row("length of a shock", 0.1, 8, "s", LogUniform, "shock", "a blow to bouncing")
	snagShare = row("share of shocks that are a snag", 0.3, 0.3, "", Uniform, "shock", "the platform caught under a beam")
	snagPull  = row("load of a snag, of the rated load", 0.2, 2.5, "", LogUniform, "shock", "until the drive stops")
	snagFor   = row("length of a snag", 0.5, 60, "s", LogUniform, "shock", "until it is freed")
	joltRate  = row("jolts per hour of a trip with the power on", 0.005, 0.3, "1/h", LogUniform, "life", "pot holes, ramps")
	joltAmp   = row("acceleration of a jolt, of gravity", 0.2, 2, "", LogUniform, "jolt", "on the platform's own mass and what it carries")
	loadAmp   = row("chance of a jolt when driven on or off the vehicle", 0.03, 0.03, "", Uniform, "trip", "the edge of the ramp")
)

// Trips.
var (
	hauliers     = row("hauliers a machine meets", 1, 4.99, "", Uniform, "life", "own and others")
	neverRails   = row("share of hauliers who never lash over the rails", 0.70, 0.70, "", Uniform, "haulier", "as told")
	alwaysRails  = row("share of the rest who always do", 0.35, 0.35, "", Uniform, "haulier", "the others at times")
	railsAtTimes = row("chance of it for those who do it at times", 0.1, 0.8, "", Uniform, "haulier", "when the hooks are short or it is late")
	staysOn      = row("chance that a haulier leaves the power on", 0, 0.6, "", Uniform, "haulier", "key in the switch")
	firstOff     = row("chance that the power is off before lashing", 0.1, 0.6, "", Uniform, "haulier", "then nothing is counted")
	lashOnFor    = row("time lashed with the power on before it is switched off", 0.01, 0.5, "h", LogUniform, "trip", "a glance to a cigarette")
	unlashOn     = row("chance that the power is on before the lashing is off", 0.2, 0.2, "", Uniform, "trip", "at the other end")
	strapCount   = row("straps over the platform", 1, 3.3, "", Uniform, "trip", "one or two, seldom three")
	longLever    = row("chance of a long-lever ratchet", 0.25, 0.25, "", Uniform, "haulier", "else a short handle or a chain")
	chainBinder  = row("chance of a chain for the rest", 0.12, 0.12, "", Uniform, "haulier", "else a short-handle ratchet")
	shortDaN     = row("tension by a short handle", 60, 450, "daN", Triangular, "trip", "marked 250 to 350; wider")
	longDaN      = row("tension by a long lever", 250, 1100, "daN", Triangular, "trip", "marked 500 to 1000; wider")
	chainDaN     = row("tension of a chain", 400, 2200, "daN", Triangular, "trip", "a quarter of the capacity of 8 to 10 mm chain; wider")
	strapAngle   = row("angle of the legs to the deck", 25, 90, "°", Uniform, "trip", "outwards to upright")
	railFriction = row("friction over the rail", 0.1, 0.4, "", Uniform, "trip", "webbing or chain on painted steel")
	cellShare    = row("share of the force that reaches the cell", 0.15, 1, "", Uniform, "trip", "the rest goes through the mount")
	blockChance  = row("chance of a block under the platform", 0.25, 0.25, "", Uniform, "trip", "timber, or the platform rests on the deck")
	blockTakes   = row("share of the force that the block takes", 0.2, 0.97, "", Uniform, "trip", "most of it if it fits")
	tensionLeft  = row("share of the tension left at the end of the trip", 0, 1, "", Uniform, "trip", "settling takes all of it at worst")
	sway         = row("highest tension on the way, of what is left", 1, 1.3, "", Uniform, "trip", "the machine works on its tyres")
	cinch        = row("overshoot while tightening", 1, 1.2, "", Uniform, "trip", "the last pull of the ratchet")
	winchChance  = row("chance that a winch or its rope rests on the platform", 0.012, 0.012, "", Uniform, "trip", "counted as lashed: it is part of the carriage")
	winchLoad    = row("load of it", 40, 600, "kg", LogUniform, "trip", "a hook to a tight rope")
	leftOn       = row("chance that material stays on the platform", 0.08, 0.08, "", Uniform, "trip", "offcuts, tools")
	leftMass     = row("mass of it, of the rated load", 0.02, 0.7, "", LogUniform, "trip", "as above")
	driveOnFor   = row("time to drive on or off", 0.03, 0.4, "h", LogUniform, "trip", "ramp, winch, waiting")
)

// What is none of the four causes.
var (
	snowChance  = row("chance of snow on the platform at the start of a day in use", 0.004, 0.004, "", Uniform, "day", "winter yards")
	snowLoad    = row("load of it, of the rated load", 0.05, 1.4, "", LogUniform, "day", "a large platform and wet snow")
	snowFor     = row("time until it is off", 0.05, 2, "h", LogUniform, "day", "shovelled or thawed")
	testWeights = row("chance of test weights at the workshop", 0.12, 0.12, "", Uniform, "workshop visit", "110 and 125 % of the rated load")
	testFor     = row("time under test weights", 0.05, 0.4, "h", LogUniform, "workshop visit", "a test")
)

// What is written down.
var (
	readMissing  = row("share of readings that are missing", 0, 0.4, "", Uniform, "life", "forgotten")
	readLate     = row("share of readings taken late", 0, 0.3, "", Uniform, "life", "by hours, into other hands")
	lateBy       = row("by how much", 0.3, 30, "h", LogUniform, "reading", "as above")
	readTrips    = row("share of lives read before and after every trip", 0.45, 0.45, "", Uniform, "life", "careful depots")
	readYard     = row("share of the rest read when leaving and entering the yard", 0.60, 0.60, "", Uniform, "life", "else at fixed periods")
	readEvery    = row("those periods", 7, 150, "d", LogUniform, "life", "weekly to twice a year")
	noBands      = row("chance that a reading has neither bands nor hours", 0.02, 0.02, "", Uniform, "reading", "only the peak was noted")
	noPeak       = row("chance that a reading has no peak", 0.04, 0.04, "", Uniform, "reading", "only the bands were noted")
	custodyLost  = row("share of custody that is missing", 0, 0.35, "", Uniform, "life", "papers lost")
	custodyWrong = row("share of custody a day off", 0, 0.12, "", Uniform, "life", "booked the day after")
	custodyByDay = row("chance that custody is kept by day", 0.12, 0.12, "", Uniform, "life", "trips within a day vanish")
	daysLost     = row("share of days whose use is missing", 0, 0.3, "", Uniform, "life", "no network")
	eventsLost   = row("share of events that are missing", 0, 0.3, "", Uniform, "life", "overwritten, not read")
	eventsKept   = row("events a machine keeps", 40, 1500, "", LogUniform, "life", "a ring of limited length")
	eventSort    = row("chance for each kind of event to be logged", 0.75, 0.75, "", Uniform, "life", "alarms, power, rises of the peak")
	tiltRate     = row("tilt alarms per day in use", 0, 0.1, "1/d", Uniform, "life", "beside the point")
)

// What comes of asking afterwards.
var (
	askedCheck   = row("chance that the cell is checked after the life", 0.9, 0.9, "", Uniform, "life", "somebody has to be found who does it")
	askedAfter   = row("time until it is checked", 0.1, 60, "d", LogUniform, "life", "next morning to the next service")
	askedMass    = row("chance of a check with a known mass as well", 0.6, 0.6, "", Uniform, "life", "test weights are not at every yard")
	askedMassOf  = row("that mass, of the rated load", 0.2, 1, "", Uniform, "life", "a man on the scales to a set of weights")
	askedMassOff = row("that mass off by", -0.05, 0.05, "", Triangular, "life", "what is written on it")
	askedDirt    = row("what lies on the platform unnoticed", 0, 12, "kg", Triangular, "life", "tools, mud, rain")
	askedSlip    = row("chance that a check is written down as it ought to be", 0.06, 0.06, "", Uniform, "life", "ticked without a look")
	wordKnown    = row("share of trips with word of the tie-down", 0.2, 0.9, "", Uniform, "life", "who remembers, who took a photo")
	wordPhoto    = row("share of such word that is a photo", 0.25, 0.25, "", Uniform, "trip", "taken on handing over")
	wordPaper    = row("share of the rest that is a paper", 0.3, 0.3, "", Uniform, "trip", "delivery notes with a line on securing")
	photoWrong   = row("share of photos that mislead", 0, 0.06, "", Uniform, "life", "of another trip, taken before lashing")
	paperWrong   = row("share of papers that are wrong", 0, 0.3, "", Uniform, "life", "ticked as always")
	crewWrong    = row("share of words of crews that are wrong", 0, 0.4, "", Uniform, "life", "forgotten, guessed, said to please")
)
