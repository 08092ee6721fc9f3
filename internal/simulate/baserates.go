package simulate

// BaseRate is the share of pieces of a kind whose truth is a cause.
type BaseRate struct {
	What, Cause string
	Share       float64
}

// BaseRates are the shares of the generator over 4000 lives of all levels,
// computed to the nearest hundredth. They follow from the table of parameters
// and are assumptions like it: most that goes over is work and lashing, and
// each cause is frequent enough to be scored. A figure of calibration holds at
// these base rates alone.
var BaseRates = []BaseRate{
	{Peak, Worked, 0.41}, {Peak, Lashed, 0.32}, {Peak, Shock, 0.17}, {Peak, Drift, 0.08}, {Peak, Other, 0.02},
	{Band, Worked, 0.48}, {Band, Lashed, 0.21}, {Band, Shock, 0.01}, {Band, Drift, 0.14}, {Band, Other, 0.03}, {Band, None, 0.14},
}
