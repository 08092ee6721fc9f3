package record

import (
	"fmt"
	"slices"
	"time"
)

var betweenRules = []Rule{
	{
		ID: "reading-undated", Severity: Doubt,
		Asks:   "is every reading dated that has to be put in order or matched to custody",
		Effect: "the readings are taken in the order given, and custody cannot be matched to this one",
		Hint:   "enter when the reading was taken",
		find: func(c *Case, hit func(Path, string, string)) {
			for i := range c.Readings {
				if c.Readings[i].At.IsZero() && (len(c.Readings) > 1 || len(c.Custody) > 0) {
					hit(readingPath(i).At("at"), "the reading has no time", "a time such as 2026-03-02T08:10:00Z")
				}
			}
		},
	},
	{
		ID: "readings-out-of-order", Severity: Note,
		Asks:   "are the readings in order of time",
		Effect: "none; they are taken in order of time and keep their numbers",
		Hint:   "check the dates if the order surprises you",
		find: func(c *Case, hit func(Path, string, string)) {
			for i := 1; i < len(c.Readings); i++ {
				a, b := c.Readings[i-1].At, c.Readings[i].At
				if !a.IsZero() && !b.IsZero() && b.Before(a) {
					hit(readingPath(i).At("at"), fmt.Sprintf("reading %d (%s) is earlier than reading %d (%s)", i+1, clock(b), i, clock(a)), "ascending times")
				}
			}
		},
	},
	{
		ID: "readings-same-time", Severity: Doubt,
		Asks:   "were no two readings taken at the same moment",
		Effect: "the change between the two belongs to no time and is matched to no custody",
		Hint:   "correct one of the times or remove the double",
		find: eachStep(func(c *Case, s step, hit func(Path, string, string)) {
			if !s.a.At.IsZero() && s.a.At.Equal(s.b.At) {
				hit(readingPath(s.to).At("at"), fmt.Sprintf("readings %d and %d are both dated %s", s.from+1, s.to+1, clock(s.a.At)), "different times")
			}
		}),
	},
	{
		ID: "bands-changed", Severity: Blocking,
		Asks:   "are the bands the same in every reading",
		Effect: "new software or another machine: the change of the bands between the two readings is not used",
		Hint:   "find out when the software or the control unit was changed",
		find: func(c *Case, hit func(Path, string, string)) {
			stepsWith(c, hasBands, func(s step) {
				if !sameEdges(s.a.Bands, s.b.Bands) {
					hit(readingPath(s.to).At("bands"), fmt.Sprintf("the bands of reading %d are not those of reading %d", s.to+1, s.from+1), "the same edges as before")
				}
			})
		},
	},
	{
		ID: "bands-missing", Severity: Doubt,
		Asks:   "does every reading have bands where one has",
		Effect: "the change of the bands to and from this reading is not known",
		Hint:   "enter the hours per band of that reading",
		find: func(c *Case, hit func(Path, string, string)) {
			banded := false
			for i := range c.Readings {
				banded = banded || hasBands(&c.Readings[i])
			}
			for i := range c.Readings {
				if r := &c.Readings[i]; banded && !hasBands(r) && r.Peak != nil {
					hit(readingPath(i).At("bands"), fmt.Sprintf("reading %d has a peak but no bands", i+1), "the hours per band, as in the other readings")
				}
			}
		},
	},
	{
		ID: "counter-backwards", Severity: Blocking,
		Asks:   "does no hour counter run backwards",
		Effect: "the counters were reset or are not this machine's; the change between the two readings is not used",
		Hint:   "find out what was replaced or reset between the two readings",
		find: func(c *Case, hit func(Path, string, string)) {
			backwards(c, func(at Path, s step, from, to Hour) {
				hit(at, fmt.Sprintf("%s h here, %s h in reading %d before", Number(to), Number(from), s.from+1), "at least as many hours as before")
			})
		},
	},
	{
		ID: "peak-fell", Severity: Doubt,
		Asks:   "does the peak never fall",
		Effect: "the peak was cleared between the two readings; loads since then are bounded by the new peak only from the time it was cleared",
		Hint:   "find out when the peak was cleared, and why",
		find: func(c *Case, hit func(Path, string, string)) {
			order := Order(c.Readings)
			for k, i := range order {
				from := lastPeak(c, order[:k])
				if from < 0 || !hasPeak(&c.Readings[i]) {
					continue
				}
				if a, b := *c.Readings[from].Peak, *c.Readings[i].Peak; b < a {
					hit(readingPath(i).At("peak_kg"), fmt.Sprintf("%s kg here, %s kg in reading %d before", Number(b), Number(a), from+1), "at least the peak before")
				}
			}
		},
	},
	{
		ID: "faster-than-clock", Severity: Blocking,
		Asks:   "did no hour counter gain more than the clock",
		Effect: "a date or a counter is wrong; the change between the two readings is not used",
		Hint:   "check both dates and both hour meters",
		find: eachStep(func(c *Case, s step, hit func(Path, string, string)) {
			wall, gained, ok := s.gain()
			if ok && gained > wall+hourSlack(max(1, len(s.b.Bands))) {
				hit(readingPath(s.to), fmt.Sprintf("%s h more than in reading %d, but only %s h by the clock", Number(gained), s.from+1, Number(wall)), "no more hours than have passed")
			}
		}),
	},
}

