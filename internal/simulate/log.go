package simulate

import "ratchetmark/internal/record"

// log is what the machine notes beside its counters.
type log struct {
	events []event
	days   []use // by day since the start
}

type event struct {
	t    float64
	kind record.EventKind
	load float64 // 0: none
}

type use struct{ powered, moving float64 }

const (
	logPowerOn  = record.PowerOn
	logPowerOff = record.PowerOff
	logAlarm    = record.OverloadAlarm
	logPeak     = record.PeakRise
	logTilt     = record.TiltAlarm
)

// note keeps an event; there is no log for lives of which none is written down.
func (w *world) note(kind record.EventKind, load float64) {
	if w.log != nil {
		w.log.events = append(w.log.events, event{w.t, kind, load})
	}
}

// use adds to the use of a day.
func (l *log) use(t, powered, moving float64) {
	day := int(t/24 + 1e-9)
	for len(l.days) <= day {
		l.days = append(l.days, use{})
	}
	l.days[day].powered += powered
	l.days[day].moving += moving
}
