package cause

import "ratchetmark/internal/record"

// holdsTrue is the chance that what is said of a tie-down is so, by how it is
// known. A paper stands half way between a look and a word.
func holdsTrue(how record.Known, p *params) float64 {
	switch how {
	case record.Seen, record.Pictured:
		return p[tieDownSeen]
	case record.Papers:
		return (p[tieDownSeen] + p[tieDownTold]) / 2
	}
	return p[tieDownTold]
}

// saidOf returns how probable it is that all this is said of a trip, with a
// tie-down over the platform and without.
func saidOf(said []record.TieDown, p *params) (over, not float64) {
	over, not = 1, 1
	for _, s := range said {
		holds := holdsTrue(s.How, p)
		over *= either(*s.Over, holds, 1-holds)
		not *= either(*s.Over, 1-holds, holds)
	}
	return over, not
}

// saidWith returns how probable it is that all this is said of trips of a haulier
// with a habit, where a tie-down over the platform on one of so many trips made
// the piece; 0 trips: where none of them did.
func saidWith(habit float64, said []tiedTrip, trips float64, p *params) float64 {
	all, made := 1.0, 0.0
	for _, t := range said {
		over, not := saidOf(t.said, p)
		whatever := mixed(habit, over, not)
		all *= whatever
		made += over / whatever
	}
	if trips <= 0 {
		return all
	}
	known := float64(len(said))
	trips = max(trips, known)
	return all * (1 - known/trips + made/trips)
}

// saidAnyway is the same where a tie-down did not make the piece, whatever the
// habit of the haulier.
func saidAnyway(said []tiedTrip, p *params) float64 {
	sum := 0.0
	for _, h := range habitsOf(p[lashedHabit]) {
		sum += h.weight * saidWith(h.value, said, 0, p)
	}
	return sum
}

func hasTied(f *facts) bool { return f.tied != nil }

// tieDown: a tie-down that made the piece went over the platform on one of the
// trips; where something else did, it went over it as often as hauliers do that.
func tieDown(e *ask, like []float64) {
	l, ok := e.model.(*lashed)
	if !ok {
		fill(like, saidAnyway(e.tied.trips, e.p))
		return
	}
	trips := 1.0
	if !e.tied.one {
		trips = l.trips(&e.o)
	}
	for i := range like {
		like[i] = saidWith(l.habits[i].value, e.tied.trips, trips, e.p)
	}
}