// step is two readings that follow each other in time.
type step struct {
	from, to int // indices into Case.Readings
	a, b     *Reading
}

func eachStep(f func(c *Case, s step, hit func(Path, string, string))) func(*Case, func(Path, string, string)) {
	return func(c *Case, hit func(Path, string, string)) {
		stepsWith(c, func(*Reading) bool { return true }, func(s step) { f(c, s, hit) })
	}
}

// gain compares what the hour counters gained with what passed by the clock.
func (s step) gain() (wall, gained Hour, ok bool) {
	if s.a.At.IsZero() || s.b.At.IsZero() {
		return 0, 0, false
	}
	wall = Hour(s.b.At.Sub(s.a.At).Hours())
	if s.a.Powered != nil && s.b.Powered != nil {
		return wall, s.b.Powered.minus(*s.a.Powered), true
	}
	if sameEdges(s.a.Bands, s.b.Bands) {
		return wall, Total(s.b.Bands).minus(Total(s.a.Bands)), true
	}
	return 0, 0, false
}

// backwards visits every hour counter that is lower than in the last earlier
// reading that has it.
func backwards(c *Case, visit func(at Path, s step, from, to Hour)) {
	counters := []struct {
		name string
		of   func(*Reading) *Hour
	}{
		{"powered_h", func(r *Reading) *Hour { return r.Powered }},
		{"moving_h", func(r *Reading) *Hour { return r.Moving }},
	}
	for _, counter := range counters {
		stepsWith(c, func(r *Reading) bool { return counter.of(r) != nil }, func(s step) {
			if from, to := *counter.of(s.a), *counter.of(s.b); to < from {
				visit(readingPath(s.to).At(counter.name), s, from, to)
			}
		})
	}
	stepsWith(c, hasBands, func(s step) {
		apart := meet(s.a.Bands)
		for j, b := range s.b.Bands {
			i := j
			if !apart || j >= len(s.a.Bands) || !s.a.Bands[j].SameEdges(b) {
				i = slices.IndexFunc(s.a.Bands, b.SameEdges)
			} // else none but the one in the same place has its edges
			if i >= 0 && b.Hours < s.a.Bands[i].Hours {
				visit(bandPath(s.to, j).At("hours"), s, s.a.Bands[i].Hours, b.Hours)
			}
		}
	})
}

func hasBands(r *Reading) bool { return len(r.Bands) > 0 }

// stepsWith visits the steps from each reading that has something to the next
// one that has it, whatever lies between.
func stepsWith(c *Case, has func(*Reading) bool, visit func(step)) {
	var order []int // none where the readings are in order
	if !inOrder(c.Readings) {
		order = Order(c.Readings)
	}
	last := -1
	for k := range c.Readings {
		i := k
		if order != nil {
			i = order[k]
		}
		if !has(&c.Readings[i]) {
			continue
		}
		if last >= 0 {
			visit(step{last, i, &c.Readings[last], &c.Readings[i]})
		}
		last = i
	}
}

func sameEdges(a, b []Band) bool {
	if len(a) != len(b) {
		return false
	}
	a, b = inLoadOrder(a), inLoadOrder(b)
	for i := range a {
		if !a[i].SameEdges(b[i]) {
			return false
		}
	}
	return true
}

// clock writes a time for a message.
func clock(t time.Time) string { return t.UTC().Format("2006-01-02 15:04") }
