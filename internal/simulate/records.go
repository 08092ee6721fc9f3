package simulate

import (
	"math"
	"slices"
	"time"

	"ratchetmark/internal/record"
)

// startOf is the day a life begins.
type startOf struct{ time.Time }

// at is a time in h since the start, to the minute.
func (s startOf) at(t float64) time.Time {
	return s.Add(time.Duration(math.Floor(t*60+1e-6)) * time.Minute)
}

// custody writes the stays down: some missing, some a day off, in some lives
// by day only.
func (w *writer) custody(stays []stay) []record.Custody {
	lost, wrong, byDay := w.d.of(custodyLost), w.d.of(custodyWrong), w.d.chance(custodyByDay)
	var out []record.Custody
	for _, s := range stays {
		from, to := s.from, s.to
		if w.d.happens(wrong) {
			off := 24 * float64(1-2*w.d.IntN(2))
			from, to = from+off, to+off
		}
		if byDay {
			from, to = math.Floor(from/24)*24, math.Floor(to/24)*24
		}
		if !w.d.happens(lost) && to > from {
			out = append(out, record.Custody{From: w.start.at(from), To: w.start.at(to), Holder: s.holder, Who: s.who})
		}
	}
	return out
}

// events writes down what the machine kept of its log.
func (w *writer) events(all []event) []record.Event {
	lost, kept := w.d.of(eventsLost), w.d.whole(eventsKept)
	sorts := map[record.EventKind]bool{
		record.OverloadAlarm: w.d.chance(eventSort), record.PeakRise: w.d.chance(eventSort), record.TiltAlarm: w.d.chance(eventSort),
	}
	power := w.d.chance(eventSort) || !sorts[record.OverloadAlarm] && !sorts[record.PeakRise]
	sorts[record.PowerOn], sorts[record.PowerOff] = power, power
	var out []record.Event
	for _, e := range slices.Backward(all) {
		if len(out) == kept {
			break
		}
		if !sorts[e.kind] || w.d.happens(lost) {
			continue
		}
		r := record.Event{At: w.start.at(e.t), Kind: e.kind}
		if e.load > 0 {
			r.Load = record.Of(w.m.shownPeak(e.load))
		}
		out = append(out, r)
	}
	slices.Reverse(out)
	return out
}

// daily writes the use of each day, also of those without any.
func (w *writer) daily(days []use, meters meters) []record.Daily {
	var out []record.Daily
	lost := w.d.of(daysLost)
	for i, u := range days {
		if w.d.happens(lost) {
			continue
		}
		r := record.Daily{Date: record.Date{Time: w.start.AddDate(0, 0, i)}}
		if meters.powered {
			r.Powered = record.Of(min(w.m.shownHours(u.powered), 24))
		}
		if meters.moving {
			r.Moving = record.Of(min(w.m.shownHours(u.moving), 24))
		}
		if r.Powered != nil || r.Moving != nil {
			out = append(out, r)
		}
	}
	return out
}
