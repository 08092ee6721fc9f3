package fatigue

import (
	"math"
	"sync"
	"time"

	"ratchetmark/internal/assume"
	"ratchetmark/internal/record"
	"ratchetmark/internal/vibration"
)

// Road is an index of what vibration on the road does, in the measure of the
// exposure: the stowed machine as one mode, its own weight shaken by the truck
// floor, held against the same budget of load cycles. An index for comparing,
// nothing that was measured on the machine.
type Road struct {
	Trips   int           `json:"trips"`
	Hours   float64       `json:"transit_h"` // in custody
	Index   record.Bounds `json:"index"`     // of the design cycle budget
	Narrow  float64       `json:"narrow_band"`
	Dirlik  float64       `json:"dirlik"` // the estimate, and the same by the narrow band
	Profile string        `json:"profile"`
	Level   float64       `json:"level_g_rms"` // of the profile, integrated
	Against record.Bounds `json:"against_work"`
}

// kilometresPerMile is exact: the international mile of 1959.
const kilometresPerMile = 1.609344

// usualProfile is the index of the profile of the estimate.
const usualProfile = 1

// RoadOf returns the index for the trips in custody that began before a moment;
// nil without any trip.
func RoadOf(c *record.Case, until time.Time, set assume.Set, work record.Bounds) *Road {
	r := &Road{}
	for i := range c.Custody {
		u := &c.Custody[i]
		if u.Holder == record.Transit && c.HolderAt(u.From) == u && (until.IsZero() || u.From.Before(until)) {
			r.Trips++
			r.Hours += u.To.Sub(u.From).Hours()
		}
	}
	if r.Trips == 0 {
		return nil
	}
	x := shaking{set: set, m: set.Value(assume.Slope), budget: set.Value(assume.DesignCycles), hours: r.Hours}
	frequency, damping := set.Get(assume.RoadFrequency), set.Get(assume.RoadDamping)
	share, stowed := set.Get(assume.SelfWeightShare), set.Get(assume.RoadStowed)
	driven, speed := set.Get(assume.RoadTime), set.Get(assume.RoadSpeed)

	p := vibration.Profiles[usualProfile]
	r.Profile, r.Level = p.Name, p.RMS()
	mode := vibration.Mode{Hz: frequency.Value, Damping: damping.Value}
	r.Dirlik, r.Narrow = x.index(usualProfile, mode, share.Value*stowed.Value, driven.Value, speed.Value)
	r.Index = record.Bounds{Low: math.Inf(1), Estimate: &r.Dirlik, High: record.Of(max(r.Narrow, r.Dirlik))}
	r.Index.Low = min(r.Dirlik, r.Narrow)
	for i := range vibration.Profiles {
		for _, hz := range frequencies(vibration.Profiles[i], frequency) {
			a, b := x.index(i, vibration.Mode{Hz: hz, Damping: damping.High}, share.Low*stowed.Low, driven.Low, speed.Low)
			r.Index.Low = min(r.Index.Low, a, b)
			a, b = x.index(i, vibration.Mode{Hz: hz, Damping: damping.Low}, share.High*stowed.High, driven.High, speed.High)
			*r.Index.High = max(*r.Index.High, a, b)
		}
	}
	r.Against = ratio(r.Index, work)
	return r
}

// frequencies are those at which the index is worked out: the ends of the
// interval, six steps between them, and the corners of the profile within.
func frequencies(p vibration.Profile, f assume.Assumption) []float64 {
	out := []float64{f.Value}
	const steps = 6
	for i := range steps + 1 {
		out = append(out, f.Low*math.Pow(f.High/f.Low, float64(i)/steps))
	}
	for _, c := range p.Points {
		if c.Hz > f.Low && c.Hz < f.High {
			out = append(out, c.Hz)
		}
	}
	return out
}

// shaking is what the index of one machine has in common.
type shaking struct {
	set              assume.Set
	m, budget, hours float64
}

// index returns T·Σ(s·2a)^m over the budget, with a the amplitudes in g: a range
// of 1 g moves the stress of the self-weight by its whole share s, that of the
// stowed machine. By Dirlik and by the narrow band.
func (x *shaking) index(profile int, mode vibration.Mode, share, driven, speed float64) (dirlik, narrow float64) {
	p := vibration.Profiles[profile]
	hours := x.hours * driven
	if p.HoursPerMile > 0 {
		hours *= speed / kilometresPerMile * p.HoursPerMile
	}
	r := responseOf(responseKey{profile, mode, x.m})
	scale := hours * 3600 * math.Pow(2*share, x.m) / x.budget
	return scale * r.dirlik, scale * r.narrow
}

// responses keeps sums that were worked out: they depend on nothing but the
// profile, the mode and the slope, and an assessment needs the same ones again
// and again.
var responses struct {
	sync.Mutex
	of map[responseKey]response
}

type responseKey struct {
	profile int
	mode    vibration.Mode
	m       float64
}

// response is the sum of amplitude^m a second, by both methods.
type response struct{ dirlik, narrow float64 }

func responseOf(key responseKey) response {
	responses.Lock()
	defer responses.Unlock()
	const most = 500
	r, ok := responses.of[key]
	if !ok {
		if len(responses.of) >= most || responses.of == nil {
			responses.of = map[responseKey]response{}
		}
		m := vibration.Response(vibration.Profiles[key.profile], key.mode)
		r = response{m.Rainflow(key.m), m.NarrowBand(key.m)}
		responses.of[key] = r
	}
	return r
}

// ratio divides one figure by another; nothing bounds it where the divisor may be 0.
func ratio(a, b record.Bounds) record.Bounds {
	var out record.Bounds
	if b.High != nil && *b.High > 0 {
		out.Low = a.Low / *b.High
	}
	if a.Estimate != nil && b.Estimate != nil && *b.Estimate > 0 {
		out.Estimate = record.Of(*a.Estimate / *b.Estimate)
	}
	if a.High != nil && b.Low > 0 {
		out.High = record.Of(*a.High / b.Low)
	}
	return out
}
