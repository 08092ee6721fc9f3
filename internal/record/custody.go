package record

import (
	"slices"
	"time"
)

// Cover tells for how much of the time between from and to each holder had the
// machine, and for how much nobody is named. Entries that contradict each
// other or cannot be used count for nobody.
func (c *Case) Cover(from, to time.Time) (held map[Holder]time.Duration, unknown time.Duration) {
	held = map[Holder]time.Duration{}
	if from.IsZero() || to.IsZero() || !to.After(from) {
		return held, 0
	}
	unknown = to.Sub(from)
	for i := range c.Custody {
		u := &c.Custody[i]
		d := overlap(from, to, u.From, u.To)
		if d <= 0 || !u.usable() || c.contested(i) {
			continue
		}
		held[u.Holder] += d
		unknown -= d
	}
	return held, unknown
}

// HolderAt returns the custody entry that covers a moment; nil when none does
// or two contradict each other.
func (c *Case) HolderAt(t time.Time) *Custody {
	for i := range c.Custody {
		u := &c.Custody[i]
		if u.usable() && !t.Before(u.From) && t.Before(u.To) && !c.contested(i) {
			return u
		}
	}
	return nil
}

// dated reports whether a custody entry has a beginning and a later end.
func (u *Custody) dated() bool { return !u.From.IsZero() && !u.To.IsZero() && u.To.After(u.From) }

// usable reports whether a custody entry says who had the machine, and when.
func (u *Custody) usable() bool { return u.dated() && slices.Contains(Holders, u.Holder) }

// contested reports whether custody entry i, which is dated, overlaps another.
func (c *Case) contested(i int) bool {
	a := &c.Custody[i]
	for j := range c.Custody {
		b := &c.Custody[j]
		if j != i && b.From.Before(a.To) && a.From.Before(b.To) && b.dated() {
			return true
		}
	}
	return false
}

// overlap returns how long two spans of time run together.
func overlap(aFrom, aTo, bFrom, bTo time.Time) time.Duration {
	from, to := aFrom, aTo
	if bFrom.After(from) {
		from = bFrom
	}
	if bTo.Before(to) {
		to = bTo
	}
	return to.Sub(from)
}
