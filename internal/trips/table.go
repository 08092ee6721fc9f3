package trips

import (
	"slices"
	"sort"
	"time"
)

// Group is the trips of one haulier or crew.
type Group struct {
	Haulier, Crew string
	Rate          Rate
	Peaks         []Trip // that raised the peak, newest first
}

// ByHaulier groups trips by haulier, by crew within it where crews are named,
// the most trips first.
func ByHaulier(all []Trip) []Group {
	var out []Group
	for _, t := range all {
		i := slices.IndexFunc(out, func(g Group) bool { return g.Haulier == t.Haulier && g.Crew == t.Crew })
		if i < 0 {
			i = len(out)
			out = append(out, Group{Haulier: t.Haulier, Crew: t.Crew})
		}
		out[i].add(t)
	}
	for i := range out {
		r := out[i].Rate
		out[i].Rate = rateOf(r.Raised, r.Trips, r.Unread)
		slices.Reverse(out[i].Peaks)
	}
	sort.SliceStable(out, func(i, j int) bool {
		a, b := out[i], out[j]
		if d := a.Rate.Trips + a.Rate.Unread - b.Rate.Trips - b.Rate.Unread; d != 0 {
			return d > 0
		}
		return a.Haulier+"/"+a.Crew < b.Haulier+"/"+b.Crew
	})
	return out
}

func (g *Group) add(t Trip) {
	switch {
	case !t.Bracketed:
		g.Rate.Unread++
	default:
		g.Rate.Trips++
		if t.Rose {
			g.Rate.Raised++
			g.Peaks = append(g.Peaks, t)
		}
	}
}

// Total returns the rate of all trips.
func Total(all []Trip) Rate {
	var g Group
	for _, t := range all {
		g.add(t)
	}
	return rateOf(g.Rate.Raised, g.Rate.Trips, g.Rate.Unread)
}

// Around returns the rates before a day and from it on. A trip under way at its
// beginning counts as before.
func Around(all []Trip, day time.Time) (before, after Rate) {
	var early, late []Trip
	for _, t := range all {
		if t.From.Before(day) {
			early = append(early, t)
		} else {
			late = append(late, t)
		}
	}
	return Total(early), Total(late)
}
