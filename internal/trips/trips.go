// Package trips lists the trips of machines from their custody lists, and says
// which of them raised the peak: only readings taken before loading and after
// unloading tell that. Rates come with their exact interval, so that two bad
// trips are not a trend.
package trips

import (
	"sort"
	"strings"
	"time"

	"ratchetmark/internal/record"
)

// How closely readings have to stand around a trip; choices of this program.
const (
	slack = 48 * time.Hour   // time outside of the trip between them
	ends  = 30 * time.Minute // of the trip outside of them: a reading taken while papers are signed
)

// Trip is one entry of custody in transit.
type Trip struct {
	Machine   string
	From, To  time.Time
	Haulier   string // who had it, up to the first comma or slash
	Crew      string // what comes after; may be empty
	Bracketed bool   // readings before loading and after unloading tell what it did
	Why       string // why not; empty where it is
	Rose      bool   // the peak was set between those readings
	Peak      record.Kilogram
	Over      bool // and lies over the rated load
}

// Of lists the trips of a history in order of time.
func Of(h record.History) []Trip {
	var out []Trip
	for i := range h.Case.Custody {
		u := &h.Case.Custody[i]
		if u.Holder != record.Transit || u.From.IsZero() || !u.To.After(u.From) {
			continue
		}
		out = append(out, of(h, *u))
	}
	sort.SliceStable(out, func(i, j int) bool { return out[i].From.Before(out[j].From) })
	return out
}

func of(h record.History, u record.Custody) Trip {
	t := Trip{Machine: h.Case.Machine.ID, From: u.From, To: u.To}
	t.Haulier, t.Crew = named(u.Who)
	if at := h.Case.HolderAt(u.From); at == nil || at.From != u.From {
		t.Why = "another line of the custody list says something else for the same time"
		return t
	}
	var around []record.Interval
	for _, v := range h.Intervals {
		if !v.To.IsZero() && within(v, u) > min(ends, u.To.Sub(u.From)/2) {
			around = append(around, v)
		}
	}
	if t.Why = gap(h, u, around); t.Why != "" {
		return t
	}
	t.Bracketed = true
	for _, v := range around {
		if v.PeakRose {
			t.Rose, t.Peak = true, *v.Peak
			t.Over = h.Rated > 0 && *v.Peak > h.Rated
		}
	}
	return t
}

// gap says why the readings around a trip do not tell what it did; empty where
// they do.
func gap(h record.History, u record.Custody, around []record.Interval) string {
	if len(around) == 0 {
		return "no reading with a date was taken after it"
	}
	first, last := around[0], around[len(around)-1]
	outside := last.To.Sub(first.From) - u.To.Sub(u.From)
	whole := u.To.Sub(u.From) / 4
	switch {
	case first.Before < 0:
		return "no reading was taken before it"
	case last.To.Before(u.To.Add(-min(ends, whole))):
		return "no reading was taken after it"
	case first.From.IsZero() || first.From.After(u.From.Add(min(ends, whole))):
		return "the reading before it has no date"
	}
	if held, _ := h.Case.Cover(first.From, last.To); held[record.Transit] > u.To.Sub(u.From) {
		return "the readings around it span another trip, too"
	} else if held[record.Hire] > 0 {
		return "the readings around it span time on hire, too"
	}
	if outside > slack {
		return "more than two days beside the trip lie between the readings around it"
	}
	for _, v := range around {
		if v.Peak == nil {
			return "a reading around it has no peak"
		}
		if v.PeakLoose {
			return "the reading before it has no peak"
		}
	}
	return ""
}

// within returns how much of a trip lies within an interval.
func within(v record.Interval, u record.Custody) time.Duration {
	from, to := v.From, v.To
	if u.From.After(from) {
		from = u.From
	}
	if u.To.Before(to) {
		to = u.To
	}
	return to.Sub(from)
}

// named divides who had a machine into haulier and crew.
func named(who string) (haulier, crew string) {
	i := strings.IndexAny(who, ",/")
	if i < 0 {
		return strings.TrimSpace(who), ""
	}
	return strings.TrimSpace(who[:i]), strings.TrimSpace(who[i+1:])
}
