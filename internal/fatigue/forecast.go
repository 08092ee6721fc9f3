package fatigue

import (
	"time"

	"ratchetmark/internal/record"
)

// Forecast is the exposure that a machine's own rate of use leads to by a date.
// It is no statement about how long the machine will last.
type Forecast struct {
	At       record.Date   `json:"at"`
	Why      string        `json:"why"`
	Years    float64       `json:"years"`    // from the last reading
	PerYear  record.Bounds `json:"per_year"` // rate of use
	Relative record.Bounds `json:"relative"`
	Rests    string        `json:"rests_on"`
}

// hoursPerYear turns times into years of 365.25 days.
const hoursPerYear = 365.25 * 24

// shortest is the shortest interval that says something about a rate of use;
// common practice, no source.
const shortest = 60 * 24 * time.Hour

// Due returns the dates a forecast is made for: the planned one, or else five
// and seven years in service, at which owners commonly pass machines on (common
// practice, no source).
func Due(planned, inService *record.Date) []Forecast {
	switch {
	case planned != nil:
		return []Forecast{{At: *planned, Why: "the planned disposal"}}
	case inService == nil:
		return nil
	}
	return []Forecast{
		{At: record.Date{Time: inService.AddDate(5, 0, 0)}, Why: "five years in service"},
		{At: record.Date{Time: inService.AddDate(7, 0, 0)}, Why: "seven years in service"},
	}
}

// Forecast works out the exposure at dates after the last reading. The rate is
// at least that of the calmest long interval and at most that of the busiest,
// and the mean of all dated time for the estimate. ok is false where no dated
// interval tells a rate.
func (l *Life) Forecast(now record.Bounds, due []Forecast) (out []Forecast, ok bool) {
	rate, last, intervals, ok := l.rate()
	out = []Forecast{}
	if !ok {
		return out, false
	}
	rests := "one interval of its own; how use varies is not known from it"
	if intervals > 1 {
		rests = "its own intervals of 60 days and more, the calmest and the busiest"
	}
	for _, f := range due {
		if !f.At.After(last) {
			continue
		}
		f.Years = f.At.Sub(last).Hours() / hoursPerYear
		f.PerYear, f.Rests = rate, rests
		f.Relative = plus(now, rate.Scale(f.Years, f.Years, f.Years))
		out = append(out, f)
	}
	return out, true
}

// rate returns the exposure of a year, the last moment it is known from, and
// from how many long intervals.
func (l *Life) rate() (rate record.Bounds, last time.Time, intervals int, ok bool) {
	mean, years := 0., 0.
	known := true
	for i, v := range l.Intervals {
		if !dated(v) {
			known = known && len(l.uses[i].h) == 0
			continue
		}
		if v.To.After(last) {
			last = v.To
		}
		passed := v.To.Sub(v.From)
		b := l.uses[i].Relative(l.slope, l.budget)
		if b.Estimate == nil {
			return rate, last, 0, false
		}
		mean, years = mean+*b.Estimate, years+passed.Hours()/hoursPerYear
		if passed < shortest {
			continue
		}
		each := hoursPerYear / passed.Hours()
		b = b.Scale(each, each, each)
		if intervals == 0 {
			rate = b
		}
		rate.Low, *rate.High = min(rate.Low, b.Low), max(*rate.High, *b.High)
		intervals++
	}
	if intervals == 0 || !known {
		return rate, last, 0, false
	}
	rate.Estimate = record.Of(min(max(mean/years, rate.Low), *rate.High))
	return rate, last, intervals, true
}

// plus adds two figures.
func plus(a, b record.Bounds) record.Bounds {
	out := record.Bounds{Low: a.Low + b.Low}
	if a.Estimate != nil && b.Estimate != nil {
		out.Estimate = record.Of(*a.Estimate + *b.Estimate)
	}
	if a.High != nil && b.High != nil {
		out.High = record.Of(*a.High + *b.High)
	}
	return out
}
